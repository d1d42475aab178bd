package boatfile

import (
	"fmt"
	"math"
	"strings"

	"foilwright/boat"
	"foilwright/frame"
	"foilwright/quantity"
)

// foils makes the wings, struts, boards and rudders.
func (b *builder) foils() {
	for i := range b.form.Foils.items {
		item := &b.form.Foils.items[i]
		b.foil(item.name, &item.part)
	}
}

// foil makes one foil, or both of a pair.
func (b *builder) foil(name string, f *foilForm) {
	root := b.point(&f.Root)
	likely := "centre"
	if root.Y > 0 {
		likely = "pair"
	}
	sides := b.side(&f.Side, likely)
	written := boat.Foil{Name: name, Kind: name, Side: sides[0], Root: root, MassShare: 0.5}
	paired := len(sides) == 2
	b.checkRoot(f, written.Root, sides)
	written.Pieces = b.pieces(f, written.Side)
	if f.Pieces.given() && len(f.Pieces.items) == 0 {
		b.faultAt(&f.Pieces.site, "the foil has no pieces", "write  pieces: {blade: {path: …, chord: …, section: naca 0012}}")
	}
	b.foilMass(f, &written)
	b.repeated(f)
	together := make([]int, len(f.Moves.items)) // a control that both sides share, −1 where there is none
	for i := range together {
		together[i] = -1
	}
	for _, side := range sides {
		foil := written
		foil.Side = side
		if paired {
			foil.Name = side.String() + " " + name
		}
		if side == boat.Starboard && paired {
			foil = mirrorFoil(foil)
		}
		foil.Moves = b.moves(f, &foil, paired, together)
		b.flaps(f, &foil, paired)
		b.boat.Foils = append(b.boat.Foils, foil)
	}
}

// checkRoot faults a root on the wrong side.
func (b *builder) checkRoot(f *foilForm, root frame.Point[frame.Boat], sides []boat.Side) {
	at := &f.Root.site
	if !f.Root.given() {
		return
	}
	switch {
	case len(sides) == 2 && root.Y <= 0:
		b.faultAt(at, fmt.Sprintf("a pair is written for port, and its root is at y = %s", shown(root.Y, quantity.Length)),
			"write y above 0, or  side: centre  for a single foil")
	case len(sides) == 1 && sides[0].Sign()*root.Y < 0:
		b.faultAt(at, fmt.Sprintf("a foil on the %s side has its root at y = %s", sides[0], shown(root.Y, quantity.Length)),
			"y is positive to port, negative to starboard")
	}
}

// foilMass hangs the foil's mass on a piece.
func (b *builder) foilMass(f *foilForm, foil *boat.Foil) {
	if !f.Mass.given() {
		b.assume(below(f.path, "mass"), "0 kg", "no mass is given: counted in the hull's")
		return
	}
	foil.Mass = b.atLeastZero(&f.Mass.Mass.figure, "a mass")
	if !f.Mass.Along.given() && len(foil.Pieces) > 0 {
		b.assume(below(f.path, "mass.along"), "50 % of "+foil.Pieces[0].Name, "usual")
		return
	}
	if piece, share, ok := b.along(&f.Mass.Along, f); ok {
		foil.MassPiece, foil.MassShare = pieceNamed(foil, piece), share
	}
}

// along reads "arm tip", "root" of a foil's first piece, or "60 % of arm".
func (b *builder) along(w *words, f *foilForm) (piece string, share float64, ok bool) {
	if !w.given() || w.text == "" {
		return "", 0, false
	}
	text := w.text
	names := f.Pieces.names()
	if text == "root" && len(names) > 0 {
		return names[0], 0, true
	}
	switch {
	case strings.HasSuffix(text, " tip"):
		piece, share = strings.TrimSuffix(text, " tip"), 1
	case strings.HasSuffix(text, " start"):
		piece, share = strings.TrimSuffix(text, " start"), 0
	default:
		portion, of, found := strings.Cut(text, " of ")
		q, err := quantity.Parse(portion, quantity.Share)
		if !found || err != nil || !q.Exact() || q.Likely < 0 || q.Likely > 1 {
			b.faultAt(&w.site, fmt.Sprintf("%q is no place along a piece", text), "write  60 % of arm  or  arm tip")
			return "", 0, false
		}
		piece, share = of, q.Likely
	}
	if f.Pieces.find(piece) < 0 {
		b.faultAt(&w.site, fmt.Sprintf("no piece is called %q", piece), nearest(piece, names))
		return "", 0, false
	}
	return piece, share, true
}

