package boatfile

import (
	"fmt"

	"foilwright/boat"
	"foilwright/frame"
)

// weights makes the items of mass.
func (b *builder) weights() {
	for i := range b.form.Weights.items {
		item := &b.form.Weights.items[i]
		f := &item.part
		w := boat.Weight{
			Name: item.name, Mass: b.atLeastZero(&f.Mass.figure, "a mass"), At: b.point(&f.At),
			Shift: [3]int{-1, -1, -1}, Swing: boat.Move{Control: -1},
		}
		here := w.At.Array()
		for axis, c := range [...]*controlForm{&f.Moves.X, &f.Moves.Y, &f.Moves.Z} {
			if !c.given() {
				continue
			}
			label := string(rune('x' + axis))
			w.Shift[axis] = b.control(&c.site, &c.controlKeys, controlSpec{
				part: item.name, label: label, name: item.name + " " + label, kind: boat.LengthControl, start: here[axis],
			})
			if made := &b.boat.Controls[w.Shift[axis]]; !c.Start.given() && !c.Fixed.given() &&
				(here[axis] < made.Lower-1e-9 || here[axis] > made.Upper+1e-9) {
				b.faultAt(&c.site, fmt.Sprintf("%s = %s of at lies outside this range", label, shown(here[axis], dimensionOf(boat.LengthControl))),
					"the range is of the coordinate itself, from the datum")
			}
		}
		if f.Swing.given() {
			w.Swing = boat.Move{Name: "swing", Axis: b.axis(&f.Swing.Axis, boat.Centre), Control: -1}
			w.About = b.point(&f.Swing.About)
			w.Swing.Control = b.control(&f.Swing.site, &f.Swing.controlKeys, controlSpec{
				part: item.name, label: "swing", name: item.name + " swing", kind: boat.AngleControl,
			})
		}
		b.boat.Weights = append(b.boat.Weights, w)
		if f.Windage.given() {
			b.boat.Windages = append(b.boat.Windages, boat.Windage{
				Name: item.name, Area: b.positive(&f.Windage.Area.figure, "an area"),
				Coefficient: b.atLeastZero(&f.Windage.Coefficient.figure, "a drag coefficient"),
				Bottom:      w.At, Top: w.At, Follows: len(b.boat.Weights) - 1,
			})
		}
	}
}

// axis returns the unit vector about which a positive setting turns
// right-handed, for a part written in its own coordinates on a side.
func (b *builder) axis(a *axis, side boat.Side) frame.Vec[boat.Local] {
	switch a.letter {
	case "x": // + lifts the tip outboard and up; on the centreplane, to port
		if side == boat.Starboard {
			return frame.Vec[boat.Local]{X: -1}
		}
		return frame.Vec[boat.Local]{X: 1}
	case "y": // + leading edge up
		return frame.Vec[boat.Local]{Y: -1}
	case "z": // + leading edge to port
		return frame.Vec[boat.Local]{Z: 1}
	}
	d := &a.direction
	v := frame.Vec[boat.Local]{X: b.value(&d.X.figure), Y: b.value(&d.Y.figure), Z: b.value(&d.Z.figure)}
	if v.Norm() < 1e-9 {
		if a.given() {
			b.faultAt(&a.site, "the axis has no direction", "write x, y or z, or a direction such as {x: 0.1, z: 1}")
		}
		return frame.Vec[boat.Local]{Z: 1}
	}
	return v.Unit()
}

