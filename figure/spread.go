package figure

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"foilwright/odds"
	"foilwright/quantity"
)

// SpreadPart is how paired differences are spread.
type SpreadPart struct {
	Axis  string       `json:"axis"`
	Pairs []SpreadRow  `json:"pairs"`
	Scale string       `json:"scale"` // axis of the boats' own figures
	Boats []SpreadBoat `json:"boats"` // beside the differences; none where one has no band
}

// SpreadBoat is how one boat's progress is spread.
type SpreadBoat struct {
	Name   string `json:"name"`
	Bands  []Band `json:"bands"`
	Middle Number `json:"middle"`
}

// SpreadRow is one pair: the first boat less the second in the same samples.
type SpreadRow struct {
	First   string    `json:"first"`
	Second  string    `json:"second"`
	Places  [2]int    `json:"places"` // of the two among the boats asked about
	Dots    []float64 `json:"dots"`   // evenly spread quantiles, one chance in so many each; empty where samples are weighted
	Bands   []Band    `json:"bands"`
	Middle  Number    `json:"middle"`   // the median
	Chances [2]string `json:"chances"`  // that the first, the second is faster
	Call    string    `json:"call"`     // in words
	DotsSay string    `json:"dots_say"` // what a dot is
}

// Band is a central interval.
type Band struct {
	Level string `json:"level"`
	From  Number `json:"from"`
	To    Number `json:"to"`
}

// dots is how many chances the samples are shown as.
const dots = 20

// difference fills the chart with how sure differences are.
func (c *Chart) difference(r *odds.Result) error {
	if len(r.Pairs) == 0 {
		return fmt.Errorf("figure: a difference is of two boats, and one was asked about\nhint: name two boat files")
	}
	u := c.fine(narrowest(r.Pairs))
	what, kn := strings.TrimPrefix(progressWord(r.Aim), "of "), unitOf(u)
	c.Spread = &SpreadPart{Axis: "difference in " + what + kn + ", first boat less second", Scale: what + kn, Boats: []SpreadBoat{}}
	c.Table.Head = []string{"first", "second", "p2.5" + kn, "p5" + kn, "p10" + kn, "p25" + kn, "median" + kn, "p75" + kn, "p90" + kn, "p95" + kn, "p97.5" + kn, "first faster (%)", "second faster (%)"}
	place := map[string]int{}
	for i, b := range r.Boats {
		place[b.Name] = i
		if bands := bandsOf(&b.Progress, func(v float64) Number { return numberIn(u, v) }); bands != nil && b.Progress.P50 != nil {
			c.Spread.Boats = append(c.Spread.Boats, SpreadBoat{b.Name, bands, numberIn(u, *b.Progress.P50)})
		}
	}
	if len(c.Spread.Boats) < len(r.Boats) {
		c.Spread.Boats = []SpreadBoat{} // one alone would stand beside nothing
	}
	for _, p := range r.Pairs {
		d := p.Difference
		bands := bandsOf(&d, func(v float64) Number { return changeIn(u, v) })
		if low, high := c.level.band(&d); bands == nil || low == nil || high == nil || d.P50 == nil {
			return &NoAnswer{Boat: p.First + " and " + p.Second, Words: "in too many samples one of them cannot sail, and their difference has no band of " + c.Level}
		}
		row := SpreadRow{First: p.First, Second: p.Second, Places: [2]int{place[p.First], place[p.Second]}, Bands: bands, Middle: changeIn(u, *d.P50),
			Call: string(p.Call), Chances: [2]string{share(p.FirstFaster), share(p.SecondFaster)}}
		if r.Table != nil && r.Table.Weights == nil {
			row.Dots = quantileDots(r.Table, place[p.First], place[p.Second], u)
			row.DotsSay = fmt.Sprintf("each dot is one chance in %d", dots)
		}
		c.Spread.Pairs = append(c.Spread.Pairs, row)
		line := []string{p.First, p.Second}
		for _, v := range []*float64{d.P2, d.P5, d.P10, d.P25, d.P50, d.P75, d.P90, d.P95, d.P97} {
			cell := ""
			if v != nil {
				cell = signed(u, *v)
			}
			line = append(line, cell)
		}
		c.Table.Rows = append(c.Table.Rows, append(line, strings.TrimSuffix(row.Chances[0], " %"), strings.TrimSuffix(row.Chances[1], " %")))
	}
	c.differenceWords(r, u, what)
	return nil
}

// fine is how speeds are shown whose differences are as small as a span, m/s: with a
// digit more where two would leave next to nothing of it.
func (c *Chart) fine(span float64) quantity.Usual {
	u := c.usual("m/s")
	if u.In(span) < fineUnder {
		return u.To(u.Decimals + 1)
	}
	return u
}

// fineUnder is the span under which a digit more is shown, in the unit that is shown.
const fineUnder = 0.1

// narrowest is the least width of an 80 % band, m/s.
func narrowest(pairs []odds.Pair) float64 {
	least := math.Inf(1)
	for _, p := range pairs {
		if p.Difference.P10 != nil && p.Difference.P90 != nil {
			least = math.Min(least, *p.Difference.P90-*p.Difference.P10)
		}
	}
	return least
}

// bandsOf returns the bands of a distribution that it has, the widest first; nil where
// it has none.
func bandsOf(d *odds.Distribution, number func(float64) Number) []Band {
	var all []Band
	for _, l := range Levels() {
		if low, high := l.band(d); low != nil && high != nil {
			all = append(all, Band{l.String(), number(*low), number(*high)})
		}
	}
	return all
}

