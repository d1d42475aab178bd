package lattice

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// plate solves the thin-aerofoil integral equation of a flat plate at depth
// H chords under a plane of zero potential, γ(t) against
// [1/(x−t) + (x−t)/((x−t)²+4H²)]/2π, by the Gauss–Jacobi rule at modes points.
// It returns lift over that of deep water and the centre of pressure as a
// share of the chord.
func plate(H float64, modes int) (factor, centre float64) {
	share := func(k int) float64 { return (1 - math.Cos(float64(k)*math.Pi/float64(2*modes+1))) / 2 }
	a := make([]float64, modes*modes)
	g := make([]float64, modes)
	for i := range modes {
		g[i] = 1
		for j := range modes {
			d := share(2*i+2) - share(2*j+1)
			a[i*modes+j] = (1/d + d/(d*d+4*H*H)) / (2 * math.Pi)
		}
	}
	pivot := make([]int, modes)
	m := blas64.General{Rows: modes, Cols: modes, Stride: modes, Data: a}
	lapack64.Getrf(m, pivot)
	lapack64.Getrs(blas.NoTrans, m, blas64.General{Rows: modes, Cols: 1, Stride: 1, Data: g}, pivot)
	lift, moment := 0.0, 0.0
	for j, v := range g {
		lift += v
		moment += v * share(2*j+1)
	}
	return lift / math.Pi, moment / lift
}

// depths are the rows of the flat plate under a plane of zero potential.
var depths = []struct {
	id    string
	depth float64 // in chords
}{{"4.01", 0.1}, {"4.02", 0.25}, {"4.04", 0.75}, {"4.06", 1.5}, {"4.07", 2}, {"4.08", 5}}

func TestPlateUnderSurface(t *testing.T) {
	for modes := 1; modes <= 6; modes++ {
		factor, centre := plate(1e6, modes)
		near(t, "rows in deep water, lift", factor, 1, 1e-11)
		near(t, "rows in deep water, centre of pressure", centre, 0.25, 1e-11)
		for k := 1; k <= 2*modes; k++ {
			want := (1 - math.Cos(float64(k)*math.Pi/float64(2*modes+1))) / 2
			near(t, "row's place on the chord", chordShare(k, modes), want, 1e-15)
		}
	}
	for _, c := range depths {
		want := published(t, "thin-aerofoil-depth", c.id)
		factor, centre := plate(c.depth, 60)
		near(t, c.id+" integral equation, lift", factor, want[0], 1e-6)
		near(t, c.id+" integral equation, centre of pressure", centre, want[1], 1e-5)
		held(t, figure{"thin-aerofoil-depth", c.id, 0, "lift of a plate over that in deep water", fmt.Sprintf("depth %g chords, table of the depth correction", c.depth), "-"}, plateFactor(c.depth), 1e-4)
		held(t, figure{"thin-aerofoil-depth", c.id, 1, "centre of pressure of a plate", fmt.Sprintf("depth %g chords, integral equation behind the table", c.depth), "chords"}, centre, 1e-4)
	}
	for _, c := range []struct {
		id    string
		depth float64
	}{{"4.09", 0.25}, {"4.10", 0.5}, {"4.11", 0.84}, {"4.13", 2}} {
		held(t, figure{"hough-moran-1969", c.id, 0, "lift of one vortex over that in deep water", "", ""}, lumpedFactor(c.depth), 1e-6)
	}
}

// The literal table must be what the integral equation gives, at its nodes and
// half-way between them.
func TestPlateTable(t *testing.T) {
	last := len(plateDepths) - 1
	for i := 1; i < 2*last; i++ {
		u := float64(i) / float64(2*last)
		if u < 0.04 {
			continue // below a fiftieth of a per cent of the chord the equation wants thousands of modes
		}
		modes := 60 + int(20/(u*u))
		modes = min(modes, 900)
		H := u * u / (1 - u)
		exact, _ := plate(H, modes)
		tolerance := 2e-7
		if i%2 == 1 {
			tolerance = 2e-5
		}
		if got := plateFactor(H); math.Abs(got-exact) > tolerance {
			t.Errorf("depth %.4g chords: table %.7f, equation %.7f", H, got, exact)
		}
	}
	if plateFactor(0) != 0.5 || plateFactor(-1) != 0.5 {
		t.Error("at the surface the factor must be one half")
	}
	if got := plateFactor(1e9); math.Abs(got-1) > 1e-12 {
		t.Errorf("in deep water the factor is %v", got)
	}
	for h := 1e-9; h < 1e3; h *= 1.1 {
		if plateFactor(h*1.1) <= plateFactor(h) {
			t.Fatalf("factor does not rise at %g chords", h)
		}
	}
}
