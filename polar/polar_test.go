package polar

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"foilwright/boat"
	"foilwright/si"
	"foilwright/trim"
)

func run(t *testing.T, b *boat.Boat, r Request, workers int, done func(int)) *Result {
	t.Helper()
	if testing.Short() {
		t.Skip("a polar takes a quarter of a minute")
	}
	res, err := Run(t.Context(), b, r, workers, done)
	if err != nil {
		t.Fatal(err)
	}
	return res
}

// The dinghy on one goroutine and on two: the same bits; and all that a polar
// must hold.
func TestPolarOfADinghy(t *testing.T) {
	b := dinghy(t, "")
	r := Request{Base: base(), Winds: knots(12), Angles: degrees(64, 62, 60, 30, 62)}
	steps := make([]atomic.Int32, r.Steps())
	two := run(t, b, r, 2, func(i int) { steps[i].Add(1) })
	for i := range steps {
		if n := steps[i].Load(); n != 1 {
			t.Errorf("step %d of %d is told %d times", i, len(steps), n)
		}
	}
	one := run(t, b, r, 1, nil)
	if diff := cmp.Diff(bits(t, one), bits(t, two)); diff != "" {
		t.Errorf("one goroutine and two differ:\n%s", diff)
	}
	wind := &two.Winds[0]
	if len(wind.Points) != 4 || wind.Points[0].Angle != 30*si.Degree || wind.Points[3].Angle != 64*si.Degree {
		t.Fatalf("angles are to rise, each once: %d points", len(wind.Points))
	}
	smooth(t, wind.Points[1:])
	for _, aim := range []trim.Aim{trim.Windward, trim.Leeward} {
		best := &wind.Windward
		if aim == trim.Leeward {
			best = &wind.Leeward
		}
		stationary(t, b, wind.Speed, aim, best)
		bandHolds(t, best)
	}
	belowFlight(t, wind)
	tableHolds(t, two)
}

