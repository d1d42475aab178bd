package wave

import (
	"errors"
	"fmt"
	"math"
	"math/rand"
	"testing"

	"foilwright/accuracy"
	"foilwright/lattice"
)

// loads returns the directions along which strips feel their drag: Γ times
// (0, −lz, ly).
func loads(s *Strips) [][3]float64 {
	out := make([][3]float64, s.Len())
	for i, g := range s.Circulation {
		out[i] = [3]float64{0, -g * (s.B[i][2] - s.A[i][2]), g * (s.B[i][1] - s.A[i][1])}
	}
	return out
}

// washDrag returns each strip's drag in the wash, per density.
func washDrag(t *testing.T, k *Kernel, s *Strips, speed float64) []float64 {
	t.Helper()
	var w Workspace
	n := s.Len()
	matrix := make([]float64, n*n)
	if err := w.Wash(k, s, s.Mid, loads(s), speedOf(speed), gravity, matrix); err != nil {
		t.Fatal(err)
	}
	drag := make([]float64, n)
	for i := range n {
		for j, g := range s.Circulation {
			drag[i] += matrix[i*n+j] * g
		}
	}
	return drag
}

// One table serves all: it takes a while to make.
func TestWash(t *testing.T) {
	k := NewKernel()
	t.Run("table", func(t *testing.T) { tableHolds(t, k) })
	t.Run("drag", func(t *testing.T) { washDoesTheDrag(t, k) })
	t.Run("stream at a vortex", func(t *testing.T) { streamAtAVortex(t, k) })
	t.Run("behind an endless line", func(t *testing.T) { behindAnEndlessLine(t, k) })
	t.Run("limits", func(t *testing.T) { washLimits(t, k) })
	t.Run("input", func(t *testing.T) { washInput(t, k) })
	t.Run("smooth", func(t *testing.T) { washIsSmooth(t, k) })
}

// The table against what it holds, at random places.
func tableHolds(t *testing.T, k *Kernel) {
	random := rand.New(rand.NewSource(7))
	for _, r := range []float64{0.003, 0.01, 0.03, 0.1, 0.3, 1, 3, 10, 30} {
		var worst, size [5]float64
		for range 200 {
			distance := r * (1 + 0.8*random.Float64())
			sinE, cosE := math.Sincos(random.Float64() * (math.Pi/2 - 0.03))
			sinB, cosB := math.Sincos(random.Float64() * 1.55)
			X, Y, Z := distance*sinE, distance*cosE*sinB, -distance*cosE*cosB
			f := upstream(X, Y, Z)
			p := find(X, Y, Z)
			y, z := k.legSlopes(&p)
			xx, xy, xz := k.boundSlopes(&p)
			for n, v := range [5][2]float64{{y, f.y}, {z, f.z}, {xx, f.xx}, {xy, f.xy}, {xz, f.xz}} {
				worst[n] = math.Max(worst[n], math.Abs(v[0]-v[1]))
				size[n] = math.Max(size[n], math.Abs(v[1]))
			}
		}
		for n, name := range []string{"S_Y", "S_Z", "S_XX", "S_XY", "S_XZ"} {
			near(t, fmt.Sprintf("%s at %g, of its largest", name, r), worst[n]/size[n], 0, 2e-3)
		}
	}
}

