package foil

import (
	"math"
	"slices"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/lattice"
	"foilwright/section"
	"foilwright/si"
)

// Loads appends what the water does to a boat's foils, and to the bodies that
// are under water, in the track frame. Each wet piece gets a row a cause.
//
// Lift and side force come from the bound vortices without the streamwise
// induced velocity; induced drag is the far wake's, shared out over the strips.
// Profile drag acts along the stream at the quarter chord, with the section's
// own moment. An error tells that the lattice cannot be solved: two surfaces
// coincide.
func Loads(b *boat.Boat, s boat.State, water fluid.Water, w *Workspace, items []boat.Item) ([]boat.Item, error) {
	if err := w.solve(b, &s); err != nil {
		return items, err
	}
	for i := range w.pieces {
		items = w.loadPiece(b, &s, water, i, items)
	}
	return w.appendBodies(b, &s, water, items), nil
}

// solve finds the circulations of a state and the forces per ρV².
func (w *Workspace) solve(b *boat.Boat, s *boat.State) error {
	if err := w.lay(b, s); err != nil {
		return err
	}
	if len(w.strips) == 0 || slices.Equal(w.solved, w.asked) {
		return nil
	}
	// Circulations over speed, and forces over its square, do not change with speed.
	circulated := len(w.solved) > 0 && slices.Equal(w.solved[1:], w.asked[1:])
	w.solved = w.solved[:0]
	if !circulated {
		w.washOfFlaps(b, s)
		if err := w.circulate(); err != nil {
			return err
		}
		w.totals = w.lattice.Forces(w.circulation, w.force)
		w.lattice.ImageDrag(w.image)
	}
	if err := w.raiseWaves(s.Speed); err != nil {
		return err
	}
	w.solved = append(w.solved, w.asked...)
	return nil
}

// washOfFlaps adds to the wash of geometry what flaps ask for.
func (w *Workspace) washOfFlaps(b *boat.Boat, s *boat.State) {
	copy(w.wash, w.base)
	for i := range w.pieces {
		p := &w.pieces[i]
		flap, effect := p.placed.memory.flapOf(p.placed.piece, s.Settings, b.Model.FlapLoss)
		if flap.Share == 0 {
			continue
		}
		for k := p.first; k < p.first+p.n; k++ {
			st := &w.strips[k]
			zeroLift := st.covered * effect.ZeroLift.Radians()
			for row := range w.Options.Rows {
				w.wash[st.panels[0]+row*st.panels[1]] += zeroLift
			}
		}
	}
}

// ask notes what the water's loads follow from on the geometry at hand: speed and
// flaps.
func (w *Workspace) ask(s *boat.State) {
	w.asked = append(w.asked[:0], s.Speed.MetresPerSecond())
	for i := range w.pieces {
		if f := &w.pieces[i].placed.piece.Flap; f.Share > 0 {
			w.asked = append(w.asked, s.Settings[f.Control])
		}
	}
}

// raiseWaves finds what waves add to the drag of each strip: W − 2σ beyond the
// surface of zero potential, from one amplitude over all strips. The sheets of
// the waves are the lattice's own.
func (w *Workspace) raiseWaves(speed si.Speed) error {
	clear(w.waveDrag)
	if !w.makesWaves() {
		return nil
	}
	for i := range w.strips {
		_, circulation := w.lift(&w.strips[i])
		v := speed.MetresPerSecond()
		w.waving.Circulation[i], w.waving.Image[i] = circulation*v, w.image[i]*v*v
	}
	if o := w.neighbour(); o != nil {
		_, err := o.nearby.Increment(&w.waving, speed, si.Gravity, w.waveDrag)
		return err
	}
	_, err := w.wave.Increment(&w.waving, speed, si.Gravity, w.waveDrag)
	return err
}

// makesWaves tells whether the waves that lift makes are counted.
func (w *Workspace) makesWaves() bool {
	return w.Options.Waves != NoWaves && w.Options.Boundary == lattice.FreeSurface
}

// flapAt returns the flap of a piece as it stands under settings, the zero flap
// where there is none.
func flapAt(p *boat.Piece, settings []float64) section.Flap {
	f := &p.Flap
	if f.Share == 0 {
		return section.Flap{}
	}
	return section.Flap{Share: f.Share, Deflection: si.Angle(f.Sign * settings[f.Control])}
}

// flapCovers returns how much of a strip between two shares of the path the
// piece's flap covers, 0 to 1.
func flapCovers(p *boat.Piece, from, to float64) float64 {
	covered := min(to, p.Flap.To) - max(from, p.Flap.From)
	if p.Flap.Share == 0 || covered <= 0 {
		return 0
	}
	return min(1, covered/(to-from))
}

// lift returns a strip's lift coefficient and its circulation over speed, m.
func (w *Workspace) lift(st *strip) (coefficient, circulation float64) {
	for row := range w.Options.Rows {
		circulation += w.circulation[st.panels[0]+row*st.panels[1]]
	}
	return 2 * circulation / st.chord, circulation
}

