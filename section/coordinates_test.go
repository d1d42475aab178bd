package section

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"testing"
)

func outline(t testing.TB, name string, n int) []Point {
	t.Helper()
	return mustParse(t, name).Points(n)
}

func text(points []Point) string {
	var b strings.Builder
	for _, p := range points {
		fmt.Fprintf(&b, "%.7f %.7f\n", p.X, p.Y)
	}
	return b.String()
}

// One section in every order and dress that files come in.
func TestOrders(t *testing.T) {
	want := mustParse(t, "naca 2412")
	points := outline(t, "naca 2412", 81)
	round := text(points)
	backwards := slices.Clone(points)
	slices.Reverse(backwards)
	upper := slices.Clone(points[:41])
	slices.Reverse(upper)
	sides := text(upper) + "\n" + text(points[40:])
	percent := make([]Point, len(points))
	for i, p := range points {
		percent[i] = Point{100 * p.X, 100 * p.Y}
	}
	for name, file := range map[string]string{
		"round the section":      "NACA 2412\n" + round,
		"round, no title":        round,
		"the other way round":    "a title\n" + text(backwards),
		"sides with counts":      "NACA 2412\n 41. 41.\n\n" + sides,
		"sides without counts":   "NACA 2412\n" + sides,
		"lower side first":       "NACA 2412\n41 41\n" + text(points[40:]) + "\n" + text(upper),
		"in per cent":            "NACA 2412\n" + text(percent),
		"commas and a BOM":       "\ufeffNACA 2412\r\n" + strings.ReplaceAll(strings.ReplaceAll(round, " ", ", "), "\n", "\r\n"),
		"last lower point lacks": "NACA 2412\n" + text(points[:80]),
		"points twice":           "NACA 2412\n" + text(slices.Insert(slices.Clone(points), 30, points[30])),
	} {
		s, err := FromCoordinates("twelve", strings.NewReader(file))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		near(t, name+": thickness", s.Thickness, want.Thickness, 1e-4)
		near(t, name+": angle of no lift, deg", s.ZeroLift.Degrees(), want.ZeroLift.Degrees(), 0.08)
		near(t, name+": moment", s.Moment, want.Moment, 0.002)
		for _, x := range []float64{0.01, 0.1, 0.5, 0.9} {
			u, l := s.Surface(x)
			wu, wl := want.Surface(x)
			near(t, name+": upper side", u, wu, 2e-4)
			near(t, name+": lower side", l, wl, 2e-4)
		}
	}
}

func TestCoordinatesSayWhatWouldDo(t *testing.T) {
	points := outline(t, "naca 0012", 41)
	for file, says := range map[string]string{
		"":                                              "0 points, needed are at least 12",
		"title\n1 0\n0 0\n1 0\n":                        "3 points",
		"title\n" + text(points) + "0.5\n":              "is not an x y pair: it has 1 fields",
		"title\n" + text(points) + "x y\n":              "hint: write two numbers a line",
		"title\n" + text(points) + "NaN 0\n":            "not a usable number",
		"title\n" + text(points) + "1e300 0\n":          "not a usable number",
		"title\n" + strings.Repeat("0 0\n", 40):         "needed are at least 12",
		"title\n" + text(points[:12]):                   "one side has only",
		"title\n1 0.2\n" + text(points[1:]):             "open by",
		strings.Repeat("# 0.5 0.5\n", 200000):           "bytes of coordinates",
		"title\n" + text(outline(t, "naca 0012", 5000)): "more than 4000 points",
	} {
		_, err := FromCoordinates("mine", strings.NewReader(file))
		if err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("file of %d bytes: error is %v, want one that says %q", len(file), err, says)
		}
	}
}

// The files of the open data base are read, traps and all.
func TestDataBaseFiles(t *testing.T) {
	for file, thickness := range map[string]float64{
		"e817.dat": 0.110, "e818.dat": 0.094, "n0009sm.dat": 0.090, "n0012.dat": 0.12, "n63210.dat": 0.10, "n63412.dat": 0.12,
		"n64110.dat": 0.10, "n66021.dat": 0.21, "naca23012.dat": 0.12, "naca4412.dat": 0.12, "naca64a010.dat": 0.10, "naca652415.dat": 0.15,
	} {
		s := fromData(t, file)
		near(t, file+" thickness", s.Thickness, thickness, 0.0005)
		if strings.Contains(file, "0012") || strings.Contains(file, "021") {
			continue
		}
		again, err := s.Scaled(0.11)
		if err != nil {
			t.Fatal(err)
		}
		near(t, file+" scaled", again.Thickness, 0.11, 0)
		scaled, _ := again.shape.thickness()
		near(t, file+" shape scaled", scaled, 0.11, 1e-6)
	}
}

