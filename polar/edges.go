package polar

import (
	"context"
	"math"

	"foilwright/si"
	"foilwright/trim"
)

// crossoverWidth is how finely a change of the best way is bracketed, and
// mostWays how many changes in turn are looked for between two points.
const (
	crossoverWidth = 0.5 * si.Degree
	mostWays       = 4
	hasMore        = 5e-4 // of speed: what counts as better, as in package trim
)

// crossovers finds where the best way changes between points of the grid. A way
// that is best only between two points that agree on another is not seen.
func (c *charter) crossovers(ctx context.Context, wind *windWork, w *trim.Workspace) ([]Crossover, error) {
	all := []Crossover{}
	for k := 1; k < len(wind.points); k++ {
		low, high := wind.points[k-1], wind.points[k]
		if low.Answer != trim.Found || high.Answer != trim.Found {
			continue
		}
		found, err := c.cross(ctx, wind, low, high, mostWays, w)
		if err != nil {
			return nil, err
		}
		all = append(all, found...)
	}
	return all, nil
}

// pair is the trims of two ways at one angle.
type pair struct {
	angle        si.Angle
	below, above *trim.Result
}

// lead returns by how much the way below is faster, m/s: infinite where only one
// of the two has an answer, not a number where neither has.
func (p *pair) lead() float64 {
	below, above := p.below.Answer == trim.Found, p.above.Answer == trim.Found
	switch {
	case below && above:
		return float64(p.below.Speed - p.above.Speed)
	case below:
		return math.Inf(1)
	case above:
		return math.Inf(-1)
	}
	return math.NaN()
}

// cross brackets the change from one point's way to the other's, by trims of
// both ways at each angle. Where a third way is better at the crossing, the
// changes to it and from it are found in its place.
func (c *charter) cross(ctx context.Context, wind *windWork, low, high *trim.Result, depth int, w *trim.Workspace) ([]Crossover, error) {
	if wayOf(low) == wayOf(high) || depth == 0 {
		return nil, nil
	}
	from, to := pair{angle: low.TrueWindAngle, below: low}, pair{angle: high.TrueWindAngle, above: high}
	var err error
	if from.above, err = c.near(ctx, wind, wayOf(high), from.angle, high, w); err != nil {
		return nil, err
	}
	if to.below, err = c.near(ctx, wind, wayOf(low), to.angle, low, w); err != nil {
		return nil, err
	}
	for k := 0; to.angle-from.angle > crossoverWidth; k++ {
		mid := pair{angle: nextAngle(from, to, k)}
		if mid.below, err = c.near(ctx, wind, wayOf(low), mid.angle, foundOf(from.below, to.below), w); err != nil {
			return nil, err
		}
		if mid.above, err = c.near(ctx, wind, wayOf(high), mid.angle, foundOf(to.above, from.above), w); err != nil {
			return nil, err
		}
		switch lead := mid.lead(); {
		case lead > 0:
			from = mid
		case lead <= 0:
			to = mid
		default: // neither sails between the two: a gap that the grid does not see
			return nil, nil
		}
	}
	at := crossing(from, to)
	third, err := c.near(ctx, wind, Way{}, at, from.below, w)
	if err != nil {
		return nil, err
	}
	fastest := math.Max(float64(from.below.Speed), float64(to.above.Speed))
	if third.Answer == trim.Found && wayOf(third) != wayOf(low) && wayOf(third) != wayOf(high) && float64(third.Speed) > fastest*(1+hasMore) {
		before, err := c.cross(ctx, wind, low, third, depth-1, w)
		if err != nil {
			return nil, err
		}
		after, err := c.cross(ctx, wind, third, high, depth-1, w)
		return append(before, after...), err
	}
	return []Crossover{{
		Angle: at, Within: to.angle - from.angle,
		Below: Branch{wayOf(from.below), from.below.Speed}, Above: Branch{wayOf(to.above), to.above.Speed},
	}}, nil
}

// nextAngle returns the angle to look at next between two at which the leads differ: beside where
// they cross on a straight line, so that the crossing is bracketed from one side and then from
// the other; in the middle where that is not known, and every third time.
func nextAngle(from, to pair, k int) si.Angle {
	middle := (from.angle + to.angle) / 2
	if math.IsInf(from.lead(), 0) || math.IsInf(to.lead(), 0) || k%3 == 2 {
		return middle
	}
	at := crossing(from, to)
	if at-from.angle < to.angle-at {
		return min(at+beyondCrossing, middle)
	}
	return max(at-beyondCrossing, middle)
}

// beyondCrossing is how far beyond where two ways are expected to be level they are compared.
const beyondCrossing = crossoverWidth / 3

