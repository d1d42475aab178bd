package figure

import (
	"fmt"
	"math"
	"strings"

	"foilwright/polar"
	"foilwright/quantity"
	"foilwright/trim"
)

// AnglesPart is speed over wind angle, a curve for each boat in each wind.
type AnglesPart struct {
	Boats []string    `json:"boats"`
	Axis  string      `json:"axis"`
	Winds []WindCurve `json:"winds"`
	Gains []GainCurve `json:"gains"` // of two boats, by wind
	Gain  string      `json:"gain_axis"`
}

// WindCurve is one boat in one wind.
type WindCurve struct {
	Boat   int          `json:"boat"` // of Boats
	Wind   string       `json:"wind"`
	Name   string       `json:"name"` // at the line's end
	Runs   [][]AngleAt  `json:"runs"` // unbroken stretches of angles at which she sails
	Best   []BestAt     `json:"best"`
	Gaps   [][2]float64 `json:"gaps"` // angles asked at which she cannot, deg
	Ways   []WayRun     `json:"ways"` // modes and sails along the angles
	Cross  []CrossAt    `json:"crossovers"`
	Warned []WarnedRun  `json:"warned"` // where the answer warns
}

// AngleAt is one point of a curve.
type AngleAt struct {
	Angle float64 `json:"angle"` // deg off the track
	Speed float64 `json:"speed"` // in the axis's unit
	At    string  `json:"at"`    // the angle, as it reads
	Reads string  `json:"reads"` // the speed
}

// GainCurve is the second boat's speed less the first's at the angles at which both sail.
type GainCurve struct {
	Name   string   `json:"name"`
	Points []GainAt `json:"points"`
}

// GainAt is one point of it.
type GainAt struct {
	Angle float64 `json:"angle"` // deg off the track
	Number
}

