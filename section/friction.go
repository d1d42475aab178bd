package section

import "math"

// Friction lines: the drag of one side of a flat plate over its area and the
// dynamic pressure, at a Reynolds number on its length. All are the formula to
// better than 6 significant figures from Reynolds number 10⁶ up (Blasius: from
// 10⁵); below, each goes over smoothly into the value at its lowest Reynolds
// number, 10⁴ (Blasius: 10³), so that it stays finite down to rest. The sign of
// the Reynolds number is of no account.

const (
	lowestTurbulent = 1e4
	lowestLaminar   = 1e3
)

// ITTC57 is the model–ship correlation line 0.075/(log₁₀Re − 2)² (ITTC 1957).
// It lies above flat-plate friction at low Reynolds numbers.
func ITTC57(reynolds float64) float64 {
	d := math.Log10(math.Hypot(reynolds, lowestTurbulent)) - 2
	return 0.075 / (d * d)
}

// Schoenherr is the mean line 0.242/√C_F = log₁₀(Re·C_F) (Schoenherr 1932),
// solved by Newton's method.
func Schoenherr(reynolds float64) float64 {
	re := math.Hypot(reynolds, lowestTurbulent)
	root := math.Sqrt(PrandtlSchlichting(re)) // of C_F
	for range 20 {
		residual := 0.242/root - math.Log10(re*root*root)
		slope := -0.242/(root*root) - 2/(root*math.Ln10)
		step := residual / slope
		root -= step
		if math.Abs(step) < 1e-14 {
			break
		}
	}
	return root * root
}

// PrandtlSchlichting is the turbulent line 0.455/(log₁₀Re)^2.58 (Schlichting,
// Boundary-Layer Theory, ch. XXI).
func PrandtlSchlichting(reynolds float64) float64 {
	// The power by its logarithm: a third of the price of math.Pow.
	square := reynolds*reynolds + lowestTurbulent*lowestTurbulent
	return 0.455 * math.Exp(-2.58*math.Log(math.Log(square)/(2*math.Ln10)))
}

// Blasius is the laminar line 1.32823/√Re (Blasius 1908).
func Blasius(reynolds float64) float64 {
	return 1.32823 / math.Sqrt(math.Sqrt(reynolds*reynolds+lowestLaminar*lowestLaminar))
}

// FifthPower is the turbulent line 0.074/Re^0.2 (Prandtl 1927), good to about
// Reynolds number 10⁷.
func FifthPower(reynolds float64) float64 {
	return 0.074 / math.Pow(math.Hypot(reynolds, lowestTurbulent), 0.2)
}

// Katsui is 0.0066577/(log₁₀Re − 4.3762)^(0.042612·log₁₀Re + 0.56725) (Katsui,
// Asai, Himeno, Tahara 2005; coefficients from memory). It has no value near
// log₁₀Re = 4.3762; below Reynolds number 10⁵ it goes over into its value there.
func Katsui(reynolds float64) float64 {
	l := math.Log10(math.Hypot(reynolds, 1e5))
	return 0.0066577 / math.Pow(l-4.3762, 0.042612*l+0.56725)
}

// Transition is the friction of a plate that is laminar over the given share of
// its length, 0 to 1, and turbulent behind: the turbulent plate less what the
// laminar run saves (Prandtl's −A/Re; Schlichting, Boundary-Layer Theory,
// ch. XXI), C_F = C_t(Re) − λ·(C_t(λRe) − C_l(λRe)), with C_t
// [PrandtlSchlichting] and C_l [Blasius]. At a share of 1 it is Blasius. It
// supposes that the turbulent layer behind grows as if it were turbulent from
// the front, which at half the length laminar is about 10 % low.
func Transition(reynolds, laminarShare float64) float64 {
	return transition(PrandtlSchlichting(reynolds), reynolds, laminarShare)
}

// transition is [Transition] that is handed the turbulent plate.
func transition(turbulent, reynolds, laminarShare float64) float64 {
	share := min(max(laminarShare, 0), 1)
	if share == 0 {
		return turbulent
	}
	run := share * reynolds
	return turbulent - share*(PrandtlSchlichting(run)-Blasius(run))
}

// Plate is the friction of one side of a flat plate over its area and the dynamic
// pressure, of which profile drag is made: see [PlateOf].
type Plate struct {
	Turbulent float64 // turbulent from the front, [PrandtlSchlichting]
	Mixed     float64 // laminar over a share of its length, [Transition]
}

