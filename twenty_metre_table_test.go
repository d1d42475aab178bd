package foilwright_test

import (
	"flag"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"foilwright/trim"
)

var writeTwentyMetre = flag.Bool("write-twenty-metre", false, "renew the table of four figures in docs/twenty-metre.md")

const (
	twentyMetreDoc = "docs/twenty-metre.md"
	fourBegin      = "<!-- four figures: go test -run TestFourFigures -write-twenty-metre . -->"
	fourEnd        = "<!-- end of the four figures -->"
)

// fourWinds are the winds of the table, kn.
func fourWinds() []float64 { return []float64{10, 12, 14, 17, 20, 22} }

// The four figures that practitioners look at first, over 10 to 22 kn: the table in
// docs/twenty-metre.md is what the program finds, and what it marks as outside the
// ranges of the trade (common practice) is outside.
func TestFourFigures(t *testing.T) {
	b := example(t, "examples/twenty-metre/hawthorn.yaml")
	var rows strings.Builder
	rows.WriteString("| true wind | apparent wind angle | leeway | heel | height of effort | progress |\n|---|---|---|---|---|---|\n")
	for _, knots := range fourWinds() {
		r := request(knots)
		r.Mode = "one foil"
		res := best(t, b, r)
		if res.Answer != trim.Found {
			t.Fatalf("in %g kn: %s", knots, res.Reason.Words)
		}
		effort, _ := res.EffortHeight()
		fmt.Fprintf(&rows, "| %g kn | %s | %s | %s | %.1f m | %.1f kn |\n", knots,
			ranged("%.1f°", res.ApparentWindAngle.Degrees(), 13, 16), ranged("%.1f°", res.Leeway.Degrees(), 0, 2),
			ranged("%.1f°", -res.Heel.Degrees(), 0, 3), effort, float64(res.VMG.Knots()))
	}
	holdTable(t, fourBegin, fourEnd, rows.String())
}

// ranged puts a figure, in bold where it leaves the usual range.
func ranged(format string, v, low, high float64) string {
	said := fmt.Sprintf(format, v)
	if v < low || v > high {
		return "**" + said + "**"
	}
	return said
}

var figure = regexp.MustCompile(`-?\d+\.\d+`)

// sameTable fails where two tables differ in words, or by more than a last digit.
func sameTable(t *testing.T, told, now string) {
	t.Helper()
	if figure.ReplaceAllString(told, "#") != figure.ReplaceAllString(now, "#") {
		t.Errorf("%s tells\n%snow it is\n%s", twentyMetreDoc, told, now)
		return
	}
	a, b := figure.FindAllString(told, -1), figure.FindAllString(now, -1)
	for i := range a {
		x, _ := strconv.ParseFloat(a[i], 64)
		y, _ := strconv.ParseFloat(b[i], 64)
		_, decimals, _ := strings.Cut(a[i], ".")
		if math.Abs(x-y) > 1.1*math.Pow10(-len(decimals)) {
			t.Errorf("%s tells %s, now it is %s, in\n%s", twentyMetreDoc, a[i], b[i], now)
		}
	}
}
