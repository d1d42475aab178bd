package polar

import (
	"context"
	"math"
	"slices"

	"foilwright/si"
	"foilwright/trim"
)

// Where bands are looked for, and how finely. Progress at the ends is met to
// bandTolerance; where flight ends inside a band, its end is met to half a degree.
const (
	bandTolerance = 4e-5
	bandStep      = 1 * si.Degree
	finestBand    = 0.005 * si.Degree
	edgeWidth     = 0.5 * si.Degree
	mostTrims     = 24 // at each end of a band
	closest       = 10 * si.Degree
	widest        = 178 * si.Degree
)

// best finds the band around the best angle of one wind. Where a trim on the way to the
// band's ends makes more progress, the search for the best angle begins again there.
func (c *charter) best(ctx context.Context, wind *windWork, aim trim.Aim, w *trim.Workspace) (*Best, error) {
	best, res := new(Best), wind.top[aim]
	for range mostBegun {
		if res.Answer != trim.Found {
			told := *res
			err := told.LookForLimit(ctx, c.boat, w)
			best.Point = pointOf(&told)
			return best, err
		}
		b := &band{charter: c, wind: wind, best: res, most: res}
		if err := b.lookAside(ctx, aim, w); err != nil {
			return nil, err
		}
		*best = Best{Point: pointOf(res)}
		if !b.outdone(aim) {
			var err error
			if best.From, best.To, err = b.ends(ctx, aim, w); err != nil {
				return nil, err
			}
		}
		if !b.outdone(aim) {
			return best, nil
		}
		r := c.request(wind, aim, 0)
		r.From = b.most
		again, err := bestTrim(ctx, c.boat, r, w)
		if err != nil {
			return nil, err
		}
		res = again
	}
	best.Warnings = append(slices.Clone(best.Warnings), "a trim near the best angle makes more progress: the search for it was begun too often")
	return best, nil
}

// bestAims are the aims of best angles.
var bestAims = [2]trim.Aim{trim.Windward, trim.Leeward}

// tops searches for the best angles of one aim in every wind, from the lightest up.
func (c *charter) tops(ctx context.Context, k int, w *trim.Workspace) error {
	aim := bestAims[k]
	for i := range c.winds {
		res, err := c.onward(ctx, i, aim, w)
		if err == nil && res == nil {
			res, err = c.angleOf(ctx, &c.winds[i], aim, w)
		}
		if err != nil {
			return err
		}
		c.winds[i].top[aim] = res
	}
	return nil
}

// onward follows the best angle from the winds below; nil where that leads to less progress than
// a point of the grid makes, or where there is nothing to hold it against: no such point, or
// none near the best angle in a wind whose ends and middle are searched from all starts.
func (c *charter) onward(ctx context.Context, i int, aim trim.Aim, w *trim.Workspace) (*trim.Result, error) {
	wind := &c.winds[i]
	top := wind.most(aim)
	if i == 0 || top < 0 || c.winds[i-1].top[aim].Answer != trim.Found {
		return nil, nil
	}
	start := c.winds[i-1].top[aim]
	if i > 1 && c.winds[i-2].top[aim].Answer == trim.Found {
		start = start.Moved([]*trim.Result{c.winds[i-2].top[aim]}, []float64{c.shareOfWind(i, i-1, i-2)})
	}
	res, err := c.aimed(ctx, wind, aim, start, w)
	if err != nil || res.Answer != trim.Found || gain(aim, res) < gain(aim, wind.points[top])*(1-gained) {
		return nil, err
	}
	if spread(i, len(c.winds)) && len(wind.around(res.TrueWindAngle, aroundEnd)) == 0 {
		return nil, nil
	}
	return res, nil
}

