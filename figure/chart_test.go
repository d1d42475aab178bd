package figure

import (
	"math"
	"strings"
	"testing"

	"foilwright/odds"
	"foilwright/polar"
	"foilwright/si"
	"foilwright/study"
	"foilwright/trim"
	"foilwright/why"
)

func ptr(v float64) *float64 { return &v }

func answer(results any) *study.Result {
	return &study.Result{Version: "0", Kernel: "scalar", Fingerprint: strings.Repeat("0", 64), Verb: "test", Results: results, Caution: study.Caution}
}

func drawn(t *testing.T, kind Kind, results any) (*Chart, string) {
	t.Helper()
	c, err := Of(kind, answer(results))
	if err != nil {
		t.Fatal(err)
	}
	svg, err := c.SVG(Light)
	if err != nil {
		t.Fatal(err)
	}
	collide(t, words(t, svg), c)
	return c, string(svg)
}

// Steps of a waterfall lead from the first boat to the second.
func TestWaterfallAddsUp(t *testing.T) {
	boats := [2]*trim.Result{{Boat: "Dog Rose", Answer: trim.Found, Aim: trim.Windward.String(), TrueWindSpeed: 8, WindFrom: "port"}, {Boat: "Spindle", Answer: trim.Found}}
	r := &why.Result{Figure: "progress", Unit: "m/s", Aim: trim.Windward.String(), Boats: boats, Difference: ptr(-0.25),
		First: why.Side{Boat: "Dog Rose", Value: ptr(6.0)}, Second: why.Side{Boat: "Spindle", Value: ptr(5.75)},
		Causes: []why.Part{{Name: "weight & <its> place", Part: 0.1}, {Name: "foil plan", Part: -0.35, Error: 0.02}}}
	c, svg := drawn(t, Causes, []*why.Result{r})
	at := c.Waterfall.First.At
	for _, s := range c.Waterfall.Steps {
		at += s.At
	}
	if math.Abs(at-c.Waterfall.Last.At) > 1e-9 {
		t.Errorf("steps lead to %v kn, and the second boat makes %v", at, c.Waterfall.Last.At)
	}
	if want := "Spindle is slower than Dog Rose by 0.49 kn, most of all for foil plan (-0.68 kn)"; c.Title != want {
		t.Errorf("title %q, want %q", c.Title, want)
	}
	for _, want := range []string{"weight &amp; &lt;its&gt; place", "+0.19", "-0.68", "11.66", "11.18", "progress to windward (kn)", "does not begin at zero"} {
		if !strings.Contains(svg, want) {
			t.Errorf("the picture does not say %q", want)
		}
	}
}

// A difference shows its band and its zero line; its dots are quantiles of samples.
func TestDifferenceHasItsBand(t *testing.T) {
	table := &odds.Table{}
	for i := range 101 {
		table.Outcomes = append(table.Outcomes, []odds.Outcome{{Progress: 5 + float64(i)/100}, {Progress: 5.2}})
	}
	table.Outcomes = append(table.Outcomes, []odds.Outcome{{State: odds.CannotSail}, {Progress: 5.2}})
	d := odds.Distribution{Mean: ptr(0.3), P2: ptr(-0.15), P5: ptr(-0.12), P10: ptr(-0.1), P25: ptr(0.05), P50: ptr(0.3), P75: ptr(0.55), P90: ptr(0.7), P95: ptr(0.72), P97: ptr(0.75)}
	r := &odds.Result{Samples: 102, Aim: trim.Windward.String(), Wind: 8, Confidence: 0.9, Table: table,
		Boats: []odds.Figure{{Name: "Dog Rose"}, {Name: "Spindle"}},
		Pairs: []odds.Pair{{First: "Dog Rose", Second: "Spindle", Difference: d, FirstFaster: 0.79, SecondFaster: 0.21, Call: odds.TooClose, Settle: &odds.Settle{Input: "sail area"}}}}
	c, svg := drawn(t, Difference, r)
	got := c.Spread.Pairs[0].Dots
	if len(got) != dots || math.Abs(got[0]-(-0.175)/si.Knot.MetresPerSecond()) > 1e-9 || math.Abs(got[dots-1]-0.775/si.Knot.MetresPerSecond()) > 1e-9 {
		t.Errorf("dots %v", got)
	}
	for _, want := range []string{"Too close to call", "79 %", "21 %", "sail area", "-0.29", "+1.46", ">0.0<"} {
		if !strings.Contains(svg, want) {
			t.Errorf("the picture does not say %q", want)
		}
	}
}

// Inputs come the strongest first, and one at whose end a boat cannot sail says so.
func TestInputsBySize(t *testing.T) {
	r := &odds.Result{Aim: trim.Windward.String(), Wind: 8, Tornado: []odds.Bar{
		{Input: "crew", Of: "Dog Rose less Spindle", Low: ptr(-0.01), High: ptr(0.02)},
		{Input: "sail area", Of: "Dog Rose less Spindle", Low: ptr(0.3), High: nil},
		{Input: "crew", Of: "Spindle", Low: ptr(9), High: ptr(9)}}}
	c, svg := drawn(t, Inputs, r)
	if len(c.Tornado.Rows) != 2 || c.Tornado.Rows[0].Name != "sail area" {
		t.Errorf("rows %+v", c.Tornado.Rows)
	}
	if !strings.Contains(svg, "cannot sail at one end") {
		t.Error("an end without an answer is not told")
	}
}

func point(deg, knots float64) polar.Point {
	return polar.Point{Angle: si.Angle(deg) * si.Degree, Speed: si.Speed(knots) * si.Knot, Answer: trim.Found, Way: polar.Way{Mode: "foiling", Set: "working"}}
}

// Curves break where a boat cannot sail, and ways end at crossovers and gaps.
func TestAnglesBreakAtGaps(t *testing.T) {
	none := point(60, 0)
	none.Answer = trim.NoAnswer
	over := point(120, 20)
	over.Set = "reaching"
	from, to := si.Angle(54)*si.Degree, si.Angle(66)*si.Degree
	w := polar.Wind{Speed: 6, Points: []polar.Point{point(50, 14), none, point(70, 16), point(90, 18), over, point(140, 17)},
		Gaps:       []polar.Gap{{First: none.Angle, Last: none.Angle, From: &from, To: &to}},
		Crossovers: []polar.Crossover{{Angle: 101 * si.Degree}},
		Windward:   polar.Best{Point: point(48, 13.5), From: &polar.BandEnd{Angle: 45 * si.Degree}, To: &polar.BandEnd{Angle: 51 * si.Degree}},
		Leeward:    polar.Best{Point: none}}
	w.Points[5].Set = "reaching"
	r := &polar.Result{Boat: "Spindle", WindFrom: "port", Winds: []polar.Wind{w}}
	for _, kind := range []Kind{Polar, Speed, Crossovers} {
		c, svg := drawn(t, kind, r)
		got := c.Angles.Winds[0]
		if len(got.Runs) != 2 || len(got.Ways) != 3 {
			t.Fatalf("%s: %d runs, %d ways", kind, len(got.Runs), len(got.Ways))
		}
		ends := [][2]float64{{50, 54}, {66, 101}, {101, 140}}
		for i, run := range got.Ways {
			if math.Abs(run.From-ends[i][0]) > 1e-9 || math.Abs(run.To-ends[i][1]) > 1e-9 {
				t.Errorf("%s: way %d from %v to %v, want %v", kind, i, run.From, run.To, ends[i])
			}
		}
		if kind != Crossovers && !strings.Contains(svg, "48 deg, 13.5 kn") {
			t.Errorf("%s does not tell the best angle", kind)
		}
	}
}