// Upstream slopes obey what they were derived from: Laplace's equation, and
// waves under Kelvin's condition, S_XX + S_Z = 2 ∂/∂Z ∫ ds/r′ (k0 = 1).
// Abreast they are half the free waves and half the far wake; far ahead they vanish;
// far above the scale of waves they are twice those of the image.
func TestUpstream(t *testing.T) {
	for _, p := range [][3]float64{{0.4, 0.3, -0.5}, {1, -2, -0.5}, {2, 1, -0.1}, {0.1, 3, -3}, {0.1, 1, -0.02}, {0, 0.3, -0.5}} {
		X, Y, Z := p[0], p[1], p[2]
		f := upstream(X, Y, Z)
		R := math.Sqrt(X*X + Y*Y + Z*Z)
		near(t, fmt.Sprintf("surface's condition at %v", p), f.xx+f.z, -2*Z/(R*(R+X)), 1e-6)
		h := 1e-3 * -Z
		yy := (upstream(X, Y+h, Z).y - upstream(X, Y-h, Z).y) / (2 * h)
		up, down := upstream(X, Y, Z+h), upstream(X, Y, Z-h)
		near(t, fmt.Sprintf("Laplace at %v", p), f.xx+yy+(up.z-down.z)/(2*h), 0, 1e-4)
		near(t, fmt.Sprintf("curl at %v", p), (up.y-down.y)/(2*h), (upstream(X, Y+h, Z).z-upstream(X, Y-h, Z).z)/(2*h), 1e-4)
		if X > 0 {
			back, ahead := upstream(X-h, Y, Z), upstream(X+h, Y, Z)
			near(t, fmt.Sprintf("S_XY at %v", p), f.xy, (ahead.y-back.y)/(2*h), 1e-4)
			near(t, fmt.Sprintf("S_XZ at %v", p), f.xz, (ahead.z-back.z)/(2*h), 1e-4)
			continue
		}
		wave := 0.0
		for k := -2400; k <= 2400; k++ {
			c, s := math.Cosh(float64(k)*0.005), math.Sinh(float64(k)*0.005)
			wave += 0.005 * c * c * math.Exp(c*c*Z) * math.Cos(c*s*Y)
		}
		near(t, "half the waves abreast", f.z, -2*Z/(Y*Y+Z*Z)-2*wave, 1e-6)
	}
	far := upstream(300, 0.7, -0.5)
	near(t, "far ahead", math.Abs(far.y)+math.Abs(far.z), 0, 1e-4)
	const X, Y, Z = 50.0, 30.0, -60.0
	R := math.Sqrt(X*X + Y*Y + Z*Z)
	slow := upstream(X, Y, Z)
	near(t, "wall, S_Z", slow.z*R, -2*Z/(R+X), 0.03)
	near(t, "wall, S_XX", slow.xx*R*R, 2*X/R, 0.03)
}

// The wash does the drag that Increment says: strip by strip where all strips
// stand abreast, piercing and leaning ones among them; and in all for surfaces
// one behind the other, of which Increment sees only the waves far behind.
func washDoesTheDrag(t *testing.T, k *Kernel) {
	abreast := abreastCraft(12)
	_, behind := craft(12)
	for _, speed := range []float64{1, 2, 3, 4, 6, 8, 12, 20} {
		var w Workspace
		shares := make([]float64, abreast.Len())
		whole, err := w.Increment(abreast, speedOf(speed), gravity, shares)
		if err != nil {
			t.Fatal(err)
		}
		drag := washDrag(t, k, abreast, speed)
		worst, sum := 0.0, 0.0
		for i, d := range drag {
			worst = math.Max(worst, math.Abs(d-shares[i]))
			sum += d
		}
		const deep = 0.25 // drag in unbounded water, nearly
		near(t, fmt.Sprintf("abreast at %g m/s, worst strip", speed), worst/deep, 0, 1e-5)
		near(t, fmt.Sprintf("abreast at %g m/s", speed), sum/deep, whole/deep, 1e-5)
		sum = 0
		for _, d := range washDrag(t, k, behind, speed) {
			sum += d
		}
		near(t, fmt.Sprintf("one behind the other at %g m/s", speed), sum/deep, increment(t, behind, speed)/deep, 2e-4)
	}
}

// abreastCraft is a leaning strut with two wings, all in one plane across the
// stream.
func abreastCraft(n int) *Strips {
	var p lattice.Panels
	line(&p, [3]float64{0, -0.3, 0}, [3]float64{0, 0, -1}, n, 0)
	line(&p, [3]float64{0, 0, -1}, [3]float64{0, 1.5, -0.8}, n, 0)
	line(&p, [3]float64{0, 0, -1}, [3]float64{0, -1.5, -1.2}, n, 0)
	s := stripsOf(&p, func(_, z float64) float64 { return -0.1 * z })
	for i, m := range s.Mid {
		if i >= n {
			s.Circulation[i] = []float64{-0.3, 0.4}[i/n-1] * math.Sqrt(math.Max(0, 1-m[1]*m[1]/2.25))
		}
	}
	return s
}

