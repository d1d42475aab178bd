package lattice

import (
	"fmt"
	"math"
	"testing"
)

// strips24 is the number of strips a surface at which the acceptance is held.
const strips24 = 24

// heldEfficiency holds the optimum of a shape of unit span against a published
// efficiency, to half a per cent at 24 strips a surface and to tight at 64.
func heldEfficiency(t *testing.T, f figure, b Boundary, tight float64, sides ...side) {
	t.Helper()
	want := published(t, f.file, f.id)[f.part]
	shape := f.conditions
	for _, c := range []struct {
		strips    int
		tolerance float64
	}{{strips24, 0.005 * want}, {64, tight}} {
		var p Panels
		cut(&p, c.strips, 0.1, CosineBoth, sides...)
		e, _ := efficiency(t, &p, b, 1)
		f.quantity, f.unit, f.conditions = "largest efficiency e", "-", fmt.Sprintf("%s, %d strips a side", shape, c.strips)
		held(t, f, e, c.tolerance)
	}
}

// of names a figure of the least induced drag, and the shape that it is for.
func of(id string, part int, shape string, args ...any) figure {
	return figure{file: "munk-1921", id: id, part: part, conditions: fmt.Sprintf(shape, args...)}
}

func TestEfficiencyUnbounded(t *testing.T) {
	heldEfficiency(t, of("3.51", 0, "flat"), Unbounded, 1e-6, side{from: [2]float64{-0.5, 0}, to: [2]float64{0.5, 0}})
	for _, c := range []struct {
		id       string
		dihedral float64
	}{{"3.35", 10 * degree}, {"3.37", 30 * degree}, {"3.38", 45 * degree}, {"3.39", math.Atan(0.4)}} {
		degrees := c.dihedral / degree
		heldEfficiency(t, figure{file: "letcher-1972", id: c.id, conditions: fmt.Sprintf("V, %.4g°", degrees)}, Unbounded, 1e-5, vee(c.dihedral, 0)...)
		heldEfficiency(t, figure{file: "letcher-1972", id: c.id, conditions: fmt.Sprintf("inverted V, %.4g°", degrees)}, Unbounded, 1e-5, vee(-c.dihedral, 0)...)
	}
	for _, cant := range []float64{10, 40, 70} {
		straight := side{to: [2]float64{1, math.Tan(cant * degree)}}
		heldEfficiency(t, of("3.51", 0, "straight at %g°", cant), Unbounded, 1e-6, straight)
	}
}

// Closed and branched traces. Corners where strips of different widths meet
// converge with the first power and a half of their number.
func TestEfficiencyOfFrames(t *testing.T) {
	for _, c := range []struct {
		id     string
		height float64
	}{{"3.43", 0.05}, {"3.44", 0.1}, {"3.46", 0.3}, {"3.47", 0.5}} {
		want := published(t, "munk-1921", c.id)
		h := c.height
		left, right := [2]float64{-0.5, 0}, [2]float64{0.5, 0}
		up := func(p [2]float64, by float64) [2]float64 { return [2]float64{p[0], p[1] + by} }
		main := side{from: left, to: right}
		heldEfficiency(t, of(c.id, 0, "biplane, gap %g", h), Unbounded, 1e-5, main, side{from: up(left, h), to: up(right, h)})
		heldEfficiency(t, of(c.id, 1, "winglets of %g", h), Unbounded, 0.0015*want[1], side{from: up(left, h), to: left}, main, side{from: right, to: up(right, h)})
		heldEfficiency(t, of(c.id, 2, "end plates of %g", h), Unbounded, 2e-4,
			side{from: up(left, h/2), to: left}, side{from: left, to: up(left, -h/2)}, main, side{from: right, to: up(right, h/2)}, side{from: right, to: up(right, -h/2)})
		heldEfficiency(t, of(c.id, 3, "box of %g", h), Unbounded, 0.0015*want[3],
			side{from: up(left, h), to: left}, main, side{from: right, to: up(right, h)}, side{from: up(right, h), to: up(left, h)})
		middle := [2]float64{0, h / 2}
		heldEfficiency(t, of(c.id, 4, "X of %g", h), Unbounded, 1e-4,
			side{from: left, to: middle}, side{from: middle, to: right}, side{from: up(left, h), to: middle}, side{from: middle, to: up(right, h)})
	}
	left, right := [2]float64{-0.5, 0}, [2]float64{0.5, 0}
	topLeft, topRight := [2]float64{-0.5, 0.2}, [2]float64{0.5, 0.2}
	heldEfficiency(t, of("3.48", 0, "C-wing"), Unbounded, 0.003,
		side{from: [2]float64{-0.4, 0.2}, to: topLeft}, side{from: topLeft, to: left}, side{from: left, to: right},
		side{from: right, to: topRight}, side{from: topRight, to: [2]float64{0.4, 0.2}})
}

