package study

import (
	"math"
	"path/filepath"
	"testing"

	"foilwright/polar"
	"foilwright/si"
	"foilwright/trim"
	"foilwright/why"
)

// The take-off wind that is split is the one that a take-off tells, its parts add up
// to the difference, and less weight and windage ask for less wind.
func TestTakeOffWindIsSplit(t *testing.T) {
	if testing.Short() {
		t.Skip("take-off searches of mixed boats take long: left out in short runs")
	}
	text := `foilwright: 1
name: Lean Sloe
invented: true
like: sloe.yaml
weights: {hull: {mass: 10 kg}}
hulls: {hull: {windage: {area: 0.1 m²}}}
foils: {rudder: {pieces: {port wing: {chord: {0 %: 0.10 m, 100 %: 0.05 m}}}}}
`
	const lean = "../examples/dinghy/lean.yaml"
	given := func(name string) ([]byte, error) {
		if filepath.Base(name) == "lean.yaml" {
			return []byte(text), nil
		}
		return open(name)
	}
	sailing := Sailing{WindSpeeds: []si.Speed{5}, WindAngles: []si.Angle{90 * si.Degree}, Conditions: Standard()}
	ask := func(q Question, boats ...string) any {
		t.Helper()
		res, err := Run(t.Context(), Request{Boats: boats, Question: q, Open: given, Workers: 2})
		if err != nil {
			t.Fatal(err)
		}
		return res.Results
	}
	split := ask(&Why{Sailing: sailing, Figure: "Takeoff wind"}, sloe, lean).([]*why.Result)[0]
	if split.Figure != "take-off wind" || split.Aim != trim.LeastWind.String() || len(split.Causes) != 3 || split.Difference == nil {
		t.Fatalf("%s, %s, %d causes", split.Figure, split.Aim, len(split.Causes))
	}
	if d := math.Abs(split.Whole() - *split.Difference); d > 1e-9 || !(*split.Difference < -0.01) {
		t.Errorf("parts add up to %g, difference %g", split.Whole(), *split.Difference)
	}
	for i, side := range []why.Side{split.First, split.Second} {
		told := ask(&Polar{Sailing: sailing, TakeOff: true}, []string{sloe, lean}[i]).(*polar.TakeOff)
		if told.Flying == nil || math.Abs(told.Flying.Wind.MetresPerSecond()-*side.Value) > 1e-9 {
			t.Errorf("%s: least wind %g m/s, take-off %+v", side.Boat, *side.Value, told.Flying)
		}
	}
	for _, c := range split.Causes {
		t.Logf("%s: %+.4f m/s", c.Name, c.Part)
		if c.Name != "rudder and its wing" && !(c.Part < 0) {
			t.Errorf("less %s asks for more wind: %+g m/s", c.Name, c.Part)
		}
	}
}
