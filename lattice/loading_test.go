package lattice

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// glauert returns the odd coefficients of the lifting line's series
// Γ = Σ aₙ sin nθ for unit span and incidence, two-dimensional slope 2π, and a
// chord over the angle (Glauert 1926).
func glauert(terms int, chord func(angle float64) float64) []float64 {
	a := make([]float64, terms*terms)
	right := make([]float64, terms)
	for i := range terms {
		angle := (float64(i) + 0.5) / float64(terms) * math.Pi / 2
		mu := math.Pi * chord(angle) / 2
		right[i] = 2 * mu * math.Sin(angle)
		for j := range terms {
			n := float64(2*j + 1)
			a[i*terms+j] = math.Sin(n*angle) * (mu*n + math.Sin(angle))
		}
	}
	pivot := make([]int, terms)
	m := blas64.General{Rows: terms, Cols: terms, Stride: terms, Data: a}
	lapack64.Getrf(m, pivot)
	lapack64.Getrs(blas.NoTrans, m, blas64.General{Rows: terms, Cols: 1, Stride: 1, Data: right}, pivot)
	return right
}

// The far wake of the lifting line's own loading on rectangular and tapered
// wings: the drag increment δ. The lattice's own loading is another, for which
// lifting-surface theory is the reference.
func TestGlauertLoadings(t *testing.T) {
	var p Panels
	cut(&p, 48, 0.1, CosineBoth, side{from: [2]float64{-0.5, 0}, to: [2]float64{0.5, 0}})
	w := assembled(t, &p, Unbounded)
	increment := func(a []float64) float64 {
		g := make([]float64, w.Strips())
		lift := 0.0
		for i := range g {
			angle := math.Acos(2 * p.Mid[i][1])
			for j, c := range a {
				g[i] += c * math.Sin(float64(2*j+1)*angle)
			}
			lift += g[i] * math.Abs(p.B[i][1]-p.A[i][1])
		}
		drag, err := w.Induced(g)
		if err != nil {
			t.Fatal(err)
		}
		return drag*math.Pi/(2*lift*lift) - 1
	}
	for _, c := range []struct {
		id     string
		aspect float64
		value  int
	}{{"3.02", math.Pi, 1}, {"3.03", 1.5 * math.Pi, 1}, {"3.05", 2.5 * math.Pi, 1}, {"3.07", 3.5 * math.Pi, 1}, {"3.08", 4, 2}, {"3.10", 8, 2}, {"3.11", 10, 2}} {
		a := glauert(60, func(float64) float64 { return 1 / c.aspect })
		held(t, figure{"glauert-1926", c.id, c.value, "drag increment δ of Glauert's loading, rectangular wing", "", "-"}, increment(a), 2e-4)
	}
	for k, taper := range []float64{0.25, 0.3, 0.35, 0.4, 0.5, 0.75, 1} {
		root := 2 / (2 * math.Pi * (1 + taper))
		a := glauert(120, func(angle float64) float64 { return root * (1 - (1-taper)*math.Abs(math.Cos(angle))) })
		held(t, figure{"glauert-1926", "3.12", k, "drag increment δ of Glauert's loading, tapered wing", fmt.Sprintf("A = 2π, taper %g", taper), "-"}, increment(a), 1e-4)
	}
}

// elliptic fills circulations of the shape √(1 − (2y/b)²) on strips of unit span.
func elliptic(p *Panels, g []float64) (lift float64) {
	for i := range g {
		g[i] = math.Sqrt(0.25 - p.Mid[i][1]*p.Mid[i][1])
		lift += g[i] * math.Abs(p.B[i][1]-p.A[i][1])
	}
	return lift
}

// Two elliptic loads above one another: Prandtl's interference factor σ, and
// under the surface e = 1/(1+σ) with the gap twice the depth.
func TestBiplaneInterference(t *testing.T) {
	drag := func(w *Workspace, g []float64) float64 {
		d, err := w.Induced(g)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	for _, c := range []struct {
		id  string
		gap float64
	}{{"3.26", 0.05}, {"3.27", 0.1}, {"3.28", 0.15}, {"3.30", 0.25}, {"3.31", 0.3}, {"3.32", 0.4}, {"3.33", 0.5}} {
		var one, two Panels
		low := side{from: [2]float64{-0.5, -c.gap / 2}, to: [2]float64{0.5, -c.gap / 2}}
		cut(&one, 48, 0.1, CosineBoth, low)
		cut(&two, 48, 0.1, CosineBoth, low, side{from: [2]float64{-0.5, c.gap / 2}, to: [2]float64{0.5, c.gap / 2}})
		single, double := make([]float64, 48), make([]float64, 96)
		elliptic(&one, single)
		elliptic(&two, double)
		alone := drag(assembled(t, &one, Unbounded), single)
		sigma := func(how string) figure {
			return figure{"prandtl-1921", c.id, 0, "interference factor σ, elliptic loads", fmt.Sprintf("gap %g of the span, %s", c.gap, how), ""}
		}
		held(t, sigma("two wings"), drag(assembled(t, &two, Unbounded), double)/(2*alone)-1, 2e-5)
		held(t, sigma("one under the surface"), drag(assembled(t, &one, FreeSurface), single)/alone-1, 2e-5)
		held(t, sigma("one over a wall"), 1-drag(assembled(t, &one, Wall), single)/alone, 2e-5)
	}
	for _, c := range []struct {
		id    string
		depth float64
	}{{"4.14", 0.1}, {"4.16", 0.5}} {
		var p Panels
		cut(&p, 48, 0.1, CosineBoth, side{from: [2]float64{-0.5, -c.depth}, to: [2]float64{0.5, -c.depth}})
		g := make([]float64, 48)
		lift := elliptic(&p, g)
		held(t, figure{"munk-1921", c.id, 1, "efficiency e under the surface, elliptic load", fmt.Sprintf("depth %g of the span", c.depth), ""},
			2*lift*lift/(math.Pi*drag(assembled(t, &p, FreeSurface), g)), 1e-5)
	}
}

// The elliptic load's half-span centroid, 4/(3π).
func TestEllipticCentroid(t *testing.T) {
	for strips, tolerance := range map[int]float64{48: 3e-4, 800: 1e-6} {
		var p Panels
		cut(&p, strips, 0.1, CosineBoth, side{from: [2]float64{-0.5, 0}, to: [2]float64{0.5, 0}})
		_, g := efficiency(t, &p, Unbounded, 1)
		load, moment := 0.0, 0.0
		for i := range g {
			lift := g[i] * math.Abs(p.B[i][1]-p.A[i][1])
			load += lift
			moment += lift * 2 * math.Abs(p.Mid[i][1])
		}
		held(t, figure{"glauert-1926", "3.14", 0, "half-span centroid of the optimum", fmt.Sprintf("flat wing, %d strips", strips), ""}, moment/load, tolerance)
	}
}