// Rows 4.45 to 4.50: what a vortex under waves does to the stream at itself,
// u = −(Γ/4πh)[1 − 2X e^{−X} Ei(X)] along the stream, of which the first term is
// the image's. The line is 10⁴ depths wide, of strips that widen outwards.
func streamAtAVortex(t *testing.T, k *Kernel) {
	var s Strips
	const n, depth = 800, 1.0
	y := func(i float64) float64 { return 0.5 * math.Sinh((1-2*i/n)*math.Asinh(1e4)) }
	for i := range n {
		at := func(i float64) [3]float64 { return [3]float64{0, y(i), -depth} }
		s.A, s.B = append(s.A, at(float64(i))), append(s.B, at(float64(i+1)))
		s.Mid = append(s.Mid, at(float64(i)+0.5))
		s.Surface, s.Core, s.Circulation = append(s.Surface, 0), append(s.Core, 0), append(s.Circulation, 1)
	}
	for _, r := range published(t, "kochin-vortex") {
		froude := number(t, r.conditions, "F=V/√(gh)=")
		var w Workspace
		row := make([]float64, n)
		points, normals := [][3]float64{{0, 0, -depth}}, [][3]float64{{1, 0, 0}}
		if err := w.Wash(k, &s, points, normals, speedOf(froude*math.Sqrt(gravity*depth)), gravity, row); err != nil {
			t.Fatal(err)
		}
		u, exact := 0.0, 0.0
		k0 := 1 / (froude * froude * depth)
		for j, v := range row {
			u += v
			f := upstream(0, -k0*s.Mid[j][1], -2*k0*depth)
			exact -= (s.B[j][1] - s.A[j][1]) * k0 * k0 * f.xz / (4 * math.Pi)
		}
		// Strips are wider than the trapezoidal rule's step in the sinh.
		step := math.Asinh(1e4) / n
		exact *= step / math.Sinh(step)
		// x is against the stream.
		note := func(how string, got, tolerance float64) {
			accuracy.Check(t, accuracy.Row{
				File: "kochin-vortex.csv", ID: r.id, Quantity: "stream at a vortex under waves, 1−2Xe^{−X}Ei(X)", Conditions: fmt.Sprintf("depth Froude number %g, %s", froude, how),
				Published: r.values[2], Computed: got, Tolerance: tolerance,
			})
		}
		note("by quadrature", 1+4*math.Pi*depth*exact, 1e-5)
		note("by the table", 1+4*math.Pi*depth*u, 1e-3)
	}
}

// Far behind an endless line its waves are those of Lamb's art. 249, twice what
// they are at the line: w = −2k0 Γ exp(k0(z − h)) cos k0x, and beside them what
// an endless vortex and its image leave, which falls off as 1/x. Ahead
// there is nothing but that (Kochin and Lamb as in the rows; derived afresh).
func behindAnEndlessLine(t *testing.T, k *Kernel) {
	const depth, unit, perUnit, fade, plateau = 0.6, 1.0, 4, 40, 60
	speed := math.Sqrt(gravity * unit)
	var s Strips
	const breadth = plateau + 2*fade
	even(&s, 0, depth, breadth, 1, breadth*perUnit)
	for i, m := range s.Mid {
		s.Circulation[i] = math.Pow(math.Sin(math.Pi/2*math.Min(1, (breadth/2-math.Abs(m[1]))/fade)), 2)
	}
	w := Workspace{finer: 3}
	row := make([]float64, s.Len())
	for _, x := range []float64{8, -6, -2 * math.Pi, -7.5, -9, -4 * math.Pi} {
		for _, z := range []float64{-0.3, -1} {
			if err := w.Wash(k, &s, [][3]float64{{x, 0, z}}, [][3]float64{{0, 0, 1}}, speedOf(speed), gravity, row); err != nil {
				t.Fatal(err)
			}
			got := 0.0
			for j, v := range row {
				got += v * s.Circulation[j]
			}
			want := endlessWash(x, z-depth) + endsWash(&s, x)
			near(t, fmt.Sprintf("w at x %.3g m, z %g m", x, z), got, want, 1e-4)
		}
	}
}

