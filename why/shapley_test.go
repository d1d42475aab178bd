package why

import (
	"encoding/csv"
	"math"
	"math/big"
	"os"
	"testing"
)

// game is the worth of every coalition of n players.
func game(n int, worth func(Coalition) float64) []float64 {
	all := make([]float64, 1<<n)
	for s := range All(n) + 1 {
		all[s] = worth(s)
	}
	return all
}

// gloves: player 0 has a left glove, 1 and 2 a right one each; a pair is worth 1.
func gloves(s Coalition) float64 {
	if s.Has(0) && (s.Has(1) || s.Has(2)) {
		return 1
	}
	return 0
}

// airport: player i needs a runway of length i+1; a coalition the longest.
func airport(s Coalition) float64 { return float64(64 - leadingZeros(s)) }

func leadingZeros(s Coalition) int {
	n := 64
	for ; s != 0; s >>= 1 {
		n--
	}
	return n
}

// voting: weights 4, 3, 2, 1, and six carry a motion.
func voting(s Coalition) float64 {
	votes := 0
	for i := range 4 {
		if s.Has(i) {
			votes += 4 - i
		}
	}
	if votes >= 6 {
		return 1
	}
	return 0
}

// Textbook games, against published values to rounding.
func TestTextbookGames(t *testing.T) {
	f, err := os.Open("testdata/published/shapley-1953.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var computed []float64
	computed = append(computed, Shapley(3, game(3, gloves))...)
	computed = append(computed, Shapley(3, game(3, airport))...)
	computed = append(computed, Shapley(4, game(4, voting))...)
	if len(lines) != 1+len(computed) {
		t.Fatalf("%d lines for %d values", len(lines)-1, len(computed))
	}
	for i, line := range lines[1:] {
		fraction, ok := new(big.Rat).SetString(line[3])
		if !ok {
			t.Fatalf("%s: %q is no fraction", line[0], line[3])
		}
		want, _ := fraction.Float64()
		if math.Abs(computed[i]-want) > 4e-16*math.Max(1, want) {
			t.Errorf("%s, %s, %s: %.17g, want %s", line[0], line[1], line[2], computed[i], line[3])
		}
	}
}

// wild is a game without any structure: a hash of the coalition.
func wild(seed uint64) func(Coalition) float64 {
	return func(s Coalition) float64 {
		r := splitMix(seed ^ uint64(s)*0x2545f4914f6cdd1d)
		return float64(r.next()>>11)/(1<<53)*20 - 10
	}
}

// The axioms: parts add up, players who add the same get the same, one who adds
// nothing gets nothing, and values of a sum of games are sums of values.
func TestAxioms(t *testing.T) {
	for n := 1; n <= 10; n++ {
		worth := wild(uint64(n))
		parts := Shapley(n, game(n, worth))
		sum := 0.0
		for _, p := range parts {
			sum += p
		}
		if whole := worth(All(n)) - worth(0); math.Abs(sum-whole) > 1e-12 {
			t.Errorf("%d players: parts add up to %v, the whole is %v", n, sum, whole)
		}
		if n < 3 {
			continue
		}
		// Players 0 and 1 alike: only how many of them are there counts.
		alike := func(s Coalition) float64 {
			if s.Has(1) && !s.Has(0) {
				s = s.Without(1).With(0)
			}
			return worth(s)
		}
		if p := Shapley(n, game(n, alike)); math.Abs(p[0]-p[1]) > 1e-12 {
			t.Errorf("%d players: two that are alike get %v and %v", n, p[0], p[1])
		}
		idle := func(s Coalition) float64 { return worth(s.Without(2)) }
		if p := Shapley(n, game(n, idle)); p[2] != 0 {
			t.Errorf("%d players: one that adds nothing gets %v", n, p[2])
		}
		for _, row := range Interactions(n, game(n, idle)) {
			if row[2] != 0 {
				t.Errorf("%d players: one that adds nothing acts on another by %v", n, row[2])
			}
		}
		both := Shapley(n, game(n, func(s Coalition) float64 { return worth(s) + airport(s) }))
		other := Shapley(n, game(n, airport))
		for i := range both {
			if math.Abs(both[i]-parts[i]-other[i]) > 1e-11 {
				t.Errorf("%d players: of a sum of games player %d gets %v, want %v", n, i, both[i], parts[i]+other[i])
			}
		}
	}
}

// Shapley's value and the index of interaction by their definition, as means over
// all orders: independent of the sums over coalitions.
func TestValuesAreMeansOverOrders(t *testing.T) {
	const n = 5
	worth := wild(7)
	var orders [][]int
	permute([]int{0, 1, 2, 3, 4}, 0, func(order []int) { orders = append(orders, append([]int(nil), order...)) })
	mean := make([]float64, n)
	for _, order := range orders {
		var s Coalition
		for _, i := range order {
			mean[i] += (worth(s.With(i)) - worth(s)) / float64(len(orders))
			s = s.With(i)
		}
	}
	for i, p := range Shapley(n, game(n, worth)) {
		if math.Abs(p-mean[i]) > 1e-12 {
			t.Errorf("player %d: %v, mean over orders %v", i, p, mean[i])
		}
	}
	// Of a pair: the mean of what the two add together beyond each alone, over orders
	// of the others and the pair as one player (Grabisch and Roubens 1999).
	index := Interactions(n, game(n, worth))
	pair, count := 0.0, 0
	permute([]int{-1, 2, 3, 4}, 0, func(order []int) {
		var s Coalition
		for _, i := range order {
			if i < 0 {
				break
			}
			s = s.With(i)
		}
		pair += worth(s.With(0).With(1)) - worth(s.With(0)) - worth(s.With(1)) + worth(s)
		count++
	})
	if pair /= float64(count); math.Abs(index[0][1]-pair) > 1e-12 || index[0][1] != index[1][0] {
		t.Errorf("interaction of the first two: %v and %v, mean over orders %v", index[0][1], index[1][0], pair)
	}
	if got := Interactions(3, game(3, gloves)); math.Abs(got[0][1]-0.5) > 1e-15 || math.Abs(got[1][2]+0.5) > 1e-15 {
		t.Errorf("gloves: %v, want 1/2 for a pair and −1/2 for two right ones", got)
	}
}

func permute(of []int, from int, do func([]int)) {
	if from == len(of) {
		do(of)
		return
	}
	for i := from; i < len(of); i++ {
		of[from], of[i] = of[i], of[from]
		permute(of, from+1, do)
		of[from], of[i] = of[i], of[from]
	}
}

// runways is the value of the airport game in closed form: each stretch of runway
// is shared by those who need it (Littlechild and Owen 1973).
func runways(n int) []float64 {
	values := make([]float64, n)
	for i := range values {
		for k := 0; k <= i; k++ {
			values[i] += 1 / float64(n-k)
		}
	}
	return values
}

func TestAirportOfTwelve(t *testing.T) {
	want := runways(12)
	for i, p := range Shapley(12, game(12, airport)) {
		if math.Abs(p-want[i]) > 1e-12 {
			t.Errorf("player %d: %v, want %v", i, p, want[i])
		}
	}
}

// A game of players who only add up needs no sampling: any orders give it exactly,
// with no error. Nor does one in which players act on one another by pairs.
func TestSampledOfSimpleGames(t *testing.T) {
	const n = 20
	plain := func(s Coalition) float64 {
		sum := 0.0
		for i := range n {
			if s.Has(i) {
				sum += float64(i - 7)
			}
		}
		return sum
	}
	parts, errors := Sampled(n, Orders(n, 8, 1), plain)
	for i := range parts {
		if math.Abs(parts[i]-float64(i-7)) > 1e-12 || errors[i] > 1e-12 {
			t.Errorf("player %d of a game that adds up: %v ± %v, want %d", i, parts[i], errors[i], i-7)
		}
	}
	pairs := func(s Coalition) float64 { return float64(s.Size() * s.Size()) }
	parts, errors = Sampled(n, Orders(n, 8, 1), pairs)
	for i := range parts {
		if math.Abs(parts[i]-n) > 1e-12 || errors[i] > 1e-12 {
			t.Errorf("player %d of a game of pairs: %v ± %v, want %d", i, parts[i], errors[i], n)
		}
	}
}

// The error stated for sampled orders covers: over many seeds the true value lies
// within two of them as often as it should, and they shrink as the root of the
// number of orders. The game is one that no pairing of orders makes exact.
func TestSampledErrorCovers(t *testing.T) {
	const n, runs = 16, 250
	want := runways(n)
	spread := func(count int) (inside, mean float64) {
		for seed := range uint64(runs) {
			parts, errors := Sampled(n, Orders(n, count, seed), airport)
			sum := 0.0
			for i := range parts {
				sum += parts[i]
				mean += errors[i] / (runs * n)
				if math.Abs(parts[i]-want[i]) <= 2*errors[i] {
					inside += 1. / (runs * n)
				}
			}
			if math.Abs(sum-n) > 1e-11 {
				t.Fatalf("seed %d: parts add up to %v, the whole is %d", seed, sum, n)
			}
		}
		return inside, mean
	}
	inside, error64 := spread(64)
	// Two standard errors of a mean of 32 hold 94.6 % (Student); of skewed values some less.
	if inside < 0.92 || inside > 0.97 {
		t.Errorf("the true value is within two errors in %.1f %% of cases, want 92 to 97", 100*inside)
	}
	t.Logf("within two errors in %.1f %% of cases", 100*inside)
	if _, error256 := spread(256); math.Abs(error64/error256-2) > 0.1 {
		t.Errorf("four times the orders bring the error down by %v, want 2", error64/error256)
	}
	if parts, errors := Sampled(n, Orders(n, 2, 1), airport); errors[0] < math.Abs(parts[0]-want[0]) {
		t.Error("with two orders nothing is known, and the error says less")
	}
}