// angleOf searches for a best angle. Where the points of the grid around the one that
// makes most progress lead to one answer, that is it; else it is searched from all
// starts and from that point.
func (c *charter) angleOf(ctx context.Context, wind *windWork, aim trim.Aim, w *trim.Workspace) (*trim.Result, error) {
	r := c.request(wind, aim, 0)
	top := wind.most(aim)
	if top < 0 {
		return bestTrim(ctx, c.boat, r, w)
	}
	r.From = wind.points[top]
	var best *trim.Result
	from := wind.around(wind.points[top].TrueWindAngle, aroundBest)
	for k, f := range from {
		res, err := c.aimed(ctx, wind, aim, f, w)
		if err != nil {
			return nil, err
		}
		if k > 0 && !agree(best, res) {
			return bestTrim(ctx, c.boat, r, w)
		}
		best = faster(best, res)
	}
	if len(from) < 2 || best.Answer != trim.Found {
		return bestTrim(ctx, c.boat, r, w)
	}
	return best, nil
}

// aimed searches for a best angle from one trim alone.
func (c *charter) aimed(ctx context.Context, wind *windWork, aim trim.Aim, from *trim.Result, w *trim.Workspace) (*trim.Result, error) {
	r := c.request(wind, aim, 0)
	r.From, r.Starts = from, trim.OnlyFrom
	return bestTrim(ctx, c.boat, r, w)
}

// most returns the point of the grid with most progress, −1 where none makes any.
func (w *windWork) most(aim trim.Aim) int {
	top := -1
	for k, p := range w.points {
		if p.Answer == trim.Found && gain(aim, p) > 0 && (top < 0 || gain(aim, p) > gain(aim, w.points[top])) {
			top = k
		}
	}
	return top
}

// aroundBest and aroundEnd are how far from a best angle, and from an end of its band,
// points of the grid tell what there is.
const (
	aroundBest = 15 * si.Degree
	aroundEnd  = 10 * si.Degree
)

// around returns the points of the grid that fly next to an angle, it included, on
// either side, no further than reach.
func (w *windWork) around(angle, reach si.Angle) []*trim.Result {
	var all []*trim.Result
	for k, p := range w.points {
		a := w.angles[k]
		beside := a == angle || a < angle && (k+1 == len(w.angles) || w.angles[k+1] >= angle) || a > angle && (k == 0 || w.angles[k-1] <= angle)
		if beside && p.Answer == trim.Found && math.Abs(float64(a-angle)) <= float64(reach)+1e-9 {
			all = append(all, p)
		}
	}
	return all
}

// mostBegun is how often the search for one best angle begins.
const mostBegun = 4

// gain returns progress to windward or leeward, m/s.
func gain(aim trim.Aim, r *trim.Result) float64 {
	if aim == trim.Leeward {
		return -float64(r.VMG)
	}
	return float64(r.VMG)
}

// band is the search for one band's ends.
type band struct {
	*charter
	wind *windWork
	best *trim.Result
	most *trim.Result // the trim with most progress that was met

	aside [2]bandTrial // a step to smaller angles and one to larger
	other *trim.Result // on another optimum on the side of the end that is searched; nil where none was met
}

// outdone tells whether a trim was met that makes more progress than the best.
func (b *band) outdone(aim trim.Aim) bool { return gain(aim, b.most) > gain(aim, b.best)*(1+gained) }

// lookAside tries a step either side of the best angle: that shows whether it is the
// best, and begins the search for the band's ends. Where there is a grid it is tried
// from the best alone in its way of sailing, and the grid looked at beside the band's
// ends; else from all starts.
func (b *band) lookAside(ctx context.Context, aim trim.Aim, w *trim.Workspace) error {
	d := fromAll
	if len(b.wind.angles) > 0 {
		d = inOneWay
	}
	for i, limit := range searched(aim) {
		reach := float64(limit - b.best.TrueWindAngle)
		away := math.Copysign(math.Min(float64(bandStep), math.Abs(reach)), reach)
		var err error
		if b.aside[i], err = b.try(ctx, away, b.best, d, w); err != nil {
			return err
		}
	}
	return nil
}

// searched returns the smallest and the largest angle of a band.
func searched(aim trim.Aim) [2]si.Angle {
	if aim == trim.Leeward {
		return [2]si.Angle{90 * si.Degree, widest}
	}
	return [2]si.Angle{closest, 90 * si.Degree}
}