// PlateOf returns the friction at a Reynolds number on the plate's length and a
// laminar share of it, 0 to 1.
func PlateOf(reynolds, laminarShare float64) Plate {
	turbulent := PrandtlSchlichting(reynolds)
	return Plate{turbulent, transition(turbulent, reynolds, laminarShare)}
}

// PlateSlope returns the derivatives of [PlateOf] by the Reynolds number.
func PlateSlope(reynolds, laminarShare float64) Plate {
	turbulent := turbulentSlope(reynolds)
	slope, share := Plate{turbulent, turbulent}, min(max(laminarShare, 0), 1)
	if share > 0 {
		run := share * reynolds
		laminar := -Blasius(run) / 2 * run / (run*run + lowestLaminar*lowestLaminar)
		slope.Mixed -= share * share * (turbulentSlope(run) - laminar)
	}
	return slope
}

// turbulentSlope is the derivative of [PrandtlSchlichting].
func turbulentSlope(reynolds float64) float64 {
	square := reynolds*reynolds + lowestTurbulent*lowestTurbulent
	return PrandtlSchlichting(reynolds) * -2.58 * 2 / math.Log(square) * reynolds / square
}

// Form-factor coefficients: a turbulent-type section is thickest at 30 % of the
// chord, a laminar-type one at 40 % or behind.
const (
	turbulentThickest = 0.30
	laminarThickest   = 0.40
)

// FormFactor returns the profile drag of a section of a thickness over chord
// at its ideal lift, over twice the plate's friction: 1 + 2(t/c) + 60(t/c)⁴
// where it is thickest at 30 % of the chord or before, 1 + 1.2(t/c) + 70(t/c)⁴
// at 40 % or behind (Hoerner 1965, ch. 6, from memory), and in between a
// straight blend of the two, which is judgement.
func FormFactor(thickness, thickestAt float64) float64 {
	blend := min(max((thickestAt-turbulentThickest)/(laminarThickest-turbulentThickest), 0), 1)
	t := thickness
	t4 := t * t * t * t
	return (1-blend)*(1+2*t+60*t4) + blend*(1+1.2*t+70*t4)
}

// BodyFormFactor returns the drag of a streamlined body of revolution over its
// wetted area's friction: 1 + 1.5(d/l)^1.5 + 7(d/l)³ (Hoerner 1965, ch. 6, from
// memory), with the diameter over the length.
func BodyFormFactor(diameterOverLength float64) float64 {
	d := max(diameterOverLength, 0)
	return 1 + 1.5*d*math.Sqrt(d) + 7*d*d*d
}

// SprayDrag returns the drag of the spray that a strut throws up where it
// pierces the water's surface, N: 0.24·q·t² (Hoerner 1965, ch. 10, from memory),
// of the dynamic pressure q, Pa, and the strut's thickness t, m. It is measured
// at high Froude numbers on the chord, and is good to some 30 %.
func SprayDrag(dynamicPressure, thickness float64) float64 {
	return 0.24 * dynamicPressure * thickness * thickness
}

// WallJunctionDrag returns the drag that the corner between a section and a
// wall square to it adds, on the chord squared: 0.75(t/c) − 0.0003/(t/c)²
// (Hoerner 1965, ch. 8, from memory, so that even its reference area is in
// doubt). Below a thickness of 0.08, towards where it turns to thrust, it gives
// way to the power of the thickness that meets it in value and slope.
func WallJunctionDrag(thicknessOverChord float64) float64 {
	const join = 0.08
	t := thicknessOverChord
	if t >= join {
		return 0.75*t - 0.0003/(t*t)
	}
	return powerFromOrigin(t/join, 0.75*join-0.0003/(join*join), 0.75*join+0.0006/(join*join))
}

// CrossingDrag returns the drag that two struts add where they cross, on the
// thickness squared: 17(t/c)² − 0.05 (Hoerner 1965, ch. 8, from memory). Below a
// thickness of 0.06 it goes on as [WallJunctionDrag] does.
func CrossingDrag(thicknessOverChord float64) float64 {
	const join = 0.06
	t := thicknessOverChord
	if t >= join {
		return 17*t*t - 0.05
	}
	return powerFromOrigin(t/join, 17*join*join-0.05, 34*join*join)
}

// powerFromOrigin returns value·s^(slope/value), which has that value and slope
// at s = 1.
func powerFromOrigin(s, value, slope float64) float64 {
	return value * math.Pow(max(s, 0), slope/value)
}
