package polar

import (
	"context"
	"math"
	"slices"

	"foilwright/si"
	"foilwright/trim"
)

// place is a point of the grid: its wind and its angle, by index.
type place struct{ wind, angle int }

// grid searches the points in rounds, each on what the rounds before it have found: the anchors,
// then what lies beside a point that flies, and so on until nothing more is reached; in the end
// what was not.
func (c *charter) grid(ctx context.Context, workers int, done func(at place)) error {
	round := func(places []place, search func(ctx context.Context, at place, w *trim.Workspace) error) error {
		step := func(ctx context.Context, i int, w *trim.Workspace) error { return search(ctx, places[i], w) }
		err := trim.Steps(ctx, len(places), workers, step, func(i int) { done(places[i]) })
		for _, at := range places {
			c.winds[at.wind].searched[at.angle] = true
		}
		return err
	}
	if err := round(c.anchors(), c.cold); err != nil {
		return err
	}
	for places := c.reached(); len(places) > 0; places = c.reached() {
		if err := round(places, c.point); err != nil {
			return err
		}
	}
	return round(c.places(func(at place) bool { return !c.winds[at.wind].searched[at.angle] }), c.beyond)
}

// places returns the places of the grid that are wanted.
func (c *charter) places(wanted func(at place) bool) []place {
	var all []place
	for i := range c.winds {
		for k := range c.winds[i].angles {
			if at := (place{i, k}); wanted(at) {
				all = append(all, at)
			}
		}
	}
	return all
}

// anchors are the places that are searched from all starts whatever lies beside them: the middle
// angle in the first, the middle and the last wind, and the first and the last in the middle one.
func (c *charter) anchors() []place {
	return c.places(func(at place) bool {
		winds, angles := len(c.winds), len(c.winds[at.wind].angles)
		return spread(at.wind, winds) && at.angle == (angles-1)/2 || at.wind == (winds-1)/2 && spread(at.angle, angles)
	})
}

// spread tells whether k is the first, the middle or the last of n.
func spread(k, n int) bool { return k == 0 || k == (n-1)/2 || k == n-1 }

// reached returns the places that were not searched and lie beside one that flies.
func (c *charter) reached() []place {
	return c.places(func(at place) bool {
		return !c.winds[at.wind].searched[at.angle] && slices.ContainsFunc(beside[:], func(d place) bool { return c.flies(at.moved(d)) })
	})
}

// beside are the ways to the places next to one.
var beside = [4]place{{0, -1}, {0, 1}, {-1, 0}, {1, 0}}

func (p place) moved(d place) place { return place{p.wind + d.wind, p.angle + d.angle} }

func (c *charter) at(p place) *trim.Result { return c.winds[p.wind].points[p.angle] }

// flies tells whether a place lies on the grid, was searched in an earlier round, and has an
// answer.
func (c *charter) flies(p place) bool {
	return p.wind >= 0 && p.wind < len(c.winds) && p.angle >= 0 && p.angle < len(c.winds[p.wind].angles) &&
		c.winds[p.wind].searched[p.angle] && c.at(p).Answer == trim.Found
}

// guess is where the neighbours of a place together point to.
type guess struct {
	start   *trim.Result
	speed   float64 // there, m/s
	parents []place // whose answers it is made of
}

// guess returns where the neighbours of a place together point to: those on either side; else
// three around a corner; else two in a row; else one, as it is.
func (c *charter) guess(at place) guess {
	for _, d := range [2]place{{0, 1}, {1, 0}} {
		if a, b := at.moved(place{-d.wind, -d.angle}), at.moved(d); c.alike(a, b) {
			return c.together(a, []place{b}, c.share(at, a, b))
		}
	}
	for _, wind := range [2]int{-1, 1} {
		for _, angle := range [2]int{-1, 1} {
			a, b, corner := at.moved(place{wind, 0}), at.moved(place{0, angle}), at.moved(place{wind, angle})
			if c.alike(a, b, corner) {
				return c.together(b, []place{a, corner}, 1, -1)
			}
		}
	}
	for _, d := range beside {
		if a, b := at.moved(d), at.moved(d).moved(d); c.alike(a, b) {
			g := c.together(a, []place{b}, c.share(at, a, b))
			if third := b.moved(d); c.alike(a, third) {
				g.speed = c.bent(at, a, b, third)
			}
			return g
		}
	}
	for _, d := range beside {
		if a := at.moved(d); c.flies(a) {
			return c.together(a, nil)
		}
	}
	return guess{}
}

// alike tells whether the boat flies in one way of sailing at some places.
func (c *charter) alike(places ...place) bool {
	for _, p := range places {
		if !c.flies(p) || wayOf(c.at(p)) != wayOf(c.at(places[0])) {
			return false
		}
	}
	return true
}

// together moves the answer at one place by so many times the way from there to others.
func (c *charter) together(from place, to []place, times ...float64) guess {
	g := guess{start: c.at(from), speed: float64(c.at(from).Speed), parents: append([]place{from}, to...)}
	if len(to) == 0 {
		return g
	}
	others := make([]*trim.Result, len(to))
	for i, p := range to {
		others[i] = c.at(p)
		g.speed += times[i] * float64(others[i].Speed-g.start.Speed)
	}
	g.start = g.start.Moved(others, times)
	return g
}

