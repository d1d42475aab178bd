package boatfile

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"foilwright/boat"
	"foilwright/frame"
	"foilwright/quantity"
	"foilwright/section"
)

// shaper makes the pieces of one foil, each after those that it hangs on.
type shaper struct {
	*builder
	form   *foilForm
	side   boat.Side // that the foil is written for
	pieces []boat.Piece
	made   []int // index in pieces by place in the form; −1 not yet, −2 being made, −3 faulty
}

const (
	notYet = -1 - iota
	underway
	faulty
)

// pieces makes a foil's pieces as they are written, in its own frame.
func (b *builder) pieces(f *foilForm, side boat.Side) []boat.Piece {
	s := shaper{builder: b, form: f, side: side, made: make([]int, len(f.Pieces.items))}
	for i := range s.made {
		s.made[i] = notYet
	}
	for i := range s.made {
		s.piece(i)
	}
	return s.pieces
}

// named makes the piece that a text names and returns its index, or faulty.
func (s *shaper) named(w *words, name string) int {
	i := s.form.Pieces.find(name)
	if i < 0 {
		s.faultAt(&w.site, fmt.Sprintf("no piece is called %q", name), nearest(name, s.form.Pieces.names()))
		return faulty
	}
	if s.made[i] == underway {
		s.faultAt(&w.site, "the pieces hang on one another in a circle", "let one of them start  from: root")
		return faulty
	}
	return s.piece(i)
}

// piece makes the i-th piece of the form and returns its index, or faulty.
func (s *shaper) piece(i int) int {
	if s.made[i] != notYet {
		return s.made[i]
	}
	s.made[i] = underway
	item := &s.form.Pieces.items[i]
	p, ok := s.shape(item.name, &item.part)
	if !ok {
		s.made[i] = faulty
		return faulty
	}
	s.pieces = append(s.pieces, p)
	s.made[i] = len(s.pieces) - 1
	return s.made[i]
}

// shape makes one piece; false where a fault keeps it from having a shape.
func (s *shaper) shape(name string, f *pieceForm) (boat.Piece, bool) {
	p := boat.Piece{Name: name, From: -1, Laminar: -1, Flap: boat.Flap{Control: -1}}
	var model *boat.Piece
	if f.As.given() {
		i := s.named(&f.As, f.As.text)
		if i < 0 {
			return p, false
		}
		model = &s.pieces[i]
		p = *model
		p.Name = name
	}
	if f.Mirrored.given() && !f.As.given() {
		s.faultAt(&f.Mirrored.site, "mirrored goes with as", "write  {as: inner wing, mirrored: true}")
	}
	if !s.from(f, &p) || !s.path(f, &p, model) {
		return p, false
	}
	s.dimensions(f, &p, model)
	s.section(f, &p, model)
	s.upper(f, &p, model)
	s.flap(f, &p)
	if f.Laminar.given() {
		if p.Laminar = s.atLeastZero(&f.Laminar.figure, "a share"); p.Laminar > 1 {
			s.faultAt(&f.Laminar.site, "a share of the chord is at most 100 %", "")
		}
	}
	return p, true
}

// from settles what the piece starts at.
func (s *shaper) from(f *pieceForm, p *boat.Piece) bool {
	if !f.From.given() {
		return true
	}
	if f.From.text == "root" {
		p.From = -1
		return true
	}
	name, ok := strings.CutSuffix(f.From.text, " tip")
	if !ok {
		s.faultAt(&f.From.site, fmt.Sprintf("a piece cannot start from %q", f.From.text), "write  from: root, or  from: arm tip")
		return false
	}
	p.From = s.named(&f.From, name)
	return p.From >= 0
}

// start returns where a piece that hangs on another begins.
func (s *shaper) start(from int) frame.Point[boat.Local] {
	if from < 0 {
		return frame.Point[boat.Local]{}
	}
	return s.pieces[from].Path.End()
}

