package polar

import (
	"context"
	"fmt"
	"math"
	"slices"

	"foilwright/boat"
	"foilwright/si"
	"foilwright/trim"
)

// Request is what a polar is made of.
type Request struct {
	// Base holds water, air, wind profile, the wind's side, mode and set where
	// they are not free, holds, relaxed limits and starts. Its aim, wind speed,
	// wind angle, From and Why are set here.
	Base   trim.Request
	Winds  []si.Speed // true, at the profile's reference height
	Angles []si.Angle // true, off the track, between 0 and 180°; may be empty: best angles alone

	// Running, where it is not nil, is called as points are found, from any goroutine
	// and one call at a time, with what there is: points and best angles that are not
	// found yet are missing, crossovers and gaps are not told.
	Running func(*Result)
}

// Steps returns how many steps of work a request is, for a display of progress.
func (r *Request) Steps() int {
	winds, angles := r.sorted()
	return len(winds) * (len(angles) + stages)
}

// stages are the steps of a wind besides its points: the sweep along them,
// windward, leeward, and the edges between points.
const stages = 4

// sorted returns winds and angles in rising order, each once.
func (r *Request) sorted() ([]si.Speed, []si.Angle) {
	winds, angles := slices.Clone(r.Winds), slices.Clone(r.Angles)
	slices.Sort(winds)
	slices.Sort(angles)
	return slices.Compact(winds), slices.Compact(angles)
}

// check refuses what trim would refuse after hours of work.
func (r *Request) check(b *boat.Boat) error {
	if len(r.Winds) == 0 {
		return &trim.RequestError{Boat: b.Name, What: "true wind speeds", Problem: "none is given", Hint: `say them with --tws, as in "8, 12, 16 kn"`}
	}
	for _, w := range r.Winds {
		if !(w > 0 && w <= windiest) {
			return &trim.RequestError{Boat: b.Name, What: "true wind speeds",
				Problem: fmt.Sprintf("%.4g m/s does not lie above 0 and up to %.0f m/s", float64(w), float64(windiest)), Hint: "check its unit"}
		}
	}
	for _, a := range r.Angles {
		if !(a > 0 && a < math.Pi) {
			return &trim.RequestError{Boat: b.Name, What: "true wind angles",
				Problem: fmt.Sprintf("%.4g deg does not lie between 0 and 180 deg", a.Degrees()), Hint: "angles are taken from the track, on either side"}
		}
	}
	return nil
}

// windiest is the most wind that package trim takes.
const windiest si.Speed = 60

// Run makes the polar over a number of goroutines (at least one). done, where it
// is not nil, is called after each of the request's Steps with its number, from
// any of the goroutines. One goroutine or many, the bits are the same: what a
// step starts from are results of the stage before.
//
// Errors are for requests that cannot be put, and for a cancelled context; a
// wind in which the boat cannot fly is in the result, with its reason.
func Run(ctx context.Context, b *boat.Boat, r Request, workers int, done func(step int)) (*Result, error) {
	if err := r.check(b); err != nil {
		return nil, err
	}
	winds, angles := r.sorted()
	c := &charter{boat: b, base: r.Base, winds: make([]windWork, len(winds))}
	c.base.From, c.base.Why, c.base.WindAngle = nil, trim.WithLimit, 0
	for i, speed := range winds {
		c.winds[i] = windWork{speed: speed, angles: angles, points: make([]*trim.Result, len(angles))}
	}
	if done == nil {
		done = func(int) {}
	}
	first, growing := 0, newGrowing(c, r.Running)
	for _, s := range []struct {
		steps int
		do    func(ctx context.Context, i int, w *trim.Workspace) error
		grown func(i int)
	}{
		{len(winds) * len(angles), c.point, growing.point},
		{len(winds), c.sweep, growing.sweep},
		{3 * len(winds), c.between, growing.best},
	} {
		counted := func(i int) {
			s.grown(i)
			done(first + i)
		}
		if err := trim.Steps(ctx, s.steps, workers, s.do, counted); err != nil {
			return nil, err
		}
		first += s.steps
	}
	return c.result(), nil
}

// charter is the work on one polar.
type charter struct {
	boat  *boat.Boat
	base  trim.Request
	winds []windWork
}

