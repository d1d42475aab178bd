package wave

import (
	"fmt"
	"math"
	"testing"

	"foilwright/accuracy"
	"foilwright/lattice"
)

// Elliptic circulation under a surface at a finite Froude number, over the drag
// in deep water: rows 4.52 and 4.53 of Wu's problem, derived by an independent
// computation, and their limit. The drag of the surface of zero potential is the
// lattice's own.
func TestEllipticLine(t *testing.T) {
	for _, r := range published(t, "wu-1953") {
		depth := number(t, r.conditions, "h/b=")
		for _, n := range []int{12, 24, 48} {
			p, s := ellipse(depth, n)
			deep := induced(t, p, s, lattice.Unbounded)
			high := induced(t, p, s, lattice.FreeSurface)
			for k := 0; k+1 < len(r.values); k += 2 {
				speed := r.values[k] * math.Sqrt(gravity*depth)
				got := (high + increment(t, s, speed)) / deep
				accuracy.Check(t, accuracy.Row{
					File: "wu-1953.csv", ID: r.id, Quantity: "induced and wave drag over induced drag in deep water, elliptic load",
					Conditions: fmt.Sprintf("depth %g of the span, depth Froude number %g, %d strips", depth, r.values[k], n),
					Published:  r.values[k+1], Computed: got, Tolerance: 2e-4,
				})
			}
		}
	}
}

// An endless line of even circulation: rows 4.45 to 4.50, exp(−2/F²) and
// CDw/CL² at h = c. Of two lines whose circulation fades out evenly over many
// waves at either end, one has more of the even part: the difference is that of
// an endless line.
func TestEndlessLine(t *testing.T) {
	for _, r := range published(t, "kochin-vortex") {
		const depth = 1.0
		froude := number(t, r.conditions, "F=V/√(gh)=")
		speed := froude * math.Sqrt(gravity*depth)
		unit := speed * speed / gravity // 1/k0
		per := func(plateau float64) float64 {
			const fade, perUnit = 60, 4
			var s Strips
			breadth := plateau + 2*fade
			even(&s, 0, depth, breadth*unit, 1, int(perUnit*breadth))
			for i, m := range s.Mid {
				inside := math.Min(1, (breadth/2-math.Abs(m[1])/unit)/fade)
				s.Circulation[i] = math.Pow(math.Sin(math.Pi/2*inside), 2)
			}
			w := Workspace{finer: 4} // lines of hundreds of depths are no boat's
			drag, err := w.Waves(&s, speedOf(speed), gravity)
			if err != nil {
				t.Fatal(err)
			}
			return drag
		}
		drag := (per(100) - per(60)) / 40 // ρ Γ² exp(−2k0h) times k0 · 1/k0
		row := accuracy.Row{File: "kochin-vortex.csv", ID: r.id, Quantity: "wave drag of an endless vortex, D/(ρ Γ² k₀)", Conditions: fmt.Sprintf("depth Froude number %g", froude), Published: r.values[0], Computed: drag, Tolerance: 1e-5}
		accuracy.Check(t, row)
		// CDw = D/(½V²c), CL = 2Γ/(Vc).
		row.Quantity, row.Published, row.Computed = "wave drag of an endless vortex, CDw/CL² at a depth of one chord", r.values[1], drag/unit*depth/2
		accuracy.Check(t, row)
	}
}

// At rest, and in the limit of low speed, the surface is a wall; in the limit of
// high speed it is one of zero potential, and what the one amplitude sums up is
// twice the drag of the image: vertical, lateral and mixed.
func TestLimits(t *testing.T) {
	p, s := craft(24)
	wall, high := induced(t, p, s, lattice.Wall), induced(t, p, s, lattice.FreeSurface)
	near(t, "at rest", high+increment(t, s, 0), wall, 1e-13*high)
	near(t, "at 0.1 m/s", high+increment(t, s, 0.1), wall, 1e-7*high)
	for _, at := range []struct{ speed, tolerance float64 }{{100, 2e-4}, {1000, 2e-5}, {1e4, 2e-5}, {1e9, 0}} {
		near(t, fmt.Sprintf("at %g m/s", at.speed), increment(t, s, at.speed)/high, 0, at.tolerance)
	}
}

