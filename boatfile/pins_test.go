package boatfile

import (
	"math"
	"strings"
	"testing"

	"foilwright/boat"
	"foilwright/frame"
)

// centre returns where a boat's centre of gravity is under settings, m.
func centre(b *boat.Boat, settings []float64) frame.Point[frame.Boat] {
	var sum frame.Vec[frame.Boat]
	add := func(mass float64, at frame.Point[frame.Boat]) {
		sum = sum.Plus(at.From(frame.Point[frame.Boat]{}).Times(mass))
	}
	for i := range b.Weights {
		add(b.Weights[i].Mass, b.Weights[i].Place(settings))
	}
	for i := range b.Foils {
		if f := &b.Foils[i]; f.Mass > 0 {
			add(f.Mass, f.MassPlace(settings))
		}
	}
	for i := range b.Bodies {
		add(b.Bodies[i].Mass, b.BodyPlace(i, settings))
	}
	return frame.Point[frame.Boat](sum.Times(1 / b.Mass()))
}

// planArea returns chord times length of a piece, m².
func planArea(p *boat.Piece) float64 { return p.Path.Length() * p.Chord.Between(0, 1) }

// piece returns a boat's piece by foil and name.
func piece(t *testing.T, b *boat.Boat, foil, name string) *boat.Piece {
	t.Helper()
	for i := range b.Foils {
		if b.Foils[i].Name != foil {
			continue
		}
		for j := range b.Foils[i].Pieces {
			if b.Foils[i].Pieces[j].Name == name {
				return &b.Foils[i].Pieces[j]
			}
		}
	}
	t.Fatalf("%s has no %s with %s", b.Name, foil, name)
	return nil
}

// Drift of what the examples say. Masses and areas are sums by hand of the
// figures in the files: a chord in straight lines has the mean of its trapezia.
func TestExamplesArePinned(t *testing.T) {
	inverted := math.Hypot(0.98, 0.36)
	for _, c := range []struct {
		file        string
		mass, y     float64 // y of the centre with every control at its start
		controls    int
		foil, piece string
		length      float64
		area        float64
	}{
		{"which-foil/sorrel.yaml", 2458, 528 * 1.35 / 2458, 15, "port main", "outer wing", inverted, inverted * (0.6*0.315 + 0.4*0.205)},
		{"which-foil/tansy.yaml", 2458, 528 * 1.35 / 2458, 15, "starboard main", "inner wing", 0.93, 0.93 * (0.6*0.315 + 0.4*0.205)},
		{"twenty-metre/hawthorn.yaml", 7500, 990 * 1.9 / 7500, 11, "rudder", "starboard wing", 1.45, 1.45 * 0.1725},
		{"dinghy/sloe.yaml", 115, 80 * 1.2 / 115, 8, "main", "port wing", 0.45, 0.45 * (0.6*0.0975 + 0.4*0.065)},
		{"catamaran/bramble.yaml", 3000, 528 * 4.3 / 3000, 12, "port rudder", "inner wing", 0.72, 0.72 * 0.165},
		{"keelboat/guelder.yaml", 8500, (880*1.9 + (480*0.45+3000)*4.2*math.Sin(38*math.Pi/180)) / 8500, 16, "keel", "fin", 4.2, 4.2 * 0.665},
	} {
		b, err := example(t, c.file).Boat(nil)
		if err != nil {
			t.Fatal(err)
		}
		near(t, b.Name+" mass", b.Mass(), c.mass, 1e-9)
		near(t, b.Name+" y of the centre", centre(b, b.Starts()).Y, c.y, 1e-9)
		if len(b.Controls) != c.controls {
			t.Errorf("%s has %d controls, want %d: %s", b.Name, len(b.Controls), c.controls, controlNames(b))
		}
		p := piece(t, b, c.foil, c.piece)
		near(t, b.Name+" "+c.piece+" length", p.Path.Length(), c.length, 1e-12)
		near(t, b.Name+" "+c.piece+" area", planArea(p), c.area, 1e-12)
	}
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %.12g, want %.12g", what, got, want)
	}
}

func controlNames(b *boat.Boat) string {
	var names []string
	for i := range b.Controls {
		names = append(names, b.Controls[i].Name)
	}
	return strings.Join(names, ", ")
}

func TestControlNamesOfACatamaran(t *testing.T) {
	b, err := example(t, "catamaran/bramble.yaml").Boat(nil)
	if err != nil {
		t.Fatal(err)
	}
	want := "crew y, port board drop, port board rake, starboard board drop, starboard board rake, " +
		"rudder, port rudder rake, starboard rudder rake, wing sheet, wing twist, jib sheet, jib twist"
	if got := controlNames(b); got != want {
		t.Errorf("controls are %s\nwant %s", got, want)
	}
}

// The 20 m boat is what its drawing says: about 220 m² of sail, wings of span
// 4 m that carry 80 to 105 kPa, a rudder wing of half a square metre, a strut
// that leans as much as the foil is canted.
func TestTwentyMetreBoat(t *testing.T) {
	b, err := example(t, "twenty-metre/hawthorn.yaml").Boat(nil)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "sail area", b.Sails[0].Area+b.Sails[1].Area, 225, 0)
	inner, outer := piece(t, b, "starboard main", "inner wing"), piece(t, b, "starboard main", "outer wing")
	near(t, "span", math.Abs(inner.Path.End().Y-outer.Path.End().Y), 3.92, 1e-9)
	if load := b.Weight() / (planArea(inner) + planArea(outer)); load < 80e3 || load > 105e3 {
		t.Errorf("wing loading is %.0f kPa, want 80 to 105", load/1e3)
	}
	near(t, "rudder wing", 2*planArea(piece(t, b, "rudder", "port wing")), 0.5, 0.01)
	settings := b.Starts()
	cant, err := b.Control("starboard main cant")
	if err != nil {
		t.Fatal(err)
	}
	settings[cant] = 20 * math.Pi / 180
	for i := range b.Foils {
		if f := &b.Foils[i]; f.Name == "starboard main" {
			_, tangent := f.Pieces[0].Path.At(1)
			down := f.Pose(settings).Vec(tangent)
			near(t, "lean of the strut", math.Atan2(-down.Y, -down.Z)*180/math.Pi, 20, 1e-9)
		}
	}
}
