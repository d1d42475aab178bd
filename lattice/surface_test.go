package lattice

import (
	"fmt"
	"math"
	"testing"
)

// slope returns the lift slope on the plan area and the centre of pressure as
// a share of unit chord behind the leading edge at x = 1/4.
func slope(t *testing.T, p *Panels, b Boundary, area float64) (lift, centre float64) {
	t.Helper()
	_, force, total := loaded(t, p, b, 1, 0)
	moment := 0.0
	for i, f := range force {
		moment += f[2] * (0.25 - p.Mid[i][0])
	}
	return 2 * total.Force[2] / area, moment / total.Force[2]
}

// Flat rectangular lifting surfaces: many rows against the published values,
// what one row lacks in the log.
func TestRectangularSurface(t *testing.T) {
	for _, c := range []struct {
		id     string
		aspect float64
	}{{"3.16", 1}, {"3.17", 2}, {"3.19", 6}, {"3.20", 8}} {
		want := published(t, "tuck-1993", c.id)
		var p Panels
		AppendSpan(&p, wing(c.aspect, 0, 0), 0, 1, 40, 10, 0, 0)
		lift, centre := slope(t, &p, Unbounded, c.aspect)
		conditions := fmt.Sprintf("aspect ratio %g, 40 strips of 10 rows", c.aspect)
		held(t, figure{"tuck-1993", c.id, 0, "lift slope of a flat rectangular wing", conditions, "1/rad"}, lift, 5e-4)
		held(t, figure{"tuck-1993", c.id, 1, "its centre of pressure", conditions, "chords"}, centre, 5e-4)
		p.Reset()
		AppendSpan(&p, wing(c.aspect, 0, 0), 0, 1, 24, 1, 0, 0)
		one, _ := slope(t, &p, Unbounded, c.aspect)
		t.Logf("aspect ratio %g: one row of 24 strips is %+.2f %% off", c.aspect, 100*(one/want[0]-1))
		held(t, figure{"tuck-1993", c.id, 0, "lift slope of a flat rectangular wing", fmt.Sprintf("aspect ratio %g, 24 strips of one row", c.aspect), "1/rad"}, one, 0.03*want[0])
	}
}

// The flat circular wing, whose value is from memory and from another lattice.
func TestCircularWing(t *testing.T) {
	disc := func(s float64) Station {
		y := s - 0.5
		half := math.Sqrt(max(0, 0.25-y*y))
		return Station{
			Quarter: [3]float64{half / 2, y, 0},
			Aft:     [3]float64{-1, 0, 0}, Chord: 2 * half, Normal: [3]float64{0, 0, 1},
		}
	}
	var p Panels
	AppendSpan(&p, disc, 0, 1, 36, 8, 0, 0)
	lift, _ := slope(t, &p, Unbounded, math.Pi/4)
	held(t, figure{"jordan-1973", "3.21", 0, "lift slope of a flat circular wing", "", ""}, lift, 0.002)
}

// Slender wings: half of π times the aspect ratio.
func TestSlenderLimit(t *testing.T) {
	var p Panels
	AppendSpan(&p, wing(0.01, 0, 0), 0, 1, 24, 4, 0, 0)
	lift, _ := slope(t, &p, Unbounded, 0.01)
	held(t, figure{"jones-1946", "3.23", 0, "lift slope of a slender wing over its aspect ratio", "aspect ratio 0.01", ""}, lift/0.01, 1e-3)
}

