package boatfile

import (
	"fmt"
	"math"
	"strings"

	"foilwright/boat"
	"foilwright/quantity"
	"foilwright/si"
)

// Small steps of controls, for scaling, where the file gives none. Judgement.
const (
	stepAngle  = 0.5 * float64(si.Degree)
	stepLength = 0.05
	stepShare  = 0.02
)

// dimensionOf returns the dimension of a control's settings.
func dimensionOf(k boat.ControlKind) quantity.Dimension {
	return [...]quantity.Dimension{
		boat.AngleControl: quantity.Angle, boat.LengthControl: quantity.Length, boat.ShareControl: quantity.Share,
	}[k]
}

// controlSpec is what the part that makes a control knows of it.
type controlSpec struct {
	part, label string
	name        string // without the side
	side        boat.Side
	paired      bool // one of two: the side goes before its name
	kind        boat.ControlKind
	start       float64       // where the file gives none
	otherwise   *boat.Control // range where the file gives none; nil where it must
	path        string        // for what is assumed
}

// control adds a control and returns its index.
func (b *builder) control(s *site, k *controlKeys, spec controlSpec) int {
	c := boat.Control{
		Name: spec.name, Part: spec.part, Label: spec.label, Side: spec.side, Kind: spec.kind,
		Step: [...]float64{boat.AngleControl: stepAngle, boat.LengthControl: stepLength, boat.ShareControl: stepShare}[spec.kind],
	}
	if k.Name.given() && k.Name.text != "" {
		c.Name = k.Name.text
	}
	if spec.paired {
		c.Name = spec.side.String() + " " + c.Name
	}
	want := dimensionOf(spec.kind)
	switch {
	case k.Range.given() && k.Fixed.given():
		b.faultAt(&k.Fixed.site, "range and fixed cannot both be given", "keep one of them; one that is inherited goes with  range: none  or  fixed: none")
		c.Lower, c.Upper = b.bounded(&k.Range, want)
	case k.Range.given():
		c.Lower, c.Upper = b.bounded(&k.Range, want)
	case k.Fixed.given():
		c.Lower = b.setting(&k.Fixed, want)
		c.Upper = c.Lower
	case spec.otherwise != nil:
		c.Lower, c.Upper = spec.otherwise.Lower, spec.otherwise.Upper
		b.assume(spec.path, span(c.Lower, c.Upper, want)+", start "+shown(spec.start, want), "usual")
	default:
		b.faultUnder(s, "range", "is missing", "write  range: A to B  or  fixed: A  with a unit such as "+want.Units()[0])
	}
	c.Start = math.Min(math.Max(spec.start, c.Lower), c.Upper)
	if k.Start.given() {
		c.Start = b.setting(&k.Start, want)
		b.inside(&k.Start, c.Start, &c, "start")
	}
	if k.Step.given() {
		if c.Step = b.setting(&k.Step, want); !(c.Step > 0) {
			b.faultAt(&k.Step.site, "a step must be above 0", "")
		}
	}
	if k.Law.given() {
		c.Law = b.law(&k.Law, &c)
	}
	b.boat.Controls = append(b.boat.Controls, c)
	where := *s
	if k.Name.given() {
		where = k.Name.site
	}
	b.made = append(b.made, where)
	return len(b.boat.Controls) - 1
}

// inside faults a setting that its control cannot take.
func (b *builder) inside(s *setting, v float64, c *boat.Control, what string) {
	want := dimensionOf(c.Kind)
	slack := 1e-9 * (1 + math.Abs(c.Upper-c.Lower))
	if v < c.Lower-slack || v > c.Upper+slack {
		hint := "keep inside its range, or widen that"
		if c.Fixed() {
			hint = c.Name + " is fixed: leave it out here, or give it a range"
		}
		b.faultAt(&s.site, fmt.Sprintf("%s %s lies outside %s of %s", what, shown(v, want), span(c.Lower, c.Upper, want), c.Name), hint)
	}
}

// shown writes an SI value in its usual unit, for faults and assumptions.
func shown(v float64, d quantity.Dimension) string { return shownIn(v, d, usualUnit(d)) }

// shownIn writes an SI value in a unit, with four digits or fewer where they say
// all of it.
func shownIn(v float64, d quantity.Dimension, unit string) string {
	four := quantity.Format(v, d, unit, quantity.Significant(4))
	if exact := (quantity.Quantity{Likely: v, Dimension: d, Unit: unit}).String(); len(exact) < len(four) {
		return exact
	}
	return four
}

func usualUnit(d quantity.Dimension) string {
	if units := d.Units(); len(units) > 0 {
		return units[0]
	}
	return ""
}

func span(low, high float64, d quantity.Dimension) string {
	if low == high {
		return shown(low, d)
	}
	number, _, _ := strings.Cut(shown(low, d), " ")
	return number + " to " + shown(high, d)
}

// setting reads one value, which may be uncertain, SI.
func (b *builder) setting(s *setting, want quantity.Dimension) float64 {
	if !s.given() {
		return 0
	}
	var d decoder
	var f figure
	f.readAs(&d, s.node, s.path, want)
	b.faults = append(b.faults, d.faults...)
	if len(d.faults) > 0 {
		return 0
	}
	return b.value(&f)
}

