package balance

import (
	"fmt"
	"math"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/foil"
	"foilwright/frame"
	"foilwright/hull"
	"foilwright/sail"
	"foilwright/si"
)

// Conditions are what boats are compared in: wind, water and air.
type Conditions struct {
	Wind  fluid.Wind
	Water fluid.Water
	Air   fluid.Air
}

// WindFrom returns the side that the wind comes from.
func (c Conditions) WindFrom() boat.Side {
	if c.Wind.Angle < 0 {
		return boat.Starboard
	}
	return boat.Port
}

// Workspace is what one goroutine needs to balance boats. The zero value is ready.
type Workspace struct {
	Foil foil.Workspace
	Hull hull.Workspace
	Sail sail.Workspace

	items  []boat.Item
	groups [GroupCount][]boat.Item
}

// Spare returns an empty slice for the items of one group, over the memory that
// was kept for it.
func (w *Workspace) Spare(g Group) []boat.Item { return w.groups[g][:0] }

// Keep keeps the memory of a group's items for the next.
func (w *Workspace) Keep(g Group, items []boat.Item) { w.groups[g] = items }

// Hold keeps the state whose loads were asked for last, until Release: loads of states a
// tiny step away are then found from it, to first order in the step, in this workspace and
// in those that lean on it. An error is one of the water's loads.
func (w *Workspace) Hold() error {
	w.Sail.Hold()
	return w.Foil.Hold()
}

// Release lets go of the state that is held.
func (w *Workspace) Release() {
	w.Sail.Release()
	w.Foil.Release()
}

// LeanOn lets a workspace lean on another's held states. Both serve one goroutine.
func (w *Workspace) LeanOn(holder *Workspace) {
	w.Sail.LeanOn(&holder.Sail)
	w.Foil.LeanOn(&holder.Foil)
}

// Loads are all loads on a boat in a state.
type Loads struct {
	Items []boat.Item             // valid until the workspace is used again; Clone keeps them
	Sum   frame.Load[frame.Track] // about the datum
}

// Clone returns the loads with items of their own.
func (l Loads) Clone() Loads {
	l.Items = append([]boat.Item(nil), l.Items...)
	return l
}

// At returns every load on a boat in a state, with a set of sails up (an index
// of the boat's sets; −1 for none). The error tells that a load cannot be
// computed there: surfaces coincide, or a figure is not finite.
func At(b *boat.Boat, s boat.State, set int, c Conditions, w *Workspace) (Loads, error) {
	items := w.items[:0]
	l := Loads{Sum: frame.Load[frame.Track]{About: s.Attitude.Datum()}}
	for g := range GroupCount {
		before := len(items)
		var err error
		items, err = Append(g, b, s, set, c, w, items)
		w.items = items
		if err != nil {
			return Loads{}, err
		}
		l.Sum = l.Sum.Plus(SumOf(s, items[before:]))
	}
	l.Items = items
	if !l.Finite() {
		return Loads{}, fmt.Errorf("%s: loads are not finite at %.2f m/s", b.Name, s.Speed.MetresPerSecond())
	}
	return l, nil
}

// Finite tells whether the sum is made of finite numbers.
func (l Loads) Finite() bool {
	sum := l.Sum.Force.X + l.Sum.Force.Y + l.Sum.Force.Z + l.Sum.Moment.X + l.Sum.Moment.Y + l.Sum.Moment.Z
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}

// appendWeights appends a row for every weight, foil and body that has mass. The
// workspace may know where foils are, or is nil.
func appendWeights(b *boat.Boat, s boat.State, w *foil.Workspace, items []boat.Item) []boat.Item {
	pose := s.Attitude.Pose()
	hang := func(part string, mass float64, place frame.Point[frame.Boat]) {
		if mass != 0 {
			down := frame.Vec[frame.Track]{Z: -mass * si.Gravity}
			items = append(items, boat.Item{Part: part, Cause: boat.Gravity, Load: frame.ForceAt(down, pose.Point(place))})
		}
	}
	for i := range b.Weights {
		hang(b.Weights[i].Name, b.Weights[i].Mass, b.Weights[i].Place(s.Settings))
	}
	for i := range b.Foils {
		hang(b.Foils[i].Name, b.Foils[i].Mass, foil.MassPlace(b, &s, i, w))
	}
	for i := range b.Bodies {
		hang(b.Bodies[i].Name, b.Bodies[i].Mass, foil.BodyPlace(b, &s, i, w))
	}
	return items
}

// Residual writes the six sums as shares of weight and of weight times the
// boat's length: forces along x, y, z, then moments about x, y, z at the datum.
func Residual(b *boat.Boat, l Loads, out []float64) {
	weight := b.Weight()
	arm := weight * b.Length
	f, m := l.Sum.Force, l.Sum.Moment
	out[0], out[1], out[2] = f.X/weight, f.Y/weight, f.Z/weight
	out[3], out[4], out[5] = m.X/arm, m.Y/arm, m.Z/arm
}

// Equation names the six equations in the order of Residual.
func Equation(i int) string {
	return [6]string{"drive", "side force", "vertical force", "heel", "pitch", "yaw"}[i]
}
