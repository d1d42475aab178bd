package fluid

import (
	"fmt"
	"math"

	"foilwright/si"
)

// Range over which water is known here: the sea-surface range of the TEOS-10
// Gibbs function (IOC, SCOR, IAPSO 2010), which is narrower than the range of
// the viscosity and vapour pressure laws.
const (
	coldestWater = ZeroCelsius - 2
	warmestWater = ZeroCelsius + 40
	saltiest     = 0.042
)

// Water is still water at the surface, at one standard atmosphere. The zero
// value is no water; [SeaWater], [FreshWater] and [StandardSea] make one, and a
// water of stated figures may be written out as a literal.
type Water struct {
	Temperature        float64 // K
	Salinity           float64 // Absolute Salinity, kg/kg
	Density            float64 // kg/m³
	KinematicViscosity float64 // m²/s
	VapourPressure     float64 // saturated, over this water, Pa
}

// SeaWater returns water of a temperature, K, and an Absolute Salinity, kg/kg,
// or an error that says which of the two lies outside 271.15 to 313.15 K and 0
// to 0.042 kg/kg.
//
// Density is that of TEOS-10 at zero sea pressure. Viscosity is that of pure
// water (IAPWS R12-08) times the salinity factor of Sharqawy, Lienhard, Zubair
// 2010, eq. 22, so that it runs into fresh water without a step; their own fit
// for pure water (eq. 23) differs from it by less than 0.05 %. They claim 1.5 %:
// an older handbook table of sea water lies within 0.8 % of it from 10 to 30 °C
// and 1.4 % below it at 0 °C. Vapour pressure is that of pure water (IAPWS
// SR1-86) lowered by Raoult's law as in Sharqawy et al. 2010, eq. 32. Left out:
// pressure with depth (0.0005 % of density a metre), dissolved air, regional
// salt composition.
func SeaWater(temperature, salinity float64) (Water, error) {
	if !(temperature >= coldestWater && temperature <= warmestWater) {
		return Water{}, fmt.Errorf("water temperature: %g K, allowed is %g to %g K\nhint: temperatures are in kelvin, 15 °C is 288.15 K",
			temperature, coldestWater, warmestWater)
	}
	if !(salinity >= 0 && salinity <= saltiest) {
		return Water{}, fmt.Errorf("water salinity: %g kg/kg, allowed is 0 to %g kg/kg\nhint: salinity is kilograms of salt to a kilogram of water, 35 g/kg is 0.035",
			salinity, saltiest)
	}
	density := waterDensity(temperature, salinity)
	return Water{
		Temperature:        temperature,
		Salinity:           salinity,
		Density:            density,
		KinematicViscosity: waterViscosity(temperature, salinity) / density,
		VapourPressure:     waterVapourPressure(temperature, salinity),
	}, nil
}

// FreshWater returns water without salt; see [SeaWater].
func FreshWater(temperature float64) (Water, error) { return SeaWater(temperature, 0) }

// StandardSea returns standard sea water: 15 °C and 35.16504 g/kg.
func StandardSea() Water {
	w, err := SeaWater(StandardTemperature, StandardSalinity)
	if err != nil {
		panic("internal error: standard sea water out of range: " + err.Error())
	}
	return w
}

// Reynolds returns the Reynolds number of a length, m, at a speed: |V|·L/ν.
func (w Water) Reynolds(speed si.Speed, length float64) float64 {
	return math.Abs(speed.MetresPerSecond()) * length / w.KinematicViscosity
}

// DynamicPressure returns ½ρV², Pa.
func (w Water) DynamicPressure(speed si.Speed) float64 {
	v := speed.MetresPerSecond()
	return 0.5 * w.Density * v * v
}

// PressureAboveVapour returns how far the still water's pressure at a depth, m,
// positive down, lies above its vapour pressure, Pa:
// p_a + ρ·g·h − p_v, with p_a the pressure of the air above in Pa.
func (w Water) PressureAboveVapour(depth, airPressure float64) float64 {
	return airPressure + w.Density*si.Gravity*depth - w.VapourPressure
}

// CavitationNumber returns σ = (p_a + ρ·g·h − p_v)/(½ρV²) at a depth h, m,
// positive down, under air of pressure p_a, Pa. A pressure coefficient below −σ
// is below vapour pressure. At rest it is +Inf: nothing cavitates.
func (w Water) CavitationNumber(speed si.Speed, depth, airPressure float64) float64 {
	q := w.DynamicPressure(speed)
	if q == 0 {
		return math.Inf(1)
	}
	return w.PressureAboveVapour(depth, airPressure) / q
}