// bent is the speed at a place on the parabola through those at three places in a row.
func (c *charter) bent(at, a, b, third place) float64 {
	line, next := c.share(at, a, b), c.share(third, a, b)
	va, vb, v3 := float64(c.at(a).Speed), float64(c.at(b).Speed), float64(c.at(third).Speed)
	bend := (v3 - va - next*(vb-va)) / (next * (next - 1))
	return va + line*(vb-va) + bend*line*(line-1)
}

// share is how far a place lies from one place on the way to another, over that way.
func (c *charter) share(at, from, to place) float64 {
	if from.wind == to.wind {
		angles := c.winds[at.wind].angles
		return float64((angles[at.angle] - angles[from.angle]) / (angles[to.angle] - angles[from.angle]))
	}
	return c.shareOfWind(at.wind, from.wind, to.wind)
}

// shareOfWind is how far a wind lies from one wind on the way to another, over that way.
func (c *charter) shareOfWind(at, from, to int) float64 {
	return float64((c.winds[at].speed - c.winds[from].speed) / (c.winds[to].speed - c.winds[from].speed))
}

// off is by how much an answer's speed differs from the guess, over that.
func (g *guess) off(r *trim.Result) float64 { return math.Abs(float64(r.Speed)/g.speed - 1) }

// Answers within expected of the guess are taken for what the neighbours point to; those that are
// further off than far, or farFromOne where the guess is one neighbour's answer, for something
// else. Judgement, held by what points of the examples' polars lose.
const (
	expected   = 0.005
	far        = 0.03
	farFromOne = 0.2
)

func (g *guess) far() float64 {
	if len(g.parents) == 1 {
		return farFromOne
	}
	return far
}

// cold searches a place from all starts.
func (c *charter) cold(ctx context.Context, at place, w *trim.Workspace) error {
	wind := &c.winds[at.wind]
	var err error
	wind.points[at.angle], err = bestTrim(ctx, c.boat, c.request(wind, trim.AtAngle, wind.angles[at.angle]), w)
	return err
}

// beyond answers at a place beside which she does not fly either: there is too little wind for
// that, as the place nearest to it shows where she does, or it is searched from all starts.
func (c *charter) beyond(ctx context.Context, at place, w *trim.Workspace) error {
	wind, from := &c.winds[at.wind], c.nearest(at)
	if from == nil {
		return c.cold(ctx, at, w)
	}
	light, err := c.tooLight(ctx, wind, wind.angles[at.angle], from, w)
	if err != nil {
		return err
	}
	if light {
		r := c.request(wind, trim.AtAngle, wind.angles[at.angle])
		r.From, r.Starts, r.Patience = from, trim.OnlyFrom, patience
		if wind.points[at.angle], err = bestTrim(ctx, c.boat, r, w); err != nil || wind.points[at.angle].Answer != trim.Found {
			return err
		}
	}
	return c.cold(ctx, at, w)
}

// nearest returns the answer at the place nearest to one, by steps of the grid, at which she flies
// in an earlier round; nil where there is none.
func (c *charter) nearest(at place) *trim.Result {
	least, steps := (*trim.Result)(nil), math.MaxInt
	for _, p := range c.places(c.flies) {
		if n := max(p.wind-at.wind, at.wind-p.wind) + max(p.angle-at.angle, at.angle-p.angle); n < steps {
			least, steps = c.at(p), n
		}
	}
	return least
}

// point answers at one place: from where its neighbours together point to. If that is not
// what they made expect, it is followed from a neighbour as that is, too. Where the two do
// not agree, or the speed is far off, or nothing flies there though there is wind enough, the
// place is searched from all starts, and whatever is better stays.
func (c *charter) point(ctx context.Context, at place, w *trim.Workspace) error {
	wind := &c.winds[at.wind]
	g := c.guess(at)
	best, err := c.briefly().along(ctx, wind, Way{}, wind.angles[at.angle], g.start, w)
	if err != nil {
		return err
	}
	sure := best.Answer == trim.Found && g.off(best) <= g.far()
	if sure && (g.off(best) > expected || wayOf(best) != wayOf(g.start)) {
		if sure, err = c.confirms(ctx, at, &g, best, w); err != nil {
			return err
		}
	}
	if sure {
		wind.points[at.angle], wind.parents[at.angle] = best, g.parents
		return nil
	}
	if best.Answer != trim.Found {
		light, err := c.tooLight(ctx, wind, wind.angles[at.angle], g.start, w)
		if err != nil || light {
			wind.points[at.angle] = best
			return err
		}
	}
	err = c.cold(ctx, at, w)
	wind.points[at.angle] = faster(wind.points[at.angle], best)
	return err
}

// confirms tells whether a place's answer, followed from a neighbour as that is, if there is one
// that was not the guess, agrees with one that was found.
func (c *charter) confirms(ctx context.Context, at place, g *guess, found *trim.Result, w *trim.Workspace) (bool, error) {
	wind := &c.winds[at.wind]
	for _, d := range beside {
		if a := at.moved(d); c.flies(a) && c.at(a) != g.start {
			other, err := c.glance(ctx, wind, wayOf(found), wind.angles[at.angle], c.at(a), w)
			return err == nil && agree(found, other), err
		}
	}
	return true, nil
}

// agreement is how near, over speed, two answers at one angle count as one, as in
// package trim.
const agreement = 5e-4

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