// endlessWash is w that waves add behind a vortex of unit circulation, k0 = 1, at
// the distance x along the track and the sum of heights z, by Simpson's rule: of
// the even part half the waves, −exp(z) cos x, and of the odd part the principal
// value (1/π) ∫ exp(kz) sin(kx)/(k−1) dk, with the pole taken out.
func endlessWash(x, z float64) float64 {
	f := func(k float64) float64 { return math.Exp(k*z) * math.Sin(k*x) }
	// The pole is taken out over 0 to 2, where its principal value is nothing.
	inner := func(k float64) float64 {
		if math.Abs(k-1) < 1e-6 {
			return (f(1+1e-4) - f(1-1e-4)) / 2e-4
		}
		return (f(k) - f(1)) / (k - 1)
	}
	outer := func(k float64) float64 { return f(k) / (k - 1) }
	integral := simpson(inner, 0, 2, 20000) + simpson(outer, 2, 2+40/-z, 40000)
	return -math.Exp(z)*math.Cos(x) + integral/math.Pi
}

// endsWash is what a line under waves has more than an endless one, far from its
// ends: legs beside, and no bound vortex beyond them, twice those of the image.
func endsWash(s *Strips, x float64) float64 {
	sum, last := 0.0, 0.0
	for j, a := range s.A {
		leg := math.Abs(s.Circulation[j] - last)
		last = s.Circulation[j]
		if leg == 0 {
			continue // the even part, above and below the target
		}
		y := math.Abs(a[1])
		r := math.Hypot(x, y)
		sum += leg * ((1-x/r)/y + (1-y/r)/x) / (2 * math.Pi)
	}
	return sum
}

// simpson is Simpson's rule over n cells, n even.
func simpson(f func(float64) float64, from, to float64, n int) float64 {
	h := (to - from) / float64(n)
	sum := f(from) + f(to)
	for i := 1; i < n; i++ {
		sum += float64(2+2*(i%2)) * f(from+float64(i)*h)
	}
	return sum * h / 3
}

// At low speed the wash makes a wall of the surface, at high speed it vanishes.
func washLimits(t *testing.T, k *Kernel) {
	_, s := craft(6)
	n := s.Len()
	points, normals := make([][3]float64, n), make([][3]float64, n)
	for i, m := range s.Mid {
		points[i] = [3]float64{m[0] - 0.15, m[1], m[2]}
		normals[i] = [3]float64{0, 0.6, 0.8}
	}
	rows := func(speed float64) []float64 {
		var w Workspace
		matrix := make([]float64, n*n)
		if err := w.Wash(k, s, points, normals, speedOf(speed), gravity, matrix); err != nil {
			t.Fatal(err)
		}
		return matrix
	}
	size := 0.0
	slow, fast, rest := rows(0.05), rows(2000), rows(0)
	for i := range slow {
		size = math.Max(size, math.Abs(slow[i]))
		if math.IsNaN(rest[i]) || math.Abs(rest[i]-slow[i]) > 0.02*math.Abs(slow[i])+1e-3 {
			t.Errorf("%d: at rest %g, at low speed %g", i, rest[i], slow[i])
		}
	}
	for i := range fast {
		p, j := points[i/n], i%n
		if s.Mid[j][2] > -0.3 || p[2] > -0.3 {
			continue // strips wider than deep
		}
		if math.Abs(fast[i]) > 2e-3*size {
			t.Errorf("%d: at 2000 m/s %g of %g", i, fast[i], size)
		}
		want := -2 * imageWash(s, j, p, normals[i/n])
		if math.Abs(slow[i]-want) > 0.02*math.Abs(want)+1e-3 {
			t.Errorf("%d: at low speed %g, want %g", i, slow[i], want)
		}
	}
}

