package polar

import (
	"context"
	"math"
	"slices"

	"foilwright/si"
	"foilwright/trim"
)

// node is a point of the grid in the order of searching: where it stands along the
// angles, and the points before and after it that have been searched by then, −1
// where it is searched for itself.
type node struct{ at, before, after int }

// levels orders points along the angles: the first, the middle and the last, then
// what halves the gaps, level by level.
func levels(n int) [][]node {
	if n == 0 {
		return nil
	}
	var first []node
	for _, k := range [3]int{0, (n - 1) / 2, n - 1} {
		if len(first) == 0 || first[len(first)-1].at < k {
			first = append(first, node{k, -1, -1})
		}
	}
	all := [][]node{first}
	known := make([]int, len(first))
	for i, f := range first {
		known[i] = f.at
	}
	for {
		var level []node
		next := known[:1:1]
		for i := 1; i < len(known); i++ {
			if middle := (known[i-1] + known[i]) / 2; middle > known[i-1] {
				level = append(level, node{middle, known[i-1], known[i]})
				next = append(next, middle)
			}
			next = append(next, known[i])
		}
		if len(level) == 0 {
			return all
		}
		all, known = append(all, level), next
	}
}

// agreement is how near, over speed, two answers at one angle count as one, as in
// package trim.
const agreement = 5e-4

// point answers at one angle. Between two points that fly in one way the answer is searched
// for from between theirs, and is that if it is found there. Else the answers of both are
// carried there, and where they agree that is the answer; everywhere else it is
// searched from all starts, and whatever is better stays.
func (c *charter) point(ctx context.Context, wind *windWork, n node, w *trim.Workspace) error {
	if start := wind.amid(n); start != nil {
		res, err := c.along(ctx, wind, Way{}, wind.angles[n.at], start, w)
		if err != nil {
			return err
		}
		if res.Lands(start) && wayOf(res) == wayOf(start) {
			wind.points[n.at], wind.agreed[n.at] = res, [2]int{n.before, n.after}
			return nil
		}
	}
	var carried [2]*trim.Result
	for i, k := range [2]int{n.before, n.after} {
		if k < 0 || wind.points[k].Answer != trim.Found {
			continue
		}
		var err error
		if carried[i], err = c.along(ctx, wind, Way{}, wind.angles[n.at], wind.points[k], w); err != nil {
			return err
		}
	}
	best := faster(carried[0], carried[1])
	if a, b := carried[0], carried[1]; agree(a, b) {
		wind.points[n.at], wind.agreed[n.at] = best, [2]int{n.before, n.after}
		return nil
	}
	cold, err := bestTrim(ctx, c.boat, c.request(wind, trim.AtAngle, wind.angles[n.at]), w)
	wind.points[n.at] = faster(cold, best)
	return err
}

// amid returns a start at a node's angle between the answers on either side of it; nil where
// they are not two of one way of sailing.
func (w *windWork) amid(n node) *trim.Result {
	if n.before < 0 || n.after < 0 {
		return nil
	}
	before, after := w.points[n.before], w.points[n.after]
	if before.Answer != trim.Found || after.Answer != trim.Found || wayOf(before) != wayOf(after) {
		return nil
	}
	return toward(before, after, w.angles[n.at])
}

// toward returns the first of two answers moved to an angle on the straight line through both.
func toward(from, to *trim.Result, angle si.Angle) *trim.Result {
	times := float64((angle - from.TrueWindAngle) / (to.TrueWindAngle - from.TrueWindAngle))
	return from.Moved([]*trim.Result{to}, []float64{times})
}

// agree tells whether two trims are one answer.
func agree(a, b *trim.Result) bool {
	return a != nil && b != nil && a.Answer == trim.Found && b.Answer == trim.Found && wayOf(a) == wayOf(b) &&
		math.Abs(float64(a.Speed-b.Speed)) <= agreement*float64(a.Speed)
}

// faster returns the faster of two trims, the first where they are level; nil stands
// for none.
func faster(a, b *trim.Result) *trim.Result {
	switch {
	case a == nil:
		return b
	case b == nil || b.Answer != trim.Found:
		return a
	case a.Answer != trim.Found || float64(b.Speed) > float64(a.Speed)*(1+gained):
		return b
	}
	return a
}

// gained is by how much of itself speed must grow for an answer to be replaced:
// less than that is the search's own tolerance.
const gained = 1e-6

// sweep is the second stage: along one wind's points, up and then down, each
// point's way and state is carried to the next, and stays there if it is better.
// Where two neighbours agreed there is nothing to carry, until one of them changes.
func (c *charter) sweep(ctx context.Context, i int, w *trim.Workspace) error {
	wind := &c.winds[i]
	n := len(wind.points)
	changed := make([]bool, n)
	for k := 1; k < n; k++ {
		if err := c.carry(ctx, wind, k-1, k, changed, w); err != nil {
			return err
		}
	}
	for k := n - 2; k >= 0; k-- {
		if err := c.carry(ctx, wind, k+1, k, changed, w); err != nil {
			return err
		}
	}
	return nil
}

// settled tells whether one of two points is what the other's answer and a third's
// agreed on.
func (w *windWork) settled(a, b int) bool {
	return w.agreed[a] != [2]int{} && slices.Contains(w.agreed[a][:], b) || w.agreed[b] != [2]int{} && slices.Contains(w.agreed[b][:], a)
}

func (c *charter) carry(ctx context.Context, wind *windWork, from, to int, changed []bool, w *trim.Workspace) error {
	source, target := wind.points[from], wind.points[to]
	if source.Answer != trim.Found || wind.settled(from, to) && !changed[from] {
		return nil
	}
	res, err := c.along(ctx, wind, wayOf(source), wind.angles[to], source, w)
	if err != nil {
		return err
	}
	if best := faster(target, res); best != target {
		wind.points[to], changed[to] = best, true
	}
	return nil
}
