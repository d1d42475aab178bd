package boatfile

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"foilwright/boat"
	"foilwright/frame"
	"foilwright/quantity"
	"foilwright/sail"
)

// builder makes one boat from one draw. While a sheet is read it also finds the
// faults, assumptions and unknowns.
type builder struct {
	form  *boatForm
	file  string
	draw  Draw
	shelf *shelf
	boat  *boat.Boat

	faults      Faults
	assumptions []Assumption
	unknowns    []*Unknown
	pending     []pendingLink
	made        []site // where each of the boat's controls is written
	figures     []Figure

	nudged string  // path of the one figure that is moved, if any
	by     float64 // and by how much, SI
}

// pendingLink is a movement that another control moves, which may not be made yet.
type pendingLink struct {
	foil, move int
	with       words
	side       boat.Side
}

func newBuilder(s *Sheet, draw Draw) *builder {
	return &builder{form: &s.form, file: s.file, draw: draw, shelf: &s.shelf}
}

// reading tells whether the sheet is being read, so that the form may be settled.
func (b *builder) reading() bool { return b.shelf.filling != nil }

// build returns the boat; it is whole where no fault was found.
func (b *builder) build() *boat.Boat {
	f := b.form
	b.boat = &boat.Boat{
		Name:   f.Name.text,
		Class:  f.Class.text,
		Datum:  f.Datum.text,
		Length: b.positive(&f.Length.figure, "a length"),
	}
	if !f.Datum.given() {
		b.assume("datum", "the origin of the file's coordinates", "the file does not say where that is")
	}
	b.weights()
	b.hulls()
	b.foils()
	b.bodies()
	b.sails()
	b.rig()
	b.links()
	b.overrides()
	b.unique()
	b.sets()
	b.boat.Limits = b.limits(&f.Limits, "limits")
	b.modes()
	b.model()
	if len(b.faults) == 0 {
		b.whole()
	}
	return b.boat
}

// whole checks what only the whole boat shows.
func (b *builder) whole() {
	if b.boat.Mass() <= 0 {
		b.faults = append(b.faults, Fault{File: b.file, Path: "weights", Problem: "the boat weighs nothing",
			Hint: "write  weights: {hull: {mass: 1180 kg, at: {x: 0 m, z: 0.5 m}}}"})
	}
	b.floats()
	err := sail.Check(b.boat)
	var joined interface{ Unwrap() []error }
	if !errors.As(err, &joined) {
		return
	}
	for _, e := range joined.Unwrap() {
		problem, hint := split(e)
		path, problem, found := strings.Cut(problem, ": ")
		if !found {
			path, problem = "", e.Error()
		}
		at := b.form.node.find(path)
		b.faults = append(b.faults, at.fault(path, problem, hint))
	}
}

// find returns the node at a path, or the nearest above it.
func (n *node) find(path string) *node {
	for _, e := range n.entries {
		if e.key == path {
			return e.value
		}
		if rest, ok := strings.CutPrefix(path, e.key+"."); ok {
			return e.value.find(rest)
		}
	}
	return n
}

// faultAt notes a fault at a part; under keeps a key below it, if any.
func (b *builder) faultAt(s *site, problem, hint string) {
	if s.node == nil {
		b.faults = append(b.faults, Fault{File: b.file, Path: s.path, Problem: problem, Hint: hint})
		return
	}
	b.faults = append(b.faults, s.node.fault(s.path, problem, hint))
}

// faultUnder notes a fault of a part for want of a key.
func (b *builder) faultUnder(s *site, key, problem, hint string) {
	under := site{s.node, below(s.path, key)}
	b.faultAt(&under, problem, hint)
}

// faultErr notes an error of a package below at a part.
func (b *builder) faultErr(s *site, err error) {
	problem, hint := split(err)
	b.faultAt(s, problem, hint)
}

// assume notes a default that is filled in.
func (b *builder) assume(path, value, basis string) {
	b.assumptions = append(b.assumptions, Assumption{Path: path, Value: value, Basis: basis})
}

