package lattice

import (
	"math"
	"testing"
)

// configurations are boats' worth of surfaces, each cut into n strips a side.
var configurations = []struct {
	name string
	fill func(p *Panels, strips int)
}{
	{"flat", func(p *Panels, n int) { AppendSpan(p, wing(6, 0, 1), 0, 1, n, 1, 0, 0) }},
	{"swept 20°", func(p *Panels, n int) {
		AppendSpan(p, wing(6, 20*degree, 1), 0, 0.5, n, 1, 0, 0)
		AppendSpan(p, wing(6, 20*degree, 1), 0.5, 1, n, 1, 0, 0)
	}},
	{"inverted V", func(p *Panels, n int) { cut(p, n, 0.15, CosineBoth, vee(-25*degree, 0.2)...) }},
	{"piercing V", func(p *Panels, n int) { cut(p, n, 0.15, CosineBoth, vee(35*degree, 0.5*math.Tan(35*degree))...) }},
	{"T with rudder wing", bladed},
	{"L", func(p *Panels, n int) {
		cut(p, n, 0.15, CosineBoth, side{to: [2]float64{0.1, -0.5}}, side{from: [2]float64{0.1, -0.5}, to: [2]float64{0.9, -0.4}})
	}},
	{"U", func(p *Panels, n int) {
		cut(p, n, 0.15, CosineBoth, side{to: [2]float64{0.1, -0.5}}, side{from: [2]float64{0.1, -0.5}, to: [2]float64{0.7, -0.5}}, side{from: [2]float64{0.7, -0.5}, to: [2]float64{0.8, 0}})
	}},
	{"canted foil and rudder wing in its wake", func(p *Panels, n int) {
		cut(p, n, 0.3, CosineBoth, side{to: [2]float64{2, -1}}, side{from: [2]float64{2, -1}, to: [2]float64{3, -0.8}}, side{from: [2]float64{2, -1}, to: [2]float64{1.3, -1.6}})
		behind := func(s float64) Station {
			return Station{Quarter: [3]float64{-8, 1.2 + s, -1.2}, Aft: [3]float64{-1, 0, 0}, Chord: 0.2, Normal: [3]float64{0, 0, 1}}
		}
		AppendSpan(p, behind, 0, 1, n, 1, 1, 0.05)
	}},
}

// Twice the strips must change lift by less than 0.3 %, side force by less than
// 1 % and induced drag by less than 0.5 %.
func TestRefinement(t *testing.T) {
	for _, c := range configurations {
		var coarse, fine Panels
		c.fill(&coarse, strips24)
		c.fill(&fine, 2*strips24)
		_, _, a := loaded(t, &coarse, FreeSurface, 0.05, 0.02)
		_, _, b := loaded(t, &fine, FreeSurface, 0.05, 0.02)
		change := func(x, y float64) float64 {
			if y == 0 {
				return x
			}
			return x/y - 1
		}
		lift, across, drag := change(a.Force[2], b.Force[2]), change(a.Force[1], b.Force[1]), change(a.Induced, b.Induced)
		if math.Abs(b.Force[1]) < 1e-3*b.Force[2] {
			across = (a.Force[1] - b.Force[1]) / b.Force[2]
		}
		t.Logf("%s: lift %+.3f %%, side force %+.3f %%, induced drag %+.3f %%", c.name, 100*lift, 100*across, 100*drag)
		if math.Abs(lift) > 0.003 || math.Abs(across) > 0.01 || math.Abs(drag) > 0.005 {
			t.Errorf("%s: lift %+.2f %%, side force %+.2f %%, induced drag %+.2f %% between %d and %d strips", c.name, 100*lift, 100*across, 100*drag, strips24, 2*strips24)
		}
	}
}

// Drag at the bound vortices against the far wake: equal without sweep, some
// per cent apart with it, at any number of strips.
func TestNearField(t *testing.T) {
	for _, b := range []Boundary{Unbounded, FreeSurface, Wall} {
		for _, aspect := range []float64{2, 6, 12} {
			var p Panels
			AppendSpan(&p, wing(aspect, 0, 0.5), 0, 1, strips24, 1, 0, 0)
			_, _, total := loaded(t, &p, b, 0.05, 0)
			if math.Abs(total.NearField/total.Induced-1) > 0.01 {
				t.Errorf("%v, aspect ratio %g: near field %g, far wake %g", b, aspect, total.NearField, total.Induced)
			}
		}
		var p Panels
		cut(&p, strips24, 0.15, CosineBoth, vee(-25*degree, 0.2)...)
		if b != Unbounded {
			_, _, total := loaded(t, &p, b, 0.05, 0.02)
			if math.Abs(total.NearField/total.Induced-1) > 0.01 {
				t.Errorf("%v, inverted V: near field %g, far wake %g", b, total.NearField, total.Induced)
			}
		}
	}
	for _, sweep := range []float64{0, 5, 10, 20, 30} {
		for _, rows := range []int{1, 4} {
			for _, strips := range []int{12, 48} {
				var p Panels
				AppendSpan(&p, wing(6, sweep*degree, 1), 0, 0.5, strips, rows, 0, 0)
				AppendSpan(&p, wing(6, sweep*degree, 1), 0.5, 1, strips, rows, 0, 0)
				_, _, total := loaded(t, &p, Unbounded, 0.05, 0)
				t.Logf("sweep %2.0f°, rows %d, strips %d: near field %+.2f %% off the far wake, e %.5f", sweep, rows, strips,
					100*(total.NearField/total.Induced-1), 2*total.Force[2]*total.Force[2]/(math.Pi*36*total.Induced))
			}
		}
	}
}

