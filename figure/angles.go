package figure

import (
	"fmt"
	"strings"

	"foilwright/polar"
	"foilwright/trim"
)

// AnglesPart is speed over wind angle, a curve for each wind.
type AnglesPart struct {
	Boat  string      `json:"boat"`
	Axis  string      `json:"axis"`
	Winds []WindCurve `json:"winds"`
}

// WindCurve is one wind.
type WindCurve struct {
	Name  string       `json:"name"`
	Runs  [][]AngleAt  `json:"runs"` // unbroken stretches of angles at which she sails
	Best  []BestAt     `json:"best"`
	Gaps  [][2]float64 `json:"gaps"` // angles asked at which she cannot, deg
	Ways  []WayRun     `json:"ways"` // modes and sails along the angles
	Cross []CrossAt    `json:"crossovers"`
}

// AngleAt is one point of a curve.
type AngleAt struct {
	Angle float64 `json:"angle"` // deg off the track
	Speed float64 `json:"speed"` // kn, or as the axis says
}

// BestAt is a best angle with the band in which 1 % of progress is lost at most.
type BestAt struct {
	AngleAt
	Name string  `json:"name"` // windward or leeward
	Text string  `json:"text"`
	From float64 `json:"from"` // deg
	To   float64 `json:"to"`
}

// WayRun is a stretch of angles that is sailed in one way.
type WayRun struct {
	From float64 `json:"from"` // deg
	To   float64 `json:"to"`
	Name string  `json:"name"`
}

// CrossAt is where the best way changes.
type CrossAt struct {
	Angle float64 `json:"angle"` // deg
	Text  string  `json:"text"`
}

// angles fills the chart with a polar.
func (c *Chart) angles(r *polar.Result) error {
	if !r.Flies() {
		return &NoAnswer{Boat: r.Boat, Words: "she sails at none of the winds and angles asked"}
	}
	a := &AnglesPart{Boat: r.Boat, Axis: "speed" + unitOf(c.usual("m/s"))}
	c.Angles = a
	kn := unitOf(c.usual("m/s"))
	c.Table.Head = []string{"true wind speed" + kn, "true wind angle (deg)", "row", "speed" + kn, "progress to windward" + kn, "mode", "set of sails"}
	for i := range r.Winds {
		a.Winds = append(a.Winds, c.curve(&r.Winds[i]))
		c.tableOf(&r.Winds[i])
	}
	c.anglesWords(r)
	return nil
}

func (c *Chart) curve(w *polar.Wind) WindCurve {
	deg, kn := c.usual("rad"), c.usual("m/s")
	out := WindCurve{Name: c.windSpeed(float64(w.Speed)), Runs: [][]AngleAt{}, Best: []BestAt{}, Gaps: [][2]float64{}, Ways: []WayRun{}, Cross: []CrossAt{}}
	for i := range w.Points {
		p := &w.Points[i]
		if p.Answer != trim.Found {
			continue
		}
		at := AngleAt{deg.In(float64(p.Angle)), kn.In(float64(p.Speed))}
		if i == 0 || w.Points[i-1].Answer != trim.Found {
			out.Runs = append(out.Runs, nil)
		}
		last := len(out.Runs) - 1
		out.Runs[last] = append(out.Runs[last], at)
		out.Ways = extended(out.Ways, p, at.Angle, i > 0 && w.Points[i-1].Answer == trim.Found)
	}
	for _, b := range []struct {
		name string
		best *polar.Best
	}{{"windward", &w.Windward}, {"leeward", &w.Leeward}} {
		if b.best.Answer != trim.Found || b.best.From == nil || b.best.To == nil {
			continue
		}
		out.Best = append(out.Best, BestAt{AngleAt{deg.In(float64(b.best.Angle)), kn.In(float64(b.best.Speed))}, b.name,
			deg.To(0).Format(float64(b.best.Angle)) + ", " + kn.To(1).Format(float64(b.best.Speed)),
			deg.In(float64(b.best.From.Angle)), deg.In(float64(b.best.To.Angle))})
	}
	for _, g := range w.Gaps {
		from, to := g.First, g.Last
		if g.From != nil {
			from = *g.From
		}
		if g.To != nil {
			to = *g.To
		}
		out.Gaps = append(out.Gaps, [2]float64{deg.In(float64(from)), deg.In(float64(to))})
	}
	for _, x := range w.Crossovers {
		out.Cross = append(out.Cross, CrossAt{deg.In(float64(x.Angle)), deg.To(0).Format(float64(x.Angle))})
	}
	return out.between()
}

