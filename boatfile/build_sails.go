package boatfile

import (
	"fmt"
	"math"
	"strings"

	"foilwright/boat"
	"foilwright/quantity"
	"foilwright/sail"
	"foilwright/si"
)

// sails makes the sails, each with a control for sheet and for twist.
func (b *builder) sails() {
	for i := range b.form.Sails.items {
		item := &b.form.Sails.items[i]
		f := &item.part
		s := boat.Sail{
			Name: item.name, Luff: b.positive(&f.Luff.figure, "a length"), Foot: b.positive(&f.Foot.figure, "a length"),
			Area: b.positive(&f.Area.figure, "an area"), Tack: b.point(&f.Tack), Lean: si.Angle(b.value(&f.Lean.figure)),
		}
		if !f.Lean.given() {
			b.assume(below(f.path, "lean"), "0 deg", "the file gives none")
		}
		s.Coefficients = b.coefficients(&f.Coefficients)
		s.Sheet = b.sailControl(item.name, "sheet", f, &f.Sheet, boat.Control{Lower: 0, Upper: 25 * float64(si.Degree), Start: 6 * float64(si.Degree)})
		s.Twist = b.sailControl(item.name, "twist", f, &f.Twist, boat.Control{Lower: 0, Upper: 30 * float64(si.Degree), Start: 5 * float64(si.Degree)})
		b.boat.Sails = append(b.boat.Sails, s)
	}
}

func (b *builder) sailControl(name, label string, f *sailForm, c *controlForm, usual boat.Control) int {
	at := &c.site
	if !c.given() {
		at = &f.site
	}
	return b.control(at, &c.controlKeys, controlSpec{
		part: name, label: label, name: name + " " + label, kind: boat.AngleControl,
		start: usual.Start, otherwise: &usual, path: below(f.path, label),
	})
}

// coefficients returns a sail's coefficients, from a published table or its own.
func (b *builder) coefficients(f *coefficientsForm) boat.SailCoefficients {
	if f.name.given() {
		c, err := sail.Coefficients(f.name.text)
		if err != nil {
			b.faultErr(&f.name.site, err)
		}
		return c
	}
	c := boat.SailCoefficients{Name: "own table"}
	for i := range f.table.items {
		item := &f.table.items[i]
		q, err := quantity.Parse(item.name, quantity.Angle)
		if err != nil {
			b.faults = append(b.faults, quantityFault(&node{text: item.name, place: item.place}, item.part.path, err))
			continue
		}
		c.Angle = append(c.Angle, q.Likely)
		c.Lift = append(c.Lift, b.atLeastZero(&item.part.Lift.figure, "a lift coefficient"))
		c.Drag = append(c.Drag, b.atLeastZero(&item.part.Drag.figure, "a drag coefficient"))
	}
	return c
}

// sets makes the sets of sails.
func (b *builder) sets() {
	sails := b.form.Sails.names()
	for i := range b.form.Sets.items {
		item := &b.form.Sets.items[i]
		set := boat.Set{Name: item.name}
		for j := range item.part.names {
			w := &item.part.names[j]
			at := b.form.Sails.find(w.text)
			switch {
			case at < 0:
				b.faultAt(&w.site, fmt.Sprintf("no sail is called %q", w.text), nearest(w.text, sails))
			case containsInt(set.Sails, at):
				b.faultAt(&w.site, w.text+" is in the set a second time", "leave it out once")
			default:
				set.Sails = append(set.Sails, at)
			}
		}
		b.boat.Sets = append(b.boat.Sets, set)
	}
	if len(b.boat.Sets) == 0 && len(sails) > 0 {
		set := boat.Set{Name: "all"}
		for i := range sails {
			set.Sails = append(set.Sails, i)
		}
		b.boat.Sets = append(b.boat.Sets, set)
		b.assume("sets", "all: ["+strings.Join(sails, ", ")+"]", "the file names no sets")
	}
}

func containsInt(list []int, v int) bool {
	for _, have := range list {
		if have == v {
			return true
		}
	}
	return false
}

// modes makes what the crew may combine.
func (b *builder) modes() {
	setNames := namesOf(b.boat.Sets, func(s *boat.Set) string { return s.Name })
	for i := range b.form.Modes.items {
		item := &b.form.Modes.items[i]
		m := boat.Mode{Name: item.name, Limits: b.limits(&item.part.Limits, below(item.part.path, "limits"))}
		for j := range item.part.Sets.names {
			w := &item.part.Sets.names[j]
			at := -1
			for k := range b.boat.Sets {
				if b.boat.Sets[k].Name == w.text {
					at = k
				}
			}
			if at < 0 {
				b.faultAt(&w.site, fmt.Sprintf("no set is called %q", w.text), nearest(w.text, setNames))
				continue
			}
			m.Sets = append(m.Sets, at)
		}
		for j := range item.part.Parts.items {
			p := &item.part.Parts.items[j]
			at := site{&node{text: p.name, place: p.place}, below(item.part.path, p.name)}
			m.Ranges = append(m.Ranges, b.modeRanges(&at, p.name, &p.part)...)
		}
		b.boat.Modes = append(b.boat.Modes, m)
	}
	if len(b.boat.Modes) == 0 {
		b.boat.Modes = []boat.Mode{{Name: "any"}}
		b.assume("modes", "any: every set, every control in all of its range", "the file names no modes")
	}
}

