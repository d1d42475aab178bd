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

// sails makes the sails, each with a control for sheet and for twist, and one for
// flatten where the file opens it.
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
		b.boat.Sails = append(b.boat.Sails, s)
		for j, c := range sailControls {
			*c.of(&b.boat.Sails[i]) = b.sailControl(i, j, f)
		}
	}
	b.sailLinks()
}

// sailControl is one kind of control that sails have.
type sailControl struct {
	label string
	of    func(*boat.Sail) *int
	form  func(*sailForm) *sailControlForm
	kind  boat.ControlKind
	usual boat.Control // range and start where the file gives none; no range: then there is no control
}

var sailControls = [...]sailControl{
	{
		"sheet", func(s *boat.Sail) *int { return &s.Sheet }, func(f *sailForm) *sailControlForm { return &f.Sheet },
		boat.AngleControl, boat.Control{Lower: 0, Upper: 25 * float64(si.Degree), Start: 6 * float64(si.Degree)},
	},
	{
		"twist", func(s *boat.Sail) *int { return &s.Twist }, func(f *sailForm) *sailControlForm { return &f.Twist },
		boat.AngleControl, boat.Control{Lower: 0, Upper: 30 * float64(si.Degree), Start: 5 * float64(si.Degree)},
	},
	{
		"flatten", func(s *boat.Sail) *int { return &s.Flatten }, func(f *sailForm) *sailControlForm { return &f.Flatten },
		boat.ShareControl, boat.Control{},
	},
}

// sailControl makes one control of a sail and returns its index, −1 where there
// is none, or another sail's will do.
func (b *builder) sailControl(sail, which int, f *sailForm) int {
	kind := &sailControls[which]
	c := kind.form(f)
	if !c.given() && kind.usual.Fixed() {
		return -1
	}
	if c.With.given() {
		if c.Range.given() || c.Fixed.given() || c.Law.given() {
			b.faultAt(&c.With.site, "range and law are the other control's", "leave range:, fixed: and law: out")
		}
		return -1
	}
	name := b.boat.Sails[sail].Name
	at := &c.site
	spec := controlSpec{
		part: name, label: kind.label, name: name + " " + kind.label, kind: kind.kind,
		start: kind.usual.Start, path: below(f.path, kind.label),
	}
	if !kind.usual.Fixed() {
		spec.otherwise = &kind.usual
	}
	if !c.given() {
		at = &f.site
	}
	made := b.control(at, &c.controlKeys, spec)
	if made := &b.boat.Controls[made]; kind.kind == boat.ShareControl && !(made.Lower >= 0 && made.Upper <= 1) {
		b.faultAt(at, span(made.Lower, made.Upper, quantity.Share)+" reaches outside 0 to 100 %", "0 % is the sail as it is cut, 100 % one without camber")
	}
	return made
}

// sailLinks joins controls of sails that are set with another sail's.
func (b *builder) sailLinks() {
	for i := range b.form.Sails.items {
		for _, kind := range sailControls {
			with := &kind.form(&b.form.Sails.items[i].part).With
			if !with.given() {
				continue
			}
			var names []string
			for j := range b.boat.Sails {
				if c := *kind.of(&b.boat.Sails[j]); c >= 0 && j != i {
					names = append(names, b.boat.Controls[c].Name)
					if b.boat.Controls[c].Name == with.text {
						*kind.of(&b.boat.Sails[i]) = c
					}
				}
			}
			if *kind.of(&b.boat.Sails[i]) < 0 {
				b.faultAt(&with.site, fmt.Sprintf("no other sail's %s is called %q", kind.label, with.text), nearest(with.text, names))
			}
		}
	}
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
	own := &f.table
	c := boat.SailCoefficients{Name: boat.OwnTable}
	most := 180 * si.Degree
	switch own.Against.text {
	case "", boat.WindAngle.String():
	case boat.Incidence.String():
		c.Against, most = boat.Incidence, 90*si.Degree
	default:
		b.faultAt(&own.Against.site, fmt.Sprintf("%q is no angle that coefficients go by", own.Against.text),
			"write "+boat.WindAngle.String()+" or "+boat.Incidence.String())
	}
	if f.given() && len(own.Lines.items) == 0 {
		b.faultAt(&f.site, "the table has no line", "write one a line, angles rising:  27 deg: {lift: 1.5, drag: 0.03}")
	}
	for i := range own.Lines.items {
		item := &own.Lines.items[i]
		at := site{&node{text: item.name, place: item.place}, item.part.path}
		q, err := quantity.Parse(item.name, quantity.Angle)
		if err == nil && !q.Exact() {
			err = &quantity.Error{Problem: item.name + " has a spread, and an angle here has none"}
		}
		if err != nil {
			b.faults = append(b.faults, quantityFault(at.node, at.path, err))
			continue
		}
		if a := q.Likely; !(a >= 0 && a <= float64(most)*(1+1e-12)) {
			b.faultAt(&at, item.name+" lies outside 0 to "+shown(float64(most), quantity.Angle), "angles are told without a side")
		}
		if n := len(c.Angle); n > 0 && q.Likely <= c.Angle[n-1] {
			b.faultAt(&at, "stands after an angle that is not below it", "give the angles rising, each once")
		}
		c.Angle = append(c.Angle, min(q.Likely, float64(most)))
		c.Lift = append(c.Lift, b.coefficient(&item.part.Lift.figure, "a lift coefficient"))
		c.Drag = append(c.Drag, b.coefficient(&item.part.Drag.figure, "a drag coefficient"))
	}
	return c
}

// mostCoefficient is above any coefficient on a sail's own area.
const mostCoefficient = 10

// coefficient returns a coefficient of at least 0 and below 10.
func (b *builder) coefficient(f *figure, what string) float64 {
	v := b.atLeastZero(f, what)
	if v >= mostCoefficient {
		b.faultAt(&f.site, fmt.Sprintf("%g is too much for %s", v, what), fmt.Sprintf("coefficients are on the sail's own area, below %d", mostCoefficient))
	}
	return v
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
