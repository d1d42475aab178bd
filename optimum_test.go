package foilwright_test

import (
	"bytes"
	"flag"
	"math"
	"testing"

	"foilwright/boat"
	"foilwright/si"
	"foilwright/trim"
)

// optimumCase is one example in one wind.
type optimumCase struct {
	file, mode string
	knots      float64
}

func (c optimumCase) request(aim trim.Aim) trim.Request {
	r := request(c.knots)
	r.Mode, r.Aim, r.Why = c.mode, aim, trim.Shortfalls
	return r
}

// optimumCases are one boat of each kind. In 14 kn to windward Bramble is on a flat hill, on
// which ripples of the lattice once made two optima, at 3.0° and 1.8° of leeway.
func optimumCases() []optimumCase {
	return []optimumCase{
		{"examples/dinghy/sloe.yaml", "", 9},
		{"examples/dinghy/sloe.yaml", "", 16},
		{"examples/catamaran/bramble.yaml", "", 14},
		{"examples/which-foil/tansy.yaml", "tip out", 17},
		{"examples/twenty-metre/hawthorn.yaml", "one foil", 17},
		{"examples/keelboat/guelder.yaml", "", 18},
	}
}

// A best angle is a stationary point: sailed 1° higher or lower, trimmed anew from
// there, no boat makes better progress by more than 1e-5; and a second run from
// other starts finds no more than 0.05 % better.
func TestBestAnglesAreStationary(t *testing.T) {
	for _, c := range optimumCases() {
		b := example(t, c.file)
		for _, aim := range []trim.Aim{trim.Windward, trim.Leeward} {
			res := best(t, b, c.request(aim))
			if res.Answer != trim.Found {
				t.Errorf("%s, %s in %g kn: no answer: %s", b.Name, aim, c.knots, res.Reason.Words)
				continue
			}
			progress := float64(res.Progress())
			for _, off := range []si.Angle{-si.Degree, si.Degree} {
				r := c.request(trim.AtAngle)
				r.WindAngle, r.From, r.Starts = res.TrueWindAngle+off, res, trim.OnlyFrom
				aside := best(t, b, r)
				if aside.Answer != trim.Found {
					continue
				}
				if gain := math.Abs(float64(aside.VMG))/progress - 1; gain > 1e-5 {
					t.Errorf("%s, %s in %g kn, best at %.2f°: %+.0f° of it is better by %.1e", b.Name, aim, c.knots, res.TrueWindAngle.Degrees(), off.Degrees(), gain)
				}
			}
			r := c.request(aim)
			r.Scatter, r.Starts = 20, 5
			if other := best(t, b, r); other.Answer == trim.Found {
				gain := float64(other.Progress())/progress - 1
				t.Logf("%s, %s in %g kn: %.4f m/s at %.1f°, from other starts %+.1e", b.Name, aim, c.knots, progress, res.TrueWindAngle.Degrees(), gain)
				if gain > 5e-4 {
					t.Errorf("%s, %s in %g kn: other starts find %.3f %% better, pitch %.2f for %.2f°, heel %.1f for %.1f°", b.Name, aim, c.knots, 100*gain,
						other.Pitch.Degrees(), res.Pitch.Degrees(), other.Heel.Degrees(), res.Heel.Degrees())
				}
			}
		}
	}
}

// Where flight ends downwind a dinghy has several optima beside one another, by which
// end of the hull is lowest: single starts used to miss the best by 1.7 %.
func TestOptimaNearTheEndOfFlight(t *testing.T) {
	b := example(t, "examples/dinghy/sloe.yaml")
	r := request(12)
	r.Aim, r.WindAngle, r.Why = trim.AtAngle, 134*si.Degree, trim.Shortfalls
	usual := best(t, b, r)
	r.Scatter, r.Starts = 7, 8
	scattered := best(t, b, r)
	t.Logf("%.4f m/s, from other starts %.4f", usual.Speed, scattered.Speed)
	if gain := float64(scattered.Speed/usual.Speed) - 1; !(gain <= 5e-4) {
		t.Errorf("other starts find %.3f %% better", 100*gain)
	}
}

