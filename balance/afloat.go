package balance

import (
	"fmt"
	"math"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/foil"
	"foilwright/frame"
	"foilwright/hull"
	"foilwright/si"
	"foilwright/solve"
)

// AtRest is a boat that lies still, in no wind, on the water: how she floats.
type AtRest struct {
	Heel    si.Angle `json:"heel_rad"`    // positive starboard down
	Pitch   si.Angle `json:"pitch_rad"`   // positive bow down
	Height  float64  `json:"height_m"`    // of the datum above the water
	Draught float64  `json:"draught_m"`   // of the hulls' lowest point
	Length  float64  `json:"waterline_m"` // of the longest hull, level at the boat's whole weight
	// MetacentricHeight is that of small heel about this attitude, m; negative where
	// the boat falls over unless something moves to hold her.
	MetacentricHeight float64     `json:"metacentric_height_m"`
	OnHulls           float64     `json:"share_on_hulls"` // of the weight; foils and bodies float the rest
	Hulls             []hull.Rest `json:"hulls"`          // level and upright at the boat's whole weight
	Residual          float64     `json:"residual"`       // the largest sum left over, of weight and weight times length
	State             boat.State  `json:"-"`
	Loads             []boat.Item `json:"-"` // weights and buoyancy
}

// How far a boat at rest is looked for. Judgement: wider than any that is sound.
const (
	widestRestHeel  = 75 * si.Degree
	widestRestPitch = 20 * si.Degree
	restResidual    = 1e-10
	restFound       = 1e-8
)

// Level returns settings with which a boat lies at rest: where every control
// starts, but weights that move sideways or swing amidships, as near as their
// ranges allow.
func Level(b *boat.Boat) []float64 {
	settings := b.Starts()
	amidships := func(control int) {
		if control >= 0 {
			c := &b.Controls[control]
			settings[control] = math.Min(math.Max(0, c.Lower), c.Upper)
		}
	}
	for i := range b.Weights {
		amidships(b.Weights[i].Shift[1])
		amidships(b.Weights[i].Swing.Control)
	}
	for i := range b.Foils {
		f := &b.Foils[i]
		if f.Side != boat.Centre {
			continue
		}
		for k := range f.Moves {
			if f.Moves[k].Kind == boat.Turn && math.Abs(f.Moves[k].Axis.X) > math.Sqrt(0.5) {
				amidships(f.Moves[k].Control) // a keel that cants
			}
		}
	}
	return settings
}

// Afloat finds how a boat lies at rest with given settings: heel, pitch and height
// at which weights and the buoyancy of hulls, foils and bodies balance. An error
// tells that she does not float, or that no rest was found.
func Afloat(b *boat.Boat, settings []float64, water fluid.Water, w *Workspace) (*AtRest, error) {
	rests, height := hull.RestOf(b, &w.Hull)
	r := &AtRest{Hulls: rests}
	for i := range rests {
		r.Length = math.Max(r.Length, rests[i].Length)
	}
	if r.Length == 0 {
		return nil, fmt.Errorf("%s: no hull has sections, so she does not float\nhint: write  hulls: {hull: {sections: […]}}", b.Name)
	}
	s := boat.State{Settings: append([]float64(nil), settings...)}
	weight, arm := b.Weight(), b.Weight()*b.Length
	var failure error
	sums := func(x, residual []float64) bool {
		s.Attitude = boat.Attitude{Heel: si.Angle(x[0]), Pitch: si.Angle(x[1]), Height: x[2]}
		b.ObeyLaws(&s)
		var err error
		if r.Loads, err = static(b, s, water, w, r.Loads[:0]); err != nil {
			failure = err
			return false
		}
		sum := frame.Load[frame.Track]{About: s.Attitude.Pose().Origin}
		for i := range r.Loads {
			sum = sum.Plus(r.Loads[i].Load)
		}
		residual[0], residual[1], residual[2] = sum.Moment.X/arm, sum.Moment.Y/arm, sum.Force.Z/weight
		return true
	}
	heel, pitch := widestRestHeel.Radians(), widestRestPitch.Radians()
	out := solve.Newton(sums, []float64{0, 0, height}, []float64{-heel, -pitch, height - b.Length}, []float64{heel, pitch, height + b.Length},
		[]float64{0.05, 0.02, 0.1}, solve.RootOptions{Residual: restResidual, StepLimit: 4, Iterations: 100})
	if failure != nil {
		return nil, fmt.Errorf("%s: %w", b.Name, failure)
	}
	if !(out.Worst <= restFound) {
		return nil, fmt.Errorf("%s: no rest afloat was found within %.0f deg of heel and %.0f deg of pitch: sums miss by %.1g of weight\nhint: look at where weights are, and whether the hulls can carry them",
			b.Name, widestRestHeel.Degrees(), widestRestPitch.Degrees(), out.Worst)
	}
	r.Heel, r.Pitch, r.Height, r.Residual = s.Attitude.Heel, s.Attitude.Pitch, s.Attitude.Height, out.Worst
	r.State = s.Clone()
	r.Draught = -b.RideHeight(s.Attitude)
	r.stability(b, water, w)
	return r, nil
}

// static appends weights and buoyancy of a boat that lies still.
func static(b *boat.Boat, s boat.State, water fluid.Water, w *Workspace, items []boat.Item) ([]boat.Item, error) {
	items = appendWeights(b, s, nil, items)
	from := len(items)
	items = hull.Loads(b, s, water, &w.Hull, items)
	items, err := foil.Loads(b, s, water, &w.Foil, items)
	if err != nil {
		return items, err
	}
	kept := items[:from]
	for _, it := range items[from:] {
		if it.Cause == boat.Buoyancy {
			kept = append(kept, it)
		}
	}
	return kept, nil
}

// stability reads metacentric height and the hulls' share off the loads: the
// metacentre lies above the centre of buoyancy by the waterplane's second moment
// over the volume displaced (Bouguer 1746), all hulls' waterplanes about their
// common axis.
func (r *AtRest) stability(b *boat.Boat, water fluid.Water, w *Workspace) {
	var up, down frame.Vec[frame.Track]
	total, weight, hulls := 0.0, 0.0, 0.0
	for i := range r.Loads {
		it := &r.Loads[i]
		if it.Cause == boat.Gravity {
			down = down.Plus(frame.Vec[frame.Track](it.Load.About).Times(-it.Load.Force.Z))
			weight -= it.Load.Force.Z
			continue
		}
		up = up.Plus(frame.Vec[frame.Track](it.Load.About).Times(it.Load.Force.Z))
		total += it.Load.Force.Z
	}
	area, first, second := 0.0, 0.0, 0.0
	for _, m := range hull.Wet(b, r.State.Attitude, &w.Hull) {
		y := m.WaterplaneCentre.Y
		area += m.Waterplane
		first += m.Waterplane * y
		second += m.AcrossInertia + m.Waterplane*y*y
		hulls += water.Density * si.Gravity * m.Volume
	}
	if area == 0 || total == 0 || weight == 0 {
		return
	}
	inertia := second - first*first/area
	r.OnHulls = hulls / weight
	r.MetacentricHeight = up.Z/total - down.Z/weight + inertia*water.Density*si.Gravity/total
}
