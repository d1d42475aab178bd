package foilwright_test

import "foilwright/trim"

// architectures are the examples but for the canting foil, whose figures stand in
// docs/twenty-metre.md.
func architectures() []*sailedBoat {
	return []*sailedBoat{
		{
			title: "Single-handed dinghy, 115 kg all up, 15 kn", file: "examples/dinghy/sloe.yaml",
			one: sailing(15, trim.Windward, 0), other: sailing(15, trim.Leeward, 0),
			rows: []measured{
				{"upwind speed, kn", first(speed), 12.91, 0.15, 17, 21, "half of the air's drag is windage of the invented helm and hull (helm 0.36 m² at 0.8 and hull 0.30 m² at 0.3 instead give 14.1 kn), and the helm's invented reach of 1.45 m costs 0.02 kn of progress a centimetre; what is left is not explained by one figure."},
				{"upwind true angle, deg", first(wind), 45.73, 0.5, 42, 50, ""},
				{"heel to windward, deg", first(toWind), 35, 0.6, 15, 30, "she stands on her file's limit of 35 deg. Another optimum, at 23 deg and 0.2 % less progress, is inside the range: over-heeling costs next to nothing in this model, which has no ventilation of the strut in waves and no helm who tires."},
				{"leeway, deg", first(slipped), -2.354, 0.2, -2, 2, "to windward, as all boats of this kind that heel this far: the wing's lift carries the side force, and the board is unloaded below it."},
				{"side force over weight", first(sideForce), 0.3976, 0.01, 0.4, 0.55, "follows from the heel and the drive above."},
				{"rudder wing, % of weight", first(lifted("rudder", "wing")), -4.802, 1.5, -20, 20, ""},
				{"downwind speed, kn", last(speed), 22.78, 0.2, 23, 28, "windage, as upwind."},
				{"downwind true angle, deg", last(wind), 139.4, 0.6, 130, 140, ""},
				{"flies in a rising wind from, kn", humpWind, 8.548, 0.15, 7, 9, ""},
				{"flies in a falling wind to, kn", flightWind, 6.117, 0.1, 0, 9, ""},
				{"hull leaves the water at, kn", liftSpeed, 6.737, 0.25, 7, 8, "the invented hull is short and her resistance, a curve of her own, low: she is through the hump early."},
			},
		},
		{
			title: "Catamaran, 16 kn", file: "examples/catamaran/bramble.yaml",
			one: sailing(16, trim.Windward, 0), other: sailing(16, trim.Leeward, 0),
			rows: []measured{
				{"upwind speed, kn", first(speed), 27.43, 0.3, 26, 32, ""},
				{"upwind true angle, deg", first(wind), 50.9, 0.5, 44, 52, ""},
				{"leeward board, % of weight", first(lifted("starboard board", "")), 87.28, 1.5, 85, 105, ""},
				{"windward rudder wings, % of weight", first(lifted("port rudder", "wing")), -21.86, 1, -12, -3, "the boat is 12 m and 2.1 t, not 15 m and 3 t, under a sail plan of the larger kind: she leans on her invented rudder rake (4 deg either way, apart) for righting moment as far as that goes, on wings that cavitate, of which the loads know nothing. Under a limit that keeps her rudders clear of that, which her file does not have, it is about -4 %, and she sails 23.2 kn at 46 deg with 0.6 deg of leeway: what is outside moves to those."},
				{"leeway, deg", first(slipped), 1.791, 0.2, 1, 3, ""},
				{"downwind speed, kn", last(speed), 39.11, 0.4, 38, 44, ""},
				// Her hump is flat, 6.6 to 6.8 kn over 3 kn of speed: the rungs decide.
				{"flies in a rising wind from, kn", humpWind, 6.811, 0.2, 7, 9, "lighter than the boat of the range for her sails (53 m² a tonne)."},
				{"flies in a falling wind to, kn", flightWind, 5.739, 0.1, 0, 9, ""},
				{"hull leaves the water at, kn", liftSpeed, 15.33, 0.4, 0, 20, ""},
			},
		},
		{
			title: "Partly lifted keelboat, 18 m, 8.5 t", file: "examples/keelboat/guelder.yaml",
			one: sailing(20, trim.AtAngle, 110), other: sailing(15, trim.Windward, 0),
			rows: []measured{
				{"speed reaching in 20 kn at 110 deg, kn", first(speed), 23.15, 0.2, 22, 28, ""},
				{"foil there, % of weight", first(lifted("starboard side foil", "")), 66.29, 1.5, 30, 60, "the keel, swung up to windward, lifts with it, and the invented limit that keeps 0.20 m of hull in the water leaves the hull the rest. Lift that speed makes on the bottom is not modelled and would take its part from the foil."},
				{"heel there, deg", first(toLee), 16.84, 0.8, 15, 22, ""},
				{"leeway there, deg", first(slipped), 1.707, 0.2, 0, 2, ""},
				{"speed upwind in 15 kn, kn", last(speed), 9.907, 0.15, 11, 13, "best progress is found at 38.6 deg, where she pinches: hull drag climbs the hump, and speed gained by bearing away does not pay. Borne away to 52 deg she sails 11.4 kn, inside the range. Residuary resistance beyond a Froude number of 0.45 and beyond the tested slenderness is a stated rule (hull.md), and decides this."},
				{"foil there, % of weight, upwind", last(lifted("starboard side foil", "")), 2.818, 1.5, 10, 30, "at 10 kn it hardly pays to extend the foil: its lift to leeward of the keel's costs side force, and the slow boat keeps it in."},
				{"leeway there, deg, upwind", last(slipped), 5.875, 0.3, 1, 3, "the canted keel gives little side force, and the invented daggerboard has 1.9 m²."},
			},
		},
	}
}