// The strips' drags must add up to the far wake's, and be a plain scaling where
// all have one sign.
func TestDragShares(t *testing.T) {
	for _, c := range configurations {
		var p Panels
		c.fill(&p, 16)
		_, force, total := loaded(t, &p, FreeSurface, 0.05, 0.02)
		sum := [3]float64{}
		for _, f := range force {
			for k := range 3 {
				sum[k] += f[k]
			}
		}
		for k := range 3 {
			if math.Abs(sum[k]-total.Force[k]) > 1e-13*total.Force[2] {
				t.Errorf("%s: panels add up to %v, total %v", c.name, sum, total.Force)
			}
		}
		if sum[0] >= 0 {
			t.Errorf("%s: drag %g", c.name, -sum[0])
		}
	}
	w := Workspace{rows: []int{1, 1, 1}, stripDrag: []float64{1, 2, 3}}
	w.share(0.6)
	for s, d := range []float64{1.1, 2.2, 3.3} {
		if math.Abs(w.stripDrag[s]-d) > 2e-6 {
			t.Errorf("strip %d is given %g, plain scaling %g", s, w.stripDrag[s], d)
		}
	}
	w.stripDrag = []float64{1, -1, 1e-12}
	w.share(0.1)
	for s, d := range []float64{1.05, -0.95, 0} {
		if math.Abs(w.stripDrag[s]-d) > 1e-4 {
			t.Errorf("mixed signs: strip %d is given %g", s, w.stripDrag[s])
		}
	}
}

// The drag of one load in the wash of another is the same either way round.
func TestReciprocity(t *testing.T) {
	for _, c := range configurations {
		var p Panels
		c.fill(&p, strips24)
		w := assembled(t, &p, FreeSurface)
		n := w.Strips()
		first, second := make([]float64, n), make([]float64, n)
		for i := range n {
			// Smooth loads that end at the tips, as a lattice's own do.
			arc := math.Sin((float64(i%strips24) + 0.5) / strips24 * math.Pi)
			first[i], second[i] = arc, arc*(1+0.5*p.Mid[i][1]+0.3*p.Mid[i][2])
		}
		w.wake.see(FreeSurface)
		mutual := func(a, b []float64) float64 {
			sum := 0.0
			for i := range n {
				for j := range n {
					sum += a[i] * w.wake.drag[j*n+i] * b[j]
				}
			}
			return sum
		}
		one, other := mutual(first, second), mutual(second, first)
		if math.Abs(one/other-1) > 2e-3 {
			t.Errorf("%s: %g one way, %g the other", c.name, one, other)
		}
	}
}

// A mirrored lattice has the mirrored load; one that is moved along and across
// the track has the same.
func TestMirrorAndShift(t *testing.T) {
	for _, c := range configurations {
		var p, mirrored, moved Panels
		c.fill(&p, 12)
		for i := range p.Len() {
			flip := func(v [3]float64) [3]float64 { return [3]float64{v[0], -v[1], v[2]} }
			shift := func(v [3]float64) [3]float64 { return [3]float64{v[0] + 16, v[1] - 8, v[2]} }
			q := Panel{p.A[i], p.B[i], p.Mid[i], p.Control[i], p.Normal[i], p.Chord[i], p.Strip[i], p.Surface[i], p.Core[i]}
			r := q
			// A reflected circulation runs the other way.
			r.A, r.B, r.Mid, r.Control, r.Normal = flip(q.B), flip(q.A), flip(q.Mid), flip(q.Control), flip(q.Normal)
			mirrored.Append(r)
			q.A, q.B, q.Mid, q.Control = shift(q.A), shift(q.B), shift(q.Mid), shift(q.Control)
			moved.Append(q)
		}
		_, force, total := loaded(t, &p, FreeSurface, 0.05, 0.02)
		_, other, _ := loaded(t, &mirrored, FreeSurface, 0.05, -0.02)
		_, same, _ := loaded(t, &moved, FreeSurface, 0.05, 0.02)
		for i, f := range force {
			g := [3]float64{other[i][0], -other[i][1], other[i][2]}
			for k := range 3 {
				if math.Abs(f[k]-g[k]) > 1e-12*total.Force[2] {
					t.Fatalf("%s: panel %d carries %v, mirrored %v", c.name, i, f, g)
				}
				if math.Abs(f[k]-same[i][k]) > 1e-10*total.Force[2] {
					t.Fatalf("%s: panel %d carries %v, moved %v", c.name, i, f, same[i])
				}
			}
		}
	}
}

// Signs: a plate with its leading edge up lifts up; a strut that the stream
// meets from starboard is pushed to port.
func TestSigns(t *testing.T) {
	var p Panels
	AppendSpan(&p, wing(6, 0, 1), 0, 1, 8, 1, 0, 0)
	g, force, _ := loaded(t, &p, FreeSurface, 0.05, 0)
	for i := range g {
		l := [3]float64{p.B[i][0] - p.A[i][0], p.B[i][1] - p.A[i][1], p.B[i][2] - p.A[i][2]}
		if p.Normal[i][1]*l[2]-p.Normal[i][2]*l[1] <= 0 {
			t.Errorf("panel %d runs against its normal", i)
		}
		if g[i] <= 0 || force[i][2] <= 0 || force[i][0] >= 0 {
			t.Errorf("panel %d: circulation %g, force %v", i, g[i], force[i])
		}
	}
	p.Reset()
	cut(&p, 8, 0.2, CosineBoth, side{to: [2]float64{0, -1}})
	_, _, total := loaded(t, &p, FreeSurface, 0, 0.05)
	if total.Force[1] <= 0 {
		t.Errorf("strut is pushed %g to port", total.Force[1])
	}
}