// loadPiece appends the rows of one wet piece.
func (w *Workspace) loadPiece(b *boat.Boat, s *boat.State, water fluid.Water, index int, items []boat.Item) []boat.Item {
	p := &w.pieces[index]
	piece := p.placed.piece
	speed := s.Speed.MetresPerSecond()
	q := water.DynamicPressure(s.Speed)
	centre := frame.PointOf[frame.Track](w.strips[p.first+p.n/2].quarter)
	potential, induced, profile, stall, buoyancy, waves := at(centre), at(centre), at(centre), at(centre), at(centre), at(centre)
	flapped, effect := p.placed.memory.flapOf(piece, s.Settings, b.Model.FlapLoss)
	sunk, near := p.placed.sunk(&p.interval), w.neighbour()
	for k := p.first; k < p.first+p.n; k++ {
		st := &w.strips[k]
		w.loadLattice(st, water.Density*speed*speed, &potential, &induced)
		quarter := frame.PointOf[frame.Track](st.quarter)
		waves.drag(water.Density*w.waveDrag[k], quarter)

		cl, _ := w.lift(st)
		flap, covered := flapped, st.covered
		if covered == 0 {
			flap = section.Flap{}
		}
		moment := piece.Section.Moment
		reynolds := water.Reynolds(s.Speed, st.chord)
		plate := w.plateOn(k, near, reynolds, laminarShare(piece, &b.Model, cl, reynolds, flap.Deflection))
		drag := piece.Section.DragPartsOn(plate, cl, reynolds, flap, effect)
		if covered > 0 {
			moment += covered * effect.Moment
			if covered < 1 {
				drag = mixed(drag, piece.Section.DragPartsOn(plate, cl, reynolds, section.Flap{}, effect), covered)
			}
		}
		area := q * st.chord * st.width
		steady := b.Model.Friction*drag.Friction + b.Model.LiftDrag*drag.Lift + drag.Flap
		profile.drag(area*steady, quarter)
		stall.drag(area*drag.Stall, quarter)
		noseUp := frame.VecOf[frame.Track](st.normal).Cross(frame.VecOf[frame.Track](st.aft))
		profile.load.Moment = profile.load.Moment.Plus(noseUp.Times(area * st.chord * moment))

		middle := quarter.Add(frame.VecOf[frame.Track](st.aft).Times(sectionMiddle * st.chord))
		volume := piece.Section.Area * st.chord * st.chord * st.width
		buoyancy.add(frame.Vec[frame.Track]{Z: water.Density * si.Gravity * volume}, middle)
	}
	row := func(cause boat.Cause, l frame.Load[frame.Track]) {
		if sunk != 1 {
			l = l.Times(sunk)
		}
		items = append(items, boat.Item{Part: b.Foils[p.foil].Name, Piece: piece.Name, Cause: cause, Load: l})
	}
	row(boat.Potential, potential.load)
	row(boat.Induced, induced.load)
	if w.makesWaves() {
		row(boat.Wave, waves.load)
	}
	row(boat.Profile, profile.load)
	if stall.load.Force.X != 0 {
		row(boat.Stall, stall.load)
	}
	row(boat.Buoyancy, buoyancy.load)
	if piece.From >= 0 && p.interval.From == 0 && !p.interval.Pierces[0] {
		row(boat.Junction, p.junction(q*b.Model.Junction))
	}
	for end := range 2 {
		if p.interval.Pierces[end] {
			row(boat.Spray, w.spray(p, end, q*b.Model.Spray))
		}
	}
	return items
}

// sectionMiddle is how far aft of the quarter chord the middle of a section's
// area lies, over chord: 0.42 of the chord from the nose for NACA 4-digit sections.
const sectionMiddle = 0.17

// plate is the friction of a strip's plate as it was last asked for: most changes
// of state leave chords and speed as they are. Its slope by the Reynolds number is known
// once it was asked for.
type plate struct {
	reynolds, laminar float64
	friction          section.Plate
	sloped            bool
	slope             section.Plate
}

func (p *plate) at(reynolds, laminar float64) section.Plate {
	if p.reynolds != reynolds || p.laminar != laminar || p.friction.Turbulent == 0 {
		*p = plate{reynolds: reynolds, laminar: laminar, friction: section.PlateOf(reynolds, laminar)}
	}
	return p.friction
}

// beside returns the friction at a Reynolds number next to that last asked for, to first
// order in the step.
func (p *plate) beside(reynolds float64) section.Plate {
	if reynolds == p.reynolds {
		return p.friction
	}
	if !p.sloped {
		p.sloped, p.slope = true, section.PlateSlope(p.reynolds, p.laminar)
	}
	step := reynolds - p.reynolds
	return section.Plate{Turbulent: p.friction.Turbulent + step*p.slope.Turbulent, Mixed: p.friction.Mixed + step*p.slope.Mixed}
}

// nextReynolds is the share of a Reynolds number within which another lies next to it:
// of a difference's steps it is a hundred or more.
const nextReynolds = 1e-4