// hulls makes what floats, and its windage.
func (b *builder) hulls() {
	for i := range b.form.Hulls.items {
		item := &b.form.Hulls.items[i]
		f := &item.part
		sections := b.shapeOf(f)
		resistance := b.resistance(&f.Floats)
		resistance.FormFactor = b.formFactor(&f.Floats)
		b.floating(f, resistance)
		sides := b.side(&f.Side, "centre")
		for _, side := range sides {
			h := boat.Hull{Name: item.name, Sections: sections, Resistance: resistance}
			at := b.point(&f.At)
			if len(sides) == 2 {
				h.Name = side.String() + " " + item.name
				if side == boat.Port && at.Y <= 0 {
					b.faultAt(&f.Side.site, "a pair is written for port, and at.y is "+shown(at.Y, dimensionOf(boat.LengthControl)), "write  at: {y: 3.55 m}")
				}
				if side == boat.Starboard {
					at = mirrored(at)
				}
			}
			h.Offset = frame.Vec[frame.Boat](at)
			b.boat.Hulls = append(b.boat.Hulls, h)
			if f.Windage.given() {
				b.windage(h.Name, &f.Windage, h.Offset)
			}
		}
		if !f.Windage.given() {
			b.assume(below(f.path, "windage"), "none", "the file gives none")
		}
	}
}

func (b *builder) hullSections(f *hullForm) []boat.HullSection {
	var out []boat.HullSection
	for i := range f.Sections {
		s := &f.Sections[i]
		cut := boat.HullSection{X: b.value(&s.X.figure)}
		if n := len(out); n > 0 && s.X.given() && cut.X >= out[n-1].X {
			b.faultAt(&s.X.site, fmt.Sprintf("%s is not aft of the section before, at %s", shown(cut.X, dimensionOf(boat.LengthControl)),
				shown(out[n-1].X, dimensionOf(boat.LengthControl))), "give the sections from bow to stern, x falling")
		}
		for j := range s.Points {
			p := s.Points[j]
			if len(p) != 2 {
				b.faultUnder(&s.site, "points", fmt.Sprintf("point %d has %d values, half-breadth and height are wanted", j+1, len(p)), "write  [0.4 m, 1.1 m]")
				continue
			}
			q := [2]float64{b.atLeastZero(&p[0].figure, "a half-breadth"), b.value(&p[1].figure)}
			if n := len(cut.Points); n > 0 && q[1] <= cut.Points[n-1][1] {
				b.faultAt(&p[1].site, fmt.Sprintf("%s is not above the point before, at %s: the section crosses itself",
					shown(q[1], dimensionOf(boat.LengthControl)), shown(cut.Points[n-1][1], dimensionOf(boat.LengthControl))),
					"give the points from the keel up, heights rising")
			}
			cut.Points = append(cut.Points, q)
		}
		if s.node != nil && s.node.get("points") != nil && len(cut.Points) < 2 {
			b.faultUnder(&s.site, "points", "a section needs two points or more", "write  points: [[0 m, 0.2 m], [0.4 m, 1.1 m]]")
		}
		out = append(out, cut)
	}
	if len(f.Sections) == 1 {
		b.faultUnder(&f.site, "sections", "a hull needs two sections or more", "give one at each end")
	}
	return out
}

// windage makes an area in the wind, displaced by an offset.
func (b *builder) windage(name string, f *windageForm, offset frame.Vec[frame.Boat]) {
	w := boat.Windage{Name: name, Coefficient: b.atLeastZero(&f.Coefficient.figure, "a drag coefficient"), Follows: -1}
	height := 0.0
	if f.Height.given() {
		height = b.positive(&f.Height.figure, "a height")
	}
	switch {
	case f.Area.given() && f.Chord.given():
		b.faultAt(&f.Chord.site, "area and chord cannot both be given", "keep one of them")
	case f.Area.given():
		w.Area = b.positive(&f.Area.figure, "an area")
	case f.Chord.given() && f.Height.given():
		w.Area = height * b.positive(&f.Chord.figure, "a chord")
	default:
		b.faultUnder(&f.site, "area", "is missing", "write  area: 9.5 m², or  height: 18.6 m  and  chord: 0.38 m")
	}
	low := b.value(&f.Z.figure) - height/2
	switch {
	case f.Z.given() && f.Bottom.given():
		b.faultAt(&f.Bottom.site, "z and bottom cannot both be given", "keep one of them: z is the middle's height")
	case f.Bottom.given():
		low = b.value(&f.Bottom.figure)
	case !f.Z.given():
		low = 0
		b.assume(below(f.path, "bottom"), "0 m", "the file gives neither bottom nor z")
	}
	at := frame.Point[frame.Boat]{X: b.value(&f.X.figure), Y: b.value(&f.Y.figure)}.Add(offset)
	w.Bottom, w.Top = at, at
	w.Bottom.Z, w.Top.Z = at.Z+low, at.Z+low+height
	b.boat.Windages = append(b.boat.Windages, w)
}