// Our reading of a coarse list against the formula behind it.
func TestDataBaseMeanLines(t *testing.T) {
	for file, name := range map[string]string{"naca2412.dat": "naca 2412", "naca4412.dat": "naca 4412", "naca23012.dat": "naca 23012"} {
		got, want := fromData(t, file), mustParse(t, name)
		near(t, file+" angle of no lift, deg", got.ZeroLift.Degrees(), want.ZeroLift.Degrees(), 0.15)
		near(t, file+" moment", got.Moment, want.Moment, 0.001)
		near(t, file+" largest lift", got.LargestLift, want.LargestLift, 0.04)
	}
}

func TestScaledKeepsTheMeanLine(t *testing.T) {
	s := mustParse(t, "naca 64-412")
	thin := mustParse(t, "naca 64-412 at 11 %")
	if thin.ZeroLift != s.ZeroLift || thin.Moment != s.Moment || thin.Name != "naca 64-412 at 11 %" {
		t.Errorf("scaled to %+v", thin)
	}
	for _, x := range []float64{0.05, 0.3, 0.8} {
		u, l := s.Surface(x)
		v, m := thin.Surface(x)
		near(t, "mean line", v+m, u+l, 1e-4)
	}
	if !(thin.LargestLift < s.LargestLift) {
		t.Errorf("largest lift is %g thin, %g thick", thin.LargestLift, s.LargestLift)
	}
	if !s.Equal(mustParse(t, "naca 64-412")) || s.Equal(thin) || (Section{}).Equal(s) || !(Section{}).Equal(Section{}) {
		t.Error("equality does not tell sections apart")
	}
}

func TestParseWithAsksForTheFile(t *testing.T) {
	asked := ""
	s, err := ParseWith("mine at 11 %", func(name string) (io.ReadCloser, error) {
		asked = name
		return io.NopCloser(strings.NewReader("mine\n" + text(outline(t, "naca 2412", 81)))), nil
	})
	if err != nil || asked != "mine" || math.Abs(s.Thickness-0.11) > 1e-12 || s.Name != "mine at 11 %" {
		t.Errorf("asked for %q, got %+v, %v", asked, s, err)
	}
}

func TestZeroSection(t *testing.T) {
	var s Section
	if p := s.Points(9); p != nil {
		t.Errorf("no section has points %v", p)
	}
	if u, l := s.Surface(0.5); u != 0 || l != 0 {
		t.Errorf("no section has a surface at %g, %g", u, l)
	}
	if d := s.Drag(0.5, 1e6, 0); !finite(d) {
		t.Errorf("no section drags %g", d)
	}
}

func FuzzFromCoordinates(f *testing.F) {
	f.Add("NACA 0012\n" + text(outline(f, "naca 0012", 41)))
	f.Add("x\n41. 41.\n1 0\n0 0\n")
	f.Add(strings.Repeat("1 0\n0 1\n", 10))
	f.Fuzz(func(t *testing.T, file string) {
		s, err := FromCoordinates("fuzz", strings.NewReader(file))
		if err == nil && !(s.Thickness > 0 && finite(s.ZeroLift.Radians()) && finite(s.Moment) && finite(s.LargestLift)) {
			t.Errorf("%q gives %+v", file, s)
		}
	})
}

// What was mended of a file's points is said; what needed nothing says nothing.
func TestMendedIsSaid(t *testing.T) {
	points := outline(t, "naca 2412", 81)
	backwards := slices.Clone(points)
	slices.Reverse(backwards)
	open := slices.Clone(points)
	open[0].Y += 0.004
	open[len(open)-1].Y -= 0.004
	for want, given := range map[string][]Point{
		"": points,
		"the order was turned round: the lower side came first":                backwards,
		"the trailing edge was closed, which was open by 0.8 % of the chord":   open,
		"the trailing-edge point that one side lacks was taken from the other": points[:80],
		"2 points that stood twice were dropped":                               slices.Insert(slices.Clone(points), 30, points[30], points[30]),
	} {
		sec, err := FromCoordinates("own", strings.NewReader(text(given)))
		if err != nil {
			t.Errorf("%q: %v", want, err)
		} else if sec.Mended != want {
			t.Errorf("mended %q, want %q", sec.Mended, want)
		}
	}
}

// Surfaces that cross are refused.
func TestCrossingSurfacesAreRefused(t *testing.T) {
	points := outline(t, "naca 0012", 81)
	for i := 10; i < 25; i++ {
		points[i].Y = -points[i].Y
	}
	if _, err := FromCoordinates("own", strings.NewReader(text(points))); err == nil || !strings.Contains(err.Error(), "section") {
		t.Errorf("a section whose sides cross is taken: %v", err)
	} else {
		t.Log(err)
	}
}
