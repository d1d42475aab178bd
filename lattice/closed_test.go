package lattice

import (
	"fmt"
	"math"
	"testing"

	"foilwright/accuracy"
)

// closed checks an efficiency against a closed form, at a row whose neighbour it is.
func closed(t *testing.T, id, shape string, p *Panels, b Boundary, want, tolerance float64) {
	t.Helper()
	e, _ := efficiency(t, p, b, 1)
	accuracy.Check(t, accuracy.Row{
		ID: id, Quantity: "largest efficiency e", Conditions: fmt.Sprintf("%s, %d strips", shape, p.Len()), Unit: "-",
		Source: "closed form", Evidence: "derived", Published: math.Round(want*1e6) / 1e6, Computed: e, Tolerance: tolerance,
	})
}

// steep is (1−s)^(1−s)·(1+s)^(1+s).
func steep(s float64) float64 { return math.Pow(1-s, 1-s) * math.Pow(1+s, 1+s) }

// V wings and foils that pierce the surface at angles between those of the rows:
// the forms that docs/physics.md lists.
func TestClosedFormsOfStraightArms(t *testing.T) {
	for _, degrees := range []float64{5, 15, 20, 25, 35, 40} {
		d := degrees * degree
		s := 2 * d / math.Pi
		cos := math.Cos(d)
		var p Panels
		cut(&p, 64, 0.1, CosineBoth, vee(-d, 0)...)
		closed(t, "3.35", fmt.Sprintf("inverted V, %g°", degrees), &p, Unbounded, (1-s*s)/(steep(s)*cos*cos), 1e-5)

		p.Reset()
		cut(&p, 64, 0.1, CosineBoth, vee(d, 0.5*math.Tan(d))...)
		gamma := math.Gamma(1.5) / (math.Gamma(1-s/2) * math.Gamma((1+s)/2))
		closed(t, "4.24", fmt.Sprintf("piercing V, %g°", degrees), &p, FreeSurface, 2*(1-s)*gamma*gamma/(cos*cos), 1e-5)
	}
	for _, degrees := range []float64{5, 15, 25, 35, 45, 55, 70, 80} {
		s := 1 - 2*degrees/180
		cos := math.Cos(degrees * degree)
		var p Panels
		cut(&p, 64, 0.1, CosineBoth, side{to: [2]float64{1, -math.Tan(degrees * degree)}})
		closed(t, "4.28", fmt.Sprintf("straight and piercing, %g°", degrees), &p, FreeSurface, 2*s*s/(steep(s)*cos*cos), 1e-5)
	}
}

// Curved spans: the closed ellipse of height h and span b has e = 1 + h/b, the
// circular arc of that height 1 + 2(h/b)².
func TestClosedFormsOfCurves(t *testing.T) {
	for _, h := range []float64{0.1, 0.25, 0.5, 0.75} {
		ring := func(s float64) Station {
			sin, cos := math.Sincos(2 * math.Pi * s)
			if s == 1 {
				sin, cos = 0, 1
			}
			across, up := h*cos, sin // the normal of the ellipse, out of length
			length := math.Hypot(across, up)
			return Station{
				Quarter: [3]float64{0, cos / 2, h * sin / 2}, Aft: [3]float64{-1, 0, 0}, Chord: 0.1,
				Normal: [3]float64{0, -across / length, -up / length},
			}
		}
		const strips = 96
		var p Panels
		for i := range strips {
			AppendSpan(&p, ring, float64(i)/strips, float64(i+1)/strips, 1, 1, 0, 0)
		}
		closed(t, "3.40", fmt.Sprintf("closed ellipse, height %g of the span", h), &p, Unbounded, 1+h, 1e-6)
	}
	for _, h := range []float64{0.1, 0.2, 0.3, 0.5} {
		radius := (0.25 + h*h) / (2 * h)
		half := math.Asin(0.5 / radius)
		arc := func(s float64) Station {
			sin, cos := math.Sincos((2*s - 1) * half)
			return Station{
				Quarter: [3]float64{0, radius * sin, radius * cos}, Aft: [3]float64{-1, 0, 0}, Chord: 0.1,
				Normal: [3]float64{0, sin, cos},
			}
		}
		var p Panels
		AppendSpan(&p, arc, 0, 1, 64, 1, 0, 0)
		closed(t, "3.40", fmt.Sprintf("circular arc, height %g of the span", h), &p, Unbounded, 1+2*h*h, 5e-4)
	}
}
