package foil

import (
	"math"
	"slices"

	"foilwright/boat"
	"foilwright/frame"
	"foilwright/lattice"
	"foilwright/si"
	"foilwright/wave"
)

// Options are how finely foils are cut. The zero value is not usable; see
// DefaultOptions.
type Options struct {
	Strips   int              // on each wet interval of a piece; on one that bends, some more where they are few
	Rows     int              // of bound vortices over the chord
	Boundary lattice.Boundary // the water's surface; FreeSurface unless a test asks otherwise
	Waves    Waves            // what is made of the waves that lift makes, under a free surface
}

// Waves says what is made of the waves of a finite Froude number.
type Waves int

const (
	// WaveDrag counts the drag of the waves. The zero value.
	WaveDrag Waves = iota
	// NoWaves leaves the surface at its high-speed limit.
	NoWaves
	// WaveWash counts the drag of the waves and the incidence that they change:
	// near take-off. A state then costs some ten times as much.
	WaveWash
)

// DefaultOptions returns 12 strips a piece in one row, corrected for depth,
// under a high-speed water surface: doubling the strips then changes lift by
// less than 0.3 %, side force 1 % and induced drag 0.5 % (held by a test).
func DefaultOptions() Options { return Options{Strips: 12, Rows: 1, Boundary: lattice.FreeSurface} }

// Workspace holds what one goroutine needs to load foils again and again. It
// keeps the lattice of the last geometry, so that a state which differs only in
// speed, flaps or sails costs no new factorisation. The zero value is ready and
// uses DefaultOptions.
type Workspace struct {
	Options Options
	// Kernel is the table of the waves' wash, which WaveWash needs. Nil means that
	// one is made at first need, which takes about a second; goroutines may share
	// one.
	Kernel *wave.Kernel

	// Where foils stand, and what stands there.
	boat     *boat.Boat
	options  Options
	stance   []float64 // attitude and what moves foils
	standing []standing
	cut      bool       // whether it is known where the water cuts them
	found    []Interval // wet, of all pieces
	memories []*memory  // by foil and piece
	bodies   []bodyMemory
	masses   []frame.Point[boat.Local]            // of the foils: where they hang
	movers   []int                                // controls that move foils
	moved    []int                                // which foil each moves
	poses    []frame.Pose[frame.Boat, boat.Local] // of the foils

	beside
	lies   bool // whether the lattice is of this stance
	speed  si.Speed
	solved []float64 // speed and flaps of the last solution on this geometry; empty where there is none
	asked  []float64

	panels   lattice.Panels
	foremost lattice.Panels // of each strip, where there are several rows
	lattice  lattice.Workspace
	pieces   []wetPiece
	strips   []strip

	base, wash  []float64 // per panel: geometry alone; with flaps
	circulation []float64
	force       [][3]float64
	totals      lattice.Totals
	wave        wave.Workspace
	waving      wave.Strips
	image       []float64 // of each strip, the drag that the surface's image adds, per ρV², m²
	waveDrag    []float64 // of each strip over density, m⁴/s²
	perStrip    []float64
	extra       []float64
	sections    []localSection
	stations    []lattice.Station
	plates      []plate // of each strip
}

// standing is a piece where it stands, wet or dry.
type standing struct {
	placed
	foil, index int
	wet         [2]int // its wet intervals: from and to among those found
	same        bool   // stands as it does in the holder's state: see beside.stood
}

// wetPiece is one wet interval of one piece, with its strips.
type wetPiece struct {
	foil, piece int
	interval    Interval
	first, n    int // its strips
	placed      placed
	ends        [2]pieceEnd
}

// pieceEnd is a section at an end of a wet piece.
type pieceEnd struct {
	quarter frame.Point[frame.Track] // quarter-chord point, m
	chord   float64                  // m
}

// strip is one strip of a wet piece, in the track frame.
type strip struct {
	share   float64
	covered float64    // by the piece's flap, as a share
	quarter [3]float64 // quarter-chord point at the angular midpoint, m
	aft     [3]float64 // unit, towards the trailing edge
	normal  [3]float64 // unit, towards the upper side
	chord   float64    // m
	width   float64    // across the stream, m
	panels  [2]int     // first panel, stride between its rows
}