// Two equal lines one behind the other, half a wave apart: their waves cancel.
// A whole wave apart they make four times those of one. In three dimensions
// they do so for the share of the transverse waves alone, which is all of it on
// an endless line.
func TestLinesBehindEachOther(t *testing.T) {
	const speed, depth = 4.0, 1.5
	length := 2 * math.Pi * speed * speed / gravity
	for _, breadth := range []float64{100, 400} {
		drag := func(shift float64) float64 {
			var s Strips
			even(&s, 0, depth, breadth, 1, int(breadth))
			if shift > 0 {
				even(&s, -shift, depth, breadth, 1, int(breadth))
			}
			return waves(t, &s, speed)
		}
		one := drag(0)
		near(t, fmt.Sprintf("half a wave, breadth %g", breadth), drag(length/2)/one, 0, 4/breadth)
		near(t, fmt.Sprintf("a whole wave, breadth %g", breadth), drag(length)/one, 4, 8/breadth)
	}
}

// The world has no preferred place, side or sense of the stream: shifted along
// and across, mirrored in the track's plane (lateral circulation changes its
// sense), and run backwards, the drag is the same.
func TestSymmetries(t *testing.T) {
	for _, speed := range []float64{3, 6, 12} {
		_, s := craft(12)
		want := increment(t, s, speed)
		for _, c := range []struct {
			name string
			move func(p [3]float64) [3]float64
		}{
			{"shifted", func(p [3]float64) [3]float64 { return [3]float64{p[0] + 17, p[1] - 5, p[2]} }},
			{"backwards", func(p [3]float64) [3]float64 { return [3]float64{-p[0], p[1], p[2]} }},
			{"mirrored", func(p [3]float64) [3]float64 { return [3]float64{p[0], -p[1], p[2]} }},
		} {
			moved := Strips{Surface: s.Surface, Core: s.Core, Circulation: s.Circulation}
			for i := range s.A {
				moved.A, moved.B = append(moved.A, c.move(s.A[i])), append(moved.B, c.move(s.B[i]))
				moved.Mid = append(moved.Mid, c.move(s.Mid[i]))
			}
			near(t, fmt.Sprintf("%s at %g m/s", c.name, speed), increment(t, &moved, speed), want, 1e-10*math.Abs(want))
		}
	}
}

// Half the directions would do no harm: the quadrature errs by less than 1e-6 of
// the drag in unbounded water; and
// 12 strips a surface stand for 48 within 2e-4.
func TestConvergence(t *testing.T) {
	for _, speed := range []float64{1, 2, 3, 4, 6, 8, 12, 20, 30} {
		p, s := craft(12)
		deep := induced(t, p, s, lattice.Unbounded)
		fine := Workspace{finer: 6}
		exact, err := fine.Increment(s, speedOf(speed), gravity, nil)
		if err != nil {
			t.Fatal(err)
		}
		coarse := increment(t, s, speed)
		near(t, fmt.Sprintf("directions at %g m/s", speed), coarse/deep, exact/deep, 1e-6)
		_, finer := craft(48)
		near(t, fmt.Sprintf("strips at %g m/s", speed), coarse/deep, increment(t, finer, speed)/deep, 2e-4)
	}
}

// Shares sum to the whole, and belong to the strip: half the derivative of the
// drag by the strip's circulation, times it.
func TestShares(t *testing.T) {
	for _, speed := range []float64{0, 2, 6, 15} {
		_, s := craft(8)
		var w Workspace
		share := make([]float64, s.Len())
		whole, err := w.Increment(s, speedOf(speed), gravity, share)
		if err != nil {
			t.Fatal(err)
		}
		sum, gross := 0.0, 0.0
		for _, d := range share {
			sum += d
			gross += math.Abs(d)
		}
		near(t, fmt.Sprintf("sum at %g m/s", speed), sum, whole, 1e-13*gross)
		before := waves(t, s, speed)
		quadratic := 0.0
		for i, g := range s.Circulation {
			const h = 1e-4
			s.Circulation[i] = g * (1 + h)
			quadratic += (waves(t, s, speed) - before) / h / 2
			s.Circulation[i] = g
		}
		near(t, fmt.Sprintf("Euler's sum at %g m/s", speed), quadratic, before, 1e-3*before+1e-15)
	}
}