// Optima that usual starts used to miss: between a hull that floats and one that is all
// but lifted a keelboat has a hump, and optima on either side of it, bow up and level, with
// one set of sails and the other; where the bend of a foil that is drawn up hangs at the
// surface; and the catamaran's best angle in light wind. Now no more
// than 0.05 % is missed of the most that any starts have found.
func TestOptimaThatWereMissed(t *testing.T) {
	const keelboat = "examples/keelboat/guelder.yaml"
	for _, c := range []struct {
		file  string
		knots float64
		aim   trim.Aim
		angle float64 // deg, of trim.AtAngle
		found float64 // the most progress found from any starts, m/s
	}{
		{"examples/catamaran/bramble.yaml", 10, trim.Windward, 0, 6.0333},
		{keelboat, 15, trim.Leeward, 0, 7.3663}, {keelboat, 16, trim.Leeward, 0, 7.9889}, {keelboat, 20, trim.Leeward, 0, 10.9350}, {keelboat, 20, trim.Windward, 0, 4.1573},
		{keelboat, 9, trim.AtAngle, 120, 5.6707}, {keelboat, 10, trim.AtAngle, 121.25, 5.8912}, {keelboat, 14, trim.AtAngle, 114, 8.7665},
		{keelboat, 17, trim.AtAngle, 75, 7.0046}, {keelboat, 14, trim.AtAngle, 120, 10.5098}, {keelboat, 21, trim.AtAngle, 120, 13.4083},
		{keelboat, 19, trim.AtAngle, 105, 11.0366}, {keelboat, 24, trim.AtAngle, 105, 11.6423},
	} {
		b := example(t, c.file)
		r := request(c.knots)
		r.Aim, r.WindAngle, r.Why = c.aim, si.Angle(c.angle)*si.Degree, trim.Shortfalls
		usual := best(t, b, r)
		loss := 1 - float64(usual.Progress())/c.found
		t.Logf("%s, %g kn, %s %g: %.4f m/s, %.3f %% less than any", b.Name, c.knots, c.aim, c.angle, usual.Progress(), 100*loss)
		if usual.Answer != trim.Found || loss > 5e-4 {
			t.Errorf("%s, %g kn, %s %g: %.4f m/s, %.4f is known", b.Name, c.knots, c.aim, c.angle, usual.Progress(), c.found)
		}
	}
}

var widely = flag.Int("widely", 0, "seeds of random starts that every example is searched from in many winds")

// On every example, in many winds, to windward and leeward and at angles between, random
// starts find nothing that is better by more than 0.05 %. It takes a quarter of an hour a seed:
//
//	go test -run TestOtherStartsFindNoBetter -widely 2 -timeout 6h .
func TestOtherStartsFindNoBetter(t *testing.T) {
	if *widely <= 0 {
		t.Skip("a long test, asked for with -widely")
	}
	for _, file := range []string{"which-foil/sorrel", "which-foil/tansy", "twenty-metre/hawthorn", "dinghy/sloe", "dinghy/spindle", "catamaran/bramble", "keelboat/guelder"} {
		b := example(t, "examples/"+file+".yaml")
		t.Run(b.Name, func(t *testing.T) {
			for _, knots := range []float64{7, 9, 10, 12, 14, 15, 16, 17, 18, 19, 20, 22, 24} {
				for _, angle := range []float64{0, 180, 75, 90, 105, 120, 135} {
					searchWidely(t, b, knots, angle)
				}
			}
		})
	}
}

