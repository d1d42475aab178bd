package section

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"foilwright/si"
)

func mustRead(t testing.TB, text string) *DragTable {
	t.Helper()
	table, err := ReadDragTable("drag.csv", strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// sampled writes a table of a law of drag, its rows in an order of no meaning.
func sampled(lifts, reynolds, flaps []float64, law func(lift, reynolds, flap float64) float64) string {
	var rows []string
	for _, f := range flaps {
		for _, re := range reynolds {
			for _, l := range lifts {
				rows = append(rows, fmt.Sprintf("%v,%.17g,%v,%v", re, law(l, re, f), f, l))
			}
		}
	}
	half := len(rows) / 2
	rows = append(rows[half:], rows[:half]...)
	return "reynolds,drag,flap deg,lift\n" + strings.Join(rows, "\n")
}

func lawOfDrag(lift, reynolds, flap float64) float64 {
	off := lift - 0.3 - 0.03*flap
	return 0.008 * math.Pow(reynolds/1e6, -0.15) * (1 + 0.5*off*off)
}

func exampleTable() string {
	var lifts []float64
	for i := range 21 {
		lifts = append(lifts, math.Round(float64(i)*10-80)/100)
	}
	return sampled(lifts, []float64{1e6, 3e6, 2e5}, []float64{-5, 0, 5, 10}, lawOfDrag)
}

func TestDragTableMeetsItsPointsAndTheLawBetween(t *testing.T) {
	table := mustRead(t, exampleTable())
	for _, lift := range []float64{-0.8, 0, 0.3, 1.2} {
		for _, re := range []float64{2e5, 1e6, 3e6} {
			for _, flap := range []float64{-5, 0, 10} {
				want := lawOfDrag(lift, re, flap)
				near(t, "drag at a point", table.Drag(lift, re, si.Angle(flap)*si.Degree), want, 1e-12)
			}
		}
	}
	// Between the points the power of Reynolds number is met at once, the parabola
	// in lift to what ten steps over its width leave.
	near(t, "drag between Reynolds numbers", table.Drag(0.3, 6e5, 0), lawOfDrag(0.3, 6e5, 0), 1e-9)
	worst := 0.0
	for lift := -0.8; lift <= 1.2; lift += 0.013 {
		for flap := -5.0; flap <= 10; flap += 0.7 {
			got, want := table.Drag(lift, 7e5, si.Angle(flap)*si.Degree), lawOfDrag(lift, 7e5, flap)
			worst = max(worst, math.Abs(got/want-1))
		}
	}
	if worst > 0.006 {
		t.Errorf("between points the drag is off by up to %.2f %%, want 0.6 %%", 100*worst)
	}
	near(t, "a flap column in radians", mustRead(t, "lift,reynolds,flap rad,drag\n0,1e6,0,.01\n0,1e6,.1,.02\n1,1e6,0,.01\n1,1e6,.1,.02").Drag(0.5, 1e6, 0.1), 0.02, 1e-12)
}

// Every place of a laminar bucket lies between the points about it.
func TestDragTableDoesNotOvershoot(t *testing.T) {
	table := mustRead(t, "lift,reynolds,drag\n0,1e6,.009\n.1,1e6,.009\n.2,1e6,.005\n.3,1e6,.005\n.4,1e6,.009\n.5,1e6,.0091")
	for lift := -1.0; lift < 1.5; lift += 0.001 {
		if d := table.Drag(lift, 1e6, 0); d < 0.005-1e-12 || d > 0.00916 {
			t.Fatalf("drag at lift %.3f is %g", lift, d)
		}
	}
	near(t, "drag on the floor", table.Drag(0.25, 1e6, 0), 0.005, 1e-12)
	near(t, "drag at another Reynolds number", table.Drag(0.25, 9e6, 0.3), 0.005, 1e-12)
}

func TestDragTableIsSmoothAndFinite(t *testing.T) {
	table := mustRead(t, exampleTable())
	const h = 1e-6
	for name, drag := range map[string]func(v float64) float64{
		"lift":        func(v float64) float64 { return table.Drag(v, 7e5, 0.03) },
		"flap":        func(v float64) float64 { return table.Drag(0.37, 7e5, si.Angle(v/4)) },
		"reynolds":    func(v float64) float64 { return table.Drag(0.37, math.Exp(13+2*v), 0.03) },
		"everything":  func(v float64) float64 { return table.Drag(v, math.Exp(13+2*v), si.Angle(v/4)) },
		"flap, apart": func(v float64) float64 { return table.Drag(-2, 7e3, si.Angle(v/4)) },
	} {
		slope := func(v float64) float64 { return (drag(v+h) - drag(v-h)) / (2 * h) }
		previous := slope(-3.0)
		for v := -3.0; v < 3; v += 0.0005 {
			now := slope(v)
			if !(math.Abs(now-previous) < 4e-4) {
				t.Fatalf("slope of drag over %s jumps from %g to %g at %g", name, previous, now, v)
			}
			previous = now
		}
	}
	wild := []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, -1e300, 1e300}
	for _, lift := range wild {
		for _, re := range wild {
			for _, flap := range wild {
				if d := table.Drag(lift, re, si.Angle(flap)); !(d > 0 && d < 0.1) {
					t.Errorf("drag at %g, %g, %g is %g", lift, re, flap, d)
				}
			}
		}
	}
	if far := table.Drag(50, 1e6, 0); far != table.Drag(5, 1e6, 0) {
		t.Errorf("drag far outside is %g, then %g: it should end", table.Drag(5, 1e6, 0), far)
	}
}

func TestDragTableCovers(t *testing.T) {
	table := mustRead(t, exampleTable())
	plain := mustRead(t, "lift;reynolds;drag\n# a comment\n-0.5;1e6;0.01\n0.5;1e6;0.01\n")
	const within, outside = "within", "outside"
	for _, c := range []struct {
		table          *DragTable
		lift, reynolds float64
		flap           si.Angle
		want           string
	}{
		{table, -0.8, 2e5, -5 * si.Degree, within},
		{table, 1.2, 3e6, 10 * si.Degree, within},
		{table, 1.21, 3e6, 0, outside},
		{table, 0, 1.9e5, 0, outside},
		{table, 0, 3.1e6, 0, outside},
		{table, 0, 1e6, 11 * si.Degree, outside},
		{table, math.NaN(), 1e6, 0, outside},
		{plain, 0.1, 1e6, 0, within},
		{plain, 0.1, 1e6, 0.1, outside},
		{plain, 0.1, 2e6, 0, outside},
	} {
		got := outside
		if c.table.Covers(c.lift, c.reynolds, c.flap) {
			got = within
		}
		if got != c.want {
			t.Errorf("lift %g, reynolds %g, flap %v is %s the table, want %s", c.lift, c.reynolds, c.flap, got, c.want)
		}
	}
	if got, want := table.String(), "drag.csv: lift -0.8 to 1.2, reynolds 2e+05 to 3e+06, flap -5 to 10 deg"; got != want {
		t.Errorf("the table is %q, want %q", got, want)
	}
}

func TestSectionWithDragTable(t *testing.T) {
	plain := mustParse(t, "naca 64-209")
	flap := Flap{0.3, 5 * si.Degree}
	table := mustRead(t, exampleTable())
	s := plain.WithDragTable(table)

	d := s.DragParts(0.4, 1e6, 0.5, flap, 1)
	if want := (DragParts{Friction: table.Drag(0.4, 1e6, 5*si.Degree)}); d != want {
		t.Errorf("drag by the table is %+v, want %+v", d, want)
	}
	if past := s.DragParts(2.2, 1e6, 0.5, flap, 1); past.Stall == 0 || past.Stall != plain.DragParts(2.2, 1e6, 0.5, flap, 1).Stall {
		t.Errorf("past the largest lift the penalty is %g", past.Stall)
	}

	// A table without flap: the flap moves it along with the ideal lift.
	const text = "lift,reynolds,drag\n-1,1e6,.02\n-.5,1e6,.01\n0,1e6,.005\n.5,1e6,.01\n1,1e6,.02"
	unflapped := plain.WithDragTable(mustRead(t, text))
	flap.Deflection = 15 * si.Degree
	d = unflapped.DragParts(flap.Effect(1).IdealLift, 1e6, 0, flap, 1)
	near(t, "least drag with the flap down", d.Friction, 0.005, 1e-12)
	near(t, "the flap's own drag", d.Flap, plain.DragParts(0, 1e6, 0, flap, 1).Flap, 0)

	same := plain.WithDragTable(mustRead(t, exampleTable()))
	stronger, err := s.WithLargestLift(1.4)
	if err != nil {
		t.Fatal(err)
	}
	scaled, err := s.Scaled(0.1)
	if err != nil {
		t.Fatal(err)
	}
	switch {
	case plain.DragTable() != nil || plain.Equal(s) || s.Equal(plain) || s.Equal(unflapped):
		t.Error("sections with and without a table, or with another, are the same")
	case !s.Equal(same) || !s.WithDragTable(nil).Equal(plain):
		t.Error("sections with tables of the same values differ")
	case stronger.DragTable() != table || scaled.DragTable() != nil:
		t.Error("the table goes with another largest lift, not with another thickness")
	}
}

func TestReadDragTableSaysWhere(t *testing.T) {
	for text, says := range map[string][]string{
		"":                                       {"drag.csv: no columns", "hint: begin with a line lift,reynolds,drag"},
		"lift,reynolds\n0,1e6":                   {"drag.csv:1: no column drag"},
		"lift,reynolds,drag,alpha\n":             {`drag.csv:1:20: column "alpha" is not known`, "hint: the columns are lift"},
		"lift,lift,drag\n":                       {"drag.csv:1:6: a second column for lift"},
		"lift,reynolds,drag,flap deg,Flap rad\n": {"drag.csv:1:29: a second column for flap"},
		"lift,reynolds,drag\n0,1e6,x\n1,1e6\n1,1e6,NaN\n1,9,-1": {
			`drag.csv:2:7: drag: "x" is not a number`, "drag.csv:3: 2 values, the header names 3 columns",
			"drag.csv:4:7: drag: NaN, allowed is 1e-06 to 10", "drag.csv:5:3: reynolds: 9, allowed is 1000 to 1e+10",
			"drag.csv:5:5: drag: -1, allowed is"},
		"lift;reynolds;drag\n0,5;1e6;0.01":                          {`drag.csv:2:1: lift: "0,5" is not a number`, "hint: write a decimal point"},
		"lift,reynolds,drag\n0,1e6,.01\n":                           {"drag.csv: 1 lifts, needed are at least 2"},
		"lift,reynolds,drag\n0,1e6,.01\n1,1e6,.01\n0,2e6,.01":       {"drag.csv: no row for lift 1, reynolds 2e+06"},
		"lift,reynolds,drag\n0,1e6,.01\n\n1,1e6,.01\n0,1000000,.02": {"drag.csv:5: lift 0, reynolds 1e+06 stands on line 2 already"},
		"lift,reynolds,drag\n0,1e6,.01\n0.0000001,1e6,.01\n":        {"drag.csv: lift: 0 and 1e-07 are closer than can be told apart"},
		"lift,reynolds,drag\n0,1e6,\"0.1\n":                         {"drag.csv:2:12: extraneous or missing"},
		"lift,reynolds,drag\n" + strings.Repeat("a,b,c\n", 30):      {"drag.csv: 70 more faults"},
		strings.Repeat(" ", 1<<20) + "lift":                         {"more than 1048576 bytes"},
	} {
		_, err := ReadDragTable("drag.csv", strings.NewReader(text))
		for _, part := range says {
			if err == nil || !strings.Contains(err.Error(), part) {
				t.Errorf("error of %.60q is %v, want one that says %q", text, err, part)
			}
		}
	}
}

func FuzzReadDragTable(f *testing.F) {
	f.Add(exampleTable())
	f.Add("lift;reynolds;flap_rad;drag\n0;1e6;0;0.01\n1;1e6;0;0.02\n")
	f.Add("lift,reynolds,drag\n0,1e6,\"0.1")
	f.Fuzz(func(t *testing.T, text string) {
		table, err := ReadDragTable("f", strings.NewReader(text))
		if err != nil {
			return
		}
		least, most := table.Range()
		for _, lift := range []float64{least.Lift - 1, least.Lift, (least.Lift + most.Lift) / 2, most.Lift, most.Lift + 1} {
			if d := table.Drag(lift, least.Reynolds*1.3, most.Flap/2); !(d > 0) || !finite(d) {
				t.Errorf("drag at lift %g is %g", lift, d)
			}
		}
	})
}

// The grid's slopes are the derivatives of what it gives, at its points too.
func TestGridSlopes(t *testing.T) {
	g := newGrid([3]axis{{0, 1, 3, 4}, {0, 2}, {0}}, []float64{0, 1, 9, 16, 5, 4, 4, 9})
	for i, x := range g.axes[0] {
		const h = 1e-6
		slope := (g.at(x+h, 0, 0) - g.at(x-h, 0, 0)) / (2 * h)
		near(t, "slope at a point", slope, g.nodes[i][1], 1e-4)
	}
	if !g.equal(newGrid(g.axes, []float64{0, 1, 9, 16, 5, 4, 4, 9})) || g.equal(newGrid(g.axes, make([]float64, 8))) {
		t.Error("grids are compared wrongly")
	}
	if lines := slices.Compact([]float64{g.at(0, 0, 7), g.at(0, 0, -7), g.at(0, 0, 0)}); len(lines) != 1 {
		t.Errorf("along an axis of one place the grid changes: %v", lines)
	}
}

func BenchmarkDragByTable(b *testing.B) {
	s := mustParse(b, "naca 64-209").WithDragTable(mustRead(b, exampleTable()))
	flap := Flap{0.3, 0.06}
	b.ReportAllocs()
	sum := 0.0
	for b.Loop() {
		sum += s.DragParts(0.43, 7e5, 0, flap, 1).Total()
	}
	_ = sum
}
