package polar

import (
	"context"
	"math"
	"slices"

	"foilwright/trim"
)

// sweep is the second stage: the ends of flight along one wind are searched from all starts;
// then, up and down its points, each point's way and state is carried to the next, and stays
// there if it is better. Where what is carried and what is there are not one answer, the
// point is searched from all starts. Where one of two neighbours was followed from the other,
// or both from others to much the same trim, there is nothing to carry, until one of them changes.
func (c *charter) sweep(ctx context.Context, i int, w *trim.Workspace) error {
	s := row{charter: c, wind: i, changed: make([]bool, len(c.winds[i].points))}
	n := len(s.changed)
	for k := range n {
		if s.ends(k) {
			if err := s.cold(ctx, k, w); err != nil {
				return err
			}
		}
	}
	for k := 1; k < n; k++ {
		if err := s.carry(ctx, k-1, k, w); err != nil {
			return err
		}
	}
	for k := n - 2; k >= 0; k-- {
		if err := s.carry(ctx, k+1, k, w); err != nil {
			return err
		}
	}
	return nil
}

// row is the sweep along one wind.
type row struct {
	*charter
	wind    int
	changed []bool
}

// ends tells whether a point flies and one beside it does not.
func (s *row) ends(k int) bool {
	points := s.winds[s.wind].points
	not := func(k int) bool { return k >= 0 && k < len(points) && points[k].Answer != trim.Found }
	return !not(k) && (not(k-1) || not(k+1))
}

// cold searches a point from all starts, if it was not.
func (s *row) cold(ctx context.Context, k int, w *trim.Workspace) error {
	wind := &s.winds[s.wind]
	if wind.parents[k] == nil {
		return nil
	}
	wind.parents[k] = nil
	old := wind.points[k]
	if err := s.charter.cold(ctx, place{s.wind, k}, w); err != nil {
		return err
	}
	s.changed[k] = s.changed[k] || faster(old, wind.points[k]) != old
	wind.points[k] = faster(wind.points[k], old) // where they are level, the one that knows more ways
	return nil
}

// settled tells whether one of two points was followed from the other.
func (s *row) settled(a, b int) bool {
	w := &s.winds[s.wind]
	return slices.Contains(w.parents[a], place{s.wind, b}) || slices.Contains(w.parents[b], place{s.wind, a})
}

// plain tells whether two points that fly in one way, at much the same speed, were both followed
// from others.
func (s *row) plain(a, b int) bool {
	w := &s.winds[s.wind]
	return w.parents[a] != nil && w.parents[b] != nil && s.alike(place{s.wind, a}, place{s.wind, b}) &&
		math.Abs(float64(w.points[a].Speed/w.points[b].Speed)-1) <= farFromOne
}

func (s *row) carry(ctx context.Context, from, to int, w *trim.Workspace) error {
	wind := &s.winds[s.wind]
	source, target := wind.points[from], wind.points[to]
	if source.Answer != trim.Found || (s.settled(from, to) || s.plain(from, to)) && !s.changed[from] {
		return nil
	}
	res, err := s.glance(ctx, wind, wayOf(source), wind.angles[to], source, w)
	if err != nil {
		return err
	}
	if wayOf(source) == wayOf(target) && target.Answer == trim.Found && !agree(res, target) {
		if err := s.cold(ctx, to, w); err != nil {
			return err
		}
		target = wind.points[to]
	}
	if faster(target, res) == target {
		return nil
	}
	if res, err = s.along(ctx, wind, wayOf(source), wind.angles[to], res, w); err != nil {
		return err
	}
	if best := faster(target, res); best != target {
		wind.points[to], s.changed[to] = best, true
	}
	return nil
}