// extended lengthens the last way by a point, or begins another.
func extended(ways []WayRun, p *polar.Point, angle float64, unbroken bool) []WayRun {
	name := p.Mode + ", " + p.Set
	if last := len(ways) - 1; last >= 0 && unbroken && ways[last].Name == name {
		ways[last].To = angle
		return ways
	}
	return append(ways, WayRun{angle, angle, name})
}

// between joins ways at the crossovers that lie between them, and ends them at gaps.
func (w WindCurve) between() WindCurve {
	for i := range w.Ways {
		run := &w.Ways[i]
		for _, x := range w.Cross {
			if i+1 < len(w.Ways) && x.Angle >= run.To && x.Angle <= w.Ways[i+1].From {
				run.To, w.Ways[i+1].From = x.Angle, x.Angle
			}
		}
		for _, g := range w.Gaps {
			if g[0] >= run.To && (i+1 == len(w.Ways) || g[0] <= w.Ways[i+1].From) {
				run.To = g[0]
			}
			if g[1] <= run.From && (i == 0 || g[1] >= w.Ways[i-1].To) {
				run.From = g[1]
			}
		}
	}
	return w
}

func (c *Chart) tableOf(w *polar.Wind) {
	deg, kn := c.usual("rad"), c.usual("m/s")
	line := func(row string, p *polar.Point) {
		if p.Answer != trim.Found {
			c.Table.Rows = append(c.Table.Rows, []string{kn.Numeral(float64(w.Speed)), deg.Numeral(float64(p.Angle)), row, "", "", "", ""})
			return
		}
		c.Table.Rows = append(c.Table.Rows, []string{kn.Numeral(float64(w.Speed)), deg.Numeral(float64(p.Angle)), row, kn.Numeral(float64(p.Speed)),
			kn.Numeral(float64(p.VMG)), p.Mode, p.Set})
	}
	line("best to windward", &w.Windward.Point)
	for i := range w.Points {
		line("asked", &w.Points[i])
	}
	line("best to leeward", &w.Leeward.Point)
}

func (c *Chart) anglesWords(r *polar.Result) {
	kn := c.usual("m/s")
	var winds, told []string
	top, at, in := 0.0, 0.0, 0.0
	for i, w := range r.Winds {
		winds = append(winds, kn.To(1).Numeral(float64(w.Speed)))
		for _, p := range w.Points {
			if p.Answer == trim.Found && float64(p.Speed) > top {
				top, at, in = float64(p.Speed), float64(p.Angle), float64(w.Speed)
			}
		}
		for _, b := range c.Angles.Winds[i].Best {
			told = append(told, fmt.Sprintf("at %s best to %s at %s", c.Angles.Winds[i].Name, b.Name, b.Text))
		}
	}
	degrees := c.usual("rad").To(0).Format
	c.Title = fmt.Sprintf("%s: best angles to windward and leeward", r.Boat)
	if top > 0 {
		c.Title = fmt.Sprintf("%s is fastest at %s in %s of wind: %s", r.Boat, degrees(at), c.windSpeed(in), kn.To(1).Format(top))
	}
	if c.Kind == Crossovers {
		c.Title = r.Boat + ": " + changes(c.Angles)
	}
	c.Under = "True wind " + joined(winds) + space(kn.Unit) + " from " + r.WindFrom + ". Bars on the curves: angles in which at most 1 % of progress is lost"
	if c.Kind == Crossovers {
		c.Under = "Best mode and sails over the wind angle. True wind " + joined(winds) + space(kn.Unit) + " from " + r.WindFrom
	}
	c.Summary = fmt.Sprintf("Speed of %s over the true wind angle: %s.", r.Boat, strings.Join(told, "; "))
}

// changes says what changes over the angles.
func changes(a *AnglesPart) string {
	var ways []string
	count := 0
	for _, w := range a.Winds {
		count += len(w.Cross)
		for _, run := range w.Ways {
			if !strings.Contains(strings.Join(ways, "\n")+"\n", run.Name+"\n") {
				ways = append(ways, run.Name)
			}
		}
	}
	switch {
	case len(ways) == 0:
		return "no angle was asked at which she sails"
	case len(ways) == 1:
		return "best in one way wherever she sails (" + ways[0] + ")"
	case count == 1:
		return fmt.Sprintf("%d ways to sail, and one crossover between them", len(ways))
	}
	return fmt.Sprintf("%d ways to sail, and %d crossovers between them", len(ways), count)
}
