package section

import (
	"fmt"
	"math"

	"foilwright/si"
)

// DragTable is a section's profile drag as its user knows it, from a test or a
// calculation of his own: the drag coefficient on the chord over lift
// coefficient, Reynolds number on the chord and flap angle. [ReadDragTable] makes
// one. It never changes and may be shared between goroutines.
type DragTable struct {
	Name string
	// flapped tells a table with a flap column from one without.
	flapped bool
	drags   *grid // ln drag over lift, ln Reynolds number, flap angle in radians
}

// logReynolds is the logarithm of a Reynolds number, finite down to rest.
func logReynolds(reynolds float64) float64 { return math.Log(math.Hypot(reynolds, 1)) }

// hair is how far outside its ends a table still counts as covering, over
// rounding of units and logarithms.
const hair = 1e-9

// Drag returns the drag coefficient at a lift coefficient, a Reynolds number and
// a flap angle (not looked at where the table has no flap column).
//
// Between its points the logarithm of drag is a cubic in lift, in the logarithm
// of Reynolds number and in flap angle, which along each row of the table never
// leaves the range between neighbouring points (slopes by Fritsch, Butland
// 1984): a power of Reynolds number is met exactly, and drag is always positive.
// Past the ends the curve's slope falls to nothing over one more step of the
// table, and drag stays there: such values are a guess, of which
// [DragTable.Covers] warns. Value and first derivatives are continuous
// everywhere. A table with one Reynolds number has the same drag at all.
func (t *DragTable) Drag(lift, reynolds float64, flap si.Angle) float64 {
	return math.Exp(t.drags.at(lift, logReynolds(reynolds), flap.Radians()))
}

// Covers tells whether a place lies within the table. A table with one Reynolds
// number covers no other; one without flap column covers no flap angle but zero.
func (t *DragTable) Covers(lift, reynolds float64, flap si.Angle) bool {
	log := logReynolds(reynolds)
	return t.drags.axes[0].covers(lift) && t.drags.axes[1].covers(log) && t.drags.axes[2].covers(flap.Radians())
}

// Range returns the ends of the table.
func (t *DragTable) Range() (least, most DragPlace) {
	end := func(of func(axis) float64) DragPlace {
		a := t.drags.axes
		return DragPlace{of(a[0]), math.Exp(of(a[1])), si.Angle(of(a[2]))}
	}
	return end(func(a axis) float64 { return a[0] }), end(func(a axis) float64 { return a[len(a)-1] })
}

// DragPlace is a place in a [DragTable]: coefficients on the chord, the Reynolds
// number on it, and the flap angle, positive trailing edge towards the lower side.
type DragPlace struct {
	Lift, Reynolds float64
	Flap           si.Angle
}

func (t *DragTable) equal(o *DragTable) bool {
	if t == o || t == nil || o == nil {
		return t == o
	}
	return t.Name == o.Name && t.flapped == o.flapped && t.drags.equal(o.drags)
}

// WithDragTable returns the section with its profile drag taken from a table of
// its user, nil for none: see [Section.DragParts]. The table stays with
// [Section.WithLargestLift]; [Section.Scaled] makes another section, which has
// none.
func (s Section) WithDragTable(t *DragTable) Section {
	s.table = t
	return s
}

// DragTable returns the section's drag table, nil for none.
func (s Section) DragTable() *DragTable { return s.table }

// tabled adds the drag by the section's table to the parts that flap and stall
// make, where shift is what the flap adds to the ideal lift.
func (s *Section) tabled(parts DragParts, lift, reynolds float64, flap Flap, shift float64) DragParts {
	if s.table.flapped {
		parts.Friction, parts.Flap = s.table.Drag(lift, reynolds, flap.Deflection), 0
		return parts
	}
	parts.Friction = s.table.Drag(lift-shift, reynolds, 0)
	return parts
}

// String names the table and what it covers.
func (t *DragTable) String() string {
	a, b := t.Range()
	text := fmt.Sprintf("%s: lift %.3g to %.3g, reynolds %.3g to %.3g", t.Name, a.Lift, b.Lift, a.Reynolds, b.Reynolds)
	if t.flapped {
		text += fmt.Sprintf(", flap %.3g to %.3g deg", a.Flap.Degrees(), b.Flap.Degrees())
	}
	return text
}
