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
				{"upwind speed, kn", first(speed), 0, 0.15, 17, 21, ""},
				{"upwind true angle, deg", first(wind), 0, 0.5, 42, 50, ""},
				{"heel to windward, deg", first(toWind), 0, 0.6, 15, 30, ""},
				{"leeway, deg", first(slipped), 0, 0.2, -2, 2, ""},
				{"side force over weight", first(sideForce), 0, 0.01, 0.4, 0.55, ""},
				{"rudder wing, % of weight", first(lifted("rudder", "wing")), 0, 1.5, -20, 20, ""},
				{"downwind speed, kn", last(speed), 0, 0.2, 23, 28, ""},
				{"downwind true angle, deg", last(wind), 0, 0.6, 130, 140, ""},
				{"flies in a rising wind from, kn", humpWind, 0, 0.15, 7, 9, ""},
				{"flies in a falling wind to, kn", flightWind, 0, 0.1, 0, 9, ""},
				{"hull leaves the water at, kn", liftSpeed, 0, 0.25, 7, 8, ""},
			},
		},
		{
			title: "Catamaran, 16 kn", file: "examples/catamaran/bramble.yaml",
			one: sailing(16, trim.Windward, 0), other: sailing(16, trim.Leeward, 0),
			rows: []measured{
				{"upwind speed, kn", first(speed), 0, 0.3, 26, 32, ""},
				{"upwind true angle, deg", first(wind), 0, 0.5, 44, 52, ""},
				{"leeward board, % of weight", first(lifted("starboard board", "")), 0, 1.5, 85, 105, ""},
				{"windward rudder wings, % of weight", first(lifted("port rudder", "wing")), 0, 1, -12, -3, ""},
				{"leeway, deg", first(slipped), 0, 0.2, 1, 3, ""},
				{"downwind speed, kn", last(speed), 0, 0.4, 38, 44, ""},
				{"flies in a rising wind from, kn", humpWind, 0, 0.15, 7, 9, ""},
				{"flies in a falling wind to, kn", flightWind, 0, 0.1, 0, 9, ""},
				{"hull leaves the water at, kn", liftSpeed, 0, 0.4, 0, 20, ""},
			},
		},
		{
			title: "Partly lifted keelboat, 18 m, 8.5 t", file: "examples/keelboat/guelder.yaml",
			one: sailing(20, trim.AtAngle, 105), other: sailing(15, trim.Windward, 0),
			rows: []measured{
				{"speed reaching in 20 kn at 105 deg, kn", first(speed), 0, 0.2, 22, 28, ""},
				{"foil there, % of weight", first(lifted("starboard side foil", "")), 0, 1.5, 30, 60, ""},
				{"heel there, deg", first(toLee), 0, 0.8, 15, 22, ""},
				{"leeway there, deg", first(slipped), 0, 0.2, 0, 2, ""},
				{"speed upwind in 15 kn, kn", last(speed), 0, 0.15, 11, 13, ""},
				{"foil there, % of weight, upwind", last(lifted("starboard side foil", "")), 0, 1.5, 10, 30, ""},
				{"leeway there, deg, upwind", last(slipped), 0, 0.3, 1, 3, ""},
			},
		},
	}
}
