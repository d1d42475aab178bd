package polar

import (
	"context"
	"math"

	"foilwright/boat"
	"foilwright/si"
	"foilwright/trim"
)

// TakeOff is how one boat comes out of the water: the least true wind that she
// needs for each steady speed, afloat, flying and between, at one true wind angle,
// with everything else at its best. Where that wind falls with rising speed there
// is no steady sailing in a rising wind: she accelerates to the speed beyond at
// which the same wind holds her again.
type TakeOff struct {
	Boat     string   `json:"boat"`
	WindFrom string   `json:"wind_from"`
	Angle    si.Angle `json:"true_wind_angle_rad"` // asked for, else that at which she flies in the least wind
	Way

	// Flying is the least wind in which she flies as her limits say; nil where
	// there is none, or where they keep a hull in the water.
	Flying *Rung `json:"flying"`
	// Lifts is where the hull leaves the water as speed rises; nil where it does not.
	Lifts *Rung `json:"hull_leaves_the_water"`
	// Hump is where the wind needed is largest below the speed of flight: the end of
	// the branch afloat in a rising wind. Nil where the wind needed rises all the way.
	Hump *Rung `json:"hump"`
	// After is the least wind needed beyond the hump: the end of the branch beyond it
	// in a falling wind.
	After *Rung `json:"after_the_hump"`
	// MostDrag is where drag in the water is largest below the least beyond it.
	MostDrag *Rung `json:"most_drag"`

	KeptIn bool   `json:"kept_in"` // her limits keep a hull in the water: flight is not looked for
	Rungs  []Rung `json:"rungs"`   // by rising speed
}

// Rung is one steady speed and the least wind that it needs.
type Rung struct {
	Speed      si.Speed    `json:"speed_mps"`
	Answer     trim.Answer `json:"answer"`
	Wind       si.Speed    `json:"true_wind_speed_mps"`
	RideHeight float64     `json:"ride_height_m"`
	OnHulls    float64     `json:"share_on_hulls"` // of the weight
	Carrying   string      `json:"carrying"`       // flying, partly lifted or afloat
	Drag       float64     `json:"drag_in_water_N"`
	OfHulls    float64     `json:"drag_of_hulls_N"`
	Heel       si.Angle    `json:"heel_rad"`
	Leeway     si.Angle    `json:"leeway_rad"`
	Reason     string      `json:"reason,omitempty"` // of a speed without an answer

	trim *trim.Result
}

// Hysteresis returns the winds between which both branches exist: below the first
// she sails on the lower branch alone, above the second on the upper alone. False
// where there are none.
func (t *TakeOff) Hysteresis() (from, to si.Speed, both bool) {
	if t.Hump == nil || t.After == nil || t.After.Wind >= t.Hump.Wind {
		return 0, 0, false
	}
	return t.After.Wind, t.Hump.Wind, true
}

// How the speeds are laid, and what is looked for where a boat does not fly.
// Judgement.
const (
	rungs          = 14
	slowestRung    = 0.3  // of the speed of flight in the least wind
	fastestRung    = 1.05 // of it
	slowRung       = 0.15 // Froude number on the boat's length, where she never flies
	fastRung       = 1.0
	flightStarts   = 8 // of the search for the least wind to fly in: it is level around its optimum
	usualReach     = 105 * si.Degree
	firstGuess     = si.Speed(5) // true wind, m/s
	drawnHump      = 2           // rungs that are added at the hump
	dragWorthAHump = 1e-3        // share by which a peak must stand over what follows
)

// TakeOffSteps is how many steps of work a take-off is at most, for a display of
// progress.
const TakeOffSteps = rungs + drawnHump + 1

// TakeOffOf finds how a boat takes off. Base is as in Request; its true wind angle,
// where above 0, is the angle.
func TakeOffOf(ctx context.Context, b *boat.Boat, base trim.Request, step func(done int)) (*TakeOff, error) {
	var w trim.Workspace
	done := 0
	count := func() {
		if done++; step != nil {
			step(done)
		}
	}
	wide := LeastWindToFly(base)
	r := wide
	r.Starts = base.Starts
	t := &TakeOff{Boat: b.Name, KeptIn: !MayFly(b), Rungs: []Rung{}}
	low, high := speedsOf(b)
	var from *trim.Result
	if !t.KeptIn {
		best, err := bestTrim(ctx, b, wide, &w)
		if err != nil {
			return nil, err
		}
		if best.Answer == trim.Found {
			rung := rungOf(best)
			t.Flying = &rung
			r.WindAngle, r.Mode, r.Set, from = best.TrueWindAngle, best.Mode, best.Set, best
			low, high = si.Speed(slowestRung)*best.Speed, si.Speed(fastestRung)*best.Speed
		}
	}
	count()
	if r.WindAngle == 0 {
		r.WindAngle = usualReach
	}
	t.Angle = r.WindAngle
	if err := t.climb(ctx, b, r, low, high, from, &w, count); err != nil {
		return nil, err
	}
	t.read()
	return t, nil
}

// LeastWindToFly returns the request for the least wind in which a boat flies as her
// limits say, whatever base says of wind speed and aim; its true wind angle, where
// above 0, is the angle. The boat should be one that [MayFly].
func LeastWindToFly(base trim.Request) trim.Request {
	base.Aim, base.WindSpeed, base.Why, base.Starts = trim.LeastWind, firstGuess, trim.Shortfalls, flightStarts
	return base
}

// MayFly tells whether a boat's limits let every hull out of the water.
func MayFly(b *boat.Boat) bool {
	for i := range b.Limits {
		if l := &b.Limits[i]; l.Kind == boat.LimitRideHeight && (l.Upper <= 0 || l.Lower < 0) {
			return false
		}
	}
	return true
}

