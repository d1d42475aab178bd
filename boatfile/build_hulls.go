package boatfile

import (
	"fmt"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/hull"
)

// Most sections of a hull, and points of a section, that are read: the surface
// between them takes time in proportion to both.
const (
	mostSections = 200
	mostPoints   = 200
)

// formFactor returns the factor on a hull's friction.
func (b *builder) formFactor(f *floatsForm) float64 {
	if !f.Form.given() {
		return 1
	}
	v := b.value(&f.Form.figure)
	if v < 1 || v > 2 {
		b.faultAt(&f.Form.site, fmt.Sprintf("%s is no form factor, 1 to 2 is wanted", b.text(&f.Form.figure, v)), "it is 1 + k: 1.05 is usual of a slender hull")
		return 1
	}
	return v
}

// floating checks that what floats has sections, and notes what is filled in.
func (b *builder) floating(f *hullForm, r boat.Resistance) {
	switch {
	case f.Lines.given() && r.Source != "":
	case f.Lines.given():
		b.assume(below(f.path, "floats"), "{from: regression}", "the file does not say where resistance afloat comes from")
	case len(f.Sections) == 0 && f.Floats.given():
		b.faultUnder(&f.site, "sections", "are missing: a hull that floats needs them", "write two or more, bow to stern:  sections: [{x: 5 m, points: [[0 m, 0.2 m], [0.4 m, 1.1 m]]}, …], or lines: {length: …}")
	case len(f.Sections) == 0:
		b.assume(below(f.path, "sections"), "none", "the file gives none: this hull never floats, and is not looked at for ride height")
	case r.Source == "":
		b.assume(below(f.path, "floats"), "{from: regression}", "the file does not say where resistance afloat comes from")
	}
	if n := len(f.Sections); n > mostSections {
		b.faultUnder(&f.site, "sections", fmt.Sprintf("%d are too many, %d are read", n, mostSections), "leave out every other one")
	}
	for i := range f.Sections {
		if n := len(f.Sections[i].Points); n > mostPoints {
			b.faultUnder(&f.Sections[i].site, "points", fmt.Sprintf("%d are too many, %d are read", n, mostPoints), "leave out every other one")
		}
	}
}

// shapeOf returns a hull's sections: its own, or those that its lines make.
func (b *builder) shapeOf(f *hullForm) []boat.HullSection {
	if !f.Lines.given() {
		return b.hullSections(f)
	}
	if len(f.Sections) > 0 {
		b.faultAt(&f.Lines.site, "lines and sections cannot both be given", "keep one of them")
	}
	l := &f.Lines
	before := len(b.faults)
	lines := hull.Lines{
		Length: b.positive(&l.Length.figure, "a length"), Beam: b.positive(&l.Beam.figure, "a beam"), Draught: b.positive(&l.Draught.figure, "a draught"),
		Block: b.positive(&l.Block.figure, "a block coefficient"), Prismatic: b.positive(&l.Prismatic.figure, "a prismatic coefficient"),
		Transom: b.value(&l.Transom.figure), Freeboard: b.positive(&l.Freeboard.figure, "a freeboard"), Middle: b.value(&l.Middle.figure),
	}
	if missing := !l.Length.given() || !l.Beam.given() || !l.Draught.given() || !l.Block.given() || !l.Prismatic.given() || !l.Freeboard.given(); missing || len(b.faults) > before {
		return nil
	}
	sections, err := lines.Sections()
	if err != nil {
		b.faultErr(&l.site, err)
	}
	return sections
}

// floats checks that hulls which are said to float can carry the boat.
func (b *builder) floats() {
	said := false
	for i := range b.form.Hulls.items {
		said = said || b.form.Hulls.items[i].part.Floats.given()
	}
	if !said {
		return
	}
	var w hull.Workspace
	holds := hull.Holds(b.boat, &w) * fluid.StandardSea().Density
	shaped := false // hulls without sections have their fault already
	for i := range b.boat.Hulls {
		shaped = shaped || len(b.boat.Hulls[i].Sections) > 0
	}
	if mass := b.boat.Mass(); shaped && holds < mass {
		at := site{node: b.form.Hulls.node, path: "hulls"}
		b.faultAt(&at, fmt.Sprintf("the hulls hold %.3g t of sea water up to their sheers, the boat weighs %.3g t", holds/1000, mass/1000),
			"look for a half-breadth given as a breadth or a height in the wrong unit, or leave out floats")
	}
}
