package why

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"os"
	"path"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"foilwright/boat"
	"foilwright/boatfile"
	"foilwright/fluid"
	"foilwright/si"
	"foilwright/trim"
)

const sloe = "../examples/dinghy/sloe.yaml"

// variant reads a boat that is like the example's dinghy.
func variant(t testing.TB, text string) *boatfile.Sheet {
	t.Helper()
	s, err := boatfile.Read("../examples/dinghy/variant.yaml", []byte("foilwright: 1\nname: Lean Sloe\nlike: sloe.yaml\n"+text), os.ReadFile)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func dinghy(t testing.TB) *boatfile.Sheet {
	t.Helper()
	text, err := os.ReadFile(sloe)
	if err != nil {
		t.Fatal(err)
	}
	s, err := boatfile.Read(path.Clean(sloe), text, os.ReadFile)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// leaner has less windage, a heavier helm and a longer wing.
const leaner = `hulls: {hull: {windage: {area: 0.2 m²}}}
weights: {helm: {mass: 86 kg}}
foils: {main: {pieces: {port wing: {path: [{y: 0 m}, {y: 0.56 m}]}}}}
`

var progress = Figure{"progress", "m/s", func(r *trim.Result) (float64, bool) { return r.Progress().MetresPerSecond(), true }}

var wetted = Figure{"wetted area", "m²", func(r *trim.Result) (float64, bool) {
	sum := 0.0
	for i := range r.WettedArea {
		sum += r.WettedArea[i].Area
	}
	return sum, true
}}

func asked(first, second *boatfile.Sheet) Request {
	request := trim.Request{
		WindSpeed: 7.7, Profile: fluid.OpenSea(), WindAngle: 90 * si.Degree, Water: fluid.StandardSea(), Air: fluid.StandardAir(),
		Aim: trim.AtAngle, Starts: 1,
	}
	return Request{First: first, Second: second, Figure: progress, Others: []Figure{wetted}, Depth: InPairs,
		Ask: func(*boat.Boat) (trim.Request, error) { return request, nil }}
}

func written(t *testing.T, r *Result) string {
	t.Helper()
	text, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// Two dinghies that differ in three things: the parts add up to the difference
// between the two boats' own best trims, each has the sign that it must have, the
// ledger says why, and one goroutine and two give the same bits.
func TestWhyOneDinghyIsFaster(t *testing.T) {
	first, second := dinghy(t), variant(t, leaner)
	r, err := Run(t.Context(), asked(first, second), 2, nil)
	if err != nil {
		t.Fatal(err)
	}
	holdsTogether(t, r)
	if len(r.CannotSail) > 0 || len(r.Merged) > 0 || r.Work.Mixed != 6 || r.Work.Trims != 14 || r.Work.Mended != 0 {
		t.Errorf("cannot sail %v, merged %v, work %+v", r.CannotSail, r.Merged, r.Work)
	}
	var names []string
	part := func(name string) float64 {
		for _, c := range r.Causes {
			if c.Name == name {
				return c.Part
			}
		}
		t.Fatalf("no cause %s in %v", name, names)
		return 0
	}
	for _, c := range r.Causes {
		names = append(names, c.Name)
	}
	if got := strings.Join(names, ", "); got != "weight and its place, windage, foil plan" {
		t.Fatalf("causes %s", got)
	}
	if !(part("windage") > 0.05) || !(part("weight and its place") > 0) {
		t.Errorf("less windage is worth %v m/s, more righting moment %v", part("windage"), part("weight and its place"))
	}
	for _, row := range r.Ledger.Rows {
		switch row.Figure {
		case "weight":
			if d := cmp.Diff([]float64{6 * si.Gravity, 0, 0}, row.Parts, closeTo(1e-9)); d != "" {
				t.Errorf("weight of each cause:\n%s", d)
			}
		case "wetted area", "drag: profile drag":
			if !(row.Parts[2] > 0) || math.Abs(row.Parts[0])+math.Abs(row.Parts[1]) > 1e-9 {
				t.Errorf("%s of each cause: %v", row.Figure, row.Parts)
			}
		case "drag in the air", "drag: windage":
			if !(row.Parts[1] < 0) {
				t.Errorf("%s of each cause: %v", row.Figure, row.Parts)
			}
		case "left over: drive", "left over: vertical force":
			if math.Abs(row.First) > 1e-4 {
				t.Errorf("%s of the first boat in her own best trim: %v N", row.Figure, row.First)
			}
		}
	}
	if len(r.Pairs) != 3 || len(r.Figures) != 1 || len(r.Ledger.Rows) < 8 {
		t.Errorf("%d pairs, %d other figures, %d rows of the ledger, missing %v", len(r.Pairs), len(r.Figures), len(r.Ledger.Rows), r.Ledger.Missing)
	}
	one, err := Run(t.Context(), asked(first, second), 1, nil)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(written(t, one), written(t, r)); d != "" {
		t.Errorf("one goroutine and two differ:\n%s", d)
	}
	turnedRound(t, r, first, second)
}

func closeTo(tolerance float64) cmp.Option {
	return cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) <= tolerance })
}

