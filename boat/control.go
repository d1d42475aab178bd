package boat

import (
	"fmt"
	"math"
	"sort"
)

// ControlKind is what a control's setting measures.
type ControlKind int

// The kinds of control.
const (
	AngleControl  ControlKind = iota // rad
	LengthControl                    // m
	ShareControl                     // 1
)

// Control is anything that the crew sets: a foil's movement, a flap, a weight
// that moves, a sheet.
type Control struct {
	Name         string // "starboard main cant": unique in the boat
	Part         string // "main": the part that it belongs to, without the side
	Label        string // "cant"
	Side         Side   // of the foil that it moves; Centre where it has none, or works both sides
	Kind         ControlKind
	Lower, Upper float64 // what it can be set to, SI; equal where it is fixed
	Start        float64 // where a search begins unless told otherwise
	Step         float64 // a small step of it, for scaling, SI
	Law          *Law    // the law that it follows, nil where it is free
}

// Fixed tells whether the control can take one setting only.
func (c *Control) Fixed() bool { return c.Lower == c.Upper }

// Law makes a control follow the ride height: straight lines between points,
// level beyond them, with the corners rounded.
type Law struct {
	RideHeight []float64 // m, rising
	Setting    []float64 // SI
}

// lawCorner is how far to either side of a point a law's corner is rounded, m, and
// lawShare the most of it over the interval to the next point. Judgement: the slack
// of a linkage. A search by slopes comes to rest on a corner where there is no best
// trim, and where a law ends at a limit of the ride height that corner is met often.
const (
	lawCorner = 0.02
	lawShare  = 0.25
)

// At returns the law's setting at a ride height, m. Its slope is continuous: each
// corner is a parabola that leaves the lines 20 mm to either side of the point (a
// quarter of the way to the next, where that is less) and passes it by a quarter of
// the change of slope times that.
func (l *Law) At(rideHeight float64) float64 {
	setting := l.straight(rideHeight)
	for i, at := range l.RideHeight {
		before, after := l.slope(i-1), l.slope(i)
		reach := lawCorner
		for _, k := range [2]int{i - 1, i} {
			if k >= 0 && k+1 < len(l.RideHeight) {
				reach = math.Min(reach, lawShare*(l.RideHeight[k+1]-l.RideHeight[k]))
			}
		}
		if off := math.Abs(rideHeight - at); off < reach {
			setting += (after - before) * (reach - off) * (reach - off) / (4 * reach)
		}
	}
	return setting
}

// slope returns that of the line from point i to the next; 0 beyond the ends.
func (l *Law) slope(i int) float64 {
	if i < 0 || i+1 >= len(l.RideHeight) {
		return 0
	}
	return (l.Setting[i+1] - l.Setting[i]) / (l.RideHeight[i+1] - l.RideHeight[i])
}

// straight returns the setting on the straight lines.
func (l *Law) straight(rideHeight float64) float64 {
	n := len(l.RideHeight)
	i := sort.SearchFloat64s(l.RideHeight, rideHeight)
	switch {
	case i == 0:
		return l.Setting[0]
	case i == n:
		return l.Setting[n-1]
	}
	t := (rideHeight - l.RideHeight[i-1]) / (l.RideHeight[i] - l.RideHeight[i-1])
	return l.Setting[i-1] + t*(l.Setting[i]-l.Setting[i-1])
}

// Control returns the index of the control called name.
func (b *Boat) Control(name string) (int, error) {
	for i := range b.Controls {
		if b.Controls[i].Name == name {
			return i, nil
		}
	}
	return -1, fmt.Errorf("%s has no control %q", b.Name, name)
}

// Starts returns each control's start setting.
func (b *Boat) Starts() []float64 {
	s := make([]float64, len(b.Controls))
	for i := range b.Controls {
		s[i] = math.Min(math.Max(b.Controls[i].Start, b.Controls[i].Lower), b.Controls[i].Upper)
	}
	return s
}

// Mirror returns the control that plays this one's part on the other side, and
// whether a mirrored boat has the setting with its sign turned: a rudder or a
// weight's y turns, a cant or a flap does not.
func (b *Boat) Mirror(control int) (other int, sign float64) {
	c := &b.Controls[control]
	sign = 1
	if c.Side == Centre && b.turnsOver(control) {
		sign = -1
	}
	for i := range b.Controls {
		o := &b.Controls[i]
		if c.Side != Centre && o.Part == c.Part && o.Label == c.Label && o.Side == c.Side.Other() {
			return i, sign
		}
	}
	return control, sign
}

// turnsOver tells whether a centre control changes sign in the mirror: a shift
// along y, or a turn about x or z that is not mirrored from side to side.
func (b *Boat) turnsOver(control int) bool {
	for i := range b.Weights {
		w := &b.Weights[i]
		if w.Shift[1] == control || w.Swing.Control == control && w.Swing.Axis.Y == 0 {
			return true
		}
	}
	turns := false
	for i := range b.Foils {
		for _, m := range b.Foils[i].Moves {
			if m.Control == control && m.Kind == Turn && math.Abs(m.Axis.Y) < 0.5 {
				turns = turns || !b.mirroredMove(control, m)
			}
		}
	}
	return turns
}

// mirroredMove tells whether the control moves another foil in the opposite
// sense, as a pair that splays out together does.
func (b *Boat) mirroredMove(control int, m Move) bool {
	for i := range b.Foils {
		for _, o := range b.Foils[i].Moves {
			if o.Control == control && o.Axis.X*m.Axis.X+o.Axis.Z*m.Axis.Z < 0 {
				return true
			}
		}
	}
	return false
}
