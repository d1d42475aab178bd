package polar

import (
	"context"
	"slices"
	"testing"

	"foilwright/si"
	"foilwright/trim"
)

// charted returns the work on a polar before anything is searched.
func charted(t testing.TB, winds []si.Speed, angles []si.Angle) *charter {
	t.Helper()
	return newCharter(dinghy(t, ""), base(), winds, angles)
}

// The anchors are a cross of the first, the middle and the last of either; a boat that flies
// everywhere is looked at everywhere once, beside what was looked at before; and a place's guess
// is made of places that were searched before it.
func TestRounds(t *testing.T) {
	for winds := 1; winds < 6; winds++ {
		for angles := range 9 {
			c := charted(t, knots(10, 11, 12, 13, 14, 15)[:winds], degrees(40, 50, 60, 70, 80, 90, 100, 110, 120)[:angles])
			done := map[place]bool{}
			search := func(places []place) {
				for _, at := range places {
					if done[at] {
						t.Fatalf("%d winds, %d angles: %v is searched twice", winds, angles, at)
					}
					done[at] = true
					c.winds[at.wind].points[at.angle] = &trim.Result{Answer: trim.Found}
				}
				for _, at := range places {
					c.winds[at.wind].searched[at.angle] = true
				}
			}
			anchors := c.anchors()
			if want := min(3, winds) + min(3, angles) - 1; angles > 0 && len(anchors) != want {
				t.Errorf("%d winds, %d angles: %d anchors, want %d", winds, angles, len(anchors), want)
			}
			search(anchors)
			for places := c.reached(); len(places) > 0; places = c.reached() {
				for _, at := range places {
					for _, p := range c.guess(at).parents {
						if !done[p] {
							t.Errorf("%d winds, %d angles: the guess at %v is made of %v, which is not searched", winds, angles, at, p)
						}
					}
				}
				search(places)
			}
			if len(done) != winds*angles {
				t.Errorf("%d winds, %d angles: %d places are searched", winds, angles, len(done))
			}
		}
	}
}

// Where figures are linear in wind and angle a guess is right, however the grid is spaced.
func TestGuess(t *testing.T) {
	c := charted(t, knots(10, 11, 14), degrees(40, 45, 60))
	speed := func(at place) si.Speed {
		return c.winds[at.wind].speed + 3*si.Speed(c.winds[0].angles[at.angle])
	}
	for name, known := range map[string][]place{
		"on either side":         {{1, 0}, {1, 2}},
		"in winds on both sides": {{0, 1}, {2, 1}},
		"around a corner":        {{0, 1}, {1, 0}, {0, 0}},
	} {
		for i := range c.winds {
			clear(c.winds[i].searched)
		}
		for _, at := range known {
			c.winds[at.wind].points[at.angle] = &trim.Result{Answer: trim.Found, Speed: speed(at)}
			c.winds[at.wind].searched[at.angle] = true
		}
		g := c.guess(place{1, 1})
		if off := g.off(&trim.Result{Speed: speed(place{1, 1})}); off > 1e-12 {
			t.Errorf("%s: off by %.1e", name, off)
		}
		if !slices.ContainsFunc(known, func(p place) bool { return p == g.parents[0] }) || g.start == nil {
			t.Errorf("%s: made of %v", name, g.parents)
		}
	}
}

// Points that were followed from their neighbours are as fast as a search from all
// starts makes them, within 0.05 %.
func TestFollowedPointsLoseNothing(t *testing.T) {
	if testing.Short() {
		t.Skip("a row of a polar takes some seconds")
	}
	c := charted(t, knots(14), degrees(60, 70, 80, 90, 100, 110, 120, 130, 140))
	if err := c.grid(t.Context(), 1, func(place) {}); err != nil {
		t.Fatal(err)
	}
	var w trim.Workspace
	if err := c.sweep(t.Context(), 0, &w); err != nil {
		t.Fatal(err)
	}
	wind, followed := &c.winds[0], 0
	for k, p := range wind.points {
		if wind.parents[k] == nil {
			continue
		}
		followed++
		cold, err := trim.Best(context.Background(), c.boat, c.request(wind, trim.AtAngle, wind.angles[k]), &w)
		if err != nil {
			t.Fatal(err)
		}
		more := float64(cold.Speed/p.Speed) - 1
		t.Logf("at %.0f deg all starts find %+.2e", wind.angles[k].Degrees(), more)
		if more > agreement {
			t.Errorf("at %.0f deg all starts find %.3f %% more speed than the neighbours' answers", wind.angles[k].Degrees(), 100*more)
		}
	}
	if followed < 3 {
		t.Errorf("%d of %d points were followed: the test says little", followed, len(wind.points))
	}
}