func (b *band) ends(ctx context.Context, aim trim.Aim, w *trim.Workspace) (from, to *BandEnd, err error) {
	limits := searched(aim)
	if from, err = b.end(ctx, b.aside[0], limits[0], w); err == nil {
		to, err = b.end(ctx, b.aside[1], limits[1], w)
	}
	return from, to, err
}

// end finds where, between the best angle and a limit of the search, Loss of the
// best progress is lost. What the search from neighbours ends with is tried again,
// from the points of the grid on either side, or, where flight ends there or there are
// none, from all starts; where that does better, they have followed a poorer optimum,
// and the search is done again from both, and in the end from all starts throughout.
func (b *band) end(ctx context.Context, first bandTrial, limit si.Angle, w *trim.Workspace) (*BandEnd, error) {
	var inside, outside bandTrial
	b.other = nil
	for round := range mostBranches + 1 {
		d := inOneWay
		if round == mostBranches {
			d = fromAll
		}
		var err error
		if inside, outside, err = b.search(ctx, first, limit, d, w); err != nil {
			return nil, err
		}
		if d == fromAll {
			break
		}
		last := inside
		if !inside.atLoss() && outside.trim != nil {
			last = outside
		}
		again, err := b.check(ctx, last, w)
		if err != nil {
			return nil, err
		}
		if again.lost >= last.lost-bandTolerance {
			break
		}
		b.other = again.trim
	}
	r, why := inside.trim, LossReached
	switch {
	case inside.atLoss():
	case outside.trim == nil:
		why = SearchEnds
	case math.IsInf(outside.lost, 1):
		why = FlightEnds
	}
	told, err := b.along(ctx, b.wind, wayOf(r), r.TrueWindAngle, r, w)
	if err != nil {
		return nil, err
	}
	if told.Answer == trim.Found && told.Speed >= r.Speed*(1-gained) {
		r = told
	}
	return &BandEnd{
		Angle: r.TrueWindAngle, Way: wayOf(r), Speed: r.Speed, VMG: r.VMG, Lost: 1 - float64(r.VMG/b.best.VMG), Why: why, Trim: r,
	}, nil
}

// mostBranches is from how many optima in turn an end of a band is searched, before it
// is from all starts.
const mostBranches = 2

// check searches a trial again, from the points of the grid on either side, or from between
// them where they fly in one way, and returns the trial that loses least.
func (b *band) check(ctx context.Context, t bandTrial, w *trim.Workspace) (bandTrial, error) {
	if len(b.wind.angles) == 0 {
		return b.try(ctx, t.away, t.trim, fromAll, w)
	}
	from := b.wind.around(b.best.TrueWindAngle+si.Angle(t.away), aroundEnd)
	if angle := b.best.TrueWindAngle + si.Angle(t.away); len(from) == 2 && wayOf(from[0]) == wayOf(from[1]) {
		from = []*trim.Result{toward(from[0], from[1], angle)}
	}
	least := t
	for _, f := range from {
		again, err := b.try(ctx, t.away, f, fromNeighbour, w)
		if err != nil {
			return t, err
		}
		if again.lost < least.lost {
			least = again
		}
	}
	return least, nil
}

// depth tells from what a trial is searched.
type depth int

const (
	fromNeighbour depth = iota // and from the other optimum that was met
	inOneWay                   // the same, in those ones' ways of sailing alone
	fromAll                    // the neighbour and all starts
)

// way returns the way of sailing that is asked for from a trim.
func (d depth) way(from *trim.Result) Way {
	if d == inOneWay {
		return wayOf(from)
	}
	return Way{}
}

