package foil

import (
	"math"
	"testing"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/si"
)

// pierced returns how a foil stands where it comes out of the water.
func pierced(t *testing.T, b *boat.Boat, s boat.State, strips int) []Piercing {
	t.Helper()
	w := &Workspace{Options: DefaultOptions()}
	w.Options.Strips = strips
	if _, err := Loads(b, s, fluid.StandardSea(), w, nil); err != nil {
		t.Fatal(err)
	}
	return Piercings(b, s, w)
}

// struts are foils that pierce the surface: an inverted T at leeway, one whose
// wing comes out too, and a strut that reaches less than a chord down.
func struts(t *testing.T) map[string]func() (*boat.Boat, boat.State) {
	wings := tapered(0.3, 0.12)
	return map[string]func() (*boat.Boat, boat.State){
		"strut": func() (*boat.Boat, boat.State) {
			b, s := carrying(14, 0.6, 2*si.Degree, inverted(t, frame.Point[frame.Boat]{}, 2, 1.1, 0, wings))
			s.Attitude.Leeway = 4 * si.Degree
			return b, s
		},
		"heeled": func() (*boat.Boat, boat.State) {
			b, s := carrying(9, 0.5, 3*si.Degree, inverted(t, frame.Point[frame.Boat]{}, 2, 1.1, 10*si.Degree, wings))
			s.Attitude.Leeway, s.Attitude.Heel = 3*si.Degree, 15*si.Degree
			return b, s
		},
		"wing out": func() (*boat.Boat, boat.State) {
			b, s := carrying(12, 1.6, 3*si.Degree, inverted(t, frame.Point[frame.Boat]{}, 2, 1.6, 0, wings))
			s.Attitude.Heel = 25 * si.Degree
			return b, s
		},
		"shallow": func() (*boat.Boat, boat.State) {
			b, s := carrying(6, 1.9, 2*si.Degree, inverted(t, frame.Point[frame.Boat]{}, 2, 0.8, 0, wings))
			s.Attitude.Leeway = 2 * si.Degree
			return b, s
		},
	}
}

// What is told at the surface does not depend on the number of strips: from the
// four of a survey on within 0.05°, from the usual twelve on within 0.015°, of what
// 96 tell; and the place not at all.
func TestVentilationDoesNotDependOnStrips(t *testing.T) {
	for name, of := range struts(t) {
		b, s := of()
		fine := pierced(t, b, s, 96)
		if len(fine) == 0 {
			t.Errorf("%s: nothing pierces", name)
		}
		for _, c := range []struct {
			strips int
			within si.Angle
		}{{4, 0.05 * si.Degree}, {6, 0.05 * si.Degree}, {12, 0.015 * si.Degree}, {24, 0.005 * si.Degree}} {
			got := pierced(t, b, s, c.strips)
			if len(got) != len(fine) {
				t.Fatalf("%s: %d piercings on %d strips, %d on 96", name, len(got), c.strips, len(fine))
			}
			for i := range got {
				off := got[i].Margin - fine[i].Margin
				t.Logf("%s, %d strips: %.2f chord lengths down, incidence %.3f°, margin %.3f°, %+.4f° off", name, c.strips, got[i].Depth/0.3, got[i].Incidence.Degrees(), got[i].Margin.Degrees(), off.Degrees())
				if math.Abs(float64(off)) > float64(c.within) {
					t.Errorf("%s: margin %.3f° on %d strips, %.3f° on 96", name, got[i].Margin.Degrees(), c.strips, fine[i].Margin.Degrees())
				}
				if got[i].Share != fine[i].Share || got[i].Depth != fine[i].Depth {
					t.Errorf("%s: read at %.6f on %d strips, at %.6f on 96", name, got[i].Share, c.strips, fine[i].Share)
				}
			}
		}
	}
}

// A figure between strips is exact where it is a cubic in their angle.
func TestLiftBetweenStrips(t *testing.T) {
	b, s := struts(t)["strut"]()
	w := &Workspace{}
	if _, err := Loads(b, s, fluid.StandardSea(), w, nil); err != nil {
		t.Fatal(err)
	}
	p := &w.pieces[0]
	cubic := func(share float64) float64 {
		a := math.Acos(1 - 2*(share-p.interval.From)/(p.interval.To-p.interval.From))
		return 0.3 + a*(0.2+a*(-0.1+0.03*a))
	}
	for k := range p.n {
		st := &w.strips[p.first+k]
		w.circulation[st.panels[0]] = cubic(st.share) * st.chord / 2
	}
	for _, along := range []float64{0.001, 0.02, 0.1, 0.33, 0.5, 0.9, 0.999} {
		share := p.interval.From + along*(p.interval.To-p.interval.From)
		if got, want := w.liftAt(p, share), cubic(share); math.Abs(got-want) > 1e-12 {
			t.Errorf("at %.3f: %.15f for %.15f", along, got, want)
		}
	}
}

// The margin shrinks with incidence and speed, and a tip that comes out counts in
// without a step.
func TestVentilationMarginFallsWithLeewayAndSpeed(t *testing.T) {
	b, s := struts(t)["strut"]()
	least := func() si.Angle { return pierced(t, b, s, 12)[0].Margin }
	base := least()
	s.Attitude.Leeway *= 1.5
	leeway := least()
	s.Attitude.Leeway /= 1.5
	s.Speed *= 1.5
	speed := least()
	if !(leeway < base && speed < base) {
		t.Errorf("margin %.2f°, at more leeway %.2f°, at more speed %.2f°", base.Degrees(), leeway.Degrees(), speed.Degrees())
	}
}