// lay brings the workspace to a state's geometry: wet intervals, strips, panels
// and the factorised lattice. It does nothing where they are the last ones.
func (w *Workspace) lay(b *boat.Boat, s *boat.State) error {
	w.dip(b, s)
	if w.lies {
		w.ask(s)
		if w.leansStill() && (w.Options.Waves != WaveWash || w.speed == s.Speed) {
			return nil
		}
	}
	w.Release()
	w.lies, w.solved = false, w.solved[:0]
	w.panels.Reset()
	w.pieces, w.strips = w.pieces[:0], w.strips[:0]
	for i := range w.standing {
		p := &w.standing[i]
		if p.same && w.standsStill() {
			w.copyPiece(p)
			continue
		}
		for _, interval := range w.found[p.wet[0]:p.wet[1]] {
			w.layPiece(b, p, interval)
		}
	}
	w.ask(s)
	if n := w.panels.Len(); n > 0 {
		w.layWaves()
		extra, err := w.waveWash(s.Speed)
		if err != nil {
			return err
		}
		if err := w.assemble(extra); err != nil {
			return err
		}
		w.base, w.wash, w.circulation = grown(w.base, n), grown(w.wash, n), grown(w.circulation, n)
		w.force, w.plates = grown(w.force, n), grown(w.plates, len(w.strips))
	}
	w.washOfGeometry()
	w.lies, w.speed = true, s.Speed
	return nil
}

// stand brings the workspace to where foils stand in a state. It does nothing where they
// stand so already.
func (w *Workspace) stand(b *boat.Boat, s *boat.State) {
	if w.Options == (Options{}) {
		w.Options = DefaultOptions()
	}
	if w.boat == b && w.options == w.Options && w.stands(s) {
		return
	}
	if w.boat != b || w.options != w.Options {
		w.remember(b)
	}
	w.Release()
	w.lies = false
	w.boat, w.options = b, w.Options
	w.move(b, s)
	w.stance = stanceOf(s, w.movers, w.stance[:0])
	w.standing, w.cut = w.standing[:0], false
	trackFromBoat := s.Attitude.Pose()
	for i := range b.Foils {
		pose := placeOn(&trackFromBoat, &w.poses[i])
		for j := range b.Foils[i].Pieces {
			w.standing = append(w.standing, standing{placed: placed{&b.Foils[i].Pieces[j], pose, w.memories[len(w.standing)]}, foil: i, index: j})
		}
	}
}

// dip brings the workspace to where foils stand in a state, and where the water cuts them.
func (w *Workspace) dip(b *boat.Boat, s *boat.State) {
	w.stand(b, s)
	if w.cut {
		return
	}
	w.found, w.cut = w.found[:0], true
	held := w.heldStanding()
	for n := range w.standing {
		p := &w.standing[n]
		p.wet[0] = len(w.found)
		if p.same = held != nil && held[n].pose == p.pose; p.same {
			w.found = append(w.found, w.holder.found[held[n].wet[0]:held[n].wet[1]]...)
		} else {
			w.found = p.placed.wet(p.memory.samples, p.memory.tip, w.found)
		}
		p.wet[1] = len(w.found)
	}
}

// remember fills the memories of a boat's pieces and bodies.
func (w *Workspace) remember(b *boat.Boat) {
	w.memories, w.bodies, w.masses, w.movers, w.moved = w.memories[:0], w.bodies[:0], w.masses[:0], w.movers[:0], w.moved[:0]
	w.poses, w.stance = grown(w.poses, len(b.Foils)), w.stance[:0]
	for i := range b.Bodies {
		w.bodies = append(w.bodies, rememberBody(b, i))
	}
	for i := range b.Foils {
		f := &b.Foils[i]
		mass, _ := f.Pieces[f.MassPiece].Path.At(f.MassShare)
		w.masses = append(w.masses, mass)
		for _, m := range f.Moves {
			if m.Control >= 0 {
				w.movers, w.moved = append(w.movers, m.Control), append(w.moved, i)
			}
		}
		for j := range f.Pieces {
			breaks := len(f.Pieces[j].Path.AppendBreaks(nil))
			w.memories = append(w.memories, remember(f, j, w.stripsOn(breaks)))
		}
	}
}

// stanceOf appends what foils stand by: attitude, and the settings of the controls that
// move them.
func stanceOf(s *boat.State, movers []int, into []float64) []float64 {
	a := &s.Attitude
	into = append(into, a.Leeway.Radians(), a.Heel.Radians(), a.Pitch.Radians(), a.Height)
	for _, control := range movers {
		into = append(into, s.Settings[control])
	}
	return into
}

