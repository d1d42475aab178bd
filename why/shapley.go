package why

import (
	"maps"
	"math"
	"math/bits"
	"slices"
)

// Coalition is a set of causes, at most [MostCauses]: bit i is set where cause i
// is as the second boat has it.
type Coalition uint64

// MostCauses is how many causes a split can have.
const MostCauses = 63

// ExactCauses is up to how many causes every mixed boat is sailed; above, orders
// are sampled.
const ExactCauses = 12

// Has tells whether a cause is in the coalition.
func (c Coalition) Has(cause int) bool { return c>>cause&1 == 1 }

// With and Without return the coalition with a cause added or taken out.
func (c Coalition) With(cause int) Coalition { return c | 1<<cause }

// Without is the reverse of With.
func (c Coalition) Without(cause int) Coalition { return c &^ (1 << cause) }

// Size returns how many causes are in the coalition.
func (c Coalition) Size() int { return bits.OnesCount64(uint64(c)) }

// All returns the coalition of all of n causes.
func All(n int) Coalition { return 1<<n - 1 }

// Shapley returns the value of each of n players of the game whose worth is given
// for every coalition, 2^n of them: the mean over all orders in which players can
// come in of what each adds on arrival,
//
//	φ_i = Σ_{S ∌ i} |S|! (n−|S|−1)! / n! · (v(S∪i) − v(S))
//
// (Shapley 1953). The values add up to v(all) − v(none).
func Shapley(n int, worth []float64) []float64 {
	parts := make([]float64, n)
	for i := range parts {
		// Sums by size first: terms of one weight are of one magnitude.
		bySize := make([]float64, n)
		for s := range All(n) + 1 {
			if !s.Has(i) {
				bySize[s.Size()] += worth[s.With(i)] - worth[s]
			}
		}
		for size, sum := range bySize {
			parts[i] += sum / (float64(n) * choose(n-1, size))
		}
	}
	return parts
}

// Interactions returns the interaction index of every pair of n players, a
// symmetric matrix with nothing on its diagonal: the mean over orders of what two
// players add together beyond what each adds alone,
//
//	I_ij = Σ_{S ∌ i,j} |S|! (n−|S|−2)! / (n−1)! · (v(S∪ij) − v(S∪i) − v(S∪j) + v(S))
//
// (Grabisch and Roubens 1999). It is above zero where the two help each
// other, and 0 where they do not meet.
func Interactions(n int, worth []float64) [][]float64 {
	index := make([][]float64, n)
	for i := range index {
		index[i] = make([]float64, n)
	}
	for i := range n {
		for j := range i {
			bySize := make([]float64, n-1)
			for s := range All(n) + 1 {
				if !s.Has(i) && !s.Has(j) {
					bySize[s.Size()] += (worth[s.With(i).With(j)] - worth[s.With(i)]) - (worth[s.With(j)] - worth[s])
				}
			}
			for size, sum := range bySize {
				index[i][j] += sum / (float64(n-1) * choose(n-2, size))
			}
			index[j][i] = index[i][j]
		}
	}
	return index
}

// choose returns the binomial coefficient.
func choose(n, k int) float64 {
	c := 1.0
	for i := range k {
		c = c * float64(n-i) / float64(i+1)
	}
	return math.Round(c)
}

// Orders returns count orders of n players, a function of the seed alone. Each
// second order is the one before it turned round, so that what pairs of players
// do to each other cancels exactly within the two; count is made even.
func Orders(n, count int, seed uint64) [][]int {
	random := splitMix(seed)
	orders := make([][]int, 0, count+1)
	for len(orders) < count {
		order := make([]int, n)
		for i := range order {
			order[i] = i
		}
		// Fisher and Yates.
		for i := n - 1; i > 0; i-- {
			j := random.below(i + 1)
			order[i], order[j] = order[j], order[i]
		}
		turned := make([]int, n)
		for i, player := range order {
			turned[n-1-i] = player
		}
		orders = append(orders, order, turned)
	}
	return orders
}

// Sampled returns the mean over orders of what each of n players adds on arrival,
// and the standard error of that mean, from the scatter of orders taken two by
// two as [Orders] makes them. The means add up to v(all) − v(none) whatever the
// orders. With fewer than four orders there is no scatter, and the error is that
// of a value of which nothing is known: the spread of the worths met.
func Sampled(n int, orders [][]int, worth func(Coalition) float64) (parts, errors []float64) {
	parts, errors = make([]float64, n), make([]float64, n)
	pairs := len(orders) / 2
	squares := make([]float64, n)
	low, high := math.Inf(1), math.Inf(-1)
	for k := range pairs {
		added := make([]float64, n)
		for _, order := range orders[2*k : 2*k+2] {
			var s Coalition
			before := worth(s)
			for _, player := range order {
				s = s.With(player)
				after := worth(s)
				added[player] += (after - before) / 2
				before = after
				low, high = math.Min(low, after), math.Max(high, after)
			}
		}
		for i, v := range added {
			// Running mean and sum of squares (Welford 1962).
			off := v - parts[i]
			parts[i] += off / float64(k+1)
			squares[i] += off * (v - parts[i])
		}
	}
	for i := range errors {
		errors[i] = high - low
		if pairs > 1 {
			errors[i] = math.Sqrt(squares[i] / float64(pairs-1) / float64(pairs))
		}
	}
	return parts, errors
}

// needed returns the coalitions that orders pass through, each once, in rising
// order.
func needed(n int, orders [][]int) []Coalition {
	seen := map[Coalition]struct{}{0: {}}
	for _, order := range orders {
		var s Coalition
		for _, player := range order {
			s = s.With(player)
			seen[s] = struct{}{}
		}
	}
	return sorted(seen)
}

// splitMix is a source of random numbers that is a function of its seed alone
// (Steele, Lea and Flood 2014).
type splitMix uint64

func (s *splitMix) next() uint64 {
	*s += 0x9e3779b97f4a7c15
	z := uint64(*s)
	z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9
	z = (z ^ (z >> 27)) * 0x94d049bb133111eb
	return z ^ (z >> 31)
}

// below returns a number from 0 to n−1. The bias of the remainder is under n/2^64.
func (s *splitMix) below(n int) int { return int(s.next() % uint64(n)) }

func sorted(set map[Coalition]struct{}) []Coalition { return slices.Sorted(maps.Keys(set)) }
