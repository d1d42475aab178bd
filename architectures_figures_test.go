package foilwright_test

import "foilwright/trim"

// architectures are the examples but for the canting foil, whose figures stand in
// docs/twenty-metre.md.
func architectures() []*sailedBoat {
	return []*sailedBoat{dinghyFigures(), catamaranFigures(), keelboatFigures()}
}

func dinghyFigures() *sailedBoat {
	return &sailedBoat{
		title: "Single-handed dinghy, 115 kg all up, 15 kn", file: "examples/dinghy/sloe.yaml",
		one: sailing(15, trim.Windward, 0), other: sailing(15, trim.Leeward, 0),
		rows: []measured{
			{"upwind speed, kn", first(speed), 17.01, 0.15, 17, 21, "", nil},
			{"upwind true angle, deg", first(wind), 45.5, 0.5, 42, 50, "", nil},
			{"heel to windward, deg", first(toWind), 22.9, 0.6, 15, 30, "", nil},
			{"leeway, deg", first(slipped), 1.86, 0.3, -2, 2, "", nil},
			{"side force over weight", first(sideForce), 0.449, 0.01, 0.4, 0.55, "", nil},
			{"rudder wing, % of weight", first(lifted("rudder", "wing")), 5.1, 1.5, -20, 20, "", nil},
			{"downwind speed, kn", last(speed), 25.97, 0.2, 23, 28, "", nil},
			{"downwind true angle, deg", last(wind), 146.1, 0.6, 130, 140, "on flat water progress pays further down the wind than a crew that fears a gust or a trough sails her; the less drag in the water, the further.", []whatIf{
				{"held at 138 deg, she sails", nil, sailing(15, trim.AtAngle, 138), "%.4g kn", speed, 27.48, 0.2},
				{"there her progress is", nil, sailing(15, trim.AtAngle, 138), "%.4g kn", gain, 20.42, 0.2},
				{"at the best angle it is", nil, sailing(15, trim.Leeward, 0), "%.4g kn", gain, 21.54, 0.2},
				{"with the model's own laminar share of 15 % in place of her 45 % the angle is", []string{"0.30 / 0.45 / 0.60", "0.15"}, sailing(15, trim.Leeward, 0), "%.4g deg", wind, 142.8, 0.6},
			}},
			{"flies in a rising wind from, kn", humpWind, 8.446, 0.15, 7, 9, "", nil},
			{"flies in a falling wind to, kn", flightWind, 5.503, 0.1, 0, 9, "", nil},
			{"hull leaves the water at, kn", liftSpeed, 7.43, 0.25, 7, 8, "", nil},
		},
		redrawn: dinghyRedrawn(),
	}
}

// dinghyRedrawn puts back, one at a time, what the dinghy's file first said.
func dinghyRedrawn() []whatIf {
	upwind := sailing(15, trim.Windward, 0)
	return []whatIf{
		{"a helm whose weight sits 0.60 m up, in place of 0.85 m on racks that rise outward", []string{"y: 1.20 m, z: 0.85 m", "y: 1.20 m, z: 0.60 m"}, upwind, "%.4g kn", speed, 16.81, 0.15},
		{"a reach of 1.45 m, in place of 1.60 m hiked out", []string{"-1.60 to 1.60", "-1.45 to 1.45"}, upwind, "%.4g kn", speed, 16.64, 0.15},
		{"a helm of 0.45 m² at 0.9, in place of 0.36 m² at 0.8 lying along the rack", []string{"0.36 m² ± 0.04 m², drag coefficient: 0.8", "0.45 m² ± 0.05 m², drag coefficient: 0.9"}, upwind, "%.4g kn", speed, 16.36, 0.15},
		{"a hull of 0.45 m² at 0.4, in place of 0.30 m² at 0.3", []string{"area: 0.30 m², z: 0.28 m, drag coefficient: 0.3", "area: 0.45 m², z: 0.28 m, drag coefficient: 0.4"}, upwind, "%.4g kn", speed, 16.5, 0.15},
		{"a bare mast of 0.05 m, in place of one in the sail's sleeve", []string{"shrouds: {bottom: 0.40 m, height: 3.6 m, chord: 0.006 m, drag coefficient: 1.1}", "mast: {bottom: 0.30 m, height: 5.3 m, chord: 0.05 m, drag coefficient: 0.5}"}, upwind, "%.4g kn", speed, 16.31, 0.15},
		{"a laminar share of 15 %, in place of 45 % on small polished foils", []string{"0.30 / 0.45 / 0.60", "0.15"}, upwind, "%.4g kn", speed, 15.96, 0.15},
		{"wings of 0.101 and 0.065 m², in place of 0.075 and 0.051 m²", []string{
			"path: [{y: 0 m}, {y: 0.45 m}]\n        chord: {0 %: 0.105 m, 60 %: 0.090 m, 100 %: 0.040 m}", "path: [{y: 0 m}, {y: 0.50 m}]\n        chord: {0 %: 0.125 m, 60 %: 0.105 m, 100 %: 0.045 m}",
			"path: [{y: 0 m}, {y: 0.38 m}], chord: {0 %: 0.090 m, 100 %: 0.045 m}", "path: [{y: 0 m}, {y: 0.42 m}], chord: {0 %: 0.105 m, 100 %: 0.050 m}",
		}, upwind, "%.4g kn", speed, 16.28, 0.15},
	}
}

