package boatfile

import (
	"math"
	"strings"
	"testing"

	"foilwright/hull"
)

const skiff = `foilwright: 1
name: Skiff
length: 10.4 m
weights: {all: {mass: 4521 kg, at: {z: 0.6 m}}}
hulls:
  hull:
    at: {z: -0.1 m}
    lines: {length: 10.0 m ± 0.1 m, beam: 2.6 m, draught: 0.45 m, block: 0.38, prismatic: 0.56, freeboard: 0.9 m, middle: -0.2 m}
    floats: {from: regression}
foils:
  fin: {side: centre, root: {z: 0 m}, mass: {mass: 40 kg}, pieces: {fin: {section: naca 0012, path: [{z: 0 m}, {z: -1.5 m}], chord: 0.5 m}}}
`

// A hull told by its lines floats at them, wherever it is put, and its figures may be
// uncertain like any other.
func TestHullByItsLines(t *testing.T) {
	sheet, err := Read("skiff.yaml", []byte(skiff), nil)
	if err != nil {
		t.Fatal(err)
	}
	b, err := sheet.Boat(nil)
	if err != nil {
		t.Fatal(err)
	}
	var w hull.Workspace
	rests, height := hull.RestOf(b, &w)
	r := rests[0]
	if got := r.Volume / (r.Length * r.Beam * r.Draught); math.Abs(got/0.38-1) > 0.01 || math.Abs(r.Prismatic/0.56-1) > 0.01 || math.Abs(r.Length-10) > 0.05 {
		t.Errorf("block %.4f, prismatic %.4f, length %.3f", got, r.Prismatic, r.Length)
	}
	if math.Abs(height+0.35) > 0.005 {
		t.Errorf("the datum lies %.3f m high, 0.1 m above the keel at a draught of 0.45 m it should lie 0.35 m under water", height)
	}
	if n := len(sheet.Unknowns()); n == 0 {
		t.Error("the length's spread is no unknown")
	}
}

// Lines that make no hull get an error that says where and what would do.
func TestFaultsOfLines(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{"block: 0.38", "block: 0.6", "hulls.hull.lines: block 0.6 over prismatic 0.56 makes a largest section that fills 1.07 of its rectangle, 0.5 to 0.95 is wanted\nhint: both count"},
		{"prismatic: 0.56, ", "", "hulls.hull.lines: prismatic is missing\nhint: write  prismatic: 0.56"},
		{"draught: 0.45 m", "draught: 0.45", "0.45 has no unit"},
		{"freeboard: 0.9 m", "freeboard: 0.9 m, transom: 1.2", "transom 1.2 is no share"},
		{"    floats:", "    sections: [{x: 1 m, points: [[0 m, 0 m], [1 m, 1 m]]}, {x: 0 m, points: [[0 m, 0 m], [1 m, 1 m]]}]\n    floats:", "lines and sections cannot both be given\nhint: keep one"},
	} {
		_, err := Read("skiff.yaml", []byte(strings.Replace(skiff, c.old, c.new, 1)), nil)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s\n gives %v\n wants %s", c.new, err, c.want)
		}
	}
}