// searchWidely holds the usual starts against random ones at an angle: best progress to
// windward at 0°, to leeward at 180°.
func searchWidely(t *testing.T, b *boat.Boat, knots, angle float64) {
	t.Helper()
	r := request(knots)
	r.Why, r.Aim, r.WindAngle = trim.Shortfalls, trim.AtAngle, si.Angle(angle)*si.Degree
	switch angle {
	case 0:
		r.Aim = trim.Windward
	case 180:
		r.Aim = trim.Leeward
	}
	usual := best(t, b, r)
	for seed := range *widely {
		r.Scatter, r.Starts = 11+uint64(seed)*7, 5
		other := best(t, b, r)
		switch {
		case other.Answer != trim.Found:
		case usual.Answer != trim.Found:
			t.Errorf("%g kn, %g°: only other starts sail, at %.4f m/s", knots, angle, other.Progress())
		case float64(other.Progress()/usual.Progress())-1 > 5e-4:
			t.Errorf("%g kn, %g°: %.4f m/s, seed %d finds %.4f, %.3f %% better", knots, angle, usual.Progress(), r.Scatter, other.Progress(), 100*(float64(other.Progress()/usual.Progress())-1))
		}
	}
}

// wideCant is Sorrel with room for her leeward foil on either side of the best cant.
func wideCant(t *testing.T) *boat.Boat {
	t.Helper()
	b, err := fetched(t, "examples/which-foil/sorrel.yaml", func(_ string, text []byte) []byte {
		return bytes.ReplaceAll(text, []byte("leeward main: {cant: 8 to 22 deg}"), []byte("leeward main: {cant: 8 to 60 deg}"))
	})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// Interior optima: cant, twist and ride height settle between their limits, and
// there progress is stationary: held a little to either side, with all else trimmed
// anew, it falls both ways, and the parabola through the three has its top where the
// search came to rest.
func TestInteriorOptima(t *testing.T) {
	b := wideCant(t)
	r := request(14)
	r.Mode, r.Set = "one foil", "working"
	res := best(t, b, r)
	if res.Answer != trim.Found {
		t.Fatalf("no answer: %s", res.Reason.Words)
	}
	deg := float64(si.Degree)
	for _, c := range []struct {
		name string
		step float64
	}{{"starboard main cant", 1 * deg}, {"main twist", 2 * deg}, {"jib twist", 2 * deg}, {"ride height", 0.04}} {
		at, lower, upper := settled(t, res, c.name)
		if !(at > lower+c.step && at < upper-c.step) {
			t.Errorf("%s settles at %.4f, not between %.4f and %.4f", c.name, at, lower, upper)
			continue
		}
		held := func(off float64) float64 {
			h := r
			h.Holds, h.From, h.Starts = []trim.Hold{{Name: c.name, Value: at + off}}, res, trim.OnlyFrom
			aside := best(t, b, h)
			if aside.Answer != trim.Found {
				t.Fatalf("%s held at %.4f: no answer", c.name, at+off)
			}
			return float64(aside.Progress()/res.Progress()) - 1
		}
		less, more := held(-c.step), held(c.step)
		top := c.step * (less - more) / (2 * (less + more))
		t.Logf("%s %.4f between %.4f and %.4f: %+.2e and %+.2e at ∓%.3f, top at %+.4f", c.name, at, lower, upper, less, more, c.step, top)
		if !(less < 0 && more < 0) || math.Abs(top) > 0.15*c.step {
			t.Errorf("%s %.4f is not stationary: progress changes by %+.2e and %+.2e at ∓%.3f", c.name, at, less, more, c.step)
		}
	}
}

// settled returns where a control, or the ride height, settled and its bounds.
func settled(t *testing.T, res *trim.Result, name string) (at, lower, upper float64) {
	t.Helper()
	for _, s := range res.Controls {
		if s.Name == name {
			return s.Value, s.Lower, s.Upper
		}
	}
	for _, l := range res.Limits {
		if l.Name == name && l.Lower != nil && l.Upper != nil {
			return res.RideHeight, *l.Lower, *l.Upper
		}
	}
	t.Fatalf("no %s in the answer", name)
	return 0, 0, 0
}
