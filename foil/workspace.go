package foil

import (
	"math"

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

	boat    *boat.Boat
	options Options
	key     []float64
	fresh   []float64
	solved  []float64 // speed and flaps of the last solution on this geometry; empty where there is none
	asked   []float64

	panels  lattice.Panels
	lattice lattice.Workspace
	pieces  []wetPiece
	strips  []strip

	base, wash  []float64 // per panel: geometry alone; with flaps
	circulation []float64
	force       [][3]float64
	totals      lattice.Totals
	wave        wave.Workspace
	waving      wave.Strips
	waveDrag    []float64 // of each strip over density, m⁴/s²
	perStrip    []float64
	extra       []float64
	breaks      []float64
	found       []Interval

	remembered       *boat.Boat // whose pieces' sections memories holds
	rememberedStrips int
	memories         [][]memory // by foil and piece
}

// wetPiece is one wet interval of one piece, with its strips.
type wetPiece struct {
	foil, piece int
	interval    Interval
	first, n    int // its strips
	placed      placed
}

// strip is one strip of a wet piece, in the track frame.
type strip struct {
	share   float64
	ends    [2]float64 // of the strip, shares of the path
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
	if w.Options == (Options{}) {
		w.Options = DefaultOptions()
	}
	if w.same(b, s) {
		return nil
	}
	w.solved = w.solved[:0]
	w.panels.Reset()
	w.pieces, w.strips = w.pieces[:0], w.strips[:0]
	for i := range b.Foils {
		pose := place(b, i, s)
		for j := range b.Foils[i].Pieces {
			w.layPiece(b, i, j, pose)
		}
	}
	w.key = w.key[:0]
	if n := w.panels.Len(); n > 0 {
		w.layWaves()
		extra, err := w.waveWash(s.Speed)
		if err != nil {
			return err
		}
		if err := w.lattice.AssembleWith(&w.panels, w.Options.Boundary, lattice.Options{}, extra); err != nil {
			return err
		}
		w.base, w.wash, w.circulation = grown(w.base, n), grown(w.wash, n), grown(w.circulation, n)
		if cap(w.force) < n {
			w.force = make([][3]float64, n)
		}
		w.force = w.force[:n]
	}
	w.washOfGeometry(b)
	w.boat, w.options = b, w.Options
	w.key = append(w.key, w.fresh...)
	return nil
}

