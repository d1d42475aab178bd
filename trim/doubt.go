package trim

import (
	"cmp"
	"context"
	"slices"

	"foilwright/boat"
)

// doubt searches every way on the strips that were asked for, from where the survey
// came nearest to flight; where it found optima, from the best of them that holds.
func (f *findings) doubt(ctx context.Context, b *boat.Boat, r *Request, w *Workspace) error {
	done := make([]bool, len(f.surveyed))
	for i := range f.surveyed {
		if done[i] {
			continue
		}
		var ends []attempt
		for j := range f.surveyed {
			if f.surveyed[j].problem.way.is(&f.surveyed[i].problem.way) {
				ends, done[j] = append(ends, f.surveyed[j]), true
			}
		}
		p, err := newSearch(b, r, ends[0].problem.way, &w.fine, tight(), w)
		if err != nil {
			return err
		}
		for _, end := range bestFirst(ends) {
			a, err := p.try(ctx, end.outcome.X, w)
			if err != nil {
				return err
			}
			f.refined = append(f.refined, a)
			if a.ok() {
				break
			}
		}
	}
	top, best := pick(f.surveyed), pick(f.refined)
	if top != nil && top.ok() && (best == nil || !best.ok()) {
		return f.afresh(ctx, b, r, top.problem.way, w)
	}
	return nil
}

// bestFirst returns the optima among the ends of one way of sailing, each once and the
// best first; where there is none, the end that came nearest.
func bestFirst(ends []attempt) []*attempt {
	var optima []*attempt
	for i := range ends {
		if ends[i].ok() {
			optima = append(optima, &ends[i])
		}
	}
	if len(optima) == 0 {
		if nearest := pick(ends); nearest != nil {
			return []*attempt{nearest}
		}
		return []*attempt{&ends[0]}
	}
	slices.SortStableFunc(optima, func(a, c *attempt) int { return cmp.Compare(c.progress(), a.progress()) })
	return slices.CompactFunc(optima, func(a, c *attempt) bool { return a.isBeside(c, optima[0].progress()) })
}

// afresh searches a way of sailing from its starts on the strips that were asked for:
// the survey found it sailing, in a state that finer strips do not hold. At the end
// of flight all of a survey's searches may end in such a one.
func (f *findings) afresh(ctx context.Context, b *boat.Boat, r *Request, way way, w *Workspace) error {
	p, err := newSearch(b, r, way, &w.fine, tight(), w)
	if err != nil {
		return err
	}
	for _, start := range p.starts() {
		a, err := p.try(ctx, start, w)
		if err != nil {
			return err
		}
		f.refined = append(f.refined, a)
	}
	return nil
}
