package hull

import (
	"math"
	"testing"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/si"
)

// afloat is a boat of one hull and a weight that takes it to a displacement, m³.
func afloat(volume float64, offset frame.Vec[frame.Boat], sections ...boat.HullSection) *boat.Boat {
	return &boat.Boat{
		Name: "Float", Length: 10, Model: boat.Defaults(),
		Hulls:   []boat.Hull{{Name: "hull", Offset: offset, Sections: sections}},
		Weights: []boat.Weight{{Name: "all", Mass: volume * fluid.StandardSea().Density, Shift: [3]int{-1, -1, -1}, Swing: boat.Move{Control: -1}}},
	}
}

// prism is a hull of one section from x = length/2 to −length/2.
func prism(length float64, points ...[2]float64) []boat.HullSection {
	return []boat.HullSection{{X: length / 2, Points: points}, {X: -length / 2, Points: points}}
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.9g, want %.9g within %.1g", what, got, want, tolerance)
	}
}

func wet(b *boat.Boat, a boat.Attitude) Immersed {
	var w Workspace
	return Wet(b, a, &w)[0]
}

// A box afloat upright: volume, centres, waterplane and its second moments in
// closed form, and the metacentre and righting lever of checks.csv 7.09 (GM = KB +
// B²/12T − KG; GZ = sin φ (GM + ½ BM tan² φ), wall-sided formula, exact for a box
// until a corner comes out).
func TestBox(t *testing.T) {
	const beam, draught, length, kg = 3.0, 0.5, 8.0, 1.2
	b := afloat(beam*draught*length, frame.Vec[frame.Boat]{}, prism(length, [2]float64{beam / 2, 0}, [2]float64{beam / 2, 2})...)
	m := wet(b, boat.Attitude{Height: -draught})
	near(t, "volume", m.Volume, beam*draught*length, 1e-10)
	near(t, "centre x", m.Centre.X, 0, 1e-10)
	near(t, "centre y", m.Centre.Y, 0, 1e-10)
	near(t, "centre z", m.Centre.Z, -draught/2, 1e-10)
	near(t, "waterplane", m.Waterplane, beam*length, 1e-10)
	near(t, "second moment across", m.AcrossInertia, length*beam*beam*beam/12, 1e-9)
	near(t, "second moment along", m.AlongInertia, beam*length*length*length/12, 1e-9)
	near(t, "wetted surface, bottom and sides", m.Surface, length*(beam+2*draught), 1e-10)
	near(t, "spread", m.spread, length/math.Sqrt(12), 1e-10)

	gm := draught/2 + m.AcrossInertia/m.Volume - kg
	near(t, "GM", gm, 0.55, 1e-6)
	const heel = 10 * si.Degree
	// Heeled about the centreline of the waterplane, a wall-sided boat keeps its volume.
	h := wet(b, boat.Attitude{Heel: heel, Height: -draught * heel.Cos()})
	near(t, "volume at 10 deg", h.Volume, m.Volume, 1e-9)
	g := boat.Attitude{Heel: heel, Height: -draught * heel.Cos()}.Pose().Point(frame.Point[frame.Boat]{Z: kg})
	near(t, "GZ at 10 deg", math.Abs(h.Centre.Y-g.Y), 0.099556, 1e-6)
	if heelingTo := h.Centre.Y - g.Y; heelingTo > 0 {
		t.Error("starboard down must move the centre of buoyancy to starboard")
	}
}

// A wedge: a V of half-angle a, prismatic; heeled it is a triangle of another
// shape, pitched its immersed area runs with the square of depth.
func TestWedge(t *testing.T) {
	const half, depth, length, draught = 1.0, 1.0, 6.0, 0.6
	b := afloat(draught*draught*length, frame.Vec[frame.Boat]{}, prism(length, [2]float64{0, 0}, [2]float64{half, depth})...)
	m := wet(b, boat.Attitude{Height: -draught})
	near(t, "volume", m.Volume, draught*draught*length, 1e-10)
	near(t, "centre z", m.Centre.Z, -draught/3, 1e-10)
	// Heeled by φ, sides at 45°: the water cuts them at d/(cos φ ∓ sin φ)·√½ from the keel.
	const heel = 12 * si.Degree
	h := wet(b, boat.Attitude{Heel: heel, Height: -draught})
	area := draught * draught / (heel.Cos()*heel.Cos() - heel.Sin()*heel.Sin())
	near(t, "volume heeled", h.Volume, area*length, 1e-10)
	// Pitched bow down by p about the datum on the keel: keel depth is d + x·sin p along
	// x of the boat, normal to it (d + x sin p)/cos p.
	const pitch = 3 * si.Degree
	p := wet(b, boat.Attitude{Pitch: pitch, Height: -draught})
	k, d := pitch.Sin()/pitch.Cos(), draught/pitch.Cos()
	near(t, "volume pitched", p.Volume, (math.Pow(d+k*length/2, 3)-math.Pow(d-k*length/2, 3))/(3*k), 1e-4*m.Volume)
}