// path settles the piece's line.
func (s *shaper) path(f *pieceForm, p *boat.Piece, model *boat.Piece) bool {
	start := s.start(p.From)
	written := f.node.get("path") != nil
	if !written {
		if model == nil {
			s.faultUnder(&f.site, "path", "is missing", "write  path: [{z: 0 m}, {z: -1.9 m}]")
			return false
		}
		if f.Rounded.given() {
			s.faultAt(&f.Rounded.site, "the path is the other piece's, and its bends with it", "write a path here too")
		}
		// What it equals may begin at another joint: the line is carried there.
		p.Path = model.Path.Moved(start.From(s.start(model.From)))
		if f.Mirrored.is {
			p.Path = p.Path.Mirrored(start.Y)
			p.Upper = -p.Upper
		}
		return true
	}
	if f.Mirrored.is {
		s.faultAt(&f.Mirrored.site, "a mirrored piece takes its path from the other piece", "leave out path, or mirrored")
		return false
	}
	points := make([]frame.Point[boat.Local], len(f.Path))
	for i := range f.Path {
		points[i] = frame.Point[boat.Local](s.point(&f.Path[i]))
	}
	radius := 0.0
	if f.Rounded.given() {
		radius = s.atLeastZero(&f.Rounded.figure, "a radius")
	}
	path, err := boat.NewPath(points, radius)
	if err != nil {
		hint := "give two points or more, each away from the one before"
		at := site{f.node.get("path"), below(f.path, "path")}
		if radius > 0 && len(points) > 2 {
			hint = "round the corners less, or set the points farther apart"
			at = f.Rounded.site
		}
		s.faultAt(&at, err.Error(), hint)
		return false
	}
	p.Path = path.Moved(frame.Vec[boat.Local](start))
	return true
}

// dimensions settles chord and twist.
func (s *shaper) dimensions(f *pieceForm, p *boat.Piece, model *boat.Piece) {
	switch {
	case f.Chord.given():
		p.Chord = s.alongPath(&f.Chord.stations, s.positiveChord)
	case model == nil:
		s.faultUnder(&f.site, "chord", "is missing", "write  chord: {0 %: 0.34 m, 100 %: 0.12 m}")
	}
	if f.Twist.given() {
		p.Twist = s.alongPath(&f.Twist.stations, func(f *figure) float64 { return s.value(f) })
	}
}

func (s *shaper) positiveChord(f *figure) float64 { return s.positive(f, "a chord") }

func (s *shaper) alongPath(f *stations, value func(*figure) float64) boat.Along {
	var a boat.Along
	for i := range f.at {
		a.Share = append(a.Share, f.at[i].share)
		a.Value = append(a.Value, value(&f.at[i].value))
	}
	if len(a.Share) == 0 && f.given() && len(f.node.entries) == 0 {
		s.faultAt(&f.site, "no stations are given", "write  {0 %: …, 100 %: …}")
	}
	return a
}

// section settles the piece's section.
func (s *shaper) section(f *pieceForm, p *boat.Piece, model *boat.Piece) {
	sf := &f.Section
	if !sf.given() {
		if model == nil {
			s.faultUnder(&f.site, "section", "is missing", "write  section: naca 63-412")
		}
		return
	}
	name := &sf.Name
	switch {
	case sf.Name.given() && sf.File.given():
		s.faultAt(&sf.File.site, "name and file cannot both be given", "keep one of them")
		return
	case sf.File.given():
		name = &sf.File
	case !sf.Name.given():
		s.faultUnder(&sf.site, "name", "is missing", "write  section: naca 63-412, or  section: {file: own-section.dat}")
		return
	}
	if name.text == "" {
		return // faulted where it was read
	}
	sec, err := s.shelf.section(name.node.place, name.text)
	if err != nil {
		s.faultErr(&name.site, err)
		return
	}
	sec, err = s.scaled(sf, sec)
	if err != nil {
		s.faultErr(&sf.site, err)
		return
	}
	if sec.Mended != "" {
		s.assume(sf.path+" shape", sec.Mended, "its file of coordinates needed that")
	}
	if sf.DragTable.given() {
		table, err := s.shelf.dragTable(sf.DragTable.node.place, sf.DragTable.text)
		if err != nil {
			s.faultErr(&sf.DragTable.site, err)
			return
		}
		sec = sec.WithDragTable(table)
	}
	p.Section = sec
	p.Transition = boat.StatedTransition
	if sf.Transition.given() {
		if sf.Transition.text != "computed" {
			s.faultAt(&sf.Transition.site, fmt.Sprintf("%q is no way to find transition", sf.Transition.text), "write  transition: computed, or give a share with  laminar: 15 %")
			return
		}
		p.Transition = boat.ComputedTransition
	}
}

