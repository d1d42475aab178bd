package polar

import (
	"sync"

	"foilwright/boat"
	"foilwright/trim"
)

// growing is a polar that is shown while it is made. Its steps read of the charter only
// what their own step has written.
type growing struct {
	charter *charter
	tell    func(*Result) // nil for nobody
	mu      sync.Mutex
	winds   []grownWind
}

// grownWind is what there is of one wind.
type grownWind struct {
	points            []*trim.Result
	windward, leeward *Best
}

func newGrowing(c *charter, tell func(*Result)) *growing {
	g := &growing{charter: c, tell: tell, winds: make([]grownWind, len(c.winds))}
	for i := range c.winds {
		g.winds[i].points = make([]*trim.Result, len(c.winds[i].points))
	}
	return g
}

func (g *growing) point(wind, k int) {
	g.grown(func() { g.winds[wind].points[k] = g.charter.winds[wind].points[k] })
}

func (g *growing) sweep(i int) {
	g.grown(func() { copy(g.winds[i].points, g.charter.winds[i].points) })
}

func (g *growing) best(i int) {
	wind := &g.charter.winds[i/3]
	g.grown(func() {
		switch i % 3 {
		case 0:
			g.winds[i/3].windward = wind.windward
		case 1:
			g.winds[i/3].leeward = wind.leeward
		}
	})
}

// grown takes in what a step has found, and shows it.
func (g *growing) grown(take func()) {
	if g.tell == nil {
		return
	}
	g.mu.Lock()
	defer g.mu.Unlock()
	take()
	side := boat.Port
	if g.charter.base.WindFrom == boat.Starboard {
		side = boat.Starboard
	}
	res := &Result{Boat: g.charter.boat.Name, WindFrom: side.String(), Winds: []Wind{}}
	for i, w := range g.winds {
		wind := Wind{Speed: g.charter.winds[i].speed, Points: []Point{}, Crossovers: []Crossover{}, Gaps: []Gap{}}
		for _, p := range w.points {
			if p != nil {
				wind.Points = append(wind.Points, pointOf(p))
			}
		}
		for _, b := range []struct {
			from *Best
			to   *Best
		}{{w.windward, &wind.Windward}, {w.leeward, &wind.Leeward}} {
			b.to.Answer = trim.NoAnswer
			if b.from != nil {
				*b.to = *b.from
			}
		}
		res.Winds = append(res.Winds, wind)
	}
	g.tell(res)
}
