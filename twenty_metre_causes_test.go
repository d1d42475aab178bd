package foilwright_test

import (
	"context"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"foilwright/boat"
	"foilwright/polar"
	"foilwright/trim"
)

const (
	twentyMetreBoat = "examples/twenty-metre/hawthorn.yaml"
	causesBegin     = "<!-- causes: go test -run TestTwentyMetreCauses -write-twenty-metre . -->"
	causesEnd       = "<!-- end of the causes -->"
	takeOffBegin    = "<!-- take-off: go test -run TestTwentyMetreTakeOff -write-twenty-metre . -->"
	takeOffEnd      = "<!-- end of the take-off -->"
)

// What the 20 m boat's file says, and what it is to say instead.
var (
	leastCant  = []string{"one foil:   {sets: [working], leeward main: {cant: 12 to 28 deg}", "one foil:   {sets: [working], leeward main: {cant: 12 to 16 deg}"}
	levelWings = []string{"{y: -1.96 m, z: -0.30 m}", "{y: -1.96 m, z: 0 m}"}
	forward    = []string{"{mass: 3600 kg, at: {x: -0.90 m", "{mass: 3600 kg, at: {x: 1.10 m"}
	lessHeel   = []string{"heel: -4 to 3 deg", "heel: -3 to 3 deg"}
	flatteners = []string{"coefficients: fully battened main}", "coefficients: fully battened main, flatten: 0 to 60 %}", "coefficients: jib}", "coefficients: jib, flatten: 0 to 60 %}"}
	rougher    = []string{"modes:\n", "model: {friction: 1.2, laminar: 5 %}\nmodes:\n"}
	raked      = []string{"      cant: {axis: x, zero: strut straight down, range: -5 to 95 deg}\n", "      cant: {axis: x, zero: strut straight down, range: -5 to 95 deg}\n      rake: {axis: y, range: -2 to 5 deg}\n"}
)

func oneFoil(knots float64, change string, edits ...string) whatIf {
	r := request(knots)
	r.Mode = "one foil"
	return whatIf{change: change, edits: edits, sailing: r}
}

// What puts figures of docs/twenty-metre.md outside their ranges: the same figures of
// boats whose files read otherwise in one place, as the page shows them.
func TestTwentyMetreCauses(t *testing.T) {
	if testing.Short() {
		t.Skip("ten trims: left out in short runs")
	}
	var b strings.Builder
	b.WriteString("| true wind | with | speed | progress | apparent wind angle | leeway | heel | foil lift | rudder wing | side force | drive |\n|---|---|---|---|---|---|---|---|---|---|---|\n")
	for _, w := range []whatIf{
		oneFoil(17, "her file"),
		oneFoil(17, "16° of cant at most", leastCant...),
		oneFoil(17, "wings without droop", levelWings...),
		oneFoil(17, "the hull's weight 2 m further forward", forward...),
		oneFoil(17, "friction a fifth more, and 5 % laminar", rougher...),
		oneFoil(10, "her file"),
		oneFoil(10, "3° of heel to windward at most", lessHeel...),
		oneFoil(22, "her file"),
		oneFoil(22, "the hull's weight 2 m further forward", forward...),
		oneFoil(22, "sails that flatten by up to 60 %", flatteners...),
	} {
		r := w.sail(t, twentyMetreBoat)
		b.WriteString(causeRow(&w, r))
	}
	holdTable(t, causesBegin, causesEnd, b.String())
}

func causeRow(w *whatIf, r *trim.Result) string {
	drive := 0.0
	for _, l := range r.Loads {
		if medium(l.Item) == boat.Air {
			drive += l.Force.X / r.Weight
		}
	}
	return fmt.Sprintf("| %g kn | %s | %.1f kn | %.2f kn | %s | %s | %s | %.2f W | %+.1f %% W | %.3f W | %.3f W |\n", w.sailing.WindSpeed.Knots(), w.change,
		float64(r.Speed.Knots()), float64(r.VMG.Knots()), ranged("%.1f°", r.ApparentWindAngle.Degrees(), 13, 16), ranged("%.1f°", r.Leeway.Degrees(), 0, 2),
		ranged("%.1f°", -r.Heel.Degrees(), 0, 3), lifted("starboard main", "")(r)/100, lifted("rudder", "wing")(r), sideForce(r), math.Abs(drive))
}

// The take-offs that docs/twenty-metre.md tells. They take long, so that they are found
// when the page is renewed, and only then.
func TestTwentyMetreTakeOff(t *testing.T) {
	if !*writeTwentyMetre {
		t.Skip("five take-offs: found when the page is renewed, with -write-twenty-metre")
	}
	rows := []string{
		takeOffRow(t, "her file", "one foil"),
		takeOffRow(t, "her file", "both foils"),
		takeOffRow(t, "half the residuary resistance", "one foil", "modes:\n", "model: {residuary: 0.5}\nmodes:\n"),
		takeOffRow(t, "foils that rake by −2 to 5°", "one foil", raked...),
		takeOffRow(t, "foils that rake by −2 to 5°", "both foils", raked...),
	}
	holdTable(t, takeOffBegin, takeOffEnd, "| with | mode | flies from | at | sails afloat up to | at | hull leaves the water at |\n|---|---|---|---|---|---|---|\n"+strings.Join(rows, ""))
}

func takeOffRow(t *testing.T, change, mode string, edits ...string) string {
	t.Helper()
	w := whatIf{change: change, edits: edits}
	r := request(0)
	r.Mode = mode
	off, err := polar.TakeOffOf(context.Background(), w.boat(t, twentyMetreBoat), r, nil)
	if err != nil {
		t.Fatal(err)
	}
	if off.Flying == nil || off.Hump == nil || off.Lifts == nil {
		t.Fatalf("%s, %s: %+v", change, mode, off)
	}
	return fmt.Sprintf("| %s | %s | %.1f kn | %.1f kn | %.1f kn of wind | %.1f kn | %.1f kn |\n", change, mode, float64(off.Flying.Wind.Knots()), float64(off.Flying.Speed.Knots()),
		float64(off.Hump.Wind.Knots()), float64(off.Hump.Speed.Knots()), float64(off.Lifts.Speed.Knots()))
}

// holdTable compares a table of docs/twenty-metre.md, or renews it.
func holdTable(t *testing.T, begin, end, now string) {
	t.Helper()
	before, rest, found := strings.Cut(readDoc(t, twentyMetreDoc), begin+"\n")
	told, after, closed := strings.Cut(rest, end)
	if !found || !closed {
		t.Fatalf("%s has no table between %q and %q", twentyMetreDoc, begin, end)
	}
	if *writeTwentyMetre {
		if err := os.WriteFile(twentyMetreDoc, []byte(before+begin+"\n"+now+end+after), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	sameTable(t, told, now)
}
