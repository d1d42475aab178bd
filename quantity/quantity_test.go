package quantity

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// published reads the rows of a table of outside values under their heads.
func published(t *testing.T, name string) []func(column string) string {
	t.Helper()
	file, err := os.Open(filepath.Join("testdata", "published", name))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%s: %d rows, %v", name, len(rows), err)
	}
	var table []func(string) string
	for _, row := range rows[1:] {
		table = append(table, func(column string) string {
			for i, head := range rows[0] {
				if head == column {
					return row[i]
				}
			}
			t.Fatalf("%s has no column %s", name, column)
			return ""
		})
	}
	return table
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	value, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return value
}

func mustParse(t *testing.T, text string, d Dimension) Quantity {
	t.Helper()
	q, err := Parse(text, d)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return q
}

func everyDimension() []Dimension {
	var all []Dimension
	for d := Number; d.String() != "unknown dimension"; d++ {
		all = append(all, d)
	}
	return all
}

func dimensionNamed(t *testing.T, name string) Dimension {
	t.Helper()
	for _, d := range everyDimension() {
		if d.String() == name {
			return d
		}
	}
	t.Fatalf("no dimension is called %s", name)
	return 0
}

func TestUnitsAgainstPublishedFactors(t *testing.T) {
	for _, row := range published(t, "nist-2008.csv") {
		q := mustParse(t, row("text"), dimensionNamed(t, row("dimension")))
		want, tolerance := number(t, row("si")), number(t, row("tolerance"))
		if math.Abs(q.Likely-want) > tolerance {
			t.Errorf("%s is %v, %s has %v", row("text"), q.Likely, row("source"), want)
		}
	}
}

func TestSpreadAgainstPublishedValues(t *testing.T) {
	for _, row := range published(t, "spread.csv") {
		q := mustParse(t, row("text"), Number)
		var got float64
		switch row("statistic") {
		case "deviation":
			got = q.StandardDeviation()
		case "variance":
			got = q.StandardDeviation() * q.StandardDeviation()
		case "mean":
			got = q.Mean()
		case "quantile":
			got = q.At(number(t, row("p")))
		default:
			t.Fatalf("statistic %s is not known", row("statistic"))
		}
		if want := number(t, row("value")); math.Abs(got-want) > number(t, row("tolerance")) {
			t.Errorf("%s of %s is %v, %s has %v", row("statistic"), row("text"), got, row("source"), want)
		}
	}
}

// The moments that Mean and StandardDeviation give in closed form, against the
// midpoint rule over the quantiles that At gives.
func TestMomentsMatchQuantiles(t *testing.T) {
	for _, text := range []string{
		"5 ± 0.2", "1 ± 0.5 within 0 to 2", "1 ± 0.5 within 0.9 to 3", "1 ± 0.5 within 0 to 1.01",
		"1 ± 0.5 within 1 to 1.0001", "2 to 5", "1 / 2 / 5", "1 / 1 / 5", "1 / 5 / 5", "-3 / -2 / 9", "7",
	} {
		q := mustParse(t, text, Number)
		const points = 200000
		var sum, squares float64
		for i := range points {
			x := q.At((float64(i)+0.5)/points) - q.Likely
			sum += x
			squares += x * x
		}
		mean := sum / points
		deviation := math.Sqrt(max(squares/points-mean*mean, 0))
		low, high := q.Support()
		scale := max(high-low, 1e-12)
		if math.Abs(mean+q.Likely-q.Mean()) > 1e-6*scale {
			t.Errorf("%s: mean of quantiles %v, Mean %v", text, mean+q.Likely, q.Mean())
		}
		// The closed form of an uncut normal leaves its missing tails out: 0.054 %.
		if math.Abs(deviation-q.StandardDeviation()) > 6e-4*q.StandardDeviation() {
			t.Errorf("%s: deviation of quantiles %v, StandardDeviation %v", text, deviation, q.StandardDeviation())
		}
	}
}

func TestAtEnds(t *testing.T) {
	for _, c := range []struct {
		text      string
		low, high float64
	}{
		{"5 ± 0.25", 4, 6},
		{"1 ± 0.5 within 0.25 to 9", 0.25, 3},
		{"2 to 5", 2, 5},
		{"1 / 2 / 5", 1, 5},
		{"7", 7, 7},
	} {
		q := mustParse(t, c.text, Number)
		low, high := q.Support()
		for _, got := range []float64{low, q.At(0), q.At(-3), q.At(math.Inf(-1))} {
			if got != c.low {
				t.Errorf("%s begins at %v, want %v", c.text, got, c.low)
			}
		}
		for _, got := range []float64{high, q.At(1), q.At(3), q.At(math.Inf(1))} {
			if got != c.high {
				t.Errorf("%s ends at %v, want %v", c.text, got, c.high)
			}
		}
		if q.At(math.NaN()) != q.At(0.5) {
			t.Errorf("%s: a probability that is no number gives %v", c.text, q.At(math.NaN()))
		}
	}
	if q := mustParse(t, "5.3 m ± 0.1 m", Length); q.At(0.5) != q.Likely {
		t.Errorf("the median of %s is %v", q, q.At(0.5))
	}
}