// rig makes the windage of mast and rigging.
func (b *builder) rig() {
	for i := range b.form.Rig.Windage.items {
		item := &b.form.Rig.Windage.items[i]
		b.windage(item.name, &item.part, frame.Vec[frame.Boat]{})
	}
	if len(b.form.Sails.items) > 0 && len(b.form.Rig.Windage.items) == 0 {
		b.assume("rig.windage", "none", "the file gives none")
	}
}

// bodies makes bulbs and pods, one on each of a pair of foils.
func (b *builder) bodies() {
	for i := range b.form.Bodies.items {
		item := &b.form.Bodies.items[i]
		f := &item.part
		d := boat.Body{
			Name: item.name, Foil: -1, Piece: -1,
			Length: b.positive(&f.Length.figure, "a length"), Diameter: b.positive(&f.Diameter.figure, "a diameter"),
			Mass: b.atLeastZero(&f.Mass.figure, "a mass"),
		}
		if d.Diameter >= d.Length && f.Length.given() && f.Diameter.given() {
			b.faultAt(&f.Diameter.site, "the body is as thick as it is long", "a bulb is several times as long as thick")
		}
		if !f.Mass.given() {
			b.assume(below(f.path, "mass"), "0 kg", "no mass of its own is given: counted in the foil's or the hull's")
		}
		if f.On.text == "hull" {
			if f.At.node == nil || f.At.words.given() {
				b.faultAt(&f.At.site, "on the hull a point is wanted", "write  at: {x: 0 m, y: 0 m, z: -2 m}")
				continue
			}
			d.At = b.point(&f.At.point)
			b.boat.Bodies = append(b.boat.Bodies, d)
			continue
		}
		b.onFoil(f, d)
	}
}

// onFoil hangs a body on every foil of the kind that it names.
func (b *builder) onFoil(f *bodyForm, d boat.Body) {
	kind := f.On.text
	if len(kind) > len("foils.") && kind[:len("foils.")] == "foils." {
		kind = kind[len("foils."):]
	}
	at := b.form.Foils.find(kind)
	if at < 0 {
		if f.On.given() {
			b.faultAt(&f.On.site, fmt.Sprintf("no foil is called %q", kind), nearest(kind, append(b.form.Foils.names(), "hull")))
		}
		return
	}
	piece, share, ok := b.along(&f.At.words, &b.form.Foils.items[at].part)
	if !ok {
		if f.At.node != nil && !f.At.words.given() {
			b.faultAt(&f.At.site, "on a foil a place along a piece is wanted", "write  at: arm tip, or  at: 60 % of arm")
		}
		return
	}
	for i := range b.boat.Foils {
		foil := &b.boat.Foils[i]
		if foil.Kind != kind {
			continue
		}
		own := d
		own.Foil, own.Share = i, share
		own.Piece = pieceNamed(foil, piece)
		if foil.Name != foil.Kind {
			own.Name = foil.Side.String() + " " + d.Name
		}
		b.boat.Bodies = append(b.boat.Bodies, own)
	}
}

// pieceNamed returns the index of a foil's piece, 0 where there is none.
func pieceNamed(f *boat.Foil, name string) int {
	for i := range f.Pieces {
		if f.Pieces[i].Name == name {
			return i
		}
	}
	return 0
}