// search brackets one end. Progress falls with the square of the way from the
// best angle, so that the root of what is lost is near to straight: steps follow
// it, and halve the bracket every third time. The first trial is given.
func (b *band) search(ctx context.Context, first bandTrial, limit si.Angle, d depth, w *trim.Workspace) (inside, outside bandTrial, err error) {
	reach := float64(limit - b.best.TrueWindAngle)
	inside.trim = b.best
	t := first
	for k := range mostTrims {
		if k > 0 || b.other != nil {
			away := first.away
			if k > 0 {
				away = nextTrial(inside, outside, reach, k)
			}
			if t, err = b.try(ctx, away, b.from(inside, outside, away), d, w); err != nil {
				return inside, outside, err
			}
		}
		if t.lost <= Loss || t.atLoss() {
			inside = t
		} else {
			outside = t
		}
		width := math.Inf(1)
		if outside.trim != nil {
			width = math.Abs(outside.away - inside.away)
		}
		finest := finestBand
		if math.IsInf(outside.lost, 1) {
			finest = edgeWidth
		}
		if t.atLoss() || math.Abs(inside.away) >= math.Abs(reach) || width <= float64(finest) {
			break
		}
	}
	return inside, outside, nil
}

// from returns what a trial is searched from: the trial inside, moved on the line through the
// one outside, or through the best, to the trial's angle.
func (b *band) from(inside, outside bandTrial, away float64) *trim.Result {
	angle := b.best.TrueWindAngle + si.Angle(away)
	switch in := inside.trim; {
	case outside.trim != nil && outside.trim.Answer == trim.Found && wayOf(outside.trim) == wayOf(in):
		return toward(in, outside.trim, angle)
	case inside.away != 0 && wayOf(b.best) == wayOf(in):
		return toward(in, b.best, angle)
	}
	return inside.trim
}

// try trims at an angle away from the best one, rad.
func (b *band) try(ctx context.Context, away float64, from *trim.Result, d depth, w *trim.Workspace) (bandTrial, error) {
	angle := b.best.TrueWindAngle + si.Angle(away)
	t := bandTrial{away: away, lost: math.Inf(1)}
	var err error
	if d == fromAll {
		r := b.request(b.wind, trim.AtAngle, angle)
		r.From, r.Why = from, trim.Shortfalls
		t.trim, err = bestTrim(ctx, b.boat, r, w)
	} else {
		t.trim, err = b.glance(ctx, b.wind, d.way(from), angle, from, w)
		if err == nil && b.other != nil {
			var other *trim.Result
			if other, err = b.glance(ctx, b.wind, d.way(b.other), angle, b.other, w); err == nil {
				t.trim = faster(t.trim, other)
			}
		}
	}
	if err == nil && t.trim.Answer == trim.Found {
		t.lost = 1 - float64(t.trim.VMG/b.best.VMG)
		if gain := t.trim.VMG / b.most.VMG; gain > 1 {
			b.most = t.trim
		}
	}
	return t, err
}

// bandTrial is one trim on the way to a band's end. Its zero value stands for an
// end that has not been met.
type bandTrial struct {
	away, lost float64 // from the best angle, rad; share of progress, infinite where there is no answer
	trim       *trim.Result
}

func (t *bandTrial) root() float64 { return math.Sqrt(math.Max(0, t.lost)) }

func (t *bandTrial) atLoss() bool { return math.Abs(t.lost-Loss) <= bandTolerance }

// nextTrial returns how far from the best angle to try next, rad, on the side
// that reach points to.
func nextTrial(inside, outside bandTrial, reach float64, k int) float64 {
	const aim = 0.1 // the root of Loss
	if outside.trim == nil {
		further := 2.0
		if root := inside.root(); root > 0 {
			further = math.Min(further, math.Max(1.02*aim/root, 1.01))
		}
		further *= inside.away
		if math.Abs(further) > math.Abs(reach) {
			return reach
		}
		return further
	}
	middle := (inside.away + outside.away) / 2
	if math.IsInf(outside.lost, 1) || k%3 == 2 {
		return middle
	}
	low, high := inside.root(), outside.root()
	share := (aim - low) / (high - low)
	if !(share > 0 && share < 1) {
		return middle
	}
	return inside.away + (outside.away-inside.away)*share
}