// waterDensity returns the density, kg/m³, of water at temperature T, K, and
// Absolute Salinity S, kg/kg, at zero sea pressure: the reciprocal of ∂g/∂p of
// the TEOS-10 Gibbs function (IOC, SCOR, IAPSO 2010, app. G and H: pure water
// Feistel 2003, IAPWS SR7-09; salt Feistel 2008, IAPWS R13-08), with
// y = t/40 °C and x = √(S/S_u).
func waterDensity(temperature, salinity float64) float64 {
	const unitSalinity = 0.040 * 35.16504 / 35 // S_u, kg/kg
	y := (temperature - ZeroCelsius) / 40
	x := math.Sqrt(salinity / unitSalinity)

	pure := horner(y, 100015.695367145, -270.983805184062, 1455.0364540468, -672.50778314507,
		397.968445406972, -194.618310617595, 63.5113936641785, -9.63108119393062)
	salt := horner(y, -3310.49154044839, 729.116529735046, -860.764303783977, 694.244814133268, -297.728741987187) +
		x*horner(y, 199.459603073901, -175.292041186547, 383.058066002476, -460.319931801257, 234.565187611355) +
		x*x*horner(y, -54.7919133532887, -22.6683558512829) +
		x*x*x*36.0284195611086
	return 1e8 / (pure + x*x*salt)
}

// waterViscosity returns the dynamic viscosity, Pa·s.
func waterViscosity(temperature, salinity float64) float64 {
	t := temperature - ZeroCelsius
	a := horner(t, 1.541, 1.998e-2, -9.52e-5)
	b := horner(t, 7.974, -7.561e-2, 4.724e-4)
	return pureWaterViscosity(temperature) * (1 + a*salinity + b*salinity*salinity)
}

// pureWaterViscosity returns the dynamic viscosity, Pa·s, of pure water at one
// atmosphere: IAPWS R12-08 (2008), eq. 10 to 12 and tables 1 and 2, without the
// critical enhancement, which is nil far from the critical point.
func pureWaterViscosity(temperature float64) float64 {
	const criticalTemperature, criticalDensity = 647.096, 322.0 // K, kg/m³
	tau := criticalTemperature / temperature
	rho := waterDensity(temperature, 0) / criticalDensity

	dilute := 100 / math.Sqrt(tau) / horner(tau, 1.67752, 2.20462, 0.6366564, -0.241605)
	d := rho - 1
	residual := rho * horner(tau-1,
		horner(d, 0.520094, 0.222531, -0.281378, 0.161913, -0.0325372),
		horner(d, 0.0850895, 0.999115, -0.906851, 0.257399),
		horner(d, -1.08374, 1.88797, -0.772479),
		horner(d, -0.289555, 1.26613, -0.489837, 0, 0.0698452, 0, -0.00435673),
		horner(d, 0, 0, -0.257040, 0, 0, 0.00872102),
		horner(d, 0, 0.120573, 0, 0, 0, 0, -0.000593264))
	return 1e-6 * dilute * math.Exp(residual)
}

// waterVapourPressure returns the saturation pressure, Pa, of water at
// temperature T, K, and salinity S, kg/kg: IAPWS SR1-86 (Wagner, Pruss 1993,
// eq. 1), lowered by p_v,w/p_v = 1 + 0.57357·S/(1−S) (Sharqawy et al. 2010, eq. 32).
func waterVapourPressure(temperature, salinity float64) float64 {
	const criticalTemperature, criticalPressure = 647.096, 22.064e6 // K, Pa
	v := 1 - temperature/criticalTemperature
	r := math.Sqrt(v)
	exponent := v * (-7.85951783 + 1.84408259*r + v*v*(-11.7866497+22.6807411*r-15.9618719*v+
		1.80122502*v*v*v*v*r))
	pure := criticalPressure * math.Exp(criticalTemperature/temperature*exponent)
	return pure / (1 + 0.57357*salinity/(1-salinity))
}

// horner returns c[0] + c[1]·x + c[2]·x² + …
func horner(x float64, c ...float64) float64 {
	sum := 0.0
	for i := len(c) - 1; i >= 0; i-- {
		sum = sum*x + c[i]
	}
	return sum
}
