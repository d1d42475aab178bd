package figure

import (
	"fmt"
	"slices"

	"foilwright/odds"
	"foilwright/polar"
	"foilwright/quantity"
	"foilwright/study"
)

// Look is how charts are wanted: the units of their figures, and the level of the bands
// that stand out. The zero value is the units of the trade and 80 %.
type Look struct {
	Units quantity.Units
	Level Level
	Width int // px; 0 for a page's
}

// The narrowest and the widest picture, px.
const (
	Narrowest = 300
	Widest    = 4000
)

// Level is the chance with which a band holds a figure, per cent: 50, 80 or 95; 0 is 80.
type Level int

// Levels lists the levels, the widest first.
func Levels() []Level { return []Level{95, 80, 50} }

func (l Level) String() string { return fmt.Sprintf("%d %%", int(l)) }

// band returns the ends of a distribution's central interval, nil where it has none.
func (l Level) band(d *odds.Distribution) (low, high *float64) {
	switch l {
	case 95:
		return d.P2, d.P97
	case 50:
		return d.P25, d.P75
	}
	return d.P10, d.P90
}

// Of returns the chart of a kind of a result, in the first wind that it tells of. Of
// kinds that are drawn from polars, results of more boats go onto the same chart. The
// error says what the results would have to be.
func (l Look) Of(kind Kind, r *study.Result, more ...*study.Result) (*Chart, error) {
	if kind != Scene && !slices.Contains(Kinds(), kind) {
		return nil, fmt.Errorf("figure: %q is no kind of figure\nhint: %s", kind, listed())
	}
	if l.Level == 0 {
		l.Level = 80
	}
	if !slices.Contains(Levels(), l.Level) {
		return nil, fmt.Errorf("figure: bands of %d %% are not known\nhint: 50, 80 or 95", int(l.Level))
	}
	if l.Width != 0 && (l.Width < Narrowest || l.Width > Widest) {
		return nil, fmt.Errorf("figure: a width of %d px is not between %d and %d", l.Width, Narrowest, Widest)
	}
	c := &Chart{Kind: kind, Width: l.Width, Foot: foot(r, more...), Level: l.Level.String(), units: l.Units, level: l.Level}
	if len(more) > 0 {
		return c.severally(append([]*study.Result{r}, more...))
	}
	if err := c.fill(r); err != nil {
		return nil, err
	}
	return c, nil
}

// severally fills the chart with the polars of several boats.
func (c *Chart) severally(all []*study.Result) (*Chart, error) {
	var polars []*polar.Result
	for _, r := range all {
		p, ok := r.Results.(*polar.Result)
		if !ok || c.Kind != Polar && c.Kind != Speed && c.Kind != Crossovers {
			return nil, fmt.Errorf("figure: %s of several answers is not drawn\nhint: polar, speed and crossovers are, of polars", c.Kind)
		}
		polars = append(polars, p)
	}
	if err := c.angles(polars...); err != nil {
		return nil, err
	}
	return c, nil
}
