package sail

import (
	"math"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
)

// What a strip's section costs beyond its table, on its own area.
const (
	// liftDrag is the growth of section drag with lift squared (Hazen 1980, as
	// printed in Larsson & Eliasson: from memory).
	liftDrag = 0.005
	// yield is by how much, at most, a lift coefficient comes to lie above the
	// largest: what is asked beyond is lost. Judgement: small, so that the slope
	// a solver sees is real and the gain is not.
	yield = 0.1
	// stallDrag is the drag coefficient for each square of lift coefficient
	// asked beyond the largest, and mostStallDrag where it levels out: a plate
	// across the flow. Judgement.
	stallDrag     = 4.0
	mostStallDrag = 1.0
)

// Loads appends what the wind pushes on the boat with, and returns items: for
// each sail of the set its lift, its induced drag and its section drag, about
// the luff's middle, then each windage about its own middle. A negative set is
// bare poles. The boat must pass [Check] and settings must be one for each
// control. In steady state it allocates nothing but what items grows by.
//
// The air meets the boat with the wind's profile at each strip's height less the
// boat's velocity; what the sails disturb in it is the wakes' part alone. In
// the plane normal to the luff a strip stands at the incidence above zero lift
//
//	α(η) = sheet + (wind angle(η) − wind angle(½)) − twist·(η − ½),
//
// η the share of the luff, so that a freer wind aloft adds to it, and positive
// sheet always pulls to leeward of the apparent wind. Circulation is Prandtl's
// (1918), see wake.take. Lift is Kutta–Joukowski with the undisturbed local
// wind, ρ·Γ·W×ds with ds along the luff, at the quarter chord; induced drag of a strip is ρ·Γ·w times
// its length seen along the wake, w being half its value far downstream, along
// the wake: summed over all sails this is the drag of the far wake (Munk 1921).
// Section drag acts along the local wind on the strip's area with the table's
// coefficient plus 0.005·cl², times the model's sail drag; a table that goes by
// incidence holds all of a section's drag, and nothing is added. Past the largest
// lift coefficient the lift yields, and drag is added, both with a continuous
// slope: see [LargestLift] and [Margins]. What flattening does to both is told at
// flatLift and entry.
//
// Checked against elliptic and rectangular wings, and sails over a wall with and
// without a gap; see the package for what is left out. With the wind from
// astern the linear incidence means little: there the tables carry the answer.
func Loads(b *boat.Boat, set int, s boat.State, wind fluid.Wind, air fluid.Air, w *Workspace, items []boat.Item) []boat.Item {
	w.shape(b, set)
	w.place(b, s, wind)
	w.pull(s.Settings, air.Density)
	for i := range w.sails {
		r := &w.sails[i]
		items = append(items,
			boat.Item{Part: r.sail.Name, Cause: boat.SailLift, Load: r.lift},
			boat.Item{Part: r.sail.Name, Cause: boat.SailInduced, Load: r.induced},
			boat.Item{Part: r.sail.Name, Cause: boat.SailSection, Load: r.section})
	}
	return w.windages(b, &s, wind, air.Density, items)
}

// pull solves for the circulation under settings and sums every sail's loads.
func (w *Workspace) pull(settings []float64, density float64) {
	if w.pulled(settings, density) {
		return
	}
	for i := range w.sails {
		r := &w.sails[i]
		zero := frame.Load[frame.Track]{About: r.about}
		r.lift, r.induced, r.section, r.sheetLoad = zero, zero, zero, 0
		r.atSheet = sheetCentre(r.flat) / (r.sail.Foot * r.luff.Z)
	}
	for i := range w.strips {
		t := &w.strips[i]
		r := &w.sails[t.sail]
		w.incidence[i] = r.sheet + t.freer - r.twist*(t.eta-0.5)
		w.wake.flow[i] = t.normal * w.incidence[i]
	}
	if w.solved {
		w.circulate()
	} else {
		clear(w.circulation)
		clear(w.downwash)
	}
	for i := range w.strips {
		w.sections[i] = w.section(i)
		w.load(i, density)
	}
	for i := range w.sails {
		w.margin(i)
	}
}

