package fluid

import (
	"fmt"
	"math"

	"foilwright/si"
)

// Air is air at rest. The zero value is no air; [MoistAir], [StandardAtmosphere]
// and [StandardAir] make one, and air of stated figures may be written out as a
// literal.
type Air struct {
	Temperature        float64 // K
	Pressure           float64 // Pa
	Humidity           float64 // relative, 0 to 1
	Density            float64 // kg/m³
	KinematicViscosity float64 // m²/s
}

// carbonDioxide is the mole fraction of CO₂ that CIPM-2007 takes as its example.
const carbonDioxide = 400e-6

// MoistAir returns air of a temperature, K, a pressure, Pa, and a relative
// humidity, 0 to 1, or an error that says which of them lies outside 250 to
// 320 K, 60 000 to 110 000 Pa, 0 to 1.
//
// Density is CIPM-2007 (Picard, Davis, Gläser, Fujii 2008, Metrologia 45,
// eq. 1 and app. A) with 400 ppm of CO₂; the formula is certified for 15 to
// 27 °C and 600 to 1100 hPa, and away from them differs from its own limits by
// far less than weather does. Viscosity is Sutherland's for dry air (ISO
// 2533:1975, eq. 22); humidity, which lowers it by under 1 %, is left out of it.
func MoistAir(temperature, pressure, humidity float64) (Air, error) {
	const coldest, warmest, lowest, highest = 250.0, 320.0, 60000.0, 110000.0
	switch {
	case !(temperature >= coldest && temperature <= warmest):
		return Air{}, fmt.Errorf("air temperature: %g K, allowed is %g to %g K\nhint: temperatures are in kelvin, 15 °C is 288.15 K",
			temperature, coldest, warmest)
	case !(pressure >= lowest && pressure <= highest):
		return Air{}, fmt.Errorf("air pressure: %g Pa, allowed is %g to %g Pa\nhint: 1 hPa is 100 Pa, a usual day has 101325 Pa",
			pressure, lowest, highest)
	case !(humidity >= 0 && humidity <= 1):
		return Air{}, fmt.Errorf("air humidity: %g, allowed is 0 to 1\nhint: relative humidity is a share, 60 %% is 0.6", humidity)
	}
	density := moistAirDensity(temperature, pressure, humidity)
	return Air{
		Temperature:        temperature,
		Pressure:           pressure,
		Humidity:           humidity,
		Density:            density,
		KinematicViscosity: airViscosity(temperature) / density,
	}, nil
}

// StandardAtmosphere returns the dry air of ISO 2533:1975 at a geopotential
// height, m, from −2000 to 11 000 m (its lowest layer), or an error.
func StandardAtmosphere(height float64) (Air, error) {
	const lowest, highest = -2000.0, 11000.0
	if !(height >= lowest && height <= highest) {
		return Air{}, fmt.Errorf("standard atmosphere height: %g m, allowed is %g to %g m", height, lowest, highest)
	}
	const gasConstant, lapse = 287.05287, 0.0065 // J/(kg·K); K/m
	temperature := StandardTemperature - lapse*height
	pressure := StandardPressure * math.Pow(temperature/StandardTemperature, si.Gravity/(gasConstant*lapse))
	density := pressure / (gasConstant * temperature)
	return Air{
		Temperature:        temperature,
		Pressure:           pressure,
		Density:            density,
		KinematicViscosity: airViscosity(temperature) / density,
	}, nil
}

// StandardAir returns the standard atmosphere at sea level: 15 °C, 101 325 Pa,
// dry, 1.225 kg/m³.
func StandardAir() Air {
	a, err := StandardAtmosphere(0)
	if err != nil {
		panic("internal error: standard air out of range: " + err.Error())
	}
	return a
}

// Reynolds returns the Reynolds number of a length, m, at a speed: |V|·L/ν.
func (a Air) Reynolds(speed si.Speed, length float64) float64 {
	return math.Abs(speed.MetresPerSecond()) * length / a.KinematicViscosity
}

// DynamicPressure returns ½ρV², Pa.
func (a Air) DynamicPressure(speed si.Speed) float64 {
	v := speed.MetresPerSecond()
	return 0.5 * a.Density * v * v
}

// airViscosity returns the dynamic viscosity of dry air, Pa·s, at T, K:
// β·T^1.5/(T + S) with β = 1.458e-6, S = 110.4 K (Sutherland 1893; ISO 2533:1975).
func airViscosity(temperature float64) float64 {
	return 1.458e-6 * temperature * math.Sqrt(temperature) / (temperature + 110.4)
}

// moistAirDensity is CIPM-2007: p pressure, Pa; T temperature, K; t in °C;
// h relative humidity; x_v mole fraction of vapour; Z compressibility.
func moistAirDensity(temperature, p, h float64) float64 {
	t := temperature - ZeroCelsius
	saturation := math.Exp(1.2378847e-5*temperature*temperature - 1.9121316e-2*temperature + 33.93711047 - 6.3431645e3/temperature)
	enhancement := 1.00062 + 3.14e-8*p + 5.6e-7*t*t
	xv := h * enhancement * saturation / p
	pt := p / temperature
	z := 1 - pt*(horner(t, 1.58123e-6, -2.9331e-8, 1.1043e-10)+
		horner(t, 5.707e-6, -2.051e-8)*xv+
		horner(t, 1.9898e-4, -2.376e-6)*xv*xv) +
		pt*pt*(1.83e-11-0.765e-8*xv*xv)
	return (3.483740 + 1.4446*(carbonDioxide-0.0004)) * 1e-3 * pt / z * (1 - 0.3780*xv)
}
