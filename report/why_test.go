package report

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"foilwright/trim"
	"foilwright/why"
)

// splitUp is a split made up for its words, m/s.
func splitUp(figure, aim string, first float64, parts ...float64) *why.Result {
	r := &why.Result{Figure: figure, Unit: "m/s", Aim: aim, TrueWindSpeed: 17 / 1.9438444924406, WindFrom: "port"}
	if strings.HasPrefix(figure, "side") {
		r.Unit = "N"
	}
	second := first
	for i, p := range parts {
		second += p
		r.Causes = append(r.Causes, why.Part{Name: "cause " + string(rune('a'+i)), Part: p})
	}
	difference := second - first
	r.First = why.Side{Boat: "Sorrel", Answer: trim.Found, Value: &first}
	r.Second = why.Side{Boat: "Tansy", Answer: trim.Found, Value: &second}
	r.Difference = &difference
	for i, name := range [2]string{"Sorrel", "Tansy"} {
		r.Boats[i] = &trim.Result{Boat: name, Answer: trim.Found, Aim: aim, TrueWindSpeed: r.TrueWindSpeed, TrueWindAngle: 2, Weight: 24e3}
	}
	return r
}

func TestBecause(t *testing.T) {
	const knot = 1 / 1.9438444924406
	windward, given := trim.Windward.String(), trim.AtAngle.String()
	unanswered := splitUp("progress", windward, 8)
	unanswered.Difference, unanswered.Second.Answer = nil, trim.NoAnswer
	sampled := splitUp("speed", given, 8, 0.5*knot, 0.1*knot)
	sampled.Causes[0].Error = 0.02 * knot
	for want, r := range map[string]*why.Result{
		"Tansy makes 0.44 kn more to windward than Sorrel in 17.0 kn of true wind: mostly cause a (+0.31 kn) and cause c (+0.18 kn); the other way cause b (-0.05 kn).": splitUp("progress", windward, 8, 0.31*knot, -0.05*knot, 0.18*knot),
		"Tansy makes 0.39 kn less to windward than Sorrel in 17.0 kn of true wind: mostly cause a (-0.39 kn).":                                                          splitUp("progress", windward, 8, -0.39*knot, 0.001*knot),
		"Tansy is faster than Sorrel by 0.60 kn in 17.0 kn of true wind at 114.6 deg: mostly cause a (+0.50 ± 0.02 kn).":                                                sampled,
		"Side force carried of Tansy is 0.30 kN less than that of Sorrel in 17.0 kn of true wind: from cause c (-0.12 kN), cause b (-0.10 kN) and cause a (-0.08 kN).":  splitUp("side force carried", windward, 9000, -80, -100, -120),
		"Tansy and Sorrel are equal in progress, 17.0 kn of true wind: 15.55 kn against 15.55 kn. Causes cancel: cause a (+0.30 kn) and cause b (-0.30 kn).":            splitUp("progress", windward, 8, 0.3*knot, -0.3*knot),
		"Tansy cannot sail as asked in 17.0 kn of true wind: there is no difference to split.":                                                                          unanswered,
		"The files of Tansy and Sorrel do not differ in any figure.":                                                                                                    splitUp("progress", windward, 8),
	} {
		var p page
		if got := p.because(r).String(); got != want {
			t.Errorf("%q\nwant %q", got, want)
		}
	}
}

var (
	leading = regexp.MustCompile(`^Tansy makes ([\d.]+) kn (more|less) to windward than Sorrel in 17\.0 kn of true wind: (mostly|from) (.*)\.$`)
	partly  = regexp.MustCompile(`cause (\w) \(([+-][\d.]+) kn\)`)
)

// The sentence on top is true of its numbers: read back, the amount and the sign are
// the difference's, each cause has its part as rounded, "mostly" is half or more,
// those named first work the same way and the others the other way, and nothing that
// is named is smaller than what is left out.
func TestBecauseIsTrue(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	read := 0
	for range 2000 {
		parts := make([]float64, 2+random.IntN(7))
		for i := range parts {
			parts[i] = random.NormFloat64() * math.Pow(10, -2*random.Float64())
		}
		r := splitUp("progress", trim.Windward.String(), 10, parts...)
		var p page
		m := leading.FindStringSubmatch(p.because(r).String())
		if m == nil {
			if math.Abs(*r.Difference) > 0.01 {
				t.Fatalf("%q cannot be read", p.because(r).String())
			}
			continue
		}
		read++
		if want := fmt.Sprintf("%.2f", math.Abs(*r.Difference)*1.9438444924406); m[1] != want || (m[2] == "more") != (*r.Difference > 0) {
			t.Fatalf("%q, and the difference is %s kn", m[0], want)
		}
		with, other, _ := strings.Cut(m[4], "; the other way ")
		holds(t, m[0], with, parts, *r.Difference, 1)
		holds(t, m[0], other, parts, *r.Difference, -1)
		first := partly.FindStringSubmatch(with)
		if first == nil {
			t.Fatalf("%q names no cause", m[0])
		}
		if half := parts[first[1][0]-'a'] / *r.Difference; (m[3] == "mostly") != (half >= 0.5) {
			t.Fatalf("%q, and the first cause is %.2f of the difference", m[0], half)
		}
	}
	if read < 1500 {
		t.Errorf("only %d sentences were read back", read)
	}
}