// imageWash is what the image of the same circulation of one strip's horseshoe
// does, by Biot and Savart's law over short pieces.
func imageWash(s *Strips, j int, p, n [3]float64) float64 {
	mirrored := func(q [3]float64) [3]float64 { return [3]float64{q[0], q[1], -q[2]} }
	a, b := mirrored(s.A[j]), mirrored(s.B[j])
	var v [3]float64
	piece := func(from, to [3]float64) {
		var l, r [3]float64
		for k := range 3 {
			l[k], r[k] = to[k]-from[k], p[k]-(from[k]+to[k])/2
		}
		cube := math.Pow(r[0]*r[0]+r[1]*r[1]+r[2]*r[2], 1.5) * 4 * math.Pi
		v[0] += (l[1]*r[2] - l[2]*r[1]) / cube
		v[1] += (l[2]*r[0] - l[0]*r[2]) / cube
		v[2] += (l[0]*r[1] - l[1]*r[0]) / cube
	}
	const pieces = 1500
	at := func(q [3]float64, k float64) [3]float64 {
		return [3]float64{q[0] - math.Sinh(k/pieces*8)/10, q[1], q[2]}
	}
	for k := range pieces {
		piece(at(a, float64(k+1)), at(a, float64(k)))
		piece(at(b, float64(k)), at(b, float64(k+1)))
	}
	piece(a, b)
	return v[0]*n[0] + v[1]*n[1] + v[2]*n[2]
}

// What does not fit is told, and nothing is allocated once grown.
func washInput(t *testing.T, k *Kernel) {
	var w Workspace
	_, s := craft(12)
	n := s.Len()
	matrix, normals := make([]float64, n*n), loads(s)
	var input *InputError
	if err := w.Wash(nil, s, s.Mid, normals, 5, gravity, matrix); !errors.As(err, &input) {
		t.Errorf("no kernel: %v", err)
	}
	if err := w.Wash(k, s, s.Mid, normals, 5, gravity, matrix[1:]); !errors.As(err, &input) {
		t.Errorf("short matrix: %v", err)
	}
	if err := w.Wash(k, s, s.Mid, append([][3]float64{{math.NaN()}}, normals[1:]...), 5, gravity, matrix); !errors.As(err, &input) {
		t.Errorf("no normal: %v", err)
	}
	call := func() {
		if err := w.Wash(k, s, s.Mid, normals, 5, gravity, matrix); err != nil {
			t.Fatal(err)
		}
	}
	call()
	if got := testing.AllocsPerRun(10, call); got != 0 {
		t.Errorf("%g allocations", got)
	}
}

// Past a line, along the stream, the wash has no kink, and over speed no jump.
func washIsSmooth(t *testing.T, k *Kernel) {
	var p lattice.Panels
	line(&p, [3]float64{0, 0.2, -0.4}, [3]float64{-0.15, -0.3, -0.6}, 3, 0)
	s := stripsOf(&p, func(_, _ float64) float64 { return 1 })
	var w Workspace
	for _, c := range []struct {
		name   string
		normal [3]float64
	}{{"along", [3]float64{1, 0, 0}}, {"across", [3]float64{0, 1, 0}}, {"up", [3]float64{0, 0, 1}}} {
		at := func(x, speed float64) float64 {
			row := make([]float64, s.Len())
			err := w.Wash(k, s, [][3]float64{{x, 0.1, -0.45}}, [][3]float64{c.normal}, speedOf(speed), gravity, row)
			if err != nil {
				t.Fatal(err)
			}
			return row[0] + row[1] + row[2]
		}
		const h = 1e-3
		largest, jump, kink, slope := 0.0, 0.0, 0.0, 0.0
		for x := -1.0; x < 0.5; x += h {
			a, b, d := at(x-h, 4), at(x, 4), at(x+h, 4)
			largest = math.Max(largest, math.Abs(b))
			jump = math.Max(jump, math.Abs(d-b))
			slope = math.Max(slope, math.Abs(d-a)/(2*h))
			kink = math.Max(kink, math.Abs(a-2*b+d)/h)
		}
		near(t, c.name+", largest step of a thousandth of a metre", jump/largest, 0, 0.02)
		if kink > 0.05*slope {
			t.Errorf("%s: slope changes by %g of %g within %g m", c.name, kink, slope, h)
		}
		t.Logf("%s: slope changes by %g of %g", c.name, kink, slope)
		for speed := 1.0; speed < 10; speed += 0.01 {
			if d := math.Abs(at(-0.3, speed+0.001) - at(-0.3, speed)); d > 0.01*largest {
				t.Errorf("%s: jumps by %g at %g m/s", c.name, d, speed)
			}
		}
	}
}