func (c *Chart) differenceWords(r *odds.Result, u quantity.Usual, what string) {
	p := r.Pairs[0]
	from, to := c.level.band(&p.Difference)
	faster, slower, chance, low, high, middle := p.First, p.Second, p.FirstFaster, *from, *to, *p.Difference.P50
	if p.SecondFaster > p.FirstFaster {
		faster, slower, chance, low, high, middle = p.Second, p.First, p.SecondFaster, -high, -low, -middle
	}
	band := fmt.Sprintf("%s to %s, %s", signed(u, low), signed(u, high)+space(u.Unit), c.Level)
	if p.Call == odds.TooClose {
		c.Title = fmt.Sprintf("Too close to call: %s is faster than %s with a chance of %s (%s)", faster, slower, share(chance), band)
	} else {
		c.Title = fmt.Sprintf("%s is faster than %s by %s (%s); chance %s", faster, slower, u.Format(math.Abs(middle)), band, share(chance))
	}
	c.Under = fmt.Sprintf("Difference in %s in the same %d samples, so that what boats share cancels. True wind %s", what, r.Samples, c.windSpeed(float64(r.Wind)))
	if p.Call == odds.TooClose && p.Settle != nil {
		c.Under += ". Knowing " + p.Settle.Input + " would settle most"
	}
	var told []string
	for _, b := range c.Spread.Pairs[0].Bands {
		told = append(told, fmt.Sprintf("%s of the samples lie between %s and %s", b.Level, b.From.Text, b.To.Text+space(u.Unit)))
	}
	c.Summary = fmt.Sprintf("%s. %s, %s less %s.", c.Title, strings.Join(told, ", "), p.First, p.Second)
}

func share(v float64) string {
	return quantity.Format(v, quantity.Share, "%", quantity.Decimals(0))
}

// quantileDots returns the middles of so many equal parts of the differences of two
// columns, over the samples in which both sail.
func quantileDots(t *odds.Table, first, second int, u quantity.Usual) []float64 {
	var all []float64
	for _, row := range t.Outcomes {
		if row[first].State == odds.Sails && row[second].State == odds.Sails {
			all = append(all, row[first].Progress-row[second].Progress)
		}
	}
	if len(all) < dots {
		return nil
	}
	sort.Float64s(all)
	var at []float64
	for i := range dots {
		place := (float64(i) + 0.5) / dots * float64(len(all)-1)
		k := int(place)
		v := all[k]
		if k+1 < len(all) {
			v += (place - float64(k)) * (all[k+1] - all[k])
		}
		at = append(at, u.In(v))
	}
	return at
}

// TornadoPart is what inputs do to a figure, one at a time.
type TornadoPart struct {
	Axis string       `json:"axis"`
	Rows []TornadoRow `json:"rows"`
}

// TornadoRow is one input at both ends of its 80 % band.
type TornadoRow struct {
	Name string  `json:"name"`
	Says string  `json:"says"` // its spread
	Low  *Number `json:"low"`  // nil where a boat cannot sail there
	High *Number `json:"high"`
}

// rowsOfTornado is how many inputs are shown.
const rowsOfTornado = 15

// inputs fills the chart with what inputs do.
func (c *Chart) inputs(r *odds.Result) error {
	if len(r.Tornado) == 0 {
		return fmt.Errorf("figure: there is no input to move\nhint: ask odds for its tornado, of boats with uncertain figures")
	}
	most := 0.0
	for _, b := range r.Tornado {
		if b.Of == r.Tornado[0].Of {
			most = math.Max(most, reach(b))
		}
	}
	u := c.fine(most)
	of := r.Tornado[0].Of
	says := map[string]string{}
	for _, in := range r.Inputs {
		says[in.Name] = in.Says
	}
	var bars []odds.Bar
	for _, b := range r.Tornado {
		if b.Of == of {
			bars = append(bars, b)
		}
	}
	sort.SliceStable(bars, func(i, j int) bool { return reach(bars[i]) > reach(bars[j]) })
	t := &TornadoPart{Axis: "change of " + of + unitOf(u)}
	c.Tornado = t
	c.Table.Head = []string{"input", "spread", "at its 10 % end" + unitOf(u), "at its 90 % end" + unitOf(u)}
	for i, b := range bars {
		row := TornadoRow{Name: b.Input, Says: says[b.Input], Low: changeOf(u, b.Low), High: changeOf(u, b.High)}
		if i < rowsOfTornado {
			t.Rows = append(t.Rows, row)
		}
		c.Table.Rows = append(c.Table.Rows, []string{b.Input, row.Says, textOf(row.Low), textOf(row.High)})
	}
	c.Title = fmt.Sprintf("%s moves %s most, by up to %s", bars[0].Input, of, u.Format(reach(bars[0])))
	c.Under = fmt.Sprintf("Each input alone at either end of its 80 %% band, the %d strongest of %d. True wind %s, %s", len(t.Rows), len(bars), c.windSpeed(float64(r.Wind)), r.Aim)
	c.Summary = fmt.Sprintf("Bars of what each uncertain input does to %s, the strongest first: %s from %s to %s.", of, bars[0].Input,
		c.Table.Rows[0][2], c.Table.Rows[0][3]+space(u.Unit))
	return nil
}

func changeOf(u quantity.Usual, v *float64) *Number {
	if v == nil {
		return nil
	}
	n := changeIn(u, *v)
	return &n
}

func textOf(n *Number) string {
	if n == nil {
		return ""
	}
	return n.Text
}

// reach is how far an input moves the figure either way; a boat that cannot sail
// there counts for nothing.
func reach(b odds.Bar) float64 {
	far := 0.0
	for _, v := range []*float64{b.Low, b.High} {
		if v != nil {
			far = math.Max(far, math.Abs(*v))
		}
	}
	return far
}