// holds holds a list of causes against the parts.
func holds(t *testing.T, said, list string, parts []float64, difference, way float64) {
	t.Helper()
	least := math.Inf(1)
	saying := map[int]struct{}{}
	for _, m := range partly.FindAllStringSubmatch(list, -1) {
		i := int(m[1][0] - 'a')
		saying[i] = struct{}{}
		part, err := strconv.ParseFloat(m[2], 64)
		if err != nil || math.Abs(part-parts[i]*1.9438444924406) > 0.00501 {
			t.Fatalf("%q: cause %s is %v m/s", said, m[1], parts[i])
		}
		if way*parts[i]*difference <= 0 {
			t.Fatalf("%q: cause %s works the other way", said, m[1])
		}
		if math.Abs(parts[i]) > least {
			t.Fatalf("%q: not in order of size", said)
		}
		least = math.Abs(parts[i])
	}
	for i, p := range parts {
		if _, named := saying[i]; !named && len(saying) > 0 && way*p*difference > 0 && math.Abs(p) > least {
			t.Fatalf("%q: cause %c is larger and not named", said, 'a'+i)
		}
	}
}

func TestBars(t *testing.T) {
	for want, part := range map[string]float64{
		"              │██████████████": 2, "       ▒▒▒▒▒▒▒│": -1, "              │": 0,
	} {
		if got := bar(part, 2); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if got := bar(0, 0); got != "" {
		t.Errorf("with nothing to show: %q", got)
	}
}

// A page of a split tells what was merged and what could not sail.
func TestWhyPage(t *testing.T) {
	r := splitUp("progress", trim.Windward.String(), 8, 0.4, -0.1)
	r.Merged = []why.Merged{{Name: "cause a", Causes: []string{"wing", "tip"}, Why: "a tip without a wing"}}
	r.CannotSail = []why.StandIn{{Causes: []string{"cause b"}, Why: "drive is short", Value: 7, Of: "Sorrel"}}
	r.Pairs = []why.Pair{{One: "cause a", Other: "cause b", Interaction: -0.2}}
	r.Figures = []why.Row{{Figure: "wetted area", Unit: "m²", First: 2, Second: 2.5, Difference: 0.5, Parts: []float64{0.5, 0}}}
	r.Ledger = &why.Ledger{State: "best trim of Sorrel, held by all", Missing: []string{"side force carried: no such force"}, Rows: []why.Row{
		{Figure: "lever", Unit: "m", First: 4, Second: 4.2, Parts: []float64{0.2, 0}}, {Figure: "weight", Unit: "N", First: 4, Second: 4, Parts: []float64{0, 0}},
		{Figure: "drag: induced drag", Unit: "N", First: 500, Second: 400, Parts: []float64{0, -100}}}}
	var p page
	p.whys([]*why.Result{r})
	page := p.String()
	for _, want := range []string{
		"- wing and tip: a boat with one and without another cannot be built (a tip without a wing)",
		"- Sorrel with cause b of Tansy: counts as 13.61 kn (Sorrel). drive is short",
		"cause a  cause b  -0.39", "- side force carried: no such force", "Tansy, same state", "induced", "+0.20", "-0.10",
	} {
		if !strings.Contains(strings.Join(strings.Fields(page), " "), strings.Join(strings.Fields(want), " ")) {
			t.Errorf("no %q in\n%s", want, page)
		}
	}
	if strings.Contains(page, "weight") {
		t.Errorf("a figure that nothing moves is shown:\n%s", page)
	}
	both := pageOf(r, splitUp("progress", trim.Windward.String(), 8, -0.4, 0.1))
	if strings.Count(both, "In 17.0 kn of true wind") != 2 {
		t.Errorf("two winds:\n%s", both)
	}
}

// Parts that do not show get no bars: the longest would be of nothing.
func TestNoBarsOfNothing(t *testing.T) {
	if page := pageOf(splitUp("progress", trim.Windward.String(), 8, 1e-6, -2e-6)); strings.ContainsAny(page, "█▒") {
		t.Errorf("bars of parts that do not show:\n%s", page)
	}
}

func pageOf(results ...*why.Result) string {
	var p page
	p.whys(results)
	return p.String()
}