// Asked the other way round every part turns its sign, as far as trims are found
// again: this boat's flap follows a law with corners, on which searches from two
// sides stop some 4e-5 of speed apart.
func turnedRound(t *testing.T, r *Result, first, second *boatfile.Sheet) {
	t.Helper()
	other, err := Run(t.Context(), asked(second, first), 2, nil)
	if err != nil {
		t.Fatal(err)
	}
	holdsTogether(t, other)
	for i, c := range r.Causes {
		for _, o := range other.Causes {
			if o.Name == c.Name && math.Abs(o.Part+c.Part) > 5e-4 {
				t.Errorf("%s: %v one way, %v the other", c.Name, r.Causes[i].Part, o.Part)
			}
		}
	}
}

// A search from all starts finds nothing better for mixed boats than from a neighbour.
func TestNeighboursFindTheBestTrim(t *testing.T) {
	if testing.Short() {
		t.Skip("trims from all starts: left out in short runs")
	}
	first, second := dinghy(t), variant(t, leaner)
	r := asked(first, second)
	causes, err := Causes(boatfile.DiffOfPoints(first, second), nil)
	if err != nil {
		t.Fatal(err)
	}
	e, err := r.ends(t.Context(), 2)
	if err != nil {
		t.Fatal(err)
	}
	f, err := assemble(t.Context(), causes, mixing(first, causes), sampling{}, 2)
	if err != nil {
		t.Fatal(err)
	}
	v, err := f.sail(t.Context(), trimming(r.Ask, e.carriedAt), e.trims[0], e.trims[1], 2, func() {})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []Coalition{0b001, 0b010, 0b110} {
		request, _ := r.Ask(f.boats[c])
		request.Starts = 0
		full, err := trim.Best(t.Context(), f.boats[c], request, nil)
		if err != nil {
			t.Fatal(err)
		}
		// The corners of the flap's law stop searches some 2e-5 of speed apart.
		if near := float64(v.answers[c].trim.Speed); near < float64(full.Speed)*(1-5e-5) {
			t.Errorf("%v: %v m/s from a neighbour, %v from all starts", f.names(c), near, full.Speed)
		}
	}
}

// A boat that does not differ, one that cannot sail, figures that are not there.
func TestWhyWithoutAnAnswer(t *testing.T) {
	first := dinghy(t)
	r, err := Run(t.Context(), asked(first, variant(t, "")), 2, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Causes) != 0 || *r.Difference != 0 {
		t.Errorf("of the same boat: %v, difference %v", r.Causes, *r.Difference)
	}
	kerchief := asked(first, variant(t, "sails: {main: {luff: 2 m, foot: 1.2 m, area: 1.3 m²}}\n"))
	if r, err = Run(t.Context(), kerchief, 2, nil); err != nil {
		t.Fatal(err)
	}
	if r.Difference != nil || r.Second.Answer != trim.NoAnswer || r.First.Value == nil || r.Ledger != nil || r.Boats[1].Reason == nil {
		t.Errorf("of a boat that cannot sail: %+v", r)
	}
	none := asked(first, variant(t, leaner))
	none.Figure = Figure{"lustre", "1", func(*trim.Result) (float64, bool) { return 0, false }}
	var e *FigureError
	if _, err = Run(t.Context(), none, 2, nil); !errors.As(err, &e) || !strings.HasPrefix(err.Error(), "figure lustre: Sloe has no such figure") {
		t.Errorf("a figure that is not there: %v", err)
	}
	few := asked(first, variant(t, leaner))
	few.Orders = 2
	if _, err = Run(t.Context(), few, 2, nil); err == nil {
		t.Error("two orders are taken")
	}
	few.Orders = 1 << 30
	if _, err = Run(t.Context(), few, 2, nil); err == nil {
		t.Error("a milliard of orders is taken")
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err = Run(ctx, asked(first, variant(t, leaner)), 2, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

// A control that only one of two causes brings: boats with the one and without the
// other cannot be built, and the two are told as one, with the reason.
func TestRealBoatsThatCannotBeBuilt(t *testing.T) {
	first := dinghy(t)
	second := variant(t, "weights: {ballast: {mass: 10 kg, at: {x: -1 m, y: 0 m, z: 0.3 m}, moves: {y: -1 to 1 m}}}\n"+
		"controls: {ballast y: {fixed: 0.5 m}}\nhulls: {hull: {windage: {area: 0.4 m²}}}\n")
	causes, err := Causes(boatfile.DiffOfPoints(first, second), nil)
	if err != nil {
		t.Fatal(err)
	}
	f, err := assemble(t.Context(), causes, mixing(first, causes), sampling{}, 2)
	if err != nil {
		t.Fatal(err)
	}
	if len(f.merged) != 1 || strings.Join(f.merged[0].Causes, ", ") != "weight and its place, modes" || !strings.Contains(f.merged[0].Why, "ballast y") {
		t.Errorf("merged %+v", f.merged)
	}
	if len(f.causes) != 2 || len(f.boats) != 4 {
		t.Errorf("%d causes, %d boats", len(f.causes), len(f.boats))
	}
	for c, b := range f.boats {
		if b.Mass() < f.boats[0].Mass() || (b.Mass() > f.boats[0].Mass()) != c.Has(0) {
			t.Errorf("%v weighs %v kg", f.names(c), b.Mass())
		}
	}
}