func (s *shaper) scaled(sf *sectionForm, sec section.Section) (section.Section, error) {
	var err error
	if sf.Thickness.given() {
		if sec, err = sec.Scaled(s.positive(&sf.Thickness.figure, "a thickness")); err != nil {
			return sec, err
		}
	}
	if sf.LargestLift.given() {
		return sec.WithLargestLift(s.positive(&sf.LargestLift.figure, "a lift coefficient"))
	}
	return sec, nil
}

// The sides that a suction side can be on. Inboard and outboard depend on the
// side that the foil is on.
var upperSides = [...]string{"up", "down", "inboard", "outboard", "port", "starboard"}

// upper settles the sign that points Upper·(forward × tangent) to the suction side.
func (s *shaper) upper(f *pieceForm, p *boat.Piece, model *boat.Piece) {
	if model != nil && !f.Upper.given() && f.node.get("path") == nil {
		return // taken over, mirrored with the path
	}
	towards := f.Upper.text
	if !f.Upper.given() {
		_, last := p.Path.At(1)
		switch {
		case math.Hypot(last.X, last.Y) > math.Abs(last.Z):
			towards = "up"
		case s.side == boat.Centre:
			towards = "port"
		default:
			towards = "inboard"
		}
	}
	if !slices.Contains(upperSides[:], towards) {
		s.faultAt(&f.Upper.site, fmt.Sprintf("%q is no side for a piece", towards), nearest(towards, upperSides[:]))
		return
	}
	outboard := s.side.Sign()
	if outboard == 0 && strings.HasSuffix(towards, "board") && towards != "starboard" {
		s.faultAt(&f.Upper.site, "a foil on the centreplane has no inboard side", "write port or starboard")
		return
	}
	direction := map[string]frame.Vec[boat.Local]{
		"up": {Z: 1}, "down": {Z: -1}, "port": {Y: 1}, "starboard": {Y: -1},
		"inboard": {Y: -outboard}, "outboard": {Y: outboard},
	}[towards]
	// The place where the side shows most clearly decides: a board that bends
	// from upright to level has an upper side at its foot only.
	clearest := 0.0
	for _, share := range p.Path.AppendBreaks([]float64{1, 0, 0.5}) {
		_, tangent := p.Path.At(share)
		if d := (frame.Vec[boat.Local]{X: 1}).Cross(tangent).Dot(direction); math.Abs(d) > math.Abs(clearest)+1e-9 {
			clearest = d
		}
	}
	if math.Abs(clearest) < 1e-3 {
		s.faultAt(&f.Upper.site, fmt.Sprintf("the piece runs %s itself and has no such side", towards), "name a side across the piece")
		return
	}
	p.Upper = math.Copysign(1, clearest)
}

// flap settles the flap's shape; its control is made with the foil's.
func (s *shaper) flap(f *pieceForm, p *boat.Piece) {
	if !f.Flap.given() {
		return
	}
	p.Flap = boat.Flap{Share: s.positive(&f.Flap.Share.figure, "a share"), From: 0, To: 1, Control: -1, Sign: 1}
	if f.Flap.Share.given() && !(p.Flap.Share < 0.9) {
		s.faultAt(&f.Flap.Share.site, s.text(&f.Flap.Share.figure, p.Flap.Share)+" of the chord is no flap", "write a share such as 30 %")
	}
	if f.Flap.From.given() {
		p.Flap.From = s.value(&f.Flap.From.figure)
	}
	if f.Flap.To.given() {
		p.Flap.To = s.value(&f.Flap.To.figure)
	}
	if !(p.Flap.From >= 0 && p.Flap.From < p.Flap.To && p.Flap.To <= 1) {
		s.faultAt(&f.Flap.site, fmt.Sprintf("the flap runs from %s to %s", shown(p.Flap.From, quantity.Share), shown(p.Flap.To, quantity.Share)),
			"from is below to, both between 0 and 100 %")
	}
	if f.Flap.Reversed.is {
		p.Flap.Sign = -1
	}
}
