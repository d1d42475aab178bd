package quantity

import (
	"math"
	"strings"

	"foilwright/si"
)

// A unit turns a number n of its own into SI by n·times/per + zero. The divisor
// is apart so that 5 mm is exactly the float64 nearest to 0.005.
type unit struct {
	dimension  Dimension
	times, per float64
	zero       float64  // SI value of a reading of nought, for °C and °F
	names      []string // the first is the usual one; powers as ², products as ·
}

// Exact by definition: the inch is 25.4 mm, the pound 0.45359237 kg, the
// nautical mile 1852 m (international yard and pound agreement 1959; BIPM SI
// brochure 2019, table 8 and section 5; ISO 80000-3).
const (
	foot         = 0.3048
	inch         = 0.0254
	pound        = 0.45359237
	nauticalMile = 1852
	statuteMile  = 1609.344
	iceKelvin    = 273.15             // ITS-90: t/°C = T/K − 273.15
	fahrenheit   = 459.67 * 5.0 / 9.0 // zero of the Fahrenheit scale, K
)

var units = []unit{
	{Number, 1, 1, 0, []string{""}},
	{Share, 1, 100, 0, []string{"%"}},
	{Share, 1, 1000, 0, []string{"g/kg"}},

	{Length, 1, 1, 0, []string{"m"}},
	{Length, 1, 1000, 0, []string{"mm"}},
	{Length, 1, 100, 0, []string{"cm"}},
	{Length, 1000, 1, 0, []string{"km"}},
	{Length, 1, 1e6, 0, []string{"µm", "um"}},
	{Length, nauticalMile, 1, 0, []string{"nmi"}},
	{Length, foot, 1, 0, []string{"ft"}},
	{Length, inch, 1, 0, []string{"in"}},

	{Area, 1, 1, 0, []string{"m²"}},
	{Area, 1, 1e4, 0, []string{"cm²"}},
	{Area, 1, 1e6, 0, []string{"mm²"}},
	{Area, foot * foot, 1, 0, []string{"ft²"}},

	{Volume, 1, 1, 0, []string{"m³"}},
	{Volume, 1, 1000, 0, []string{"L", "l", "dm³"}},
	{Volume, 1, 1e6, 0, []string{"cm³"}},

	{Mass, 1, 1, 0, []string{"kg"}},
	{Mass, 1000, 1, 0, []string{"t"}},
	{Mass, 1, 1000, 0, []string{"g"}},
	{Mass, pound, 1, 0, []string{"lb", "lbs"}},

	{Angle, float64(si.Degree), 1, 0, []string{"deg", "°"}},
	{Angle, 1, 1, 0, []string{"rad"}},
	{Angle, 1, 1000, 0, []string{"mrad"}},

	{Speed, float64(si.Knot), 1, 0, []string{"kn", "kt", "kts"}},
	{Speed, 1, 1, 0, []string{"m/s"}},
	{Speed, 1, 3.6, 0, []string{"km/h", "kmh"}},
	{Speed, statuteMile, 3600, 0, []string{"mph"}},

	{Force, 1, 1, 0, []string{"N"}},
	{Force, 1000, 1, 0, []string{"kN"}},
	{Force, 1e6, 1, 0, []string{"MN"}},
	{Force, si.Gravity, 1, 0, []string{"kgf"}},

	{Moment, 1, 1, 0, []string{"N·m", "Nm"}},
	{Moment, 1000, 1, 0, []string{"kN·m", "kNm"}},
	{Moment, 1e6, 1, 0, []string{"MN·m", "MNm"}},

	{Pressure, 1, 1, 0, []string{"Pa", "N/m²"}},
	{Pressure, 100, 1, 0, []string{"hPa", "mbar"}},
	{Pressure, 1000, 1, 0, []string{"kPa", "kN/m²"}},
	{Pressure, 1e6, 1, 0, []string{"MPa", "N/mm²"}},
	{Pressure, 1e9, 1, 0, []string{"GPa"}},
	{Pressure, 1e5, 1, 0, []string{"bar"}},

	{Density, 1, 1, 0, []string{"kg/m³"}},
	{Density, 1000, 1, 0, []string{"g/cm³", "kg/L", "t/m³"}},

	{Temperature, 1, 1, 0, []string{"K"}},
	{Temperature, 1, 1, iceKelvin, []string{"°C", "C"}},
	{Temperature, 5, 9, fahrenheit, []string{"°F"}},

	{Time, 1, 1, 0, []string{"s"}},
	{Time, 1, 1000, 0, []string{"ms"}},
	{Time, 60, 1, 0, []string{"min"}},
	{Time, 3600, 1, 0, []string{"h"}},

	{Viscosity, 1, 1, 0, []string{"m²/s"}},
	{Viscosity, 1, 1e6, 0, []string{"mm²/s", "cSt"}},

	{Power, 1, 1, 0, []string{"W"}},
	{Power, 1000, 1, 0, []string{"kW"}},

	{AngularRate, float64(si.Degree), 1, 0, []string{"deg/s", "°/s"}},
	{AngularRate, 1, 1, 0, []string{"rad/s"}},

	{AnglePerLength, float64(si.Degree), 1, 0, []string{"deg/m", "°/m"}},
	{AnglePerLength, 100 * float64(si.Degree), 1, 0, []string{"deg/cm", "°/cm"}},
	{AnglePerLength, 1, 1, 0, []string{"rad/m"}},

	{MassPerLength, 1, 1, 0, []string{"kg/m"}},
	{MassPerLength, 1, 1000, 0, []string{"g/m"}},

	{ForcePerLength, 1, 1, 0, []string{"N/m"}},
	{ForcePerLength, 1000, 1, 0, []string{"kN/m", "N/mm"}},

	{MomentPerLength, 1, 1, 0, []string{"N·m/m", "Nm/m"}},
	{MomentPerLength, 1000, 1, 0, []string{"kN·m/m", "kNm/m"}},

	{MomentPerAngle, 1, 1, 0, []string{"N·m/rad", "Nm/rad"}},
	{MomentPerAngle, 1000, 1, 0, []string{"kN·m/rad", "kNm/rad"}},
	{MomentPerAngle, 180 / math.Pi, 1, 0, []string{"N·m/deg", "Nm/deg", "N·m/°", "Nm/°"}},
	{MomentPerAngle, 180e3 / math.Pi, 1, 0, []string{"kN·m/deg", "kNm/deg", "kN·m/°", "kNm/°"}},
}