func TestCut(t *testing.T) {
	inf := math.Inf(1)
	factor := mustParse(t, "1.00 ± 0.50", Number)
	cut, err := Cut(factor, 0, inf)
	if err != nil || cut.String() != "1 ± 0.5 within 0 to 3" || cut.At(1e-9) < 0 {
		t.Errorf("the cut factor is %s, begins at %v, %v", cut, cut.At(0), err)
	}
	if again, err := Parse(cut.String(), Number); err != nil || again != cut {
		t.Errorf("%s reads back as %s, %v", cut, again, err)
	}
	if tight := mustParse(t, "1.00 ± 0.02", Number); true {
		if same, err := Cut(tight, 0, inf); err != nil || same != tight {
			t.Errorf("a cut beyond the tails gives %s, %v", same, err)
		}
	}
	for _, c := range []struct {
		text      string
		low, high float64
		want      string
	}{
		{"1 ± 0.5", 2, 3, "1 ± 0.5 lies outside 2 to 3"},
		{"1 to 3", 2, inf, "1 to 3 reaches outside at least 2\nhint: write bounds that stay inside"},
		{"1 / 2 / 3", -inf, 2, "1 / 2 / 3 reaches outside at most 2\nhint: write bounds that stay inside"},
		{"-1", 0, inf, "-1 reaches outside at least 0\nhint: write bounds that stay inside"},
		{"1 ± 0.5", 3, 2, "1 ± 0.5 cannot be cut, its bounds are not in order"},
		{"1 ± 0.5", math.NaN(), 2, "1 ± 0.5 cannot be cut, its bounds are not in order"},
	} {
		q := mustParse(t, c.text, Number)
		got, err := Cut(q, c.low, c.high)
		if err == nil || err.Error() != c.want || got != q {
			t.Errorf("cut of %s to %v..%v: %s, %v; want the error %q", c.text, c.low, c.high, got, err, c.want)
		}
	}
}

func TestSpreadAsText(t *testing.T) {
	for spread, want := range map[Spread]string{
		Exact: "exact", Normal: "normal", Uniform: "uniform", Triangular: "triangular", Spread(9): "unknown spread",
	} {
		if spread.String() != want {
			t.Errorf("spread %d reads %q, want %q", spread, spread, want)
		}
	}
}

func TestQuantityAsText(t *testing.T) {
	for _, c := range []struct {
		q    Quantity
		want string
	}{
		{Quantity{}, "0"},
		{Of(5.2, Length), "5.2 m"},
		{Quantity{Likely: 5.2, Dimension: Length}, "5.2 m"},
		{Quantity{Likely: 5.2, Dimension: Length, Unit: "kg"}, "5.2 m"},
		{Quantity{Likely: 0.3, Dimension: Share, Unit: "%"}, "30 %"},
		{Quantity{Likely: math.NaN(), Dimension: Mass, Unit: "kg"}, "no value kg"},
		{Quantity{Likely: 1, Dimension: Dimension(99)}, "1"},
	} {
		if got := c.q.String(); got != c.want {
			t.Errorf("%#v reads %q, want %q", c.q, got, c.want)
		}
	}
}

// Every unit that a dimension offers, and its example, can be read and written.
func TestEveryUnitRoundTrips(t *testing.T) {
	for _, d := range everyDimension() {
		if _, err := Parse(d.Example(), d); err != nil {
			t.Errorf("the example of %s: %v", d, err)
		}
		for _, name := range append(d.Units(), d.SI()) {
			for _, figures := range []string{"1", "0.1", "7.3", "123.456", "1e-3", "88888.88"} {
				q := mustParse(t, figures+" "+name, d)
				again, err := Parse(q.String(), d)
				if err != nil || again != q {
					t.Errorf("%s %s as %s reads %s, gives %v, %v", figures, name, d, q, again, err)
				}
				if back := InUnit(q.Likely, d, name); math.Abs(back-number(t, figures)) > 1e-12*max(1, back) {
					t.Errorf("%s %s comes back as %v", figures, name, back)
				}
			}
		}
	}
}
