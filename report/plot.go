package report

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/guptarohit/asciigraph"

	"foilwright/quantity"
	"foilwright/study"
)

// Plot returns figures of a sweep drawn over its variable in characters, one
// below the other. Figures are named by the first letters of their names in
// CSV: lift, side, drag, induced, cavitation. The error says what there is to draw.
func Plot(r *study.Result, figures []string) (string, error) {
	sweep, ok := r.Results.(*study.SweepResult)
	if !ok {
		return "", errors.New("plot: only a sweep is plotted\nhint: add a sweep, such as \"cant 0 to 25 deg by 1\"")
	}
	p := page{weight: sweep.Weight}
	p.say(p.sweepTitle(sweep))
	for _, name := range figures {
		m, err := p.named(sweep, name)
		if err != nil {
			return "", err
		}
		if err := p.plot(sweep, m); err != nil {
			return "", err
		}
	}
	p.list("Notes", sweepNotes(sweep))
	p.source(r)
	return p.String(), nil
}

// named returns the measure that a name means.
func (p *page) named(r *study.SweepResult, name string) (*measure, error) {
	all := p.measures(r)
	var names []string
	for i := range all {
		if all[i].name == name {
			return &all[i], nil
		}
	}
	for i := range all {
		if name != "" && strings.HasPrefix(all[i].name, name) {
			return &all[i], nil
		}
		names = append(names, all[i].name)
	}
	return nil, fmt.Errorf("plot: there is no figure %q\nhint: there are: %s", name, strings.Join(names, ", "))
}

// The size of a plot, characters.
const (
	plotWidth = 76
	plotRows  = 14
)

// plot draws one figure.
func (p *page) plot(r *study.SweepResult, m *measure) error {
	v := variable(r)
	points := told(r, m)
	if len(points) < 2 {
		return fmt.Errorf("plot: %s has a value in fewer than two states\nhint: sweep over more, or see the table for why", m.name)
	}
	from, to := points[0].at, points[len(points)-1].at
	low, high := math.Inf(1), math.Inf(-1)
	for _, q := range points {
		low, high = math.Min(low, q.value), math.Max(high, q.value)
	}
	step := tickStep(low, high)
	low, high = step*math.Floor(low/step+1e-9), step*math.Ceil(high/step-1e-9)
	if low == high {
		low, high = low-step, high+step
	}
	line := make([]float64, plotWidth)
	for i := range line {
		line[i] = between(points, from+(to-from)*float64(i)/(plotWidth-1))
	}
	decimals := max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	unit := m.as.unit
	if unit != "" {
		unit = ", " + unit
	}
	p.gap()
	p.WriteString(m.name + unit + "\n")
	drawn := asciigraph.Plot(line, asciigraph.Height(int(math.Round((high-low)/step))), asciigraph.LowerBound(low), asciigraph.UpperBound(high),
		asciigraph.YAxisValueFormatter(func(y float64) string {
			return quantity.Numeral(y, quantity.Number, "", quantity.Decimals(decimals))
		}),
		asciigraph.XAxisRange(from, to), asciigraph.XAxisTickCount(ticks),
		asciigraph.XAxisValueFormatter(func(x float64) string {
			return quantity.Numeral(x, quantity.Number, "", quantity.Decimals(tickDecimals(from, to)))
		}))
	for _, text := range strings.Split(drawn, "\n") {
		p.WriteString(strings.TrimRight("  "+text, " ") + "\n")
	}
	p.WriteString(strings.Repeat(" ", plotWidth/2) + v.name + ", " + v.as.unit + "\n")
	return nil
}

// ticks is how many numbers stand along the variable.
const ticks = 6

// tickDecimals is how many decimals show the numbers along the variable as they
// are, three at most.
func tickDecimals(from, to float64) int {
	for decimals := range 3 {
		scale, whole := math.Pow(10, float64(decimals)), true
		for i := range ticks {
			x := (from + (to-from)*float64(i)/(ticks-1)) * scale
			whole = whole && math.Abs(x-math.Round(x)) < 1e-6*math.Max(1, math.Abs(x))
		}
		if whole {
			return decimals
		}
	}
	return 3
}

// plotted is one point of a line, in the units that are shown; a gap has NaN.
type plotted struct{ at, value float64 }

// told returns the states of a sweep that have a figure, by rising variable; a
// state without one leaves a gap.
func told(r *study.SweepResult, m *measure) []plotted {
	v := variable(r)
	var all []plotted
	for i := range r.Points {
		at := &r.Points[i]
		q := plotted{quantity.InUnit(at.Value, v.as.dimension, v.as.unit), math.NaN()}
		if f := m.read(at); f != nil && at.Forces != nil {
			q.value = *f
			if m.as.unit != "" {
				q.value = quantity.InUnit(*f, m.as.dimension, m.as.unit)
			}
		}
		all = append(all, q)
	}
	slices.SortStableFunc(all, func(a, b plotted) int {
		switch {
		case a.at < b.at:
			return -1
		case a.at > b.at:
			return 1
		}
		return 0
	})
	bare := func(q plotted) bool { return math.IsNaN(q.value) }
	for len(all) > 0 && bare(all[0]) {
		all = all[1:]
	}
	for len(all) > 0 && bare(all[len(all)-1]) {
		all = all[:len(all)-1]
	}
	return all
}

// between reads a line at a place, straight from point to point.
func between(points []plotted, at float64) float64 {
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		if at <= b.at || i == len(points)-1 {
			if b.at == a.at {
				return b.value
			}
			t := math.Min(1, math.Max(0, (at-a.at)/(b.at-a.at)))
			switch {
			case t == 0:
				return a.value
			case t == 1:
				return b.value
			}
			return a.value + t*(b.value-a.value)
		}
	}
	return math.NaN()
}

// tickStep is the step between a plot's rows: 1, 2 or 5 of some power of ten.
func tickStep(low, high float64) float64 {
	span := high - low
	if !(span > 1e-9*math.Max(math.Abs(low), math.Abs(high))) {
		span = math.Max(math.Abs(high), 1)
	}
	decade := math.Pow(10, math.Floor(math.Log10(span/plotRows)+1e-9))
	for _, times := range [3]float64{1, 2, 5} {
		if span <= times*decade*plotRows*(1+1e-9) {
			return times * decade
		}
	}
	return 10 * decade
}