func bits(t *testing.T, r *Result) string {
	t.Helper()
	text, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// A wind too light is one gap over all angles, with its reason.
func TestTooLittleWind(t *testing.T) {
	polar := run(t, dinghy(t, ""), Request{Base: base(), Winds: knots(5, 4), Angles: degrees(60, 90)}, 2, nil)
	if len(polar.Winds) != 2 || polar.Winds[0].Speed >= polar.Winds[1].Speed {
		t.Fatalf("winds are to rise")
	}
	w := &polar.Winds[1]
	if w.Windward.Answer != trim.NoAnswer || w.Windward.From != nil || w.Windward.To != nil || w.Leeward.Answer != trim.NoAnswer {
		t.Errorf("in 5 kn of wind the dinghy is said to fly")
	}
	if len(w.Gaps) != 1 {
		t.Fatalf("%d gaps, want one over all angles", len(w.Gaps))
	}
	g := w.Gaps[0]
	if g.First != 60*si.Degree || g.Last != 90*si.Degree || g.From != nil || g.To != nil {
		t.Errorf("gap %+v, want it over all that was asked, with open ends", g)
	}
	if !strings.HasPrefix(g.Words, "no steady flight at true wind 5.0 kn, 6") || !strings.HasSuffix(g.Words, "short") {
		t.Errorf("reason %q", g.Words)
	}
}

// Points two degrees apart lie on a smooth curve: the speed in the middle is that
// of its neighbours' mean within 0.3 %.
func smooth(t *testing.T, points []Point) {
	t.Helper()
	for k := 1; k < len(points)-1; k++ {
		mean := (points[k-1].Speed + points[k+1].Speed) / 2
		bend := float64(points[k].Speed/mean) - 1
		t.Logf("at %.0f deg the speed is %+.4f %% off the mean of its neighbours'", points[k].Angle.Degrees(), 100*bend)
		if math.Abs(bend) > 3e-3 {
			t.Errorf("speed jumps at %.0f deg: %+.2f %% off the mean of its neighbours'", points[k].Angle.Degrees(), 100*bend)
		}
	}
}

// One degree either side of a best angle progress is never better by more than
// 1e-5, searched from four starts that know nothing of the polar.
func stationary(t *testing.T, b *boat.Boat, wind si.Speed, aim trim.Aim, best *Best) {
	t.Helper()
	for _, aside := range degrees(-1, 1) {
		r := base()
		r.WindSpeed, r.Aim, r.WindAngle, r.Starts, r.Why = wind, trim.AtAngle, best.Angle+aside, 4, trim.Shortfalls
		res, err := trim.Best(t.Context(), b, r, nil)
		if err != nil {
			t.Fatal(err)
		}
		more := gain(aim, res)/gain(aim, best.Trim) - 1
		t.Logf("%s at %.2f deg; %+.0f deg aside progress is %+.3e of it", aim, best.Angle.Degrees(), aside.Degrees(), more)
		if res.Answer == trim.Found && more > 1e-5 {
			t.Errorf("%s: %+.0f deg from the best angle progress is better by %.1e of itself", aim, aside.Degrees(), more)
		}
	}
}

// The ends of the band lie on either side and lose 1 %.
func bandHolds(t *testing.T, best *Best) {
	t.Helper()
	if best.From == nil || best.To == nil {
		t.Fatal("there is no band")
	}
	if !(best.From.Angle < best.Angle && best.Angle < best.To.Angle) {
		t.Errorf("band from %.2f to %.2f deg does not hold the best angle %.2f deg", best.From.Angle.Degrees(), best.To.Angle.Degrees(), best.Angle.Degrees())
	}
	for _, end := range []*BandEnd{best.From, best.To} {
		lost := 1 - float64(end.VMG/best.VMG)
		t.Logf("end of the band at %.2f deg: %.4f %% lost, %s", end.Angle.Degrees(), 100*lost, end.Why)
		if end.Why != LossReached || math.Abs(lost-0.01) > 6e-5 {
			t.Errorf("at %.2f deg %.4f %% of progress is lost: %s", end.Angle.Degrees(), 100*lost, end.Why)
		}
		if vmg := float64(end.Speed) * end.Angle.Cos(); math.Abs(vmg-float64(end.VMG)) > 1e-9 {
			t.Errorf("progress %v is not speed times the cosine, %v", end.VMG, vmg)
		}
	}
}

// Too close to the wind the boat does not fly: the gap ends between the angle
// that does not and the one that does.
func belowFlight(t *testing.T, w *Wind) {
	t.Helper()
	if w.Points[0].Answer != trim.NoAnswer {
		t.Fatalf("at 30 deg the dinghy is said to fly in 12 kn")
	}
	if len(w.Gaps) != 1 || w.Gaps[0].From != nil || w.Gaps[0].To == nil {
		t.Fatalf("gaps %+v, want one that opens at 30 deg", w.Gaps)
	}
	if to := *w.Gaps[0].To; !(to > 30*si.Degree && to < 60*si.Degree) || w.Gaps[0].Words == "" {
		t.Errorf("flight begins at %.2f deg, reason %q", to.Degrees(), w.Gaps[0].Words)
	} else {
		t.Logf("flight begins at %.2f deg; at 30: %s", to.Degrees(), w.Gaps[0].Words)
	}
}

// Two sails of which each is best at some angle: the crossover is where their own
// trims say.
func TestCrossoverOfTwoSails(t *testing.T) {
	b := dinghy(t, `foilwright: 1
name: Two Sloes
like: sloe.yaml
sails:
  small: {luff: 4.3 m, foot: 1.8 m, lean: 7 deg, tack: {x: 0.05 m, z: 0.35 m}, area: 5.8 m², coefficients: fully battened main}
sets: {small alone: [small]}
modes:
  sailing: {sets: [main alone, small alone]}
`)
	if testing.Short() {
		t.Skip("a crossover takes a quarter of a minute")
	}
	c := newCharter(b, base(), knots(18), degrees(110, 140))
	var w trim.Workspace
	for k := range 2 {
		if err := c.cold(t.Context(), place{0, k}, &w); err != nil {
			t.Fatal(err)
		}
	}
	found, err := c.crossovers(t.Context(), &c.winds[0], &w)
	if err != nil {
		t.Fatal(err)
	}
	if len(found) != 1 || found[0].Below.Set != "small alone" || found[0].Above.Set != "main alone" {
		t.Fatalf("crossovers %+v, want one from the small sail to the large", found)
	}
	x := found[0]
	t.Logf("the small sail gives way at %.2f deg, within %.2f deg", x.Angle.Degrees(), x.Within.Degrees())
	if x.Within > 0.5*si.Degree {
		t.Errorf("bracket of %.2f deg", x.Within.Degrees())
	}
	for _, aside := range degrees(-1, 1) {
		r := base()
		r.WindSpeed, r.Aim, r.WindAngle = c.winds[0].speed, trim.AtAngle, x.Angle+aside
		res, err := trim.Best(t.Context(), b, r, &w)
		if err != nil {
			t.Fatal(err)
		}
		want := x.Below.Way
		if aside > 0 {
			want = x.Above.Way
		}
		if wayOf(res) != want {
			t.Errorf("%+.0f deg from the crossover %+v is best, want %+v", aside.Degrees(), wayOf(res), want)
		}
	}
}

func TestRequestsThatMeanNothing(t *testing.T) {
	b := dinghy(t, "")
	for want, r := range map[string]Request{
		"Sloe: true wind speeds: none is given\nhint: say them with --tws, as in \"8, 12, 16 kn\"": {},
		"Sloe: true wind speeds: 100 m/s does not lie above 0 and up to 60 m/s\nhint: check its unit": {
			Winds: []si.Speed{8, 100}},
		"Sloe: true wind angles: 180 deg does not lie between 0 and 180 deg\nhint: angles are taken from the track, on either side": {
			Winds: []si.Speed{8}, Angles: degrees(40, 180)},
	} {
		_, err := Run(t.Context(), b, r, 1, nil)
		var refused *trim.RequestError
		if !errors.As(err, &refused) || err.Error() != want {
			t.Errorf("error %q, want %q", err, want)
		}
	}
	wrong := Request{Base: base(), Winds: knots(12), Angles: degrees(50, 60)}
	wrong.Base.Mode = "no such"
	if _, err := Run(t.Context(), b, wrong, 2, nil); err == nil || !strings.Contains(err.Error(), `no mode "no such"`) {
		t.Errorf("error %v, want that there is no such mode", err)
	}
}

// Cancelled in the middle, a polar ends with the context's error and leaves no
// goroutine behind.
func TestCancelled(t *testing.T) {
	b := dinghy(t, "")
	before := runtime.NumGoroutine()
	ctx, cancel := context.WithCancel(t.Context())
	var steps atomic.Int32
	r := Request{Base: base(), Winds: knots(12), Angles: degrees(60, 61, 62, 63, 64, 65, 66, 67)}
	_, err := Run(ctx, b, r, 2, func(int) {
		steps.Add(1)
		cancel()
	})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want that it was cancelled", err)
	}
	if n := steps.Load(); n > 2 {
		t.Errorf("%d steps were done, and the first cancelled the rest", n)
	}
	for range 100 {
		if runtime.NumGoroutine() <= before {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Errorf("%d goroutines before, %d after", before, runtime.NumGoroutine())
}