// plateOn returns the friction of a strip's plate; near a state that is held, of the
// same laminar share, to first order in how the Reynolds number differs.
func (w *Workspace) plateOn(strip int, near *Workspace, reynolds, laminar float64) section.Plate {
	if near != nil {
		held := &near.plates[strip]
		if held.friction.Turbulent != 0 && held.laminar == laminar && math.Abs(reynolds-held.reynolds) <= nextReynolds*reynolds {
			return held.beside(reynolds)
		}
	}
	return w.plates[strip].at(reynolds, laminar)
}

// laminarShare is the laminar share of a strip's chord: computed where the piece
// asks for it, else stated.
func laminarShare(p *boat.Piece, model *boat.Model, lift, reynolds float64, flap si.Angle) float64 {
	switch {
	case p.LaminarShares != nil:
		return p.LaminarShares.Share(lift, reynolds, flap)
	case p.Laminar >= 0:
		return p.Laminar
	}
	return model.Laminar
}

// mixed weighs a strip's drag with its flap and without by what the flap covers.
func mixed(with, without section.DragParts, covered float64) section.DragParts {
	mix := func(a, b float64) float64 { return covered*a + (1-covered)*b }
	return section.DragParts{
		Friction: mix(with.Friction, without.Friction), Lift: mix(with.Lift, without.Lift),
		Flap: mix(with.Flap, without.Flap), Stall: mix(with.Stall, without.Stall),
	}
}

// loadLattice adds a strip's lattice forces, split into drag and the rest.
func (w *Workspace) loadLattice(st *strip, momentum float64, potential, induced *gathered) {
	for r := range w.Options.Rows {
		i := st.panels[0] + r*st.panels[1]
		f := w.force[i]
		place := frame.PointOf[frame.Track](w.panels.Mid[i])
		potential.add(frame.Vec[frame.Track]{Y: momentum * f[1], Z: momentum * f[2]}, place)
		induced.drag(-momentum*f[0], place)
	}
}

// spray returns the drag where a piece pierces the surface: Hoerner's for a strut
// square to it, and more where the span meets the water at a shallow angle δ and
// the cut that the surface makes is thicker than the section: t/sin δ there, never
// more than the chord. One factor of it counts, 1/√(sin²δ + (t/c)²cos²δ): judgement,
// nobody was found to have measured it. It grows from nothing as an end comes out,
// over one chord of dry length, and fades over the last chord of wet length, so
// that loads do not jump when a tip or a joint breaks the surface.
func (w *Workspace) spray(p *wetPiece, end int, pressure float64) frame.Load[frame.Track] {
	share := p.interval.From
	if end == 1 {
		share = p.interval.To
	}
	at := &p.ends[end]
	_, tangent := p.placed.piece.Path.At(share)
	sin := p.placed.pose.Turn.Z(tangent)
	thin := p.placed.piece.Section.Thickness
	cut := 1 / math.Sqrt(sin*sin+thin*thin*(1-sin*sin))
	wet := (p.interval.To - p.interval.From) * p.placed.piece.Path.Length()
	drag := section.SprayDrag(pressure, thin*at.chord) * cut * risen(p.interval.DryBeyond[end]/at.chord) * risen(wet/at.chord)
	return frame.ForceAt(frame.Vec[frame.Track]{X: -drag}, at.quarter)
}

// junction returns the drag of the corner where a piece begins at another's tip:
// half of what two sections add that cross there, so that two wings on an arm
// make one crossing. It fades out over the last chord of depth below the surface.
func (p *wetPiece) junction(pressure float64) frame.Load[frame.Track] {
	s, at := &p.placed.piece.Section, &p.ends[0]
	thickness := s.Thickness * at.chord
	drag := pressure * thickness * thickness * section.CrossingDrag(s.Thickness) / 2 * risen(-at.quarter.Z/at.chord)
	return frame.ForceAt(frame.Vec[frame.Track]{X: -drag}, at.quarter)
}

// risen goes smoothly from 0 at 0 to 1 at 1 (3t² − 2t³).
func risen(t float64) float64 {
	t = math.Min(1, math.Max(0, t))
	return t * t * (3 - 2*t)
}

// gathered is a load that is added up force by force about one point.
type gathered struct{ load frame.Load[frame.Track] }

func at(p frame.Point[frame.Track]) gathered {
	return gathered{frame.Load[frame.Track]{About: p}}
}

func (g *gathered) add(force frame.Vec[frame.Track], place frame.Point[frame.Track]) {
	g.load.Force = g.load.Force.Plus(force)
	g.load.Moment = g.load.Moment.Plus(place.From(g.load.About).Cross(force))
}

// drag adds a force aft.
func (g *gathered) drag(force float64, place frame.Point[frame.Track]) {
	g.load.Force.X -= force
	g.load.Moment.Y -= (place.Z - g.load.About.Z) * force
	g.load.Moment.Z += (place.Y - g.load.About.Y) * force
}
