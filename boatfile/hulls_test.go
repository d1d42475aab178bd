package boatfile

import (
	"strings"
	"testing"
)

// Bad hulls get an error that says where, what, and what would do instead.
func TestFaultsOfHulls(t *testing.T) {
	const floats = "floats: {from: own curve, file: sorrel-resistance.csv}"
	for _, c := range []struct{ old, new, want string }{
		{floats, "floats: {from: regression, form factor: 3}", "hulls.canoe.floats.form factor: 3 is no form factor, 1 to 2 is wanted\nhint: it is 1 + k"},
		{floats, "floats: {from: regresion}", "hulls.canoe.floats.from: \"regresion\" is no source of resistance\nhint: did you mean regression?"},
		{floats, "floats: {from: own curve, curve: {4 kn: 300 N, 3 kn: 200 N}}", "speeds must rise from 0\nhint: give each speed once, the slowest first"},
		{floats, "floats: {from: own curve, curve: {4 kn: 300 N}}", "a curve needs two points or more\nhint: write a resistance for each speed"},
		{floats, "floats: {from: own curve, curve: {}}", "a curve needs two points or more"},
		{"mass: 1150 kg ± 25 kg", "mass: 115000 kg", "hulls: the hulls hold 29.1 t of sea water up to their sheers, the boat weighs 116 t\nhint: look for a half-breadth given as a breadth"},
		{"[0.72 m, 0.40 m]", "[-0.72 m, 0.40 m]", "-0.72 m is no half-breadth, 0 or more is wanted"},
	} {
		if got := sorrel(t, c.old, c.new); !strings.Contains(got, c.want) {
			t.Errorf("%s\n gives %s\n wants %s", c.new, got, c.want)
		}
	}
}

// A hull that floats needs sections; too many are refused before a surface is laid.
func TestFaultsOfSections(t *testing.T) {
	const boat = "foilwright: 1\nname: Tub\nlength: 4 m\nweights: {all: {mass: 100 kg, at: {z: 0.2 m}}}\nhulls: {hull: {floats: {from: regression}, sections: SECTIONS}}\n"
	for _, c := range []struct{ sections, want string }{
		{"[]", "a hull that floats needs them"},
		{"[{x: 1 m, points: [[0 m, 0 m], [1 m, 1 m]]}]", "a hull needs two sections or more\nhint: give one at each end"},
		{"[{x: 1 m, points: [[0 m, 0 m], [1 m, 1 m]]}, {x: 0 m, points: [[0 m, 0 m]]}]", "a section needs two points or more"},
		{"[{x: 1 m, points: [" + strings.Repeat("[0 m, 0 m], ", 201) + "[1 m, 1 m]]}, {x: 0 m, points: [[0 m, 0 m], [1 m, 1 m]]}]", "202 are too many, 200 are read"},
	} {
		_, err := Read("tub.yaml", []byte(strings.Replace(boat, "SECTIONS", c.sections, 1)), nil)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%.60s gives %v, wants %s", c.sections, err, c.want)
		}
	}
}
