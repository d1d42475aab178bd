package wave

import (
	"errors"
	"math"
	"strings"
	"testing"

	"foilwright/lattice"
	"foilwright/si"
)

func speedOf(v float64) si.Speed { return si.Speed(v) }

// Over speed, depth, heel and place the increment has no kink: central
// differences at two steps agree.
func TestSmooth(t *testing.T) {
	p, s := craft(12)
	scale := induced(t, p, s, lattice.Unbounded)
	moved := func(move func(p [3]float64) [3]float64) *Strips {
		m := &Strips{Surface: s.Surface, Core: s.Core, Circulation: s.Circulation}
		for i := range s.A {
			m.A, m.B = append(m.A, move(s.A[i])), append(m.B, move(s.B[i]))
			m.Mid = append(m.Mid, move(s.Mid[i]))
		}
		return m
	}
	for _, v := range []struct {
		name string
		at   func(x float64) float64
		from float64
		to   float64
	}{
		{"speed", func(v float64) float64 { return increment(t, s, v) }, 1, 25},
		{"depth at 6 m/s", func(d float64) float64 {
			return increment(t, moved(func(p [3]float64) [3]float64 { return [3]float64{p[0], p[1], p[2] - d} }), 6)
		}, 0.001, 1},
		{"rudder's place at 5 m/s", func(d float64) float64 {
			return increment(t, moved(func(p [3]float64) [3]float64 { return [3]float64{p[0] * d, p[1], p[2]} }), 5)
		}, 0.5, 2},
		{"lean at 7 m/s", func(a float64) float64 {
			return increment(t, moved(func(p [3]float64) [3]float64 { return [3]float64{p[0], p[1] + a*p[2], p[2]} }), 7)
		}, -1, 1},
	} {
		const points = 60
		for k := range points {
			x := v.from + (v.to-v.from)*(float64(k)+0.37)/points
			h := 1e-4 * x
			if math.Abs(x) < 0.01 {
				h = 1e-5 * (v.to - v.from)
			}
			wide := (v.at(x+h) - v.at(x-h)) / (2 * h)
			narrow := (v.at(x+h/10) - v.at(x-h/10)) / (h / 5)
			size := math.Max(math.Abs(wide), scale/(v.to-v.from))
			if math.Abs(wide-narrow) > 1e-4*size {
				t.Errorf("%s at %g: slope %g over %g, %g over a tenth", v.name, x, wide, h, narrow)
			}
		}
	}
}

// Bad input is told from good, and no number that is none comes out.
func TestInput(t *testing.T) {
	var w Workspace
	for _, c := range []struct {
		name   string
		spoil  func(s *Strips)
		speed  float64
		g      float64
		shares int
		want   string
	}{
		{"negative speed", func(*Strips) {}, -1, gravity, 12, "speed -1 m/s"},
		{"no speed", func(*Strips) {}, math.NaN(), gravity, 12, "speed NaN"},
		{"no gravity", func(*Strips) {}, 5, 0, 12, "gravity 0"},
		{"shares", func(*Strips) {}, 5, gravity, 3, "another number"},
		{"lengths", func(s *Strips) { s.Core = s.Core[1:] }, 5, gravity, 12, "lengths 12 and 11"},
		{"circulation", func(s *Strips) { s.Circulation[4] = math.Inf(1) }, 5, gravity, 12, "strip 4: "},
		{"above water", func(s *Strips) { s.Mid[3][2] = 2 }, 5, gravity, 12, "strip 3: force point 2 m above"},
		{"core", func(s *Strips) { s.Core[2] = -1 }, 5, gravity, 12, "strip 2: core -1"},
	} {
		_, s := craft(2)
		c.spoil(s)
		_, err := w.Increment(s, si.Speed(c.speed), c.g, make([]float64, c.shares))
		var input *InputError
		if !errors.As(err, &input) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
	if d, err := w.Increment(&Strips{}, 5, gravity, nil); d != 0 || err != nil {
		t.Errorf("no strips: %g, %v", d, err)
	}
	for _, speed := range []float64{0, 1e-300, 1e-6, 1e-3, 1, 1e3, 1e6, 1e100, 1e200} {
		for _, z := range []float64{0, -1e-12, -1e-3, -1e6} {
			var s Strips
			even(&s, 0, -z, 2, 1, 8)
			if d := increment(t, &s, speed); math.IsNaN(d) || math.IsInf(d, 0) {
				t.Errorf("speed %g, z %g: %g", speed, z, d)
			}
		}
	}
}

// The same strips give the same bits, whatever the workspace saw before, and
// nothing is allocated once it has grown.
func TestSteadyState(t *testing.T) {
	_, s := craft(12)
	_, other := craft(5)
	var w Workspace
	share := make([]float64, s.Len())
	call := func(s *Strips) float64 {
		d, err := w.Increment(s, 6, gravity, share[:s.Len()])
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	first := call(s)
	call(other)
	if again := call(s); again != first {
		t.Errorf("%g, then %g", first, again)
	}
	if n := testing.AllocsPerRun(10, func() { call(s) }); n != 0 {
		t.Errorf("%g allocations", n)
	}
}