// value returns a figure in this draw, SI, and notes what makes it uncertain.
func (b *builder) value(f *figure) float64 {
	for _, u := range f.unknowns() {
		b.note(u)
	}
	b.list(f)
	v := f.at(b.draw)
	if b.nudged != "" && f.path == b.nudged {
		v += b.by
	}
	return v
}

// note keeps an unknown, each once.
func (b *builder) note(u *Unknown) {
	if !b.reading() {
		return
	}
	for _, have := range b.unknowns {
		if have.Identity == u.Identity {
			return
		}
	}
	b.unknowns = append(b.unknowns, u)
}

// positive returns a figure that must be above zero; 1 stands in where it is not.
func (b *builder) positive(f *figure, what string) float64 {
	b.cut(f, what)
	v := b.value(f)
	if f.given() && !(v > 0) {
		b.faultAt(&f.site, fmt.Sprintf("%s is no %s, above 0 is wanted", b.text(f, v), strings.TrimPrefix(strings.TrimPrefix(what, "a "), "an ")), "")
	}
	if !(v > 0) {
		return 1
	}
	return v
}

// atLeastZero returns a figure that must not be negative.
func (b *builder) atLeastZero(f *figure, what string) float64 {
	b.cut(f, what)
	v := b.value(f)
	if f.given() && !(v >= 0) {
		b.faultAt(&f.site, fmt.Sprintf("%s is no %s, 0 or more is wanted", b.text(f, v), strings.TrimPrefix(strings.TrimPrefix(what, "a "), "an ")), "")
		return 0
	}
	return v
}

// cut keeps the tails of an uncertain figure above zero.
func (b *builder) cut(f *figure, what string) {
	if !b.reading() || f.quantity.Exact() || f.quantity.Likely <= 0 {
		return
	}
	low, _ := f.quantity.Support()
	if low > 0 || f.plus != nil {
		return
	}
	q, err := quantity.Cut(f.quantity, f.quantity.Likely*1e-3, math.Inf(1))
	if err != nil {
		b.faultAt(&f.site, fmt.Sprintf("%s reaches down to zero, and %s is above it", f.quantity, what), "write bounds above 0")
		return
	}
	f.quantity, f.own.Quantity = q, q
}

// text writes a figure's value in the unit that it was written in.
func (b *builder) text(f *figure, v float64) string {
	return shownIn(v, f.quantity.Dimension, f.quantity.Unit)
}

// point returns a place in the boat.
func (b *builder) point(p *point) frame.Point[frame.Boat] {
	return frame.Point[frame.Boat]{X: b.value(&p.X.figure), Y: b.value(&p.Y.figure), Z: b.value(&p.Z.figure)}
}

// mirrored returns the mirror image of a place in the centreplane.
func mirrored(p frame.Point[frame.Boat]) frame.Point[frame.Boat] {
	p.Y = -p.Y
	return p
}

// side returns the sides that a part is on: Centre, one side, or both for a pair.
func (b *builder) side(w *words, otherwise string) []boat.Side {
	text := w.text
	if !w.given() {
		text = otherwise
	}
	switch text {
	case "centre":
		return []boat.Side{boat.Centre}
	case "port":
		return []boat.Side{boat.Port}
	case "starboard":
		return []boat.Side{boat.Starboard}
	case "pair":
		return []boat.Side{boat.Port, boat.Starboard}
	}
	b.faultAt(&w.site, fmt.Sprintf("%q is no side", text), nearest(text, []string{"pair", "port", "starboard", "centre"}))
	if otherwise == "pair" {
		return []boat.Side{boat.Port, boat.Starboard}
	}
	return []boat.Side{boat.Centre}
}

// unique faults controls of one name.
func (b *builder) unique() {
	for i := range b.boat.Controls {
		for j := range i {
			if b.boat.Controls[i].Name == b.boat.Controls[j].Name {
				b.faultAt(&b.made[i], fmt.Sprintf("a second control is called %q, after the one of %s", b.boat.Controls[i].Name, b.made[j].path),
					"give one of them another name, as in  turn: {axis: z, range: …, name: rudder}")
			}
		}
	}
}