// spelledOut maps words that people write for a unit to the unit's sign, for
// hints only: a file keeps to one spelling.
var spelledOut = map[string]string{
	"metre": "m", "metres": "m", "meter": "m", "meters": "m", "mtr": "m",
	"feet": "ft", "foot": "ft", "'": "ft", "inch": "in", "inches": "in", `"`: "in",
	"kilo": "kg", "kilos": "kg", "kgs": "kg", "kilogram": "kg", "kilograms": "kg",
	"tonne": "t", "tonnes": "t", "ton": "t", "tons": "t", "pound": "lb", "pounds": "lb",
	"degree": "deg", "degrees": "deg", "degs": "deg", "radian": "rad", "radians": "rad",
	"knot": "kn", "knots": "kn", "mps": "m/s", "kph": "km/h",
	"second": "s", "seconds": "s", "sec": "s", "secs": "s",
	"minute": "min", "minutes": "min", "mins": "min", "hour": "h", "hours": "h", "hr": "h", "hrs": "h",
	"sqm": "m²", "litre": "L", "litres": "L", "liter": "L", "liters": "L",
	"celsius": "°C", "degc": "°C", "kelvin": "K", "percent": "%", "pct": "%", "newton": "N", "newtons": "N",
}

var unitByName = indexUnits()

func indexUnits() map[string]unit {
	index := make(map[string]unit)
	for _, u := range units {
		for _, name := range u.names {
			index[name] = u
		}
	}
	return index
}

var spelling = strings.NewReplacer(
	"^2", "²", "^3", "³", "2", "²", "3", "³",
	"⋅", "·", "∙", "·", "•", "·", "*", "·", ".", "·",
	"μ", "µ", "º", "°",
)

// unitNamed finds a unit by any of its spellings.
func unitNamed(name string) (unit, bool) {
	u, ok := unitByName[spelling.Replace(name)]
	return u, ok
}

// unitFor returns the named unit if it suits the dimension, and the dimension's
// SI unit under its own name if it does not.
func unitFor(name string, d Dimension) (unit, string) {
	if name != "" {
		if u, ok := unitNamed(name); ok && u.suits(d) {
			return u, name
		}
	}
	if u, ok := unitNamed(d.SI()); ok {
		return u, d.SI()
	}
	return units[0], ""
}

// suits reports whether the unit can express the dimension. Per cent and bare
// numbers serve both numbers and shares.
func (u unit) suits(d Dimension) bool {
	switch {
	case u.dimension == d, u.plain() && d.bare():
		return true
	default:
		return u.perCent() && d == Number
	}
}

func (u unit) plain() bool   { return u.names[0] == "" }
func (u unit) perCent() bool { return u.names[0] == "%" }

func (u unit) same(v unit) bool {
	return u.names[0] == v.names[0]
}

// si and number convert readings; siSpan and numberSpan convert differences of
// readings, which know no zero.
func (u unit) si(number float64) float64       { return u.siSpan(number) + u.zero }
func (u unit) number(value float64) float64    { return u.numberSpan(value - u.zero) }
func (u unit) siSpan(number float64) float64   { return number * u.times / u.per }
func (u unit) numberSpan(span float64) float64 { return span * u.per / u.times }
