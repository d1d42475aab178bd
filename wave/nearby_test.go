package wave

import (
	"fmt"
	"math"
	"testing"
)

// shifted returns strips a step along a way: each leans, sinks, moves on its own
// surface and carries more.
func shifted(s *Strips, step float64) *Strips {
	m := &Strips{Surface: s.Surface, Core: s.Core}
	move := func(p [3]float64, surface int) [3]float64 {
		x, y, z := p[0], p[1], p[2]
		return [3]float64{x + step*(0.3*y+float64(surface)), y + step*0.5*z, z * (1 + 0.4*step)}
	}
	for i := range s.A {
		m.A, m.B = append(m.A, move(s.A[i], s.Surface[i])), append(m.B, move(s.B[i], s.Surface[i]))
		m.Mid = append(m.Mid, move(s.Mid[i], s.Surface[i]))
		m.Circulation = append(m.Circulation, s.Circulation[i]*(1+step*(1+s.Mid[i][1])))
	}
	return m
}

// Near strips that are held, shares and sum are those of Increment: at the strips
// themselves to rounding, and a step away to its square. Slopes are those of
// differences either way.
func TestNearby(t *testing.T) {
	_, s := craft(8)
	n := s.Len()
	for _, speed := range []float64{3, 6, 12, 20} {
		var w Workspace
		var nearby Nearby
		held, err := nearby.Hold(s, speedOf(speed), gravity)
		if err != nil || !held {
			t.Fatalf("%g m/s: held %v, %v", speed, held, err)
		}
		both := func(step, faster float64) (whole, close []float64) {
			m := shifted(s, step)
			whole, close = make([]float64, n+1), make([]float64, n+1)
			v := speedOf(speed * (1 + faster))
			if whole[n], err = w.Increment(m, v, gravity, whole[:n]); err != nil {
				t.Fatal(err)
			}
			if close[n], err = nearby.Increment(m, v, gravity, close[:n]); err != nil {
				t.Fatal(err)
			}
			return whole, close
		}
		for what, ways := range map[string][2]float64{"place": {1, 0}, "speed": {0, 1}} {
			at, held := both(0, 0)
			const h = 1e-6
			up, nearUp := both(h*ways[0], h*ways[1])
			down, _ := both(-h*ways[0], -h*ways[1])
			largest, steepest := 0.0, 0.0
			for i := range at {
				largest, steepest = math.Max(largest, math.Abs(at[i])), math.Max(steepest, math.Abs(up[i]-down[i])/(2*h))
			}
			for i := range at {
				name := fmt.Sprintf("%g m/s, %s, strip %d", speed, what, i)
				near(t, name+", held", held[i], at[i], 1e-12*largest)
				near(t, name+", slope", (nearUp[i]-at[i])/h, (up[i]-down[i])/(2*h), 1e-4*steepest)
			}
		}
	}
}

// What is not held is found whole: other strips, speeds at the ends, nothing held.
func TestNearbyFallsBack(t *testing.T) {
	_, s := craft(6)
	_, other := craft(7)
	var w Workspace
	var near Nearby
	whole := func(s *Strips, speed float64) {
		t.Helper()
		want, err := w.Increment(s, speedOf(speed), gravity, nil)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := near.Increment(s, speedOf(speed), gravity, nil); err != nil || got != want {
			t.Errorf("%g m/s: %g, %v, want %g", speed, got, err, want)
		}
	}
	whole(s, 6)
	if held, err := near.Hold(s, 0, gravity); held || err != nil {
		t.Errorf("at rest: held %v, %v", held, err)
	}
	whole(s, 0)
	if held, err := near.Hold(s, speedOf(6), gravity); !held || err != nil {
		t.Errorf("not held: %v", err)
	}
	whole(other, 6)
	near.Release()
	whole(s, 6)
	if _, err := near.Hold(s, speedOf(-1), gravity); err == nil {
		t.Error("backwards, and held")
	}
	call := func() {
		if _, err := near.Hold(s, speedOf(6), gravity); err != nil {
			t.Fatal(err)
		}
		if _, err := near.Increment(s, speedOf(6), gravity, nil); err != nil {
			t.Fatal(err)
		}
	}
	call()
	if got := testing.AllocsPerRun(10, call); got != 0 {
		t.Errorf("%g allocations", got)
	}
}
