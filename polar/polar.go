package polar

import (
	"context"
	"fmt"
	"math"
	"slices"

	"foilwright/batch"
	"foilwright/boat"
	"foilwright/si"
	"foilwright/trim"
)

// Request is what a polar is made of.
type Request struct {
	// Base holds water, air, wind profile, the wind's side, mode and set where
	// they are not free, holds, relaxed limits and starts. Its aim, wind speed,
	// wind angle, From, Why and Tell are set here.
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
	c := newCharter(b, r.Base, winds, angles)
	if done == nil {
		done = func(int) {}
	}
	first, growing := 0, newGrowing(c, r.Running)
	stage := func(n int, do func(ctx context.Context, i int, w *trim.Workspace) error, grown func(i int)) error {
		counted := func(i int) {
			grown(i)
			done(first + i)
		}
		err := trim.Steps(ctx, n, workers, do, counted)
		first += n
		return err
	}
	point := func(at place) {
		growing.point(at.wind, at.angle)
		done(at.wind*len(angles) + at.angle)
	}
	if err := c.grid(ctx, workers, point); err != nil {
		return nil, err
	}
	first = len(winds) * len(angles)
	if err := stage(len(winds), c.sweep, growing.sweep); err != nil {
		return nil, err
	}
	if err := trim.Steps(ctx, len(bestAims), workers, c.tops, nil); err != nil {
		return nil, err
	}
	if err := stage(3*len(winds), c.between, growing.best); err != nil {
		return nil, err
	}
	return c.result(), nil
}

// charter is the work on one polar.
type charter struct {
	boat  *boat.Boat
	base  trim.Request
	winds []windWork
}

func newCharter(b *boat.Boat, base trim.Request, winds []si.Speed, angles []si.Angle) *charter {
	c := &charter{boat: b, base: base, winds: make([]windWork, len(winds))}
	c.base.From, c.base.Why, c.base.WindAngle, c.base.Tell, c.base.Nearly = nil, trim.Shortfalls, 0, trim.WithoutCarried, nearly
	for i, speed := range winds {
		c.winds[i] = windWork{
			speed: speed, angles: angles, points: make([]*trim.Result, len(angles)),
			searched: make([]bool, len(angles)), parents: make([][]place, len(angles)),
		}
	}
	return c
}

// windWork is one wind's part of it.
type windWork struct {
	speed             si.Speed
	angles            []si.Angle
	points            []*trim.Result
	searched          []bool          // points, in earlier rounds
	parents           [][]place       // of each point, those whose answers it was followed from; nil where it was searched from all starts
	top               [2]*trim.Result // the best angles, by aim
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

// bestTrim finds a best trim, once nobody waits for anything more urgent.
func bestTrim(ctx context.Context, b *boat.Boat, r trim.Request, w *trim.Workspace) (*trim.Result, error) {
	batch.GiveWay(ctx)
	return trim.Best(ctx, b, r, w)
}

// along answers at an angle from a neighbour alone: in one way of sailing, or in
// whatever comes near the neighbour's.
func (c *charter) along(ctx context.Context, wind *windWork, way Way, angle si.Angle, from *trim.Result, w *trim.Workspace) (*trim.Result, error) {
	r := c.request(wind, trim.AtAngle, angle)
	if way != (Way{}) {
		r.Mode, r.Set = c.modeName(way), way.Set
	}
	r.From, r.Starts = from, trim.OnlyFrom
	return bestTrim(ctx, c.boat, r, w)
}

// nearly is how much progress, over the true wind's speed, is left lying where a point is followed.
const nearly = 1e-5

// patience is how many steps a search from a neighbour may take: mostly one that takes more finds
// that she does not fly there.
const patience = 16

// glance is along for a trim that is not shown: its state alone is told.
func (c *charter) glance(ctx context.Context, wind *windWork, way Way, angle si.Angle, from *trim.Result, w *trim.Workspace) (*trim.Result, error) {
	brief := c.briefly()
	brief.base.Tell = trim.StateAlone
	return brief.along(ctx, wind, way, angle, from, w)
}

// briefly is the charter whose searches from a neighbour have patience.
func (c *charter) briefly() *charter {
	brief := *c
	brief.base.Patience = patience
	return &brief
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
	res, err := c.glance(ctx, wind, way, angle, from, w)
	if err != nil || res.Answer == trim.Found {
		return res, err
	}
	r := c.request(wind, trim.AtAngle, angle)
	if way != (Way{}) {
		r.Mode, r.Set = c.modeName(way), way.Set
	}
	r.From = from
	return bestTrim(ctx, c.boat, r, w)
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