// move brings those foils to where they stand in the boat whose settings are not the last.
func (w *Workspace) move(b *boat.Boat, s *boat.State) {
	first := 0
	for i := range b.Foils {
		last := first
		moved := len(w.stance) == 0
		for ; last < len(w.movers) && w.moved[last] == i; last++ {
			moved = moved || w.stance[4+last] != s.Settings[w.movers[last]]
		}
		if moved {
			w.poses[i] = b.Foils[i].Pose(s.Settings)
		}
		first = last
	}
}

// stands tells whether foils stand in a state as they do in the workspace.
func (w *Workspace) stands(s *boat.State) bool {
	a := &s.Attitude
	if t := w.stance; t[0] != a.Leeway.Radians() || t[1] != a.Heel.Radians() || t[2] != a.Pitch.Radians() || t[3] != a.Height {
		return false
	}
	for i, control := range w.movers {
		if w.stance[4+i] != s.Settings[control] {
			return false
		}
	}
	return true
}

// layWaves lists the strips for the waves: each as its foremost bound vortex.
func (w *Workspace) layWaves() {
	v, p := &w.waving, &w.panels
	if w.Options.Rows > 1 {
		p = &w.foremost
		p.Reset()
		for i := range w.strips {
			at := w.strips[i].panels[0]
			p.Append(lattice.Panel{
				A: w.panels.A[at], B: w.panels.B[at], Mid: w.panels.Mid[at], Surface: w.panels.Surface[at], Core: w.panels.Core[at],
			})
		}
	}
	v.A, v.B, v.Mid, v.Surface, v.Core = p.A, p.B, p.Mid, p.Surface, p.Core
	v.Image, w.image = grown(v.Image, len(w.strips)), grown(w.image, len(w.strips))
	v.Circulation, w.waveDrag = grown(v.Circulation, len(w.strips)), grown(w.waveDrag, len(w.strips))
}

// waveWash returns what waves add to the normal velocity at each control point
// from each panel of unit circulation, nil where they are left out. A panel's
// waves are its strip's, made at the foremost bound vortex.
func (w *Workspace) waveWash(speed si.Speed) ([]float64, error) {
	if w.Options.Waves != WaveWash || w.Options.Boundary != lattice.FreeSurface {
		return nil, nil
	}
	if w.Kernel == nil {
		w.Kernel = wave.NewKernel()
	}
	n, strips := w.panels.Len(), len(w.strips)
	w.perStrip = grown(w.perStrip, n*strips)
	if err := w.wave.Wash(w.Kernel, &w.waving, w.panels.Control, w.panels.Normal, speed, si.Gravity, w.perStrip); err != nil {
		return nil, err
	}
	if n == strips {
		return w.perStrip, nil
	}
	w.extra = grown(w.extra, n*n)
	for i := range n {
		for j, strip := range w.panels.Strip {
			w.extra[i*n+j] = w.perStrip[i*strips+strip]
		}
	}
	return w.extra, nil
}

// coreOverlap is the least core of wake legs over the widest distance between
// them: a sheet of vortices is smooth to another surface that passes through it
// only where their cores come near overlapping (common practice of vortex
// methods). Measured on a rudder wing in the plane of another foil's wake: at 0.57
// the load still ripples with leeway, at 0.68 twice the strips move it by 2.0 %;
// between them it is smooth, and they move it by 1.7 %.
const coreOverlap = 0.62

// layPiece cuts a wet interval of a piece into strips.
func (w *Workspace) layPiece(b *boat.Boat, p *standing, interval Interval) {
	if interval.To-interval.From < 1e-12 {
		return
	}
	n := p.memory.strips()
	wp := wetPiece{foil: p.foil, piece: p.index, interval: interval, first: len(w.strips), n: n, placed: p.placed}
	sections := w.sectionsOn(&wp)
	w.stations = wp.stations(sections, w.stations[:0])
	for end, st := range [2]*lattice.Station{&w.stations[0], &w.stations[2*n]} {
		wp.ends[end] = pieceEnd{frame.PointOf[frame.Track](st.Quarter), st.Chord}
	}
	firstPanel := w.panels.Len()
	middle := (interval.From + interval.To) / 2
	spacing := (interval.To - interval.From) * p.piece.Path.Length() * math.Pi / 2 / float64(n)
	core := math.Hypot(b.Model.WakeCore*p.piece.Chord.At(middle), coreOverlap*spacing)
	lattice.AppendStations(&w.panels, w.stations, w.Options.Rows, p.foil, core)
	turn := p.pose.Turn.Matrix()
	var aft [3]float64
	for k := range n {
		at := firstPanel + k
		section, station := &sections[2*k+1], &w.stations[2*k+1]
		a, c := &w.panels.A[at], &w.panels.B[at]
		dy, dz := c[1]-a[1], c[2]-a[2]
		if k == 0 || !p.memory.even {
			aft = turned(&turn, section.nose.Times(-1).Array())
		}
		w.strips = append(w.strips, strip{
			share: section.share, covered: flapCovers(p.piece, sections[2*k].share, sections[2*k+2].share),
			quarter: station.Quarter, aft: aft, normal: station.Normal, chord: section.chord,
			width:  math.Sqrt(dy*dy + dz*dz),
			panels: [2]int{at, n},
		})
	}
	w.pieces = append(w.pieces, wp)
}