// climb finds the rungs from the fastest down, each from the one before, and
// some more at the hump.
func (t *TakeOff) climb(ctx context.Context, b *boat.Boat, r trim.Request, low, high si.Speed, from *trim.Result, w *trim.Workspace, count func()) error {
	r.Branch = trim.AnyHeight
	held := append([]trim.Hold(nil), r.Holds...)
	at := func(speed si.Speed) (Rung, error) {
		r.Holds = append(append([]trim.Hold(nil), held...), trim.Hold{Name: "speed", Value: speed.MetresPerSecond()})
		if r.From = from; from != nil {
			r.WindSpeed = from.TrueWindSpeed
		}
		res, err := bestTrim(ctx, b, r, w)
		if err != nil {
			return Rung{}, err
		}
		if res.Answer == trim.Found {
			from = res
			t.WindFrom, t.Mode, t.Set = res.WindFrom, res.Mode, res.Set
		}
		rung := rungOf(res)
		rung.Speed = speed
		count()
		return rung, nil
	}
	for k := range rungs {
		rung, err := at(high + (low-high)*si.Speed(k)/(rungs-1))
		if err != nil {
			return err
		}
		t.Rungs = append([]Rung{rung}, t.Rungs...)
	}
	for range drawnHump {
		k := t.hump()
		if k < 1 || k+1 >= len(t.Rungs) {
			return nil
		}
		// The wider neighbour of the highest rung is halved.
		into := k + 1
		if t.Rungs[k].Speed-t.Rungs[k-1].Speed > t.Rungs[k+1].Speed-t.Rungs[k].Speed {
			into = k
		}
		from = t.Rungs[k].trim
		rung, err := at((t.Rungs[into-1].Speed + t.Rungs[into].Speed) / 2)
		if err != nil {
			return err
		}
		t.Rungs = append(t.Rungs[:into], append([]Rung{rung}, t.Rungs[into:]...)...)
	}
	return nil
}

func rungOf(r *trim.Result) Rung {
	rung := Rung{
		Speed: r.Speed, Answer: r.Answer, Wind: r.TrueWindSpeed, RideHeight: r.RideHeight, OnHulls: r.OnHulls, Carrying: r.Carrying,
		Drag: r.Drag.Water(), OfHulls: r.Drag[boat.HullDrag], Heel: r.Heel, Leeway: r.Leeway, trim: r,
	}
	if r.Reason != nil {
		rung.Reason = r.Reason.Words
	}
	return rung
}

// peak returns the rung at which a figure is largest before it falls by more than
// rounding, −1 where it does not fall.
func (t *TakeOff) peak(figure func(*Rung) float64) int {
	top := -1
	for k := range t.Rungs {
		r := &t.Rungs[k]
		switch {
		case r.Answer != trim.Found:
		case top < 0 || figure(r) >= figure(&t.Rungs[top]):
			top = k
		}
	}
	// The fastest rungs may need more wind than any below: then the hump is the
	// largest below the least beyond it.
	for {
		least := -1
		for k := top + 1; k < len(t.Rungs); k++ {
			if r := &t.Rungs[k]; r.Answer == trim.Found && (least < 0 || figure(r) < figure(&t.Rungs[least])) {
				least = k
			}
		}
		if top < 0 || least >= 0 && figure(&t.Rungs[least]) < figure(&t.Rungs[top])*(1-dragWorthAHump) {
			return top
		}
		before := top
		top = -1
		for k := range before {
			if r := &t.Rungs[k]; r.Answer == trim.Found && (top < 0 || figure(r) >= figure(&t.Rungs[top])) {
				top = k
			}
		}
	}
}

func (t *TakeOff) hump() int {
	return t.peak(func(r *Rung) float64 { return r.Wind.MetresPerSecond() })
}

// read reads hump, lift and drag off the rungs.
func (t *TakeOff) read() {
	if k := t.hump(); k >= 0 {
		t.Hump = &t.Rungs[k]
		for j := k + 1; j < len(t.Rungs); j++ {
			if r := &t.Rungs[j]; r.Answer == trim.Found && (t.After == nil || r.Wind < t.After.Wind) {
				t.After = r
			}
		}
		if t.Flying != nil && t.After != nil && t.Flying.Wind < t.After.Wind {
			t.After = t.Flying
		}
	}
	if k := t.peak(func(r *Rung) float64 { return r.Drag }); k >= 0 {
		t.MostDrag = &t.Rungs[k]
	}
	var below *Rung
	for k := range t.Rungs {
		above := &t.Rungs[k]
		if above.Answer != trim.Found {
			continue
		}
		if below != nil && below.RideHeight < 0 && above.RideHeight >= 0 {
			t.Lifts = between(below, above)
			return
		}
		below = above
	}
}

// between returns where the hull is at the surface between two rungs.
func between(below, above *Rung) *Rung {
	share := below.RideHeight / (below.RideHeight - above.RideHeight)
	mix := func(a, b float64) float64 { return a + (b-a)*share }
	lifts := *above
	lifts.Speed = si.Speed(mix(float64(below.Speed), float64(above.Speed)))
	lifts.Wind = si.Speed(mix(float64(below.Wind), float64(above.Wind)))
	lifts.Drag, lifts.OfHulls = mix(below.Drag, above.Drag), 0
	lifts.RideHeight, lifts.OnHulls = 0, 0
	return &lifts
}

// speedsOf is where a boat that never flies is looked at.
func speedsOf(b *boat.Boat) (low, high si.Speed) {
	unit := math.Sqrt(si.Gravity * b.Length)
	return si.Speed(slowRung * unit), si.Speed(fastRung * unit)
}