// The flat rectangular foil of aspect ratio 4 under the surface, from a quarter
// chord down to four.
func TestRectangularUnderSurface(t *testing.T) {
	want := published(t, "naca-1232-theory", "4.41")
	for k, depth := range []float64{0.25, 0.5, 1, 2, 4} {
		var p Panels
		AppendSpan(&p, wing(4, 0, depth), 0, 1, 40, 8, 0, 0)
		lift, _ := slope(t, &p, FreeSurface, 4)
		held(t, figure{"naca-1232-theory", "4.41", k, "lift slope of a flat foil of aspect ratio 4", fmt.Sprintf("depth %g chords, 40 strips of 8 rows", depth), ""}, lift, 1e-3*want[k])
		p.Reset()
		AppendSpan(&p, wing(4, 0, depth), 0, 1, 24, 1, 0, 0)
		one, _ := slope(t, &p, FreeSurface, 4)
		t.Logf("depth %g chords: one row of 24 strips is %+.2f %% off", depth, 100*(one/want[k]-1))
		held(t, figure{"naca-1232-theory", "4.41", k, "lift slope of a flat foil of aspect ratio 4", fmt.Sprintf("depth %g chords, 24 strips of one row", depth), ""}, one, 0.015*want[k])
	}
}

// A wing of very high aspect ratio under the surface must lift as the plate
// does in two dimensions, with one row and with many.
func TestPlateAsWing(t *testing.T) {
	for _, c := range depths {
		for _, rows := range []int{1, 20} {
			const strips = 16
			lift := func(depth float64, b Boundary) (sum, centre float64) {
				var p Panels
				AppendSpan(&p, wing(1e5, 0, depth), 0, 1, strips, rows, 0, 0)
				g, _, _ := loaded(t, &p, b, 1, 0)
				for i := range g {
					if p.Strip[i] == strips/2 {
						sum += g[i]
						centre += g[i] * (0.25 - p.Mid[i][0])
					}
				}
				return sum, centre / sum
			}
			under, centre := lift(c.depth, FreeSurface)
			deep, _ := lift(c.depth, Unbounded)
			conditions := fmt.Sprintf("depth %g chords, middle of a long wing, rows: %d", c.depth, rows)
			held(t, figure{"thin-aerofoil-depth", c.id, 0, "lift of a plate over that in deep water", conditions, "-"}, under/deep, 1e-4)
			if rows > 1 {
				held(t, figure{"thin-aerofoil-depth", c.id, 1, "centre of pressure of a plate", conditions, "chords"}, centre, 1e-4)
			}
		}
	}
}

// The depth correction at every cant: one row against ten, each over its own
// value in deep water, so that what one row lacks by aspect ratio drops out.
func TestDepthAtCant(t *testing.T) {
	const aspect = 4.0
	for _, top := range []float64{0.1, 0.25, 0.5, 1} {
		for _, cant := range []float64{0, 10, 20, 30, 45, 60, 75, 90} {
			cos, sin := math.Cos(cant*degree), math.Sin(cant*degree)
			span := func(s float64) Station {
				return Station{
					Quarter: [3]float64{0, -s * aspect * cos, -top - s*aspect*sin},
					Aft:     [3]float64{-1, 0, 0}, Chord: 1, Normal: [3]float64{0, -sin, cos},
				}
			}
			normal := func(rows int, b Boundary, d Depth) float64 {
				var p Panels
				var w Workspace
				AppendSpan(&p, span, 0, 1, 20, rows, 0, 0)
				if err := w.Assemble(&p, b, Options{Depth: d}); err != nil {
					t.Fatal(err)
				}
				g := make([]float64, p.Len())
				for i := range g {
					g[i] = -1
				}
				if err := w.Solve(g, g); err != nil {
					t.Fatal(err)
				}
				f := w.Forces(g, make([][3]float64, p.Len())).Force
				return math.Hypot(f[1], f[2])
			}
			many := normal(10, FreeSurface, ExactDepth) / normal(10, Unbounded, ExactDepth)
			deep := normal(1, Unbounded, ExactDepth)
			exact := normal(1, FreeSurface, ExactDepth)/deep/many - 1
			lumped := normal(1, FreeSurface, LumpedDepth)/deep/many - 1
			t.Logf("top at %.2f chords, cant %2.0f°: one vortex %+.2f %%, corrected %+.2f %%", top, cant, 100*lumped, 100*exact)
			if math.Abs(exact) > 0.0125 {
				t.Errorf("top at %.2f chords, cant %.0f°: corrected row is %+.2f %% off", top, cant, 100*exact)
			}
		}
	}
}