// A half cylinder under a flat deck, and an ellipsoid, to 1e-4 of each figure.
func TestHalfCylinder(t *testing.T) {
	const radius, length = 1.2, 7.0
	var arc [][2]float64
	for i := range 201 {
		sin, cos := math.Sincos(math.Pi / 2 * float64(i) / 200)
		arc = append(arc, [2]float64{radius * sin, -radius * cos})
	}
	arc = append(arc, [2]float64{radius, 1}) // walls above the axis
	b := afloat(1, frame.Vec[frame.Boat]{}, prism(length, arc...)...)
	m := wet(b, boat.Attitude{})
	half := math.Pi / 2 * radius * radius * length
	near(t, "volume", m.Volume, half, 1e-4*half)
	near(t, "centre z", m.Centre.Z, -4*radius/(3*math.Pi), 1e-4*radius)
	near(t, "surface", m.Surface, math.Pi*radius*length, 1e-4*math.Pi*radius*length)
	near(t, "metacentre on the axis", m.Centre.Z+m.AcrossInertia/m.Volume, 0, 1e-4*radius)
	// With the axis above the water a segment of the circle is wet, the same at any heel.
	const height = 0.5
	angle := math.Acos(height / radius)
	segment := radius*radius*angle - height*math.Sqrt(radius*radius-height*height)
	for _, heel := range []si.Angle{0, 15 * si.Degree, -20 * si.Degree} {
		h := wet(b, boat.Attitude{Heel: heel, Height: height})
		near(t, "volume of a segment", h.Volume, segment*length, 1e-4*segment*length)
		chord := 2 * radius * math.Sin(angle)
		near(t, "its centre", h.Centre.Z, height-chord*chord*chord/(12*segment), 1e-4*radius)
		near(t, "its skin", h.Surface, 2*radius*angle*length, 1e-4*2*radius*angle*length)
	}
}

func ellipsoid(a, half, depth float64, stations, points int) []boat.HullSection {
	var all []boat.HullSection
	for i := range stations {
		sin, cos := math.Sincos(math.Pi * (float64(i) + 0.02) / (float64(stations) - 1 + 0.04))
		s := boat.HullSection{X: a * cos}
		for j := range points {
			up := math.Pi * float64(j) / float64(points-1)
			s.Points = append(s.Points, [2]float64{half * sin * math.Sin(up), -depth * sin * math.Cos(up)})
		}
		all = append(all, s)
	}
	return all
}

func TestEllipsoid(t *testing.T) {
	const a, half, depth = 5.0, 1.3, 0.8
	all := 4 * math.Pi / 3 * a * half * depth
	b := afloat(all/2, frame.Vec[frame.Boat]{}, ellipsoid(a, half, depth, 241, 361)...)
	for _, c := range []struct{ heel, pitch si.Angle }{{0, 0}, {25 * si.Degree, 0}, {0, 4 * si.Degree}, {-15 * si.Degree, -6 * si.Degree}} {
		attitude := boat.Attitude{Heel: c.heel, Pitch: c.pitch, Leeway: 3 * si.Degree}
		m := wet(b, attitude) // any plane through the middle halves it
		near(t, "volume", m.Volume, all/2, 1e-4*all/2)
		// Archimedes: the half's centre lies 3/8 of the way to the point of the surface
		// whose tangent plane is level; its depth is 3/8 of the support function.
		up := attitude.Pose().Turn.Inverse().Apply(frame.Vec[frame.Track]{Z: 1})
		support := math.Sqrt(a*a*up.X*up.X + half*half*up.Y*up.Y + depth*depth*up.Z*up.Z)
		near(t, "centre z", m.Centre.Z, -3.0/8*support, 1e-4*depth)
		low := frame.Vec[frame.Boat]{X: -a * a * up.X / support, Y: -half * half * up.Y / support, Z: -depth * depth * up.Z / support}
		at := attitude.Pose().Turn.Apply(low.Times(3.0 / 8))
		near(t, "centre x", m.Centre.X, at.X, 1e-4*a)
		near(t, "centre y", m.Centre.Y, at.Y, 1e-4*half)
	}
	upright := wet(b, boat.Attitude{})
	near(t, "BM", upright.AcrossInertia/upright.Volume, 3*half*half/(8*depth), 2e-4*half)
	near(t, "waterplane", upright.Waterplane, math.Pi*a*half, 1e-4*math.Pi*a*half)
}
