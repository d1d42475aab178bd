package trim

import (
	"math"
	"testing"

	"foilwright/boat"
)

// A sketch asked for other prices tells what one taken afresh with them tells, and one that
// takes the water from another of the same mode with other sails what it would have found.
func TestSketchServesAgain(t *testing.T) {
	b := readExample(t, "../examples/which-foil/sorrel.yaml")
	r := usual(17)
	r.Mode = "one foil"
	all, err := ways(b, &r)
	if err != nil || len(all) < 2 || all[0].set == all[1].set {
		t.Fatalf("one mode with two sets is wanted: %v, %v", all, err)
	}
	w := &Workspace{}
	var problems [2]*problem
	for i := range problems {
		if problems[i], err = newSearch(b, &r, all[i], &w.coarse, rough(), w); err != nil {
			t.Fatal(err)
		}
	}
	p, other := problems[0], problems[1]
	s := boat.State{Settings: make([]float64, len(b.Controls))}
	x := p.starts()[0]
	angle := p.state(x, &s)
	n := len(x)
	prices := func(p *problem, shift float64) []float64 {
		price := make([]float64, 6+len(p.rows))
		for i := range price {
			price[i] = math.Sin(float64(i) + shift)
		}
		return price
	}
	first, second, afresh := make([]float64, n*n), make([]float64, n*n), make([]float64, n*n)
	if !p.curvature(x, prices(p, 0), true, first) || !p.curvature(x, prices(p, 1), false, second) || !p.curvature(x, prices(p, 1), true, afresh) {
		t.Fatal("there is no curvature")
	}
	for i := range second {
		if second[i] != afresh[i] {
			t.Fatalf("entry %d is %g from what was kept, %g afresh", i, second[i], afresh[i])
		}
	}
	theirs := other.vector(s, angle)
	n = len(theirs)
	own, lent := make([]float64, n*n), make([]float64, n*n)
	if !other.curvature(theirs, prices(other, 2), true, own) {
		t.Fatal("there is no curvature")
	}
	other.sketch, other.kin = nil, p.sketch
	if !other.curvature(theirs, prices(other, 2), true, lent) {
		t.Fatal("there is no curvature from the kin's water")
	}
	most := 0.0
	for _, v := range own {
		most = math.Max(most, math.Abs(v))
	}
	for i := range own {
		if math.Abs(own[i]-lent[i]) > 1e-6*most {
			t.Errorf("entry %d is %g with the kin's water, %g with its own; the largest is %g", i, lent[i], own[i], most)
		}
	}
}

// A way of sailing that is left early would have ended as far behind as it is held to.
func TestLeftEarlyIsFarBehind(t *testing.T) {
	b := readExample(t, "../examples/which-foil/sorrel.yaml")
	r := usual(17)
	best := found(t, b, r)
	left := 0
	for _, o := range best.Others {
		if !o.LeftEarly {
			continue
		}
		left++
		alone := r
		alone.Mode, alone.Set = o.Mode, o.Set
		if end := found(t, b, alone); float64(end.Progress()) > outdone*float64(best.Progress()) {
			t.Errorf("%s with %s sails was left early and makes %.3f m/s alone, %.3f is the best", o.Mode, o.Set, float64(end.Progress()), float64(best.Progress()))
		}
	}
	if left == 0 {
		t.Error("no way was left early: there is nothing to hold")
	}
}
