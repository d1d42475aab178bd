package trim

import (
	"fmt"
	"math"
	"slices"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/frame"
	"foilwright/si"
	"foilwright/solve"
)

// CarriedForce finds the side force carried: the horizontal force, at a height
// above the undisturbed water, m, that the boat can hold in the attitude of an
// answer. Speed, heel, pitch, ride height and every control that is a way of
// sailing (a cant, crew, ballast) stay as they are; the sails are replaced by
// that force and a thrust, both at the height, while the vertical force of a
// heeled rig stays as it is; leeway, flaps and rudders are free to close the
// other equations.
//
// It does not depend on the point that moments are taken about, and at the
// sails' own centre it is their side force. The error says that no such force closes the equations.
func CarriedForce(b *boat.Boat, res *Result, height float64, w *Workspace) (Carried, error) {
	if w == nil {
		w = new(Workspace)
	}
	w.fine.cut(res.Foil)
	c := carrying{boat: b, w: &w.fine.here, here: &w.fine.here, aside: &w.fine.aside, height: height, state: res.State.Clone(), conditions: res.Conditions}
	side := c.replaceSails(res)
	start := []float64{side / b.Weight(), res.HydroDragAngle.Sin() * math.Abs(side) / b.Weight(), res.Leeway.Radians()}
	c.pickClosers(res)
	if len(c.closers) < 3 {
		return Carried{}, fmt.Errorf("%s: flaps and rudders are on their bounds or fixed, so that no side force at %.1f m closes", b.Name, height)
	}
	jacobian := c.jacobian(start)
	chosen, rank, _, _ := solve.SelectColumns(jacobian, 6)
	if rank < 6 {
		return Carried{}, fmt.Errorf("%s: %s", b.Name, "flaps and rudders cannot close the equations with a side force alone")
	}
	c.chosen = chosen
	lower, upper, scale, x := c.box()
	slopes := make([][]float64, 6)
	for j := range slopes {
		for k, i := range chosen {
			slopes[j] = append(slopes[j], jacobian[j][i]/scale[k])
		}
	}
	out := solve.Newton(c.residual, x, lower, upper, scale, solve.RootOptions{Iterations: 40, Residual: 1e-10, Slopes: slopes})
	if !(out.Worst <= 1e-8) {
		return Carried{}, fmt.Errorf("%s: no side force at %.1f m above the water closes the equations in this attitude", b.Name, height)
	}
	c.write(out.X)
	force := math.Abs(c.unknowns[0]) * b.Weight()
	return Carried{Height: height, Force: force, Share: force / b.Weight()}, nil
}

// TellCarried puts the side force carried at a height above the undisturbed
// water, m, into an answer: 0 takes the sails' own centre of effort. Where no
// such force closes the equations, CarriedMissing says so in its place; where
// there is no answer, nothing is told.
func (res *Result) TellCarried(b *boat.Boat, height float64, w *Workspace) {
	res.SideForceCarried, res.CarriedForce, res.CarriedMissing = nil, 0, ""
	if res.Answer != Found && res.Answer != Stated {
		return
	}
	if height == 0 {
		var ok bool
		if height, ok = res.EffortHeight(); !ok {
			return
		}
	}
	carried, err := CarriedForce(b, res, height, w)
	if err != nil {
		res.CarriedMissing = err.Error()
		return
	}
	res.SideForceCarried, res.CarriedForce = &carried, carried.Force
}

// EffortHeight returns how high the sails' centre of effort is above the
// undisturbed water, m: each sail's, weighted with its lift. It is false where
// no sail pulls.
func (res *Result) EffortHeight() (height float64, ok bool) {
	pose := res.State.Attitude.Pose()
	sum := 0.0
	for i := range res.Sails {
		lift := math.Abs(res.Sails[i].Lift)
		sum += lift
		height += lift * pose.Point(res.Sails[i].CentreOfEffort).Z
	}
	if !(sum > 0) {
		return 0, false
	}
	return height / sum, true
}

// carrying is the small system of the side force carried. Its unknowns are side
// force and thrust over weight, leeway, then the closers' settings.
type carrying struct {
	boat       *boat.Boat
	w          *balance.Workspace // of the next evaluation: here, or aside where foils are moved a step
	here       *balance.Workspace
	aside      *balance.Workspace
	state      boat.State
	conditions balance.Conditions
	height     float64 // of side force and thrust above the water, m
	x, y       float64 // where they and the vertical force act, along and across the track, m
	vertical   float64 // of the sails, N, kept
	closers    []int   // controls
	chosen     []int   // of the unknowns
	unknowns   []float64
	touched    []balance.Groups // by each closer
	kept       [balance.GroupCount]keptSum
}

// keptSum is the sum of one group of loads, and the state it was taken in.
type keptSum struct {
	sum     frame.Load[frame.Track]
	leeway  si.Angle
	closers []float64
}

// holds tells whether a kept sum is that of a group in the present state: its leeway
// and what closers of the group are set to.
func (c *carrying) holds(g balance.Group) bool {
	k := &c.kept[g]
	if len(k.closers) != len(c.closers) || k.leeway != c.state.Attitude.Leeway {
		return false
	}
	for i, control := range c.closers {
		if c.touched[i][g] && k.closers[i] != c.state.Settings[control] {
			return false
		}
	}
	return true
}

