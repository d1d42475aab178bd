package section

import "math"

// LiftSlope0012 returns the lift slope of NACA 0012, a radian, as measured in many
// tunnels, over the Reynolds number on the chord: 0.1025 + 0.00485·log₁₀(Re/10⁶) a
// degree without compressibility (McCroskey 1988, AGARD CP-429). Below 10⁶ and
// above 10⁸ it is held at its value there, which is judgement.
func LiftSlope0012(reynolds float64) float64 {
	decades := min(max(math.Log10(math.Hypot(reynolds, 1)/1e6), 0), 2)
	return (0.1025 + 0.00485*decades) * 180 / math.Pi
}

// LiftSlope returns the slope of lift, a radian, at a Reynolds number on the
// chord, and where it comes from: for show, beside what a lattice uses, which is
// 2π and stays so.
//
// Thickness raises the ideal flow's slope ([Potential.LiftSlope]) by about 0.8
// of the thickness ratio, and the boundary layer takes about as much off again:
// NACA 0012 has 0.97 of 2π at a Reynolds number of 6e6 in water, 0.98 in air at
// 0.15 of the speed of sound. That section's slope is measured ([LiftSlope0012]);
// no law for others with a source at hand is known here, and they get 2π.
func (s Section) LiftSlope(reynolds float64) (slope float64, source string) {
	if s.Name == "naca 0012" {
		return LiftSlope0012(reynolds), "measured (McCroskey 1988, AGARD CP-429)"
	}
	return 2 * math.Pi, "thin-aerofoil theory (Glauert 1926)"
}
