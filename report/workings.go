package report

import "foilwright/boat"

// workings are how all figures of the table come about. Symbols: w true wind speed, V
// speed through the water, γ true wind angle off the track, β apparent wind angle.
func workings() []working {
	shape, rig := []string{"foils", "hulls", "shared"}, []string{"sails", "rig", "shared"}
	all := append(append([]string{"weights", "model"}, shape...), rig...)
	return []working{
		{"progress", "V cos γ to windward, −V cos γ to leeward, V at a given angle",
			"V is speed through the water, γ the true wind angle off the track. What the trim makes most of.", nil,
			figuresOf("speed", "true wind angle"), all},
		{"speed", "the V at which six equations of force and moment close, with most progress within the limits",
			"Found by a search over attitude and controls from several starts: sequential quadratic programming. Steady sailing: no gusts, no manoeuvres.",
			[]string{"Powell 1978", "Goldfarb and Idnani 1983"}, both(along, searchInputs), all},
		{"true wind angle", "as asked; else the γ with most progress", "Angle between the track and where the true wind comes from.", nil,
			figuresOf("progress", "speed"), all},
		{"apparent wind speed", "√(w² + V² + 2wV cos γ)", "w true wind speed, V speed, γ true wind angle, at 10 m. Other heights feel the wind's profile.", nil, triangle, nil},
		{"apparent wind angle", "atan2(w sin γ, V + w cos γ)", "Off the track; it equals the sum of both drag angles.",
			[]string{"Lanchester 1907"}, both(triangle, figuresOf("aerodynamic drag angle", "hydrodynamic drag angle")), nil},
		{"aerodynamic drag angle", "atan(drag of the air / its side force)", "In the horizontal plane, about the apparent wind.",
			[]string{"Lanchester 1907"}, figuresOf("drag in the air", "sail side force"), rig},
		{"hydrodynamic drag angle", "atan(drag of the water / its side force)", "In the horizontal plane, about the track.",
			[]string{"Lanchester 1907"}, figuresOf("drag in the water", "sail side force"), shape},
		{"heel to leeward", "chosen by the trim within limits.heel", "The boat's roll; foiling boats are sailed heeled to windward.", nil, limitInputs("heel"), all},
		{"pitch bow down", "chosen by the trim within limits.pitch", "The boat's attitude fore and aft.", nil, limitInputs("pitch"), all},
		{"leeway", "chosen by the trim within limits.leeway", "The angle from the track to the bow.", nil, limitInputs("leeway"), all},
		{"ride height", "chosen by the trim within limits.ride height", "Of the hulls' lowest point above the undisturbed water.", nil, limitInputs("ride height"), all},
		{"room the sea asks for", "share not followed × amplitude that one wave in twenty exceeds", "Least ride height, and least depth of free tips, in the sea that was stated.",
			[]string{"Longuet-Higgins 1952", "Airy 1845"}, seaInputs, nil},
		{"weight", "Σ m g", "All masses of the file times standard gravity, 9.80665 m/s².", []string{"3rd CGPM 1901"}, budgetInputs("weight", aloneForce), []string{"weights", "foils", "hulls.mass"}},
		{"side force carried", "the side force at a stated height that closes the six equations in this attitude",
			"Sails are replaced by one force at that height; flaps and rudders close the equations. It does not depend on the point that moments are taken about.", nil,
			carriedInputs, append([]string{"weights"}, shape...)},
		{"sail side force", "|Σ of the sails' lift, induced and section drag, across the track|", "A lifting line of each sail in the wind of the others, its sections within their largest lift.",
			[]string{"Prandtl 1918", "Hazen 1980"}, sailInputs, append([]string{"model.sail drag", "model.gap"}, rig...)},
		{"righting moment", "Σ over weight, buoyancy and water of force × arm about one point", "Each row depends on the point; that righting and heeling moment are equal does not.", nil,
			budgetInputs("", momentAndArm), append([]string{"weights"}, shape...)},
		{"wetted area", "Σ of the skin under water", "Pieces are cut where their quarter-chord line meets the undisturbed water.", nil, wettedInputs, shape},
		{"drag in the water", "Σ over causes in the water, along the track", "Induced drag, profile drag, stall, spray, junctions, waves, bodies and hull.", nil, dragInputs(boat.Water), append([]string{"model"}, shape...)},
		{"drag in the air", "Σ over causes in the air, along the apparent wind", "Sails and windage.", nil, dragInputs(boat.Air), append([]string{"model"}, rig...)},
		{"drag: lift", "the lattice's lift, as far as it points along the track", "Nothing but for rounding: lift is normal to the stream, and its drag is told as induced.", nil, nil, shape},
		{"drag: induced drag", "½ρ ∫ Γ w ds in the far wake", "Γ circulation, w downwash. What lift costs by the vortices that it leaves behind: a lattice with its image over the water's surface. Roll-up of wakes is left out.",
			[]string{"Munk 1921", "Hough and Moran 1969"}, nil, append([]string{"model.wake core"}, shape...)},
		{"drag: profile drag", "Σ q c [2 C_f (1 + 2 t/c + 60 (t/c)⁴) + what grows with lift], of each strip", "C_f of a plate at the strip's Reynolds number, partly laminar; the form factor of sections thickest at 0.3 of the chord, of others 1 + 1.2 t/c + 70 (t/c)⁴. A drag table of the file replaces friction and the drag of lift.",
			[]string{"Blasius 1908", "Prandtl 1927", "Hoerner 1965", "Ladson 1988"}, nil, append([]string{"model.friction", "model.laminar", "model.lift drag", "model.flap loss"}, shape...)},
		{"drag: stall", "grows with the square of lift asked past the largest usable", "No model of stall: it shows the search the way back, and the report says that the section is past its range.",
			[]string{"Abbott, von Doenhoff, Stivers 1945"}, nil, shape},
		{"drag: spray", "Σ 0.24 q t², of each piece that pierces the surface", "q = ½ρV², t the thickness where it pierces, larger at a shallow angle (judgement). Good to 30 %.", []string{"Hoerner 1965"}, nil, append([]string{"model.spray"}, shape...)},
		{"drag: junctions", "Σ ½ q t² (17 (t/c)² − 0.05), of each piece that begins at another", "q = ½ρV², t thickness and c chord there. From memory, so that even the reference area is in doubt.", []string{"Hoerner 1965"}, nil, append([]string{"model.junction"}, shape...)},
		{"drag: waves", "W − 2σ: free waves less what the image counts already", "Linear waves of all strips together at their depth Froude number; surfaces may help each other, and the figure may be negative.", []string{"Wu 1953", "Kochin 1937", "Lunde 1951"}, nil, shape},
		{"drag: bodies", "Σ q S C_f (1 + 1.5 (d/l)^1.5 + 7 (d/l)³)", "Turbulent friction on the skin S of bulbs and pods, d diameter and l length. Lift of bodies and interference are left out.", []string{"Hoerner 1965"}, nil, append([]string{"model.friction"}, shape...)},
		{"drag: hull", "q S C_f + residuary resistance", "Friction by the ITTC line; the rest by a regression on towed yacht hulls, fitted by ourselves.",
			[]string{"ITTC 1957", "Gerritsma, Onnink and Versluis 1981"}, nil, append([]string{"model.residuary", "model.friction", "weights"}, shape...)},
		{"drag: sail lift", "the sails' lift, as far as it points along the apparent wind", "Lift is normal to the local wind, which is not the apparent wind at the stated height.",
			[]string{"Prandtl 1918"}, nil, rig},
		{"drag: sail induced drag", "½ρ ∫ Γ w ds along the sails' wakes", "A lifting line of each sail, with the gap under its foot and the water as a wall.",
			[]string{"Prandtl 1918", "Munk 1921"}, nil, append([]string{"model.gap"}, rig...)},
		{"drag: sail section drag", "Σ ½ρW²A × section drag of the sail's kind over the wind angle", "W apparent wind of the strip, A its area; grows with lift and past the largest lift. Coefficients of main and jib are from memory, others judgement.", []string{"Hazen 1980"}, nil, append([]string{"model.sail drag"}, rig...)},
		{"drag: windage", "Σ ½ρW²A C_D at five heights", "W local apparent wind. Shelter and lift are left out; dry foils have one coefficient (judgement).", nil, nil, append([]string{"model.windage", "model.raised foil"}, append(shape, rig...)...)},
		{controlKey + "*", "chosen by the trim within the range of the file", "A price is what a step more range would gain in progress.", nil, figuresOf(), all},
	}
}
