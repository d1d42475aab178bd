package trim

import (
	"fmt"
	"math"
	"testing"

	"foilwright/accuracy"
	"foilwright/fluid"
	"foilwright/si"
	"foilwright/solve"
)

// idealBoat is a boat whose drag angles in air and water are constant, whatever she
// does, and whose six equations are closed by the controls of a real one. It is put
// to the search as trim puts boats: the same equations as shares of weight and of
// weight times length, the same variables and scales, the same options.
//
// Her sail and her foils lift as linear as can be; her crew hikes as far as it can
// go, so that she carries one side force and no other.
type idealBoat struct {
	aeroDragAngle, hydroDragAngle float64 // rad
	wind                          fluid.Wind
	request                       Request
}

// The ideal boat's figures: invented, and none of them in the closed form.
const (
	idealWeight  = 5000.0 // N
	idealLength  = 4.0    // m
	idealSail    = 9.0    // m², times half the air's density below
	idealEffort  = 2.6    // m, of the sail over the datum
	idealCrew    = 1.3    // m, of the crew's lever
	idealCrewAft = 0.4    // m
	idealRudder  = 2.1    // m, aft of the foil
)

// Entries of the vector.
const (
	idealSpeed = iota
	idealLeeway
	idealHeel
	idealPitch
	idealHeight
	idealAngle
	idealSheet
	idealFlap
	idealTurn
	idealRake
	idealSize
)

func (b *idealBoat) problem() *solve.Problem {
	deg := float64(si.Degree)
	p := &solve.Problem{
		Lower:      []float64{slowest, -8 * deg, -10 * deg, -6 * deg, 0.2, 20 * deg, 0.01, -30 * deg, -30 * deg, -30 * deg},
		Upper:      []float64{80, 8 * deg, 10 * deg, 6 * deg, 0.8, 178 * deg, 3, 30 * deg, 30 * deg, 30 * deg},
		Scale:      []float64{1, 0.01, 0.03, 0.01, 0.1, 0.05, 0.1, deg, deg, deg},
		Equalities: 6, Values: b.values,
	}
	if b.request.Aim == AtAngle {
		p.Lower[idealAngle], p.Upper[idealAngle] = b.request.WindAngle.Radians(), b.request.WindAngle.Radians()
	}
	return p
}

func (b *idealBoat) values(x []float64, v *solve.Values) bool {
	wind := b.wind
	wind.Angle = si.Angle(x[idealAngle])
	speed, angle := wind.Apparent(si.Speed(x[idealSpeed]))
	sin, cos := angle.Sin(), angle.Cos()
	lift := 0.6 * idealSail * speed.MetresPerSecond() * speed.MetresPerSecond() * x[idealSheet]
	drag := lift * math.Tan(b.aeroDragAngle)
	drive, side := lift*sin-drag*cos, lift*cos+drag*sin

	press := 500 * x[idealSpeed] * x[idealSpeed]
	foilSide, rudderSide := 0.3*press*x[idealLeeway], 0.2*press*(x[idealLeeway]+x[idealTurn])
	foilUp, rudderUp := 0.5*press*(x[idealFlap]+x[idealPitch]), 0.2*press*(x[idealRake]+x[idealPitch])
	resistance := math.Tan(b.hydroDragAngle) * (foilSide + rudderSide)

	effort := idealEffort*math.Cos(x[idealHeel]) + x[idealHeight]
	v.F = -b.request.progress(x[idealSpeed], x[idealAngle]) / b.request.unit()
	v.Equal[0] = (drive - resistance) / idealWeight
	v.Equal[1] = (side - foilSide - rudderSide) / idealWeight
	v.Equal[2] = (foilUp + rudderUp - idealWeight) / idealWeight
	v.Equal[3] = (side*effort - idealWeight*idealCrew*math.Cos(x[idealHeel])) / (idealWeight * idealLength)
	v.Equal[4] = (drive*effort + rudderUp*idealRudder - idealWeight*idealCrewAft) / (idealWeight * idealLength)
	v.Equal[5] = (rudderSide*idealRudder - 0.3*side) / (idealWeight * idealLength)
	return true
}

// best searches from the angles that trim starts from and refines, as trim does.
func (b *idealBoat) best(t *testing.T) []float64 {
	t.Helper()
	deg := float64(si.Degree)
	var best solve.Outcome
	for k, share := range []float64{0, 0.5, 1} {
		p := &problem{request: &b.request}
		start := []float64{slowStart * b.request.unit(), 0.5 * deg, 0, 0, 0.5, p.startAngle(share).Radians(), 0.8, 2 * deg, 0, 0}
		o := solve.Options{Iterations: mostIterations, Feasibility: feasible / 10, Stationarity: tight().stationary, StepLimit: 10, Noise: 1e-12}
		out := solve.Minimise(t.Context(), b.problem(), start, o, nil)
		o.Stationarity, o.From, o.Differences = 1e-8, out.Learnt, solve.Central
		if out.Violation > feasible {
			t.Errorf("start %d: %s, equations miss by %.1e", k, out.Status, out.Violation)
			continue
		}
		out = solve.Minimise(t.Context(), b.problem(), out.X, o, nil)
		if k > 0 && math.Abs(out.Values.F-best.Values.F) > 1e-8 {
			t.Errorf("start %d ends at %.9f, an earlier one at %.9f", k, out.Values.F, best.Values.F)
		}
		if k == 0 || out.Values.F < best.Values.F {
			best = out
		}
	}
	return best.X
}