// pulled takes the sails' settings and tells whether the loads at hand are
// theirs already: what else is set, of foils and people, leaves sails alone.
func (w *Workspace) pulled(settings []float64, density float64) bool {
	same := w.density == density
	w.density = density
	for i := range w.sails {
		r := &w.sails[i]
		sheet, twist, flat := setting(settings, r.sail.Sheet), setting(settings, r.sail.Twist), setting(settings, r.sail.Flatten)
		same = same && r.sheet == sheet && r.twist == twist && r.flat == flat
		r.sheet, r.twist, r.flat = sheet, twist, flat
	}
	return same
}

// setting returns a control's setting, zero where there is no control.
func setting(settings []float64, control int) float64 {
	if control < 0 {
		return 0
	}
	return settings[control]
}

// liftCoefficient returns a strip's lift coefficient in the plane normal to the
// luff, 2Γ/(c·W); in no wind it is zero.
func (w *Workspace) liftCoefficient(i int) float64 {
	t := &w.strips[i]
	speed := t.normal
	return 2 * w.circulation[i] * speed / (t.chord*speed*speed + 1e-12*t.chord)
}

// stalled returns what is left of a lift coefficient where the largest is
// known, and the drag coefficient that going beyond it costs.
func stalled(asked, largest float64) (lift, drag float64) {
	beyond := math.Abs(asked) - largest
	if beyond <= 0 {
		return asked, 0
	}
	cost := stallDrag * beyond * beyond
	return math.Copysign(largest+beyond/(1+beyond/yield), asked), cost / (1 + cost/mostStallDrag)
}

// section is what a strip's section makes of the lift that it is asked for.
type section struct {
	asked   float64 // lift coefficient in the plane normal to the luff
	largest float64 // that it can have, either way
	held    float64 // share of the asked that is left
	drag    float64 // section drag coefficient, with what going beyond the largest costs
}

// section reads the sail's table for one strip.
func (w *Workspace) section(i int) section {
	r := &w.sails[w.strips[i].sail]
	s := section{asked: w.liftCoefficient(i), largest: r.largest, held: 1, drag: r.drag}
	c := &r.sail.Coefficients
	if c.Against == boat.Incidence {
		// The lifting line's incidence, less the wakes' part: Γ = ½·c·a₀·(W·α − w).
		at := math.Abs(s.asked) / liftSlope
		s.largest, s.drag = monotone(c.Angle, c.Lift, at), monotone(c.Angle, c.Drag, at)
	}
	s.largest *= 1 - flatLift*r.flat
	cl, stall := stalled(s.asked, s.largest)
	if s.asked != cl {
		s.held = cl / s.asked
	}
	if c.Against == boat.WindAngle {
		s.drag += liftDrag * cl * cl
	}
	s.drag = r.dragFactor*s.drag*entry(math.Abs(cl), r.flat) + stall
	return s
}

// forces returns one strip's lift, induced drag and section drag, N.
func (w *Workspace) forces(i int, density float64) (lift, induced, drag frame.Vec[frame.Track]) {
	t, s := &w.strips[i], &w.sections[i]
	circulation := w.circulation[i]
	lift = t.span.Cross(t.wind).Times(density * w.windward * circulation * s.held)
	induced = w.wake.along.Times(density * circulation * w.downwash[i] * w.wake.segments[i].length)
	drag = t.wind.Times(density / 2 * t.wind.Norm() * t.area * s.drag)
	return lift, induced, drag
}

// load adds one strip's loads to its sail's.
func (w *Workspace) load(i int, density float64) {
	t := &w.strips[i]
	r := &w.sails[t.sail]
	lift, induced, drag := w.forces(i, density)
	add(&r.lift, lift, t.at)
	add(&r.induced, induced, t.at)
	add(&r.section, drag, t.at)
	// The force across the chord turns the sail about its luff; the sheet holds it at the foot's end.
	r.sheetLoad += math.Copysign(lift.Norm(), w.circulation[i]) * t.chord * r.atSheet
}

// add adds a force at a point to a load.
func add(l *frame.Load[frame.Track], force frame.Vec[frame.Track], at frame.Point[frame.Track]) {
	l.Force = l.Force.Plus(force)
	l.Moment = l.Moment.Plus(at.From(l.About).Cross(force))
}