// layWaves lists the strips for the waves: each as its foremost bound vortex.
func (w *Workspace) layWaves() {
	v := &w.waving
	v.A, v.B, v.Mid, v.Surface, v.Core = v.A[:0], v.B[:0], v.Mid[:0], v.Surface[:0], v.Core[:0]
	for i := range w.strips {
		at := w.strips[i].panels[0]
		v.A, v.B, v.Mid = append(v.A, w.panels.A[at]), append(v.B, w.panels.B[at]), append(v.Mid, w.panels.Mid[at])
		v.Surface, v.Core = append(v.Surface, w.panels.Surface[at]), append(v.Core, w.panels.Core[at])
	}
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

// same tells whether geometry is that of the last call, and notes its key.
func (w *Workspace) same(b *boat.Boat, s *boat.State) bool {
	k := append(w.fresh[:0], s.Attitude.Leeway.Radians(), s.Attitude.Heel.Radians(), s.Attitude.Pitch.Radians(), s.Attitude.Height)
	for i := range b.Foils {
		for _, m := range b.Foils[i].Moves {
			if m.Control >= 0 {
				k = append(k, s.Settings[m.Control])
			}
		}
	}
	if w.Options.Waves == WaveWash {
		k = append(k, s.Speed.MetresPerSecond())
	}
	w.fresh = k
	if w.boat != b || w.options != w.Options || len(w.key) != len(k) || len(k) == 0 {
		return false
	}
	for i := range k {
		if k[i] != w.key[i] {
			return false
		}
	}
	return true
}

// coreOverlap is the least core of wake legs over the widest distance between
// them: a sheet of vortices is smooth to another surface that passes through it
// only where their cores come near overlapping (common practice of vortex
// methods). Measured on a rudder wing in the plane of another foil's wake: at 0.5
// the load still ripples with leeway by 3 % of what a degree changes, at 1 twice
// the strips move it by 4 %; between them both are below 2 %.
const coreOverlap = 0.68

// layPiece cuts the wet part of a piece into strips.
func (w *Workspace) layPiece(b *boat.Boat, foil, piece int, pose frame.Pose[frame.Track, boat.Local]) {
	f := &b.Foils[foil]
	known := w.memoryOf(b, foil, piece)
	p := placed{piece: &f.Pieces[piece], pose: pose, memory: known}
	w.breaks = p.piece.Path.AppendBreaks(w.breaks[:0])
	w.found = p.wet(w.breaks, tipOf(f, piece), w.found[:0])
	for _, interval := range w.found {
		if interval.To-interval.From < 1e-12 {
			continue
		}
		if interval.From > 0 || interval.To < 1 {
			p.memory = nil // where the surface cuts changes with every state
		}
		wp := wetPiece{foil: foil, piece: piece, interval: interval, first: len(w.strips), n: w.stripsOn(len(w.breaks)), placed: p}
		firstPanel := w.panels.Len()
		middle := (interval.From + interval.To) / 2
		spacing := (interval.To - interval.From) * p.piece.Path.Length() * math.Pi / 2 / float64(wp.n)
		core := math.Hypot(b.Model.WakeCore*p.piece.Chord.At(middle), coreOverlap*spacing)
		lattice.AppendSpan(&w.panels, wp.station, interval.From, interval.To, wp.n, w.Options.Rows, foil, core)
		for k := range wp.n {
			at := firstPanel + k
			share := interval.node(float64(k)+0.5, wp.n)
			l := p.local(share)
			quarter, aft, normal := p.pose.Point(l.quarter), p.pose.Vec(l.nose).Times(-1), p.pose.Vec(l.up)
			a, c := w.panels.A[at], w.panels.B[at]
			w.strips = append(w.strips, strip{
				share: share, ends: [2]float64{interval.node(float64(k), wp.n), interval.node(float64(k+1), wp.n)},
				quarter: quarter.Array(), aft: aft.Array(), normal: normal.Array(), chord: l.chord,
				width:  math.Hypot(c[1]-a[1], c[2]-a[2]),
				panels: [2]int{at, wp.n},
			})
		}
		w.pieces = append(w.pieces, wp)
	}
}

// straightStrips is the least number of strips on a piece whose path bends, before
// one more for each end of a bend: fewer cut corners. On four strips the board of an
// L lifts a fifth more than on twelve, on eight a hundredth.
const straightStrips = 4

// stripsOn returns how many strips a piece is cut into whose path has so many breaks.
func (w *Workspace) stripsOn(breaks int) int {
	if breaks == 0 {
		return w.Options.Strips
	}
	return max(w.Options.Strips, straightStrips+breaks)
}

// station returns a wet piece's section at a share of its path as the lattice
// takes it: the chord laid along the track, the incidence in the normal alone.
// Laid at its true incidence a chord of 0.3 m carries its control point 8 mm off
// the wake's sheet at 3°, more than the end strips are wide, and the circulation
// there runs away as strips are refined (a strut at 2° of leeway: drag up by
// 20 % at 24 strips, a hundredfold at 48).
func (p *wetPiece) station(share float64) lattice.Station {
	l := p.placed.local(share)
	quarter, normal := p.placed.pose.Point(l.quarter).Array(), p.placed.pose.Vec(l.up)
	if (share == p.interval.From && p.interval.Pierces[0]) || (share == p.interval.To && p.interval.Pierces[1]) {
		quarter[2] = 0 // the crossing, to the last bit
	}
	return lattice.Station{Quarter: quarter, Aft: [3]float64{-1, 0, 0}, Normal: normal.Array(), Chord: l.chord}
}

// washOfGeometry fills the wash that geometry and camber ask of the lattice:
// the stream's own normal velocity and the zero-lift angle, per unit speed.
func (w *Workspace) washOfGeometry(b *boat.Boat) {
	for i := range w.pieces {
		p := &w.pieces[i]
		zeroLift := p.placed.piece.Section.ZeroLift.Radians()
		for _, st := range w.strips[p.first : p.first+p.n] {
			for row := range w.Options.Rows {
				at := st.panels[0] + row*st.panels[1]
				w.base[at] = w.panels.Normal[at][0] + zeroLift
			}
		}
	}
}

func grown(s []float64, n int) []float64 {
	if cap(s) < n {
		s = make([]float64, n)
	}
	return s[:n]
}