// modeRanges reads narrower ranges for a part's controls.
func (b *builder) modeRanges(at *site, text string, f *named[setting]) []boat.ModeRange {
	bearing, part := boat.AnyBearing, text
	for _, try := range [...]boat.Bearing{boat.Windward, boat.Leeward} {
		if rest, ok := strings.CutPrefix(text, try.String()+" "); ok {
			bearing, part = try, rest
		}
	}
	var labels, parts []string
	sided := false
	for i := range b.boat.Controls {
		c := &b.boat.Controls[i]
		parts = append(parts, c.Part)
		if c.Side != boat.Centre {
			parts = append(parts, "windward "+c.Part, "leeward "+c.Part)
		}
		if c.Part == part {
			labels = append(labels, c.Label)
			sided = sided || c.Side != boat.Centre
		}
	}
	if len(labels) == 0 {
		b.faultAt(at, fmt.Sprintf("no part with controls is called %q", text), nearest(text, namesOf(parts, func(s *string) string { return *s })))
		return nil
	}
	if bearing != boat.AnyBearing && !sided {
		b.faultAt(at, fmt.Sprintf("%s is on the centreplane and neither windward nor leeward", part), "write  "+part+": {…}")
		return nil
	}
	var out []boat.ModeRange
	for i := range f.items {
		item := &f.items[i]
		r := boat.ModeRange{Bearing: bearing, Part: part, Label: item.name}
		c := b.labelled(part, item.name)
		if c == nil {
			key := site{&node{text: item.name, place: item.place}, item.part.path}
			b.faultAt(&key, fmt.Sprintf("%s has no control called %q", part, item.name), nearest(item.name, labels))
			continue
		}
		r.Label = c.Label
		want := dimensionOf(c.Kind)
		r.Lower, r.Upper = b.ranged(&item.part, want)
		r.Lower, r.Upper = math.Max(r.Lower, -math.MaxFloat64), math.Min(r.Upper, math.MaxFloat64)
		for _, v := range [...]float64{r.Lower, r.Upper} {
			if math.Abs(v) < math.MaxFloat64 {
				b.inside(&item.part, v, c, "setting")
			}
		}
		out = append(out, r)
	}
	return out
}

// labelled returns a control of a part by its label, or by its name without the side.
func (b *builder) labelled(part, label string) *boat.Control {
	for i := range b.boat.Controls {
		c := &b.boat.Controls[i]
		if c.Part != part {
			continue
		}
		if c.Label == label || c.Name == label || c.Side != boat.Centre && c.Name == c.Side.String()+" "+label {
			return c
		}
	}
	return nil
}

// limitKinds are the limits with the dimension of each.
var limitKinds = [...]struct {
	kind boat.LimitKind
	want quantity.Dimension
}{
	{boat.LimitHeel, quantity.Angle}, {boat.LimitPitch, quantity.Angle}, {boat.LimitLeeway, quantity.Angle},
	{boat.LimitRideHeight, quantity.Length}, {boat.LimitTipDepth, quantity.Length}, {boat.LimitSheetLoad, quantity.Force},
	{boat.LimitCavitation, quantity.Number}, {boat.LimitVentilation, quantity.Angle},
	{boat.LimitRootBending, quantity.Moment}, {boat.LimitHingeMoment, quantity.Moment}, {boat.LimitSpeed, quantity.Speed},
}

// limits reads bounds: a limit by name, or a part's by the part and the name.
func (b *builder) limits(f *limitsForm, path string) []boat.Limit {
	var out []boat.Limit
	for i := range f.items {
		item := &f.items[i]
		at := site{&node{text: item.name, place: item.place}, below(path, item.name)}
		l, want, ok := limitNamed(item.name)
		if !ok {
			var names []string
			for _, k := range limitKinds {
				names = append(names, k.kind.String())
			}
			b.faultAt(&at, "no limit is called so", nearest(item.name, names))
			continue
		}
		if l.Part != "" && !b.isPart(l.Part) {
			b.faultAt(&at, fmt.Sprintf("no part is called %q", l.Part), "write the limit alone for all parts, or a sail's or foil's name before it")
			continue
		}
		l.Lower, l.Upper = b.ranged(&item.part, want)
		out = append(out, l)
	}
	return out
}

func limitNamed(text string) (boat.Limit, quantity.Dimension, bool) {
	for _, k := range limitKinds {
		if text == k.kind.String() {
			return boat.Limit{Kind: k.kind}, k.want, true
		}
		if part, ok := strings.CutSuffix(text, " "+k.kind.String()); ok {
			return boat.Limit{Kind: k.kind, Part: part}, k.want, true
		}
	}
	return boat.Limit{}, 0, false
}

// isPart tells whether a sail, a foil, a kind of foil or a body is called so.
func (b *builder) isPart(name string) bool {
	for i := range b.boat.Foils {
		if b.boat.Foils[i].Name == name || b.boat.Foils[i].Kind == name {
			return true
		}
	}
	return b.form.Sails.find(name) >= 0 || b.form.Foils.find(name) >= 0
}