// sectionsOn returns a wet piece's sections where strips begin, have their middles
// and end.
func (w *Workspace) sectionsOn(p *wetPiece) []localSection {
	known := p.placed.memory
	if p.interval.whole() {
		return known.whole
	}
	w.sections = grown(w.sections, len(known.shares))
	for k, share := range known.shares {
		known.at(p.placed.piece, p.interval.node(share), &w.sections[k])
	}
	flatten(p.placed.piece, w.sections)
	return w.sections
}

// straightStrips is the least number of strips on a piece whose path bends, before
// one more for each end of a bend: fewer cut corners. On four strips the board of an
// L lifts a seventh less than on twelve, on eight a twentieth.
const straightStrips = 4

// stripsOn returns how many strips a piece is cut into whose path has so many breaks.
func (w *Workspace) stripsOn(breaks int) int {
	if breaks == 0 {
		return w.Options.Strips
	}
	return max(w.Options.Strips, straightStrips+breaks)
}

// stations appends the stations of sections where strips begin, have their middles
// and end, as the lattice takes them: the normals are those of the middles, and chords are
// laid along the track, the incidence in the normal alone. Laid at its true incidence a
// chord of 0.3 m carries its control point 8 mm off the wake's sheet at 3°, more than the
// end strips are wide, and the circulation there runs away as strips are refined (a strut
// at 2° of leeway: drag up by 20 % at 24 strips, a hundredfold at 48).
func (p *wetPiece) stations(sections []localSection, into []lattice.Station) []lattice.Station {
	turn, origin := p.placed.pose.Turn.Matrix(), p.placed.pose.Origin.Array()
	first := len(into)
	into = slices.Grow(into, len(sections))[:first+len(sections)]
	var normal [3]float64
	for k := range sections {
		l, st := &sections[k], &into[first+k]
		q := &l.quarter
		st.Quarter = [3]float64{
			turn[0][0]*q.X + turn[0][1]*q.Y + turn[0][2]*q.Z + origin[0],
			turn[1][0]*q.X + turn[1][1]*q.Y + turn[1][2]*q.Z + origin[1],
			turn[2][0]*q.X + turn[2][1]*q.Y + turn[2][2]*q.Z + origin[2],
		}
		if k == 0 || k%2 == 1 && !p.placed.memory.even {
			normal = turned(&turn, l.up.Array())
		}
		st.Aft, st.Normal, st.Chord = [3]float64{-1, 0, 0}, normal, l.chord
	}
	// The crossings, to the last bit.
	last := len(into) - 1
	if p.interval.Pierces[0] {
		into[last-len(sections)+1].Quarter[2] = 0
	}
	if p.interval.Pierces[1] {
		into[last].Quarter[2] = 0
	}
	return into
}

// turned returns a vector turned by a rotation's matrix.
func turned(m *[3][3]float64, v [3]float64) [3]float64 {
	return [3]float64{
		m[0][0]*v[0] + m[0][1]*v[1] + m[0][2]*v[2],
		m[1][0]*v[0] + m[1][1]*v[1] + m[1][2]*v[2],
		m[2][0]*v[0] + m[2][1]*v[1] + m[2][2]*v[2],
	}
}

// washOfGeometry fills the wash that geometry and camber ask of the lattice:
// the stream's own normal velocity and the zero-lift angle, per unit speed.
func (w *Workspace) washOfGeometry() {
	for i := range w.pieces {
		p := &w.pieces[i]
		zeroLift := p.placed.piece.Section.ZeroLift.Radians()
		for k := p.first; k < p.first+p.n; k++ {
			st := &w.strips[k]
			for row := range w.Options.Rows {
				at := st.panels[0] + row*st.panels[1]
				w.base[at] = w.panels.Normal[at][0] + zeroLift
			}
		}
	}
}

func grown[T any](s []T, n int) []T {
	if cap(s) < n {
		s = make([]T, n)
	}
	return s[:n]
}