// mirrorFoil returns a port foil's mirror image in the centreplane. A path's
// image turns forward × tangent over, so that the sign of the upper side turns.
func mirrorFoil(f boat.Foil) boat.Foil {
	f.Root = mirrored(f.Root)
	f.Pieces = append([]boat.Piece(nil), f.Pieces...)
	for i := range f.Pieces {
		f.Pieces[i].Path = f.Pieces[i].Path.Mirrored(0)
		f.Pieces[i].Upper = -f.Pieces[i].Upper
	}
	return f
}

// repeated faults flap controls that no flap uses.
func (b *builder) repeated(f *foilForm) {
	for i := range f.Controls.items {
		used := false
		for j := range f.Pieces.items {
			angle := &f.Pieces.items[j].part.Flap.Angle
			used = used || angle.given() && angle.node.text == f.Controls.items[i].name
		}
		if !used {
			at := site{&node{text: f.Controls.items[i].name, place: f.Controls.items[i].place}, f.Controls.items[i].part.path}
			b.faultAt(&at, "no flap of this foil uses this control", "write  flap: {share: 30 %, angle: "+f.Controls.items[i].name+"}  at a piece")
		}
	}
}

// moves makes the foil's movements and their controls.
func (b *builder) moves(f *foilForm, foil *boat.Foil, paired bool, together []int) []boat.Move {
	var out []boat.Move
	for i := range f.Moves.items {
		item := &f.Moves.items[i]
		m, kind := b.movement(item.name, f, &item.part, foil, paired)
		both := item.part.Both.text == "together"
		if t := item.part.Both.text; item.part.Both.given() && !both && t != "apart" {
			b.faultAt(&item.part.Both.site, fmt.Sprintf("%q is not a way for two sides to move", t), "write together or apart")
		}
		if item.part.Both.given() && !paired {
			b.faultAt(&item.part.Both.site, "the foil is not one of a pair", "leave both sides: out")
		}
		spec := controlSpec{
			part: foil.Kind, label: item.name, name: foil.Kind + " " + item.name, side: foil.Side,
			paired: paired, kind: kind,
		}
		if kind == boat.ShareControl {
			spec.start = 1
		}
		if both && paired {
			spec.side, spec.paired = boat.Centre, false
		}
		switch {
		case item.part.With.given():
			if item.part.Range.given() || item.part.Fixed.given() {
				b.faultAt(&item.part.With.site, "the range is the other control's", "leave range: out")
			}
			b.pending = append(b.pending, pendingLink{len(b.boat.Foils), len(out), item.part.With, foil.Side})
			m.Control = -1
		case both && together[i] >= 0:
			m.Control = together[i]
		default:
			m.Control = b.control(&item.part.site, &item.part.controlKeys, spec)
			if both {
				together[i] = m.Control
			}
		}
		out = append(out, m)
	}
	return out
}

// movement returns a movement without its control.
func (b *builder) movement(name string, form *foilForm, f *moveForm, foil *boat.Foil, paired bool) (boat.Move, boat.ControlKind) {
	m := boat.Move{Name: name, Control: -1}
	switch {
	case f.Axis.given() && f.Along.given():
		b.faultAt(&f.Along.site, "axis and along cannot both be given", "axis: turns, along: slides")
	case f.Along.given():
		m.Kind = boat.Slide
		b.slide(form, f, foil, &m)
		return m, boat.ShareControl
	case !f.Axis.given():
		b.faultUnder(&f.site, "axis", "is missing", "write  axis: x  (or y, z), or  along: board  for what slides through a case")
		return m, boat.AngleControl
	}
	if f.Travel.given() {
		b.faultAt(&f.Travel.site, "only what slides has a travel", "write  along: board  in place of axis")
	}
	side := foil.Side
	if paired {
		side = boat.Port
	}
	m.Axis = b.axis(&f.Axis, side)
	// The image of a turn about an axis in the centreplane turns the other way.
	// Rudders that work together turn the same way about their mirrored stocks.
	upright := math.Abs(m.Axis.Z) > math.Hypot(m.Axis.X, m.Axis.Y)
	switch {
	case !paired || foil.Side != boat.Starboard:
	case f.Both.text == "together" && upright:
		m.Axis.Y = 0 - m.Axis.Y
	default:
		m.Axis.X, m.Axis.Z = 0-m.Axis.X, 0-m.Axis.Z
	}
	return m, boat.AngleControl
}