// model settles the model's own factors.
func (b *builder) model() {
	f, m := &b.form.Model, boat.Defaults()
	own := ownFactors(f, &m)
	for i := range own {
		o := &own[i]
		if !o.figure.given() {
			q, err := quantity.Parse(o.spread, o.dimension)
			if err != nil || q.Likely != *o.value {
				panic("internal error: the default of model." + o.name + " and its spread differ")
			}
			u := &Unknown{Identity: Identity{modelFile, o.name}, Quantity: q, Basis: o.basis}
			b.note(u)
			b.assume("model."+o.name, q.String(), o.basis)
			*o.value = b.draw.of(u)
			continue
		}
		*o.value = b.atLeastZero(o.figure, "a factor")
		if o.dimension == quantity.Share && *o.value > 1 {
			b.faultAt(&o.figure.site, "a share of the chord is at most 100 %", "write a share such as "+o.spread)
		}
	}
	b.boat.Model = m
}

// modelFile is the file that the model's own factors count as standing in.
const modelFile = "model"

// factor is one of the model's own factors.
type factor struct {
	name      string
	figure    *figure
	value     *float64
	dimension quantity.Dimension
	spread    string
	basis     string
}

// ownFactors returns the model's factors with the spread and basis of their
// defaults. Spreads and bases are judgement, no measurement of this program.
func ownFactors(f *modelForm, m *boat.Model) []factor {
	return []factor{
		{"friction", &f.Friction.figure, &m.Friction, quantity.Number, "1 ± 0.04",
			"judgement: friction lines differ by 2 to 4 % among themselves, paint and fouling add"},
		{"laminar", &f.Laminar.figure, &m.Laminar, quantity.Share, "0.05 / 0.15 / 0.40",
			"judgement: sea water trips early, a polished foil may keep more"},
		{"lift drag", &f.LiftDrag.figure, &m.LiftDrag, quantity.Number, "1 ± 0.2 within 0.2 to 2",
			"judgement: scatter among sections of one thickness"},
		{"spray", &f.Spray.figure, &m.Spray, quantity.Number, "1 ± 0.3 within 0.1 to 2",
			"judgement: few tests of struts at these speeds"},
		{"junction", &f.Junction.figure, &m.Junction, quantity.Number, "1 ± 0.3 within 0.1 to 2",
			"judgement: fairings differ"},
		{"wake core", &f.WakeCore.figure, &m.WakeCore, quantity.Number, "0.10 / 0.25 / 0.60",
			"judgement: size of a rolled-up wake at the rudder"},
		{"gap", &f.Gap.figure, &m.Gap, quantity.Number, "0.5 / 1 / 2",
			"judgement: deck sweepers seal in part"},
		{"sail drag", &f.SailDrag.figure, &m.SailDrag, quantity.Number, "1 ± 0.1",
			"judgement: published coefficients are of other sails"},
		{"windage", &f.Windage.figure, &m.Windage, quantity.Number, "1 ± 0.1",
			"judgement: areas from drawings, coefficients from handbooks"},
		{"raised foil", &f.RaisedFoil.figure, &m.RaisedFoil, quantity.Number, "0.05 / 0.1 / 0.2",
			"judgement: a foil in the wind at no particular incidence"},
		{"flap loss", &f.FlapLoss.figure, &m.FlapLoss, quantity.Number, "1 ± 0.3 within 0.1 to 2",
			"judgement: effectiveness past 10 deg differs from hinge to hinge"},
		{"ventilation", &f.Ventilation.figure, &m.Ventilation, quantity.Number, "1 ± 0.25 within 0.3 to 2",
			"judgement: onset differs from tank to tank and in waves"},
		{"residuary", &f.Residuary.figure, &m.Residuary, quantity.Number, "1 ± 0.15 within 0.3 to 2",
			"judgement: the regression misses its own data by 5 %, other hulls by more"},
	}
}

// sorted index of names, for faults that say what there is.
func namesOf[T any](parts []T, name func(*T) string) []string {
	var names []string
	for i := range parts {
		names = append(names, name(&parts[i]))
	}
	slices.Sort(names)
	return slices.Compact(names)
}
