package lattice

import (
	"flag"
	"math"
	"os"
	"regexp"
	"strings"
	"testing"
)

// writeKernels renews the kernel of four numbers from that of eight:
//
//	go test ./lattice -run TestKernelsAreOneText -write-kernels
var writeKernels = flag.Bool("write-kernels", false, "renew kernel_avx2.go from kernel_avx512.go")

// The kernel of four numbers at a time is that of eight but for the width.
func TestKernelsAreOneText(t *testing.T) {
	eight, err := os.ReadFile("kernel_avx512.go")
	if err != nil {
		t.Fatal(err)
	}
	head, rest, found := strings.Cut(string(eight), "// This file holds")
	_, rest, cut := strings.Cut(rest, "// lanes8 are")
	if !found || !cut {
		t.Fatal("kernel_avx512.go does not say how its like is made")
	}
	want := head + "// This file is made from kernel_avx512.go: see there.\n\n// lanes8 are" + rest
	want = strings.ReplaceAll(want, "const width8 = 8", "const width8 = 4")
	want = strings.ReplaceAll(want, "64x8", "64x4")
	want = regexp.MustCompile(`([a-zA-Z])8\b`).ReplaceAllString(want, "${1}4")
	if *writeKernels {
		if err := os.WriteFile("kernel_avx2.go", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	four, err := os.ReadFile("kernel_avx2.go")
	if err != nil {
		t.Fatal(err)
	}
	if string(four) != want {
		t.Error("kernel_avx2.go is not kernel_avx512.go at four numbers\nrenew it with -write-kernels")
	}
}

func TestKernelHasAName(t *testing.T) {
	switch Kernel() {
	case "scalar", "avx2", "avx512":
	default:
		t.Errorf("kernel %q", Kernel())
	}
}

// A panel's influence as the sum of its three straight vortices by Biot and
// Savart's law, integrated numerically, at points about it.
func TestInfluenceByQuadrature(t *testing.T) {
	a, b := [3]float64{0.1, -0.2, -0.3}, [3]float64{-0.2, 0.5, -0.4}
	for _, c := range [][3]float64{{0.7, 0.1, -0.2}, {-0.6, 0.2, -0.45}, {-0.1, 0.3, -0.1}, {0.05, 1.4, -0.9}, {-3, -0.4, -0.2}} {
		var p Panels
		p.Append(Panel{A: a, B: b, Mid: [3]float64{0, 0.1, -0.35}, Control: c, Normal: [3]float64{0.48, 0.6, 0.64}, Chord: 0.3})
		var w Workspace
		w.take(&p, Unbounded)
		got := make([]float64, 1)
		w.chains.see(&w.controls, Unbounded, everything, got, 1)
		down := func(p [3]float64) [3]float64 { return [3]float64{p[0] - 1000, p[1], p[2]} }
		want := straight(down(a), a, c, p.Normal[0]) + straight(a, b, c, p.Normal[0]) + straight(b, down(b), c, p.Normal[0])
		if math.Abs(got[0]-want) > 1e-6*math.Abs(want) {
			t.Errorf("at %v: %g, by quadrature %g", c, got[0], want)
		}
	}
}

// straight integrates dl × r / (4πr³) along a straight line, in steps that grow
// with the distance from the point.
func straight(from, to, at, normal [3]float64) float64 {
	l := [3]float64{to[0] - from[0], to[1] - from[1], to[2] - from[2]}
	length := math.Sqrt(l[0]*l[0] + l[1]*l[1] + l[2]*l[2])
	e := [3]float64{l[0] / length, l[1] / length, l[2] / length}
	foot := 0.0
	for k := range 3 {
		foot += (at[k] - from[k]) * e[k]
	}
	// s = foot + sinh τ: even steps in τ.
	begin, end := math.Asinh(-foot*50), math.Asinh((length-foot)*50)
	const parts = 20000
	step, sum := (end-begin)/parts, 0.0
	for i := range parts {
		tau := begin + (float64(i)+0.5)*step
		s, ds := foot+math.Sinh(tau)/50, math.Cosh(tau)/50*step
		r := [3]float64{at[0] - from[0] - s*e[0], at[1] - from[1] - s*e[1], at[2] - from[2] - s*e[2]}
		cube := math.Pow(r[0]*r[0]+r[1]*r[1]+r[2]*r[2], 1.5)
		sum += ds / cube * (normal[0]*(e[1]*r[2]-e[2]*r[1]) + normal[1]*(e[2]*r[0]-e[0]*r[2]) + normal[2]*(e[0]*r[1]-e[1]*r[0]))
	}
	return sum / (4 * math.Pi)
}

// Neighbours share their leg whichever way their panels run, and only where it
// is one.
func TestChains(t *testing.T) {
	a, b, c, d := [3]float64{0, 0, -1}, [3]float64{0, 1, -1}, [3]float64{0, 2, -1}, [3]float64{0, 3, -1}
	for _, test := range []struct {
		name   string
		panels [][2][3]float64
		steps  int
	}{
		{"one way", [][2][3]float64{{a, b}, {b, c}, {c, d}}, 4},
		{"the other way", [][2][3]float64{{b, a}, {c, b}, {d, c}}, 4},
		{"mixed", [][2][3]float64{{b, a}, {b, c}, {d, c}}, 4},
		{"backwards", [][2][3]float64{{c, d}, {b, c}, {a, b}}, 4},
		{"apart", [][2][3]float64{{a, b}, {c, d}}, 4},
		{"a fork", [][2][3]float64{{a, b}, {b, c}, {b, d}}, 5},
	} {
		var k chains
		for i, p := range test.panels {
			k.add(i, &p[0], &p[1], 0, 0, 1)
		}
		if len(k.steps) != test.steps {
			t.Errorf("%s: %d steps, want %d", test.name, len(k.steps), test.steps)
		}
		for i := range k.steps {
			s := &k.steps[i]
			if s.source == first {
				continue
			}
			from, to := [3]float64{k.steps[i-1].x, k.steps[i-1].y, k.steps[i-1].z}, [3]float64{s.x, s.y, s.z}
			if s.scale < 0 {
				from, to = to, from
			}
			if p := test.panels[s.source]; from != p[0] || to != p[1] {
				t.Errorf("%s: panel %d runs from %v to %v", test.name, s.source, from, to)
			}
		}
	}
}
