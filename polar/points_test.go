package polar

import (
	"testing"

	"foilwright/si"
	"foilwright/trim"
)

// Every point is searched once, after the two that its answer may be carried from,
// which lie on either side of it; the ends and the middle are searched for themselves.
func TestLevels(t *testing.T) {
	for n := range 40 {
		level := make([]int, n)
		for l, nodes := range levels(n) {
			for _, p := range nodes {
				if level[p.at] != 0 {
					t.Fatalf("%d points: point %d is searched twice", n, p.at)
				}
				level[p.at] = l + 1
				if l == 0 && (p.before != -1 || p.after != -1) {
					t.Errorf("%d points: point %d of the first level has neighbours", n, p.at)
				}
				if l > 0 && !(p.before < p.at && p.at < p.after && level[p.before] > 0 && level[p.before] <= l && level[p.after] > 0 && level[p.after] <= l) {
					t.Errorf("%d points: point %d on level %d is carried from %d and %d", n, p.at, l, p.before, p.after)
				}
			}
		}
		for k, l := range level {
			if l == 0 {
				t.Errorf("%d points: point %d is never searched", n, k)
			}
		}
		if n > 0 && (level[0] != 1 || level[n-1] != 1 || level[(n-1)/2] != 1) {
			t.Errorf("%d points: an end or the middle is not searched for itself", n)
		}
	}
}

// Points on which their neighbours' answers agreed are as fast as a search from all
// starts makes them, within 0.05 %.
func TestAgreedPointsLoseNothing(t *testing.T) {
	if testing.Short() {
		t.Skip("a row of a polar takes some seconds")
	}
	b := dinghy(t, "")
	angles := degrees(60, 70, 80, 90, 100, 110, 120, 130, 140)
	wind := windWork{speed: 14 * si.Knot, angles: angles, points: make([]*trim.Result, len(angles)), agreed: make([][2]int, len(angles))}
	c := &charter{boat: b, base: base(), winds: []windWork{wind}}
	c.base.Why = trim.Shortfalls
	var w trim.Workspace
	for _, level := range levels(len(angles)) {
		for _, n := range level {
			if err := c.point(t.Context(), &c.winds[0], n, &w); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := c.sweep(t.Context(), 0, &w); err != nil {
		t.Fatal(err)
	}
	agreed := 0
	for k, p := range c.winds[0].points {
		if c.winds[0].agreed[k] == [2]int{} {
			continue
		}
		agreed++
		cold, err := trim.Best(t.Context(), b, c.request(&c.winds[0], trim.AtAngle, angles[k]), &w)
		if err != nil {
			t.Fatal(err)
		}
		more := float64(cold.Speed/p.Speed) - 1
		t.Logf("at %.0f deg all starts find %+.2e", angles[k].Degrees(), more)
		if more > agreement {
			t.Errorf("at %.0f deg all starts find %.3f %% more speed than the neighbours' answers", angles[k].Degrees(), 100*more)
		}
	}
	if agreed < 3 {
		t.Errorf("%d of %d points agreed: the test says little", agreed, len(angles))
	}
}