// crossing returns where two ways are level between two angles.
func crossing(from, to pair) si.Angle {
	a, b := from.lead(), to.lead()
	if share := a / (a - b); share >= 0 && share <= 1 {
		return from.angle + (to.angle-from.angle)*si.Angle(share)
	}
	return (from.angle + to.angle) / 2
}

// foundOf returns the first of two trims that is an answer, else the first.
func foundOf(a, b *trim.Result) *trim.Result {
	if a.Answer != trim.Found && b.Answer == trim.Found {
		return b
	}
	return a
}

// gapRun is a run of points without an answer, by index, both included.
type gapRun struct{ first, last int }

// gapEnds are where flight ends before a gap and begins after it, nil where the
// gap reaches the end of the angles asked, and the point that tells its reason.
type gapEnds struct {
	from, to *si.Angle
	told     *trim.Result
}

func (w *windWork) gapRuns() []gapRun {
	var runs []gapRun
	for k, p := range w.points {
		switch {
		case p.Answer == trim.Found:
		case len(runs) > 0 && runs[len(runs)-1].last == k-1:
			runs[len(runs)-1].last = k
		default:
			runs = append(runs, gapRun{k, k})
		}
	}
	return runs
}

// gapEnds finds the ends of every gap of a wind.
func (c *charter) gapEnds(ctx context.Context, wind *windWork, w *trim.Workspace) ([]gapEnds, error) {
	var all []gapEnds
	for _, run := range wind.gapRuns() {
		var ends gapEnds
		var err error
		if run.first > 0 {
			if ends.from, err = c.flightEdge(ctx, wind, wind.points[run.first-1], wind.angles[run.first], w); err != nil {
				return nil, err
			}
		}
		if run.last < len(wind.points)-1 {
			if ends.to, err = c.flightEdge(ctx, wind, wind.points[run.last+1], wind.angles[run.last], w); err != nil {
				return nil, err
			}
		}
		told := *wind.points[wind.told(run)] // others may be looking at the point
		if err := told.LookForLimit(ctx, c.boat, w); err != nil {
			return nil, err
		}
		ends.told = &told
		all = append(all, ends)
	}
	return all, nil
}

// flightEdge halves the angles between a point that flies and one that does not, from
// neighbours alone, and returns the last angle at which the boat was found to fly. Unless there
// is too little wind there, the first beyond it is then searched from all starts; where she flies
// there after all, the halving begins again from there.
func (c *charter) flightEdge(ctx context.Context, wind *windWork, flies *trim.Result, not si.Angle, w *trim.Workspace) (*si.Angle, error) {
	sure := not
	for range mostEdges {
		for math.Abs(float64(flies.TrueWindAngle-not)) > float64(edgeWidth) {
			mid := (flies.TrueWindAngle + not) / 2
			res, err := c.glance(ctx, wind, Way{}, mid, flies, w)
			if err != nil {
				return nil, err
			}
			if res.Answer == trim.Found {
				flies = res
			} else {
				not = mid
			}
		}
		if not == sure {
			break
		}
		if light, err := c.tooLight(ctx, wind, not, flies, w); err != nil || light {
			edge := flies.TrueWindAngle
			return &edge, err
		}
		res, err := bestTrim(ctx, c.boat, c.request(wind, trim.AtAngle, not), w)
		if err != nil {
			return nil, err
		}
		if res.Answer != trim.Found {
			break
		}
		flies, not = res, sure
	}
	edge := flies.TrueWindAngle
	return &edge, nil
}

// tooLight tells whether there is too little wind at an angle: whether the least wind in which
// the boat flies there, followed from a trim near by, is more than there is. Where it is not, or
// leads nowhere, nothing is told.
func (c *charter) tooLight(ctx context.Context, wind *windWork, angle si.Angle, from *trim.Result, w *trim.Workspace) (bool, error) {
	r := c.request(wind, trim.LeastWind, angle)
	r.From, r.Starts, r.Tell, r.Patience = from, trim.OnlyFrom, trim.StateAlone, patience
	res, err := bestTrim(ctx, c.boat, r, w)
	return err == nil && res.Answer == trim.Found && res.TrueWindSpeed > wind.speed, err
}

// mostEdges bounds how often an end of flight turns out to be none.
const mostEdges = 8

// told returns which point of a gap tells its reason: the one nearest to flight, and
// where nothing flies in this wind, the one in the middle.
func (w *windWork) told(run gapRun) int {
	switch {
	case run.last < len(w.points)-1:
		return run.last
	case run.first > 0:
		return run.first
	}
	return (run.first + run.last) / 2
}

// gap tells one gap.
func (w *windWork) gap(run gapRun, ends gapEnds) Gap {
	g := Gap{First: w.angles[run.first], Last: w.angles[run.last], From: ends.from, To: ends.to}
	if r := ends.told.Reason; r != nil {
		g.Words, g.Limit = r.Words, r.Limit
	}
	return g
}
