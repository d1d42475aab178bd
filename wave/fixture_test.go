package wave

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"foilwright/lattice"
	"foilwright/si"
)

const gravity = 9.81

// line appends a straight lifting line with nodes at the cosine.
func line(p *lattice.Panels, a, b [3]float64, n, surface int) {
	lattice.AppendSpan(p, func(s float64) lattice.Station {
		q := a
		for k := range 3 {
			q[k] += s * (b[k] - a[k])
		}
		return lattice.Station{Quarter: q, Aft: [3]float64{-1, 0, 0}, Chord: 0.1, Normal: [3]float64{0, 0, 1}}
	}, 0, 1, n, 1, surface, 0.025)
}

// stripsOf returns the panels as strips, with a circulation from the place.
func stripsOf(p *lattice.Panels, circulation func(y, z float64) float64) *Strips {
	s := &Strips{A: p.A, B: p.B, Mid: p.Mid, Surface: p.Surface, Core: p.Core}
	for _, m := range p.Mid {
		s.Circulation = append(s.Circulation, circulation(m[1], m[2]))
	}
	return s
}

// ellipse is a line of unit span at a depth with elliptic circulation.
func ellipse(depth float64, n int) (*lattice.Panels, *Strips) {
	var p lattice.Panels
	line(&p, [3]float64{0, 0.5, -depth}, [3]float64{0, -0.5, -depth}, n, 0)
	return &p, stripsOf(&p, func(y, _ float64) float64 { return math.Sqrt(1 - 4*y*y) })
}

// even is a line of equal strips with even circulation.
func even(s *Strips, x, depth, breadth, circulation float64, n int) {
	at := func(k float64) [3]float64 { return [3]float64{x, breadth * (0.5 - k/float64(n)), -depth} }
	for k := range n {
		s.A, s.B = append(s.A, at(float64(k))), append(s.B, at(float64(k+1)))
		s.Mid = append(s.Mid, at(float64(k)+0.5))
		s.Surface, s.Core = append(s.Surface, 0), append(s.Core, 0)
		s.Circulation = append(s.Circulation, circulation)
	}
}

// craft is a strut that pierces the water and leans, two swept wings at its
// foot, and a rudder with a wing 6 m behind: 6n strips. Its circulations fade
// towards the surface and the tips, and no leg leaves a corner.
func craft(n int) (*lattice.Panels, *Strips) {
	var p lattice.Panels
	line(&p, [3]float64{0, -0.3, 0}, [3]float64{0, 0, -1}, n, 0)
	line(&p, [3]float64{0, 0, -1}, [3]float64{-0.2, 1.5, -0.8}, n, 0)
	line(&p, [3]float64{0, 0, -1}, [3]float64{-0.2, -1.5, -1.2}, n, 0)
	line(&p, [3]float64{-6, 0.2, 0}, [3]float64{-6, 0.2, -0.8}, n, 1)
	line(&p, [3]float64{-6, 0.2, -0.8}, [3]float64{-6, 0.8, -0.8}, n, 1)
	line(&p, [3]float64{-6, 0.2, -0.8}, [3]float64{-6, -0.4, -0.8}, n, 1)
	s := stripsOf(&p, func(_, z float64) float64 { return -0.1 * z })
	for i, m := range s.Mid {
		wing, rudder := math.Sqrt(math.Max(0, 1-m[1]*m[1]/2.25)), math.Sqrt(math.Max(0, 1-(m[1]-0.2)*(m[1]-0.2)/0.36))
		switch i / n {
		case 1:
			s.Circulation[i] = -0.3 * wing
		case 2:
			s.Circulation[i] = 0.4 * wing
		case 3:
			s.Circulation[i] = -0.025 * m[2]
		case 4:
			s.Circulation[i] = -0.08 * rudder
		case 5:
			s.Circulation[i] = 0.1 * rudder
		}
	}
	return &p, s
}

// induced returns what a lattice makes of the strips' far wake, per density.
func induced(t testing.TB, p *lattice.Panels, s *Strips, b lattice.Boundary) float64 {
	t.Helper()
	var w lattice.Workspace
	if err := w.Assemble(p, b, lattice.Options{}); err != nil {
		t.Fatal(err)
	}
	return w.Forces(s.Circulation, make([][3]float64, p.Len())).Induced
}

// increment returns W − 2σ.
func increment(t testing.TB, s *Strips, speed float64) float64 {
	t.Helper()
	var w Workspace
	d, err := w.Increment(s, si.Speed(speed), gravity, nil)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// waves returns W.
func waves(t testing.TB, s *Strips, speed float64) float64 {
	t.Helper()
	var w Workspace
	d, err := w.Waves(s, si.Speed(speed), gravity)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// row is one published row.
type row struct {
	id, conditions string
	values         []float64
}

// published returns the rows of a file of testdata/published.
func published(t *testing.T, file string) []row {
	t.Helper()
	f, err := os.Open(filepath.Join("testdata", "published", file+".csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	records, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []row
	for _, r := range records[1:] {
		one := row{id: r[0], conditions: r[2]}
		for _, v := range regexp.MustCompile(`[−-]?[0-9][0-9.]*`).FindAllString(r[3], -1) {
			x, err := strconv.ParseFloat(strings.Replace(v, "−", "-", 1), 64)
			if err != nil {
				t.Fatal(err)
			}
			one.values = append(one.values, x)
		}
		rows = append(rows, one)
	}
	if len(rows) == 0 {
		t.Fatalf("%s has no rows", file)
	}
	return rows
}

// number returns the number that follows a label.
func number(t *testing.T, text, label string) float64 {
	t.Helper()
	m := regexp.MustCompile(regexp.QuoteMeta(label) + `([0-9.]*[0-9])`).FindStringSubmatch(text)
	if m == nil {
		t.Fatalf("no %q in %q", label, text)
	}
	x, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// near fails unless got is within the tolerance of want.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.Abs(got-want) <= tolerance {
		t.Logf("%s: %.7g, want %.7g, off by %.2g", what, got, want, got-want)
		return
	}
	t.Errorf("%s: %.9g, want %.9g, off by %.2g, more than %.2g", what, got, want, got-want, tolerance)
}