// windWork is one wind's part of it.
type windWork struct {
	speed             si.Speed
	angles            []si.Angle
	points            []*trim.Result
	windward, leeward *Best
	crossovers        []Crossover
	ends              []gapEnds // one for each run of points without an answer, in order
}

// request returns the base request at one wind.
func (c *charter) request(w *windWork, aim trim.Aim, angle si.Angle) trim.Request {
	r := c.base
	r.WindSpeed, r.Aim, r.WindAngle = w.speed, aim, angle
	return r
}

// point is the first stage: every point on its own.
func (c *charter) point(ctx context.Context, i int, w *trim.Workspace) error {
	wind := &c.winds[i/len(c.winds[0].angles)]
	k := i % len(wind.angles)
	res, err := trim.Best(ctx, c.boat, c.request(wind, trim.AtAngle, wind.angles[k]), w)
	wind.points[k] = res
	return err
}

// sweep is the second stage: along one wind's points, up and then down, each
// point's way and state is carried to the next, and stays there if it is better.
func (c *charter) sweep(ctx context.Context, i int, w *trim.Workspace) error {
	wind := &c.winds[i]
	n := len(wind.points)
	for k := 1; k < n; k++ {
		if err := c.carry(ctx, wind, k-1, k, w); err != nil {
			return err
		}
	}
	for k := n - 2; k >= 0; k-- {
		if err := c.carry(ctx, wind, k+1, k, w); err != nil {
			return err
		}
	}
	return nil
}

// better is by how much of itself speed must grow for an answer to be replaced:
// less than that is the search's own tolerance.
const better = 1e-6

func (c *charter) carry(ctx context.Context, wind *windWork, from, to int, w *trim.Workspace) error {
	source, target := wind.points[from], wind.points[to]
	if source.Answer != trim.Found {
		return nil
	}
	res, err := c.continued(ctx, wind, wayOf(source), wind.angles[to], source, w)
	if err != nil {
		return err
	}
	if res.Answer == trim.Found && (target.Answer != trim.Found || float64(res.Speed) > float64(target.Speed)*(1+better)) {
		wind.points[to] = res
	}
	return nil
}

// continued answers in one way of sailing at an angle, from a neighbour alone.
func (c *charter) continued(ctx context.Context, wind *windWork, way Way, angle si.Angle, from *trim.Result, w *trim.Workspace) (*trim.Result, error) {
	r := c.request(wind, trim.AtAngle, angle)
	r.Mode, r.Set, r.From, r.Starts, r.Why = c.modeName(way), way.Set, from, trim.OnlyFrom, trim.Shortfalls
	return trim.Best(ctx, c.boat, r, w)
}

// modeName returns a way's mode as a request has it: a boat without modes has none
// to name.
func (c *charter) modeName(way Way) string {
	if len(c.boat.Modes) == 0 {
		return ""
	}
	return way.Mode
}

// near answers at an angle in whatever way is best, or in one way, from a
// neighbour; and where that leads nowhere, from all starts.
func (c *charter) near(ctx context.Context, wind *windWork, way Way, angle si.Angle, from *trim.Result, w *trim.Workspace) (*trim.Result, error) {
	r := c.request(wind, trim.AtAngle, angle)
	if way != (Way{}) {
		r.Mode, r.Set = c.modeName(way), way.Set
	}
	r.From, r.Why = from, trim.Shortfalls
	r.Starts = trim.OnlyFrom
	res, err := trim.Best(ctx, c.boat, r, w)
	if err != nil || res.Answer == trim.Found {
		return res, err
	}
	r.Starts = c.base.Starts
	return trim.Best(ctx, c.boat, r, w)
}

// between is the third stage: what lies between the points of one wind.
func (c *charter) between(ctx context.Context, i int, w *trim.Workspace) error {
	wind := &c.winds[i/3]
	var err error
	switch i % 3 {
	case 0:
		wind.windward, err = c.best(ctx, wind, trim.Windward, w)
	case 1:
		wind.leeward, err = c.best(ctx, wind, trim.Leeward, w)
	default:
		if wind.crossovers, err = c.crossovers(ctx, wind, w); err == nil {
			wind.ends, err = c.gapEnds(ctx, wind, w)
		}
	}
	return err
}
