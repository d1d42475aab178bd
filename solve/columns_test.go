package solve

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"
)

func TestSelectColumnsTakesTheLongAndIndependent(t *testing.T) {
	chosen, rank, condition, null := SelectColumns([][]float64{
		{1, 1, 0.001, 0},
		{0, 0.001, 0, 2},
	}, 2)
	if !reflect.DeepEqual(chosen, []int{0, 3}) && !reflect.DeepEqual(chosen, []int{1, 3}) {
		t.Errorf("chosen %v", chosen)
	}
	if rank != 2 || null != nil || condition < 1.9 || condition > 2.1 {
		t.Errorf("rank %d, condition %g, null %v", rank, condition, null)
	}
}

// Kahan's matrix (Golub and Van Loan, 4th ed., section 5.4.3) is where pivoting by
// length alone chooses badly; no choice of the exchanges may be worse than it.
func TestSelectColumnsAgainstAllChoices(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for trial := range 200 {
		jac := make([][]float64, 3)
		for j := range jac {
			jac[j] = make([]float64, 6)
			for i := range jac[j] {
				jac[j][i] = r.NormFloat64() * math.Pow(10, -2*r.Float64())
			}
		}
		chosen, rank, _, _ := SelectColumns(jac, 3)
		if len(chosen) != 3 || rank != 3 {
			t.Fatalf("trial %d: %v, rank %d", trial, chosen, rank)
		}
		most := 0.0
		for a := range 6 {
			for b := a + 1; b < 6; b++ {
				for c := b + 1; c < 6; c++ {
					most = math.Max(most, volume(jac, []int{a, b, c}))
				}
			}
		}
		if got := volume(jac, chosen); got < most/1.5 {
			t.Errorf("trial %d: volume %g, largest of all choices %g", trial, got, most)
		}
	}
}

func volume(jac [][]float64, c []int) float64 {
	at := func(j, k int) float64 { return jac[j][c[k]] }
	return math.Abs(at(0, 0)*(at(1, 1)*at(2, 2)-at(1, 2)*at(2, 1)) -
		at(0, 1)*(at(1, 0)*at(2, 2)-at(1, 2)*at(2, 0)) +
		at(0, 2)*(at(1, 0)*at(2, 1)-at(1, 1)*at(2, 0)))
}

func TestSelectColumnsNamesWhatNothingMoves(t *testing.T) {
	// Nothing moves the third equation.
	_, rank, _, null := SelectColumns([][]float64{{1, 2, 0}, {0, 1, 3}, {0, 0, 0}}, 3)
	if rank != 2 || math.Abs(null[2]-1) > 1e-12 {
		t.Errorf("rank %d, null %v", rank, null)
	}
	// The second equation moves as twice the first: 2·first − second stands.
	chosen, rank, condition, null := SelectColumns([][]float64{{1, 2, 0}, {2, 4, 0}, {0, 1, 1}}, 3)
	if rank != 2 || len(chosen) != 2 || math.Abs(null[0]-2/math.Sqrt(5)) > 1e-12 || math.Abs(null[1]+1/math.Sqrt(5)) > 1e-12 {
		t.Errorf("rank %d, chosen %v, null %v", rank, chosen, null)
	}
	if !finite(condition) || condition < 1 {
		t.Errorf("condition %g", condition)
	}
	// Fewer variables than equations.
	chosen, rank, _, null = SelectColumns([][]float64{{1}, {1}}, 2)
	if rank != 1 || len(chosen) != 1 || math.Abs(null[0]+null[1]) > 1e-12 {
		t.Errorf("rank %d, chosen %v, null %v", rank, chosen, null)
	}
}

func TestSelectColumnsOfNothing(t *testing.T) {
	for name, jac := range map[string][][]float64{
		"nil": nil, "no columns": {{}, {}}, "zero": {{0, 0}}, "ragged": {{1, 2}, {1}}, "nan": {{math.NaN(), 1}},
	} {
		chosen, rank, condition, _ := SelectColumns(jac, 2)
		if len(chosen) != 0 || rank != 0 || !math.IsInf(condition, 1) {
			t.Errorf("%s: %v, rank %d, condition %g", name, chosen, rank, condition)
		}
	}
	if chosen, _, _, _ := SelectColumns([][]float64{{1, 2}}, -1); len(chosen) != 0 {
		t.Errorf("want -1: %v", chosen)
	}
}