// ranged reads a range, SI; infinite where it is open.
func (b *builder) ranged(s *setting, want quantity.Dimension) (low, high float64) {
	if !s.given() {
		return 0, 0
	}
	if s.node.kind != scalar {
		b.faultAt(&s.site, s.node.kind.String()+" stands here, a range is wanted", "write  A to B  with a unit")
		return 0, 0
	}
	r, err := quantity.ParseRange(s.node.text, want)
	if err != nil {
		b.faults = append(b.faults, quantityFault(s.node, s.path, err))
		return 0, 0
	}
	return r.Low, r.High
}

// bounded reads a range that is open on neither side.
func (b *builder) bounded(s *setting, want quantity.Dimension) (low, high float64) {
	low, high = b.ranged(s, want)
	if math.IsInf(low, 0) || math.IsInf(high, 0) {
		b.faultAt(&s.site, s.node.text+" is open on one side", "write  A to B")
		return 0, 0
	}
	return low, high
}

// law reads settings against ride height.
func (b *builder) law(f *lawForm, c *boat.Control) *boat.Law {
	law := &boat.Law{}
	for i := range f.RideHeight.items {
		item := &f.RideHeight.items[i]
		h, err := quantity.Parse(item.name, quantity.Length)
		at := site{&node{text: item.name, place: item.place}, item.part.path}
		if err != nil || !h.Exact() {
			if err == nil {
				err = &quantity.Error{Problem: item.name + " has a spread, and a ride height here has none"}
			}
			b.faults = append(b.faults, quantityFault(at.node, at.path, err))
			continue
		}
		if n := len(law.RideHeight); n > 0 && h.Likely <= law.RideHeight[n-1] {
			b.faultAt(&at, "stands after a ride height that is not below it", "give the ride heights rising, each once")
			continue
		}
		v := b.setting(&item.part, dimensionOf(c.Kind))
		b.inside(&item.part, v, c, "setting")
		law.RideHeight, law.Setting = append(law.RideHeight, h.Likely), append(law.Setting, v)
	}
	if len(law.RideHeight) == 0 {
		if f.RideHeight.given() && len(f.RideHeight.items) == 0 {
			b.faultAt(&f.site, "the law has no points", "write  ride height: {0.3 m: 8 deg, 0.9 m: -2 deg}")
		}
		return nil
	}
	return law
}

// overrides sets controls otherwise than where they were made.
func (b *builder) overrides() {
	for i := range b.form.Controls.items {
		item := &b.form.Controls.items[i]
		o := &item.part
		found := false
		for j := range b.boat.Controls {
			c := &b.boat.Controls[j]
			if c.Name == item.name || c.Part+" "+c.Label == item.name || c.Side != boat.Centre && c.Name == c.Side.String()+" "+item.name {
				found = true
				b.override(o, c)
			}
		}
		if !found {
			names := namesOf(b.boat.Controls, func(c *boat.Control) string { return c.Name })
			at := site{&node{text: item.name, place: item.place}, below("controls", item.name)}
			b.faultAt(&at, "no control is called so", nearest(item.name, names))
		}
	}
}

func (b *builder) override(o *overridesForm, c *boat.Control) {
	want := dimensionOf(c.Kind)
	lower, upper := c.Lower, c.Upper
	if o.Range.given() {
		lower, upper = b.bounded(&o.Range, want)
		b.inside(&o.Range, lower, c, "setting")
		b.inside(&o.Range, upper, c, "setting")
	}
	if o.Fixed.given() {
		lower = b.setting(&o.Fixed, want)
		upper = lower
		b.inside(&o.Fixed, lower, c, "setting")
	}
	c.Lower, c.Upper = lower, upper
	c.Start = math.Min(math.Max(c.Start, lower), upper)
	if o.Start.given() {
		c.Start = b.setting(&o.Start, want)
		b.inside(&o.Start, c.Start, c, "start")
	}
	if o.Step.given() {
		c.Step = b.setting(&o.Step, want)
	}
	if o.Law.given() {
		c.Law = b.law(&o.Law, c)
	}
}

// links joins movements to the controls of other parts.
func (b *builder) links() {
	for _, p := range b.pending {
		found := -1
		for i := range b.boat.Controls {
			c := &b.boat.Controls[i]
			sided := c.Side != boat.Centre && c.Side == p.side && c.Name == c.Side.String()+" "+p.with.text
			if c.Name == p.with.text || sided {
				found = i
			}
		}
		m := &b.boat.Foils[p.foil].Moves[p.move]
		if found < 0 {
			names := namesOf(b.boat.Controls, func(c *boat.Control) string { return c.Name })
			b.faultAt(&p.with.site, fmt.Sprintf("no control is called %q", p.with.text), nearest(p.with.text, names))
			continue
		}
		kind := boat.AngleControl
		if m.Kind == boat.Slide {
			kind = boat.ShareControl
		}
		if c := &b.boat.Controls[found]; c.Kind != kind {
			b.faultAt(&p.with.site, fmt.Sprintf("%s is set by %s, and this movement by %s", c.Name, article(dimensionOf(c.Kind)), article(dimensionOf(kind))), "")
			continue
		}
		m.Control = found
	}
}

func article(d quantity.Dimension) string {
	if strings.ContainsRune("aeiou", rune(d.String()[0])) {
		return "an " + d.String()
	}
	return "a " + d.String()
}