// WarnedRun is a stretch of angles with what the answers there warn of.
type WarnedRun struct {
	From float64 `json:"from"` // deg
	To   float64 `json:"to"`
	Why  string  `json:"why"`
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

// angles fills the chart with polars, a boat each.
func (c *Chart) angles(all ...*polar.Result) error {
	kn := c.usual("m/s")
	a := &AnglesPart{Axis: "speed" + unitOf(kn), Gains: []GainCurve{}}
	c.Angles = a
	c.Table.Head = []string{"true wind speed" + unitOf(kn), "true wind angle (deg)", "row", "speed" + unitOf(kn), "progress to windward" + unitOf(kn), "mode", "set of sails"}
	if len(all) > 1 {
		c.Table.Head = append([]string{"boat"}, c.Table.Head...)
	}
	for k, r := range all {
		if !r.Flies() {
			return &NoAnswer{Boat: r.Boat, Words: "she sails at none of the winds and angles asked"}
		}
		a.Boats = append(a.Boats, r.Boat)
		for i := range r.Winds {
			w := c.curve(&r.Winds[i])
			w.Boat, w.Wind = k, w.Name
			switch {
			case len(all) > 1 && len(r.Winds) > 1:
				w.Name = r.Boat + " " + w.Wind
			case len(all) > 1:
				w.Name = r.Boat
			}
			a.Winds = append(a.Winds, w)
			before := len(c.Table.Rows)
			c.tableOf(&r.Winds[i])
			for j := before; j < len(c.Table.Rows) && len(all) > 1; j++ {
				c.Table.Rows[j] = append([]string{r.Boat}, c.Table.Rows[j]...)
			}
		}
	}
	if len(all) == 2 {
		a.Gain = all[1].Boat + " less " + all[0].Boat + unitOf(kn)
		a.Gains = c.gains(all[0], all[1])
	}
	c.anglesWords(all)
	return nil
}

// gains are what a second boat sails more than a first, by wind.
func (c *Chart) gains(first, second *polar.Result) []GainCurve {
	deg, kn := c.usual("rad"), c.usual("m/s")
	all := []GainCurve{}
	for i := range first.Winds {
		for k := range second.Winds {
			if first.Winds[i].Speed != second.Winds[k].Speed {
				continue
			}
			g := GainCurve{Name: c.windSpeed(float64(first.Winds[i].Speed)), Points: []GainAt{}}
			for _, p := range first.Winds[i].Points {
				for _, q := range second.Winds[k].Points {
					if p.Angle == q.Angle && p.Answer == trim.Found && q.Answer == trim.Found {
						g.Points = append(g.Points, GainAt{deg.In(float64(p.Angle)), changeIn(kn, float64(q.Speed-p.Speed))})
					}
				}
			}
			all = append(all, g)
		}
	}
	return all
}

func (c *Chart) curve(w *polar.Wind) WindCurve {
	deg, kn := c.usual("rad"), c.usual("m/s")
	out := WindCurve{Name: c.windSpeed(float64(w.Speed)), Runs: [][]AngleAt{}, Best: []BestAt{}, Gaps: [][2]float64{}, Ways: []WayRun{}, Cross: []CrossAt{}, Warned: []WarnedRun{}}
	for i := range w.Points {
		p := &w.Points[i]
		if p.Answer != trim.Found {
			continue
		}
		at := c.angleAt(p)
		if i == 0 || w.Points[i-1].Answer != trim.Found {
			out.Runs = append(out.Runs, nil)
		}
		last := len(out.Runs) - 1
		out.Runs[last] = append(out.Runs[last], at)
		out.Warned = warned(out.Warned, p, at.Angle, i > 0 && len(w.Points[i-1].Warnings) > 0)
		out.Ways = extended(out.Ways, p, at.Angle, i > 0 && w.Points[i-1].Answer == trim.Found)
	}
	for _, b := range []struct {
		name string
		best *polar.Best
	}{{"windward", &w.Windward}, {"leeward", &w.Leeward}} {
		if b.best.Answer != trim.Found || b.best.From == nil || b.best.To == nil {
			continue
		}
		out.Best = append(out.Best, BestAt{c.angleAt(&b.best.Point), b.name,
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

func (c *Chart) angleAt(p *polar.Point) AngleAt {
	deg, kn := c.usual("rad"), c.usual("m/s")
	return AngleAt{deg.In(float64(p.Angle)), kn.In(float64(p.Speed)), deg.Format(float64(p.Angle)), kn.Format(float64(p.Speed))}
}

// warned lengthens the last stretch of warnings by a point, or begins another.
func warned(runs []WarnedRun, p *polar.Point, angle float64, unbroken bool) []WarnedRun {
	if len(p.Warnings) == 0 {
		return runs
	}
	if last := len(runs) - 1; last >= 0 && unbroken {
		runs[last].To = angle
		return runs
	}
	why := p.Warnings[0]
	if more := len(p.Warnings) - 1; more > 0 {
		why += fmt.Sprintf("; and %d more", more)
	}
	return append(runs, WarnedRun{angle, angle, why})
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

func (c *Chart) anglesWords(all []*polar.Result) {
	kn, degrees := c.usual("m/s"), c.usual("rad").To(0).Format
	var winds, told []string
	for _, w := range all[0].Winds {
		winds = append(winds, kn.To(1).Numeral(float64(w.Speed)))
	}
	for _, w := range c.Angles.Winds {
		for _, b := range w.Best {
			told = append(told, fmt.Sprintf("%s at %s best to %s at %s", c.Angles.Boats[w.Boat], w.Wind, b.Name, b.Text))
		}
	}
	c.Title = fmt.Sprintf("%s: best angles to windward and leeward", joined(c.Angles.Boats))
	if top, in, boat := fastest(all); top != nil {
		c.Title = fmt.Sprintf("%s is fastest at %s in %s of wind: %s", boat, degrees(float64(top.Angle)), c.windSpeed(in), kn.To(1).Format(float64(top.Speed)))
	}
	if said := c.ahead(); said != "" {
		c.Title = said
	}
	blew := "True wind " + joined(winds) + space(kn.Unit) + " from " + all[0].WindFrom
	c.Under = blew + ". Bars on the curves: angles in which at most 1 % of progress is lost"
	if c.Kind == Crossovers {
		c.Title = joined(c.Angles.Boats) + ": " + changes(c.Angles)
		c.Under = "Best mode and sails over the wind angle. " + blew
	}
	c.Summary = fmt.Sprintf("Speed of %s over the true wind angle: %s.", joined(c.Angles.Boats), strings.Join(told, "; "))
}

// fastest returns the fastest of all points, and in which wind whose it is.
func fastest(all []*polar.Result) (top *polar.Point, wind float64, boat string) {
	for _, r := range all {
		for i := range r.Winds {
			for k := range r.Winds[i].Points {
				if p := &r.Winds[i].Points[k]; p.Answer == trim.Found && (top == nil || p.Speed > top.Speed) {
					top, wind, boat = p, float64(r.Winds[i].Speed), r.Boat
				}
			}
		}
	}
	return top, wind, boat
}

// ahead says of two boats which is faster at how many of the angles; empty of any other
// number, and where no angle is sailed by both.
func (c *Chart) ahead() string {
	if len(c.Angles.Gains) == 0 {
		return ""
	}
	count, second, most := 0, 0, GainAt{}
	for _, g := range c.Angles.Gains {
		for _, p := range g.Points {
			count++
			if p.At > 0 {
				second++
			}
		}
	}
	if count == 0 {
		return ""
	}
	leads, lags, wins, sign := c.Angles.Boats[0], c.Angles.Boats[1], count-second, -1.0
	if second > count-second {
		leads, lags, wins, sign = lags, leads, second, 1
	}
	wind := ""
	for _, g := range c.Angles.Gains {
		for _, p := range g.Points {
			if p.At*sign > most.At*sign {
				most, wind = p, g.Name
			}
		}
	}
	unit := c.usual("m/s").Unit
	return fmt.Sprintf("%s is faster than %s at %d of %d angles, by up to %s at %s in %s", leads, lags, wins, count,
		strings.TrimLeft(most.Text, "+-")+space(unit), quantity.Format(most.Angle*math.Pi/180, quantity.Angle, "deg", quantity.Decimals(0)), wind)
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