// The circle, cut evenly along its arc.
func TestRing(t *testing.T) {
	ring := func(s float64) Station {
		sin, cos := math.Sincos(2 * math.Pi * s)
		if s == 1 {
			sin, cos = 0, 1
		}
		return Station{Quarter: [3]float64{0, cos / 2, sin / 2}, Aft: [3]float64{-1, 0, 0}, Chord: 0.1, Normal: [3]float64{0, -cos, -sin}}
	}
	want := published(t, "munk-1921", "3.40")[0]
	for _, c := range []struct {
		strips    int
		tolerance float64
	}{{strips24, 0.005 * want}, {96, 4e-4 * want}} {
		var p Panels
		for i := range c.strips {
			AppendSpan(&p, ring, float64(i)/float64(c.strips), float64(i+1)/float64(c.strips), 1, 1, 0, 0)
		}
		e, _ := efficiency(t, &p, Unbounded, 1)
		held(t, figure{"munk-1921", "3.40", 0, "largest efficiency e", fmt.Sprintf("ring of %d strips", c.strips), "-"}, e, c.tolerance)
	}
}

func TestEfficiencyUnderSurface(t *testing.T) {
	flat := func(depth float64) side {
		return side{from: [2]float64{-0.5, -depth}, to: [2]float64{0.5, -depth}}
	}
	for _, c := range []struct {
		id    string
		depth float64
	}{{"4.14", 0.1}, {"4.16", 0.5}, {"4.17", 1}} {
		heldEfficiency(t, of(c.id, 0, "flat, depth %g of the span", c.depth), FreeSurface, 2e-6, flat(c.depth))
	}
	for _, c := range []struct {
		id       string
		dihedral float64
	}{{"4.18", -10}, {"4.20", -30}, {"4.21", 10}, {"4.23", 30}} {
		for k, h := range []float64{0.1, 0.2, 0.5} {
			rise := max(0, 0.5*math.Tan(c.dihedral*degree))
			heldEfficiency(t, of(c.id, k, "V, %g°, depth %g of the span", c.dihedral, h), FreeSurface, 2e-5, vee(c.dihedral*degree, h+rise)...)
		}
	}
}

func TestEfficiencyPiercing(t *testing.T) {
	for _, c := range []struct {
		id       string
		dihedral float64
	}{{"4.24", 20}, {"4.26", 40}, {"4.27", 45}} {
		depth := 0.5 * math.Tan(c.dihedral*degree)
		heldEfficiency(t, of(c.id, 0, "piercing V, %g°", c.dihedral), FreeSurface, 1e-5, vee(c.dihedral*degree, depth)...)
	}
	for _, c := range []struct {
		id   string
		cant float64
	}{{"4.28", 10}, {"4.29", 20}, {"4.30", 30}, {"4.32", 60}, {"4.33", 75}} {
		straight := side{to: [2]float64{1, -math.Tan(c.cant * degree)}}
		heldEfficiency(t, of(c.id, 0, "straight and piercing, %g°", c.cant), FreeSurface, 2e-6, straight)
	}
	heldEfficiency(t, of("4.40", 0, "piercing hoop"), FreeSurface, 5e-4,
		side{from: [2]float64{-0.5, 0}, to: [2]float64{-0.5, -0.25}},
		side{from: [2]float64{-0.5, -0.25}, to: [2]float64{0.5, -0.25}},
		side{from: [2]float64{0.5, -0.25}, to: [2]float64{0.5, 0}})
}

// The strut under a rigid wall at right angles: the double body, e on the
// wetted span is 2, the load is across.
func TestStrutAtWall(t *testing.T) {
	var p Panels
	cut(&p, strips24, 0.1, CosineBoth, side{to: [2]float64{0, -1}})
	w := assembled(t, &p, Wall)
	g := make([]float64, w.Strips())
	drag, err := w.Optimum([]Aim{{Direction: [3]float64{0, 1, 0}, Force: 1}}, g)
	if err != nil {
		t.Fatal(err)
	}
	want := published(t, "munk-1921", "4.35")[0]
	held(t, figure{"munk-1921", "4.35", 0, "largest efficiency e", "vertical strut at a rigid wall, 24 strips", "-"}, 2/(math.Pi*drag), 0.005*want)
}

// Where the optimum carries its vertical load.
func TestCentroids(t *testing.T) {
	centroid := func(p *Panels, g []float64, along func(mid [3]float64) float64) float64 {
		load, moment := 0.0, 0.0
		for i := range g {
			lift := g[i] * math.Abs(p.B[i][1]-p.A[i][1])
			load += lift
			moment += lift * along(p.Mid[i])
		}
		return moment / load
	}
	for k, cant := range []float64{10, 20, 30, 45, 60} {
		var p Panels
		cut(&p, 64, 0.1, CosineBoth, side{to: [2]float64{1, -math.Tan(cant * degree)}})
		_, g := efficiency(t, &p, FreeSurface, 1)
		got := centroid(&p, g, func(m [3]float64) float64 { return m[1] })
		held(t, figure{"munk-1921", "4.37", k, "centroid of the optimum's vertical load", fmt.Sprintf("straight and piercing, %g°", cant), "of the span"}, got, 1e-4)
	}
	for k, dihedral := range []float64{0, 10, 20, 30, 0, -10, -20, -30} {
		b, depth := Unbounded, 0.0
		if k >= 4 {
			b, depth = FreeSurface, 0.1
		}
		var p Panels
		cut(&p, 64, 0.1, CosineBoth, vee(dihedral*degree, depth)...)
		_, g := efficiency(t, &p, b, 1)
		got := centroid(&p, g, func(m [3]float64) float64 { return 2 * math.Abs(m[1]) })
		held(t, figure{"munk-1921", "4.38", k, "half-span centroid of the optimum", fmt.Sprintf("V, %g°, %v", dihedral, b), "of the half span"}, got, 5e-5)
	}
}
