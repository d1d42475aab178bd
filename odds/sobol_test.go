package odds

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"foilwright/accuracy"
)

// The first points are those of Joe and Kuo (2008).
func TestSobolPoints(t *testing.T) {
	all, err := sequences(6)
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range lines(t, "joe-kuo-2008.csv")[1:] {
		index, err := strconv.Atoi(line[0])
		if err != nil {
			t.Fatal(err)
		}
		for d := range all {
			want, err := strconv.ParseFloat(line[d+1], 64)
			if err != nil {
				t.Fatal(err)
			}
			accuracy.Check(t, accuracy.Row{
				ID: fmt.Sprintf("8.06 point %d, dimension %d", index, d+1), Topic: 8, Quantity: "Sobol sequence", Conditions: "unscrambled, after the origin",
				Source: "Joe and Kuo 2008", Evidence: "derived", Published: want, Computed: float64(all[d].at(uint32(index))) / (1 << 32), Tolerance: 0,
			})
		}
	}
}

// Every dimension of the table is a net of its own: 2ᵏ points fall one into each
// interval of 2⁻ᵏ, scrambled or not; and the first two together are a
// (0, m, 2)-net: one point in every rectangle of that area.
func TestPointsFillEveryInterval(t *testing.T) {
	const m = 10
	names := make([]string, MostUnknowns)
	for i := range names {
		names[i] = fmt.Sprintf("unknown %d", i)
	}
	p, err := NewPoints(7, names)
	if err != nil {
		t.Fatal(err)
	}
	for d := range names {
		var seen, plain [1 << m]int
		for s := range uint32(1 << m) {
			u := p.At(s+3<<m, d)
			if !(u > 0 && u < 1) {
				t.Fatalf("point %d, dimension %d: %g", s, d, u)
			}
			seen[int(u*(1<<m))]++
			plain[p.sequences[d].at(s)>>(sobolBits-m)]++
		}
		for i := range seen {
			if seen[i] != 1 || plain[i] != 1 {
				t.Fatalf("dimension %d, interval %d: %d points, and %d without the scramble", d, i, seen[i], plain[i])
			}
		}
	}
	for k := range m + 1 {
		cells := map[[2]int]int{}
		for s := range uint32(1 << m) {
			cells[[2]int{int(p.At(s, 0) * math.Ldexp(1, k)), int(p.At(s, 1) * math.Ldexp(1, m-k))}]++
		}
		if len(cells) != 1<<m {
			t.Errorf("rectangles of 2^-%d by 2^-%d: %d of %d have a point", k, m-k, len(cells), 1<<m)
		}
	}
	if _, err := NewPoints(1, make([]string, MostUnknowns+1)); err == nil {
		t.Error("more unknowns than directions are drawn")
	}
}

// A scramble is a pure function of seed and name, and a point's place is uniform
// over seeds, and independent of another's in the same dimension but for its
// first digit.
func TestScrambles(t *testing.T) {
	a, _ := NewPoints(1, []string{"one", "two"})
	b, _ := NewPoints(1, []string{"other", "two"})
	c, _ := NewPoints(2, []string{"one", "two"})
	for s := range uint32(64) {
		if a.At(s, 1) != b.At(s, 1) {
			t.Fatal("another unknown changes a scramble")
		}
		if a.At(s, 1) == c.At(s, 1) || a.At(s, 0) == b.At(s, 0) {
			t.Fatal("seed or name do not change a scramble")
		}
	}
	const seeds = 4000
	mean, square, product := 0.0, 0.0, 0.0
	for seed := range uint64(seeds) {
		p, err := NewPoints(seed, []string{"one"})
		if err != nil {
			t.Fatal(err)
		}
		u, v := p.At(0, 0)-0.5, p.At(1, 0)-0.5
		mean += u / seeds
		square += u * u / seeds
		product += u * v / seeds
	}
	// Points 0 and 1 lie in different halves: E[uv] is −1/16 about the middle.
	for _, k := range []struct {
		what            string
		got, want, most float64
	}{{"mean", mean, 0, 0.015}, {"mean square", square, 1.0 / 12, 0.004}, {"product", product, -1.0 / 16, 0.003}} {
		if math.Abs(k.got-k.want) > k.most {
			t.Errorf("%s over seeds: %g, want %g within %g", k.what, k.got, k.want, k.most)
		}
	}
}

// discrepancy is the squared centred L2 discrepancy of Hickernell (1998), equation
// 4.6b.
func discrepancy(points [][]float64) float64 {
	d, n := len(points[0]), float64(len(points))
	first := math.Pow(13.0/12, float64(d))
	second, third := 0.0, 0.0
	for _, x := range points {
		product := 1.0
		for _, v := range x {
			z := math.Abs(v - 0.5)
			product *= 1 + z/2 - z*z/2
		}
		second += product
		for _, y := range points {
			product := 1.0
			for k, v := range x {
				product *= 1 + math.Abs(v-0.5)/2 + math.Abs(y[k]-0.5)/2 - math.Abs(v-y[k])/2
			}
			third += product
		}
	}
	return first - 2/n*second + third/(n*n)
}

// The measure itself is held against published values; by it the points are far
// more even than random ones.
func TestDiscrepancy(t *testing.T) {
	want := published(t, "hickernell-1998.csv", "8.07")
	for k, set := range [][][2]float64{
		{{1, 3}, {2, 6}, {3, 2}, {4, 5}, {5, 1}, {6, 4}},
		{{1, 5}, {2, 4}, {3, 3}, {4, 2}, {5, 1}, {6, 6}},
	} {
		var points [][]float64
		for _, x := range set {
			points = append(points, []float64{(x[0] - 0.5) / 6, (x[1] - 0.5) / 6})
		}
		accuracy.Check(t, accuracy.Row{File: "hickernell-1998.csv", ID: "8.07", Quantity: "centred L2 discrepancy, squared, " + [...]string{"first", "second"}[k] + " set", Published: want[k], Computed: discrepancy(points), Tolerance: 1e-12})
	}
	names := []string{"a", "b", "c", "d", "e", "f"}
	p, err := NewPoints(3, names)
	if err != nil {
		t.Fatal(err)
	}
	chance := random(1)
	var even, loose [][]float64
	for s := range 512 {
		x, y := make([]float64, len(names)), make([]float64, len(names))
		for d := range x {
			x[d], y[d] = p.At(uint32(s), d), chance.Float64()
		}
		even, loose = append(even, x), append(loose, y)
	}
	if got, than := discrepancy(even), discrepancy(loose); got > than/4 {
		t.Errorf("discrepancy of 512 points in six dimensions: %g, random ones have %g", got, than)
	}
}