// replaceSails notes where the sails act and their vertical force, and returns
// their side force, N: y is their centre of effort's, x the place from which side
// force and thrust turn the boat as the sails do.
func (c *carrying) replaceSails(res *Result) (side float64) {
	var total frame.Load[frame.Track]
	for i := range res.Loads {
		if isSail(res.Loads[i].Item) {
			total = total.Plus(res.Loads[i].Load)
		}
	}
	pose := res.State.Attitude.Pose()
	sum := 0.0
	for i := range res.Sails {
		lift := math.Abs(res.Sails[i].Lift)
		c.y += lift * pose.Point(res.Sails[i].CentreOfEffort).Y
		sum += lift
	}
	if sum > 0 {
		c.y /= sum
	}
	c.vertical = total.Force.Z
	if total.Force.Y != 0 {
		c.x = (total.Moment.Z + c.y*total.Force.X) / total.Force.Y
	}
	return total.Force.Y
}

func isSail(item string) bool {
	for _, c := range [3]boat.Cause{boat.SailLift, boat.SailInduced, boat.SailSection} {
		if item == c.String() {
			return true
		}
	}
	return false
}

// pickClosers takes the controls of fine trim that are off their bounds.
func (c *carrying) pickClosers(res *Result) {
	for i := range c.boat.Controls {
		set := &res.Controls[i]
		if set.State == "free" && closesWater(c.boat, i, set.Upper-set.Lower) {
			c.closers, c.touched = append(c.closers, i), append(c.touched, balance.Touched(c.boat, i))
		}
	}
	c.unknowns = make([]float64, 3+len(c.closers))
}

// closesWater tells whether a control is a flap, or turns a foil over a small range.
func closesWater(b *boat.Boat, control int, reach float64) bool {
	if b.Controls[control].Kind != boat.AngleControl {
		return false
	}
	for i := range b.Foils {
		for _, m := range b.Foils[i].Moves {
			if m.Control == control {
				return reach <= widestFineTrim
			}
		}
		for j := range b.Foils[i].Pieces {
			if b.Foils[i].Pieces[j].Flap.Share > 0 && b.Foils[i].Pieces[j].Flap.Control == control {
				return true
			}
		}
	}
	return false
}

func (c *carrying) write(y []float64) {
	for k, i := range c.chosen {
		c.unknowns[i] = y[k]
	}
}

// sums evaluates the six equations at the unknowns.
func (c *carrying) sums(r []float64) bool {
	s := &c.state
	s.Attitude.Leeway = si.Angle(c.unknowns[2])
	for k, i := range c.closers {
		s.Settings[i] = c.unknowns[3+k]
	}
	var loads balance.Loads
	loads.Sum.About = s.Attitude.Pose().Origin
	for g := range balance.GroupCount {
		if !c.holds(g) {
			items, err := balance.Append(g, c.boat, *s, -1, c.conditions, c.w, c.w.Spare(g))
			if err != nil {
				return false
			}
			c.w.Keep(g, items)
			k := &c.kept[g]
			k.sum, k.leeway, k.closers = balance.SumOf(*s, items), s.Attitude.Leeway, k.closers[:0]
			for _, control := range c.closers {
				k.closers = append(k.closers, s.Settings[control])
			}
		}
		loads.Sum = loads.Sum.Plus(c.kept[g].sum)
	}
	if !loads.Finite() {
		return false
	}
	weight := c.boat.Weight()
	push := frame.ForceAt(frame.Vec[frame.Track]{X: c.unknowns[1] * weight, Y: c.unknowns[0] * weight, Z: c.vertical},
		frame.Point[frame.Track]{X: c.x, Y: c.y, Z: c.height})
	loads.Sum = loads.Sum.Plus(push)
	balance.Residual(c.boat, loads, r)
	return true
}

func (c *carrying) residual(y, r []float64) bool {
	c.write(y)
	return c.sums(r)
}

// jacobian takes differences over all unknowns, scaled.
func (c *carrying) jacobian(start []float64) [][]float64 {
	copy(c.unknowns, start)
	for k, i := range c.closers {
		c.unknowns[3+k] = c.state.Settings[i]
	}
	rows := make([][]float64, 6)
	base, moved := make([]float64, 6), make([]float64, 6)
	if c.sums(base) && c.here.Foil.Hold() == nil { // without, slopes cost more and are the same
		defer c.here.Foil.Release()
	}
	unmoved := c.kept
	for g := range unmoved {
		unmoved[g].closers = slices.Clone(unmoved[g].closers)
	}
	defer func() { c.w, c.kept = c.here, unmoved }()
	for j := range rows {
		rows[j] = make([]float64, len(c.unknowns))
	}
	for i := range c.unknowns {
		c.w = c.here
		if c.movesFoil(i) {
			c.w = c.aside
		}
		step := difference * c.scaleOf(i)
		old := c.unknowns[i]
		c.unknowns[i] = old + step
		ok := c.sums(moved)
		for j := range rows {
			if ok {
				rows[j][i] = (moved[j] - base[j]) / step * c.scaleOf(i)
			}
		}
		c.unknowns[i] = old
	}
	return rows
}

// movesFoil tells whether an unknown changes where foils stand in the water.
func (c *carrying) movesFoil(i int) bool {
	return i == 2 || i > 2 && movesFoil(c.boat, c.closers[i-3]) == changesGeometry
}

func (c *carrying) scaleOf(i int) float64 {
	switch {
	case i < 2:
		return 0.1
	case i == 2:
		return 0.01
	}
	return c.boat.Controls[c.closers[i-3]].Step
}

func (c *carrying) box() (lower, upper, scale, x []float64) {
	for _, i := range c.chosen {
		low, high := -math.MaxFloat64, math.MaxFloat64
		if i == 2 {
			low, high = -widestLeeway.Radians(), widestLeeway.Radians()
		}
		lower, upper = append(lower, low), append(upper, high)
		scale, x = append(scale, c.scaleOf(i)), append(x, c.unknowns[i])
	}
	return lower, upper, scale, x
}