// slide settles a movement through a case: along the piece's first direction,
// by as much as the piece reaches that way unless the file says how far.
func (b *builder) slide(form *foilForm, f *moveForm, foil *boat.Foil, m *boat.Move) {
	m.Axis, m.Length = frame.Vec[boat.Local]{Z: -1}, 1
	name := f.Along.text
	found := false
	for i := range foil.Pieces {
		p := &foil.Pieces[i]
		if p.Name != name || p.Path.Length() == 0 {
			continue
		}
		found = true
		start, along := p.Path.At(0)
		m.Axis, m.Length = along, 0
		const looks = 200
		for k := range looks + 1 {
			q, _ := p.Path.At(float64(k) / looks)
			m.Length = math.Max(m.Length, q.From(start).Dot(along))
		}
	}
	if !found && form.Pieces.find(name) < 0 {
		b.faultAt(&f.Along.site, fmt.Sprintf("no piece is called %q", name), nearest(name, form.Pieces.names()))
		return
	}
	if f.Travel.given() {
		m.Length = b.positive(&f.Travel.figure, "a travel")
	} else if foil.Side != boat.Starboard {
		b.assume(below(f.path, "travel"), shown(m.Length, quantity.Length), "as far as "+name+" reaches in its first direction")
	}
}

// flaps makes the foil's flap controls and joins its flaps to them.
func (b *builder) flaps(f *foilForm, foil *boat.Foil, paired bool) {
	made := make([]int, len(f.Controls.items))
	for i := range f.Controls.items {
		item := &f.Controls.items[i]
		label := strings.TrimPrefix(item.name, foil.Kind+" ")
		made[i] = b.control(&item.part.site, &item.part.controlKeys, controlSpec{
			part: foil.Kind, label: label, name: foil.Kind + " " + label, side: foil.Side, paired: paired, kind: boat.AngleControl,
		})
	}
	for i := range foil.Pieces {
		p := &foil.Pieces[i]
		if p.Flap.Share == 0 {
			continue
		}
		form := b.flapOf(f, p.Name)
		if form == nil || !form.Angle.given() {
			continue
		}
		text := form.Angle.node.text
		if at := f.Controls.find(text); at >= 0 {
			p.Flap.Control = made[at]
			continue
		}
		if form.Angle.node.kind == scalar && !angleText(text) {
			b.faultAt(&form.Angle.site, fmt.Sprintf("no control of this foil is called %q", text),
				"write  controls: {"+text+": {range: -8 to 14 deg}}  at the foil, or a fixed angle such as 3 deg")
			continue
		}
		fixed := controlKeys{Fixed: form.Angle}
		p.Flap.Control = b.control(&form.site, &fixed, controlSpec{
			part: foil.Kind, label: p.Name + " flap", name: foil.Kind + " " + p.Name + " flap", side: foil.Side, paired: paired, kind: boat.AngleControl,
		})
	}
}

// flapOf returns the flap of a piece, its own or that of the piece it equals.
func (b *builder) flapOf(f *foilForm, piece string) *flapForm {
	for range len(f.Pieces.items) + 1 {
		i := f.Pieces.find(piece)
		if i < 0 {
			return nil
		}
		p := &f.Pieces.items[i].part
		if p.Flap.given() || !p.As.given() {
			return &p.Flap
		}
		piece = p.As.text
	}
	return nil
}