func catamaranFigures() *sailedBoat {
	return &sailedBoat{
		title: "Catamaran, 15 m, 3 t, 16 kn", file: "examples/catamaran/bramble.yaml",
		one: sailing(16, trim.Windward, 0), other: sailing(16, trim.Leeward, 0),
		rows: []measured{
			{"upwind speed, kn", first(speed), 27.10, 0.3, 26, 32, "", nil},
			{"upwind true angle, deg", first(wind), 49.7, 0.5, 44, 52, "", nil},
			{"leeward board, % of weight", first(lifted("starboard board", "")), 85.6, 1.5, 85, 105, "", nil},
			{"windward rudder wings, % of weight", first(lifted("port rudder", "wing")), -8.8, 1, -12, -3, "", nil},
			{"leeway, deg", first(slipped), 1.99, 0.2, 1, 3, "", nil},
			{"downwind speed, kn", last(speed), 38.1, 0.4, 38, 44, "", nil},
			{"flies in a rising wind from, kn", humpWind, 7.78, 0.2, 7, 9, "", nil},
			{"flies in a falling wind to, kn", flightWind, 6.19, 0.1, 0, 9, "", nil},
			{"hull leaves the water at, kn", liftSpeed, 15.69, 0.4, 0, 20, "", nil},
		},
	}
}

func keelboatFigures() *sailedBoat {
	upwind := sailing(15, trim.Windward, 0)
	foil := lifted("starboard side foil", "")
	const board = "chord: {0 %: 0.80 m, 100 %: 0.62 m}"
	return &sailedBoat{
		title: "Partly lifted keelboat, 18 m, 8.5 t", file: "examples/keelboat/guelder.yaml",
		one: sailing(20, trim.AtAngle, 110), other: upwind,
		rows: []measured{
			{"speed reaching in 20 kn at 110 deg, kn", first(speed), 23.15, 0.2, 22, 28, "", nil},
			{"foil there, % of weight", first(foil), 65.86, 1.5, 30, 60, "the keel, swung up to windward, lifts with it, and the invented limit that keeps 0.20 m of hull in the water leaves the hull the rest. Lift that speed makes on the bottom is not modelled and would take its part from the foil.", []whatIf{
				{"with a fin of 0.95 and 0.70 m of chord in place of 0.78 and 0.55 m it is", []string{"{0 %: 0.78 m, 100 %: 0.55 m}", "{0 %: 0.95 m, 100 %: 0.70 m}"}, sailing(20, trim.AtAngle, 110), "%.4g %%", foil, 58.3, 2},
				{"with 0.21 m of hull kept in the water in place of 0.20 m it is", []string{"-0.90 to -0.20 m", "-0.90 to -0.21 m"}, sailing(20, trim.AtAngle, 110), "%.4g %%", foil, 60.4, 1.5},
				{"and her speed is", []string{"-0.90 to -0.20 m", "-0.90 to -0.21 m"}, sailing(20, trim.AtAngle, 110), "%.4g kn", speed, 22.29, 0.2},
			}},
			{"heel there, deg", first(toLee), 16.84, 0.8, 15, 22, "", nil},
			{"leeway there, deg", first(slipped), 1.707, 0.2, 0, 2, "", nil},
			{"speed upwind in 15 kn, kn", last(speed), 9.907, 0.15, 11, 13, "best progress is found where she pinches like a boat without foils, and the trade's figure is for the angle at which such boats are sailed. Righting moment does not hold her back; hull drag does, which climbs its hump there. Residuary resistance beyond a Froude number of 0.45 and beyond the tested slenderness is a stated rule (hull.md).", []whatIf{
				{"held at 48 deg, she sails", nil, sailing(15, trim.AtAngle, 48), "%.4g kn", speed, 11.01, 0.15},
				{"there her progress is", nil, sailing(15, trim.AtAngle, 48), "%.4g kn", gain, 7.37, 0.1},
				{"at the best angle it is", nil, upwind, "%.4g kn", gain, 7.74, 0.1},
				{"with half the residuary resistance her best progress is found at", []string{"modes:\n", "model: {residuary: 0.5}\nmodes:\n"}, upwind, "%.4g kn", speed, 10.59, 0.15},
			}},
			{"foil there, % of weight, upwind", last(foil), 2.818, 1.5, 10, 30, "lift grows with the square of speed, and below some 12 kn what the foil lifts costs more in drag than the hull saves: she keeps it in.", []whatIf{
				{"let out by 60 % or more whatever it costs, it carries", []string{"leeward side foil: {extension: 0 to 100 %}", "leeward side foil: {extension: 60 to 100 %}"}, upwind, "%.4g %%", foil, 3.3, 1},
				{"her progress is then", []string{"leeward side foil: {extension: 0 to 100 %}", "leeward side foil: {extension: 60 to 100 %}"}, upwind, "%.4g kn", gain, 7.70, 0.1},
				{"held at 70 deg it carries", nil, sailing(15, trim.AtAngle, 70), "%.4g %%", foil, 10.3, 1.5},
				{"there she sails", nil, sailing(15, trim.AtAngle, 70), "%.4g kn", speed, 13.11, 0.2},
			}},
			{"leeway there, deg, upwind", last(slipped), 5.875, 0.3, 1, 3, "the canted keel gives little side force, and the invented daggerboard has 1.9 m². It costs her next to nothing: twice as much board, deeper, takes the leeway down and not the speed up.", []whatIf{
				{"with boards half as wide again, and 3.60 m deep in place of 2.70 m, it is", []string{board, "chord: {0 %: 1.20 m, 100 %: 0.93 m}", "z: -2.70 m", "z: -3.60 m", "travel: 2.7 m", "travel: 3.6 m"}, upwind, "%.4g deg", slipped, 4.21, 0.3},
				{"and speed is", []string{board, "chord: {0 %: 1.20 m, 100 %: 0.93 m}", "z: -2.70 m", "z: -3.60 m", "travel: 2.7 m", "travel: 3.6 m"}, upwind, "%.4g kn", speed, 9.89, 0.15},
			}},
		},
	}
}