// The course theorem (Lanchester 1907, section 118; Kimball 2010): the apparent
// wind comes from the sum of the drag angles, β; where they are constant speed is
// sin(γ−β)/sin β of the true wind's, progress to windward is most at γ = 45° + β/2
// and to leeward at 135° + β/2, and speed at 90° + β.
func TestCourseTheorem(t *testing.T) {
	betas := numbers(t, "lanchester-1907.csv", "7.05")
	for i, ratio := range [][2]float64{{5, 10}, {6, 8}, {10, 15}} {
		b := &idealBoat{aeroDragAngle: math.Atan(1 / ratio[0]), hydroDragAngle: math.Atan(1 / ratio[1])}
		b.wind = fluid.Wind{Speed: 8, Profile: fluid.Uniform()}
		b.request = Request{WindSpeed: b.wind.Speed}
		conditions := fmt.Sprintf("lift over drag %g in the air and %g in the water", ratio[0], ratio[1])
		for _, aim := range []Aim{Windward, Leeward} {
			b.request.Aim = aim
			x := b.best(t)
			wind := b.wind
			wind.Angle = si.Angle(x[idealAngle])
			_, seen := wind.Apparent(si.Speed(x[idealSpeed]))
			accuracy.Check(t, accuracy.Row{
				File: "lanchester-1907.csv", ID: "7.05", Quantity: "apparent wind angle at the " + aim.String(), Conditions: conditions, Unit: "deg",
				Published: betas[i], Computed: seen.Degrees(), Tolerance: 1e-4,
			})
			beta := betas[i] * float64(si.Degree)
			angle := 45 + betas[i]/2
			if aim == Leeward {
				angle += 90
			}
			accuracy.Check(t, accuracy.Row{
				File: "lanchester-1907.csv", ID: "7.05", Quantity: "true wind angle of " + aim.String() + ", 45° or 135° + β/2", Conditions: conditions, Unit: "deg",
				Published: angle, Computed: wind.Angle.Degrees(), Tolerance: 1e-4,
			})
			accuracy.Check(t, accuracy.Row{
				File: "lanchester-1907.csv", ID: "7.05", Quantity: "speed over the true wind's at " + aim.String() + ", sin(γ−β)/sin β", Conditions: conditions, Unit: "-",
				Published: math.Sin(angle*float64(si.Degree)-beta) / math.Sin(beta), Computed: x[idealSpeed] / float64(b.wind.Speed), Tolerance: 1e-5,
			})
		}
	}
}

// With lift over drag of 5 and 10: most speed at any angle, most progress to
// windward, most to leeward, over the true wind's speed.
func TestCourseTheoremInFigures(t *testing.T) {
	want := numbers(t, "lanchester-1907.csv", "7.07")
	b := &idealBoat{aeroDragAngle: math.Atan(1. / 5), hydroDragAngle: math.Atan(1. / 10), wind: fluid.Wind{Speed: 8}}
	b.request = Request{WindSpeed: 8, Aim: AtAngle, WindAngle: 90*si.Degree + si.Angle(b.aeroDragAngle+b.hydroDragAngle)}
	progress := func() float64 {
		x := b.best(t)
		return b.request.progress(x[idealSpeed], x[idealAngle]) / 8
	}
	check := func(quantity string, published, computed float64) {
		accuracy.Check(t, accuracy.Row{
			File: "lanchester-1907.csv", ID: "7.07", Quantity: quantity, Conditions: "lift over drag 5 in the air and 10 in the water", Unit: "-",
			Published: published, Computed: computed, Tolerance: 1e-5,
		})
	}
	most := progress()
	check("speed over the true wind's at 90° + β", want[0], most)
	for _, off := range []si.Angle{-si.Degree, si.Degree} {
		aside := *b
		aside.request.WindAngle += off
		if x := aside.best(t); x[idealSpeed]/8 >= most {
			t.Errorf("%v aside of 90° + β speed is no less", off)
		}
	}
	b.request.Aim = Windward
	check("most progress to windward over the true wind's speed", want[1], progress())
	b.request.Aim = Leeward
	check("most progress to leeward over the true wind's speed", want[2], progress())
}
