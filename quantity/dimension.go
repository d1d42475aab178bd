package quantity

import "strings"

// Dimension says what kind of quantity is meant. The zero value is Number.
type Dimension int

// The dimensions, each with the SI unit that its values are kept in.
const (
	Number          Dimension = iota // a plain number or factor; per cent will do
	Share                            // a part of a whole: 0.30, 30 % or 35 g/kg; kept as 0.30 and 0.035
	Length                           // m
	Area                             // m²
	Volume                           // m³
	Mass                             // kg
	Angle                            // rad
	Speed                            // m/s
	Force                            // N
	Moment                           // N·m
	Pressure                         // Pa
	Density                          // kg/m³
	Temperature                      // K, absolute
	Time                             // s
	Viscosity                        // kinematic, m²/s
	Power                            // W
	AngularRate                      // rad/s
	AnglePerLength                   // rad/m, such as a flap's gain on ride height
	MassPerLength                    // kg/m
	ForcePerLength                   // N/m
	MomentPerLength                  // N·m/m
	MomentPerAngle                   // N·m/rad, such as righting moment for each degree of heel
	dimensionCount
)

// dimensionWords holds, for each dimension, the trade's word, the SI unit, the
// two units offered first to somebody who wrote none, and a worked example.
type dimensionWords struct {
	name, si, first, second, example string
}

var dimensions = [dimensionCount]dimensionWords{
	Number:          {"number", "", "", "", "1.00 ± 0.02"},
	Share:           {"share", "", "%", "", "30 %"},
	Length:          {"length", "m", "m", "mm", "5.20 m ± 0.05 m"},
	Area:            {"area", "m²", "m²", "cm²", "66 m² ± 2 m²"},
	Volume:          {"volume", "m³", "m³", "L", "0.35 m³"},
	Mass:            {"mass", "kg", "kg", "t", "1180 kg ± 25 kg"},
	Angle:           {"angle", "rad", "deg", "rad", "12 deg"},
	Speed:           {"speed", "m/s", "kn", "m/s", "17 kn"},
	Force:           {"force", "N", "kN", "N", "24 kN"},
	Moment:          {"moment", "N·m", "kN·m", "N·m", "95 kN·m"},
	Pressure:        {"pressure", "Pa", "kPa", "hPa", "101.3 kPa"},
	Density:         {"density", "kg/m³", "kg/m³", "g/cm³", "1025 kg/m³"},
	Temperature:     {"temperature", "K", "°C", "K", "15 °C ± 2 °C"},
	Time:            {"time", "s", "s", "min", "90 s"},
	Viscosity:       {"kinematic viscosity", "m²/s", "m²/s", "mm²/s", "1.19e-6 m²/s"},
	Power:           {"power", "W", "kW", "W", "1.5 kW"},
	AngularRate:     {"angular rate", "rad/s", "deg/s", "rad/s", "10 deg/s"},
	AnglePerLength:  {"angle per length", "rad/m", "deg/m", "rad/m", "12 deg/m"},
	MassPerLength:   {"mass per length", "kg/m", "kg/m", "g/m", "3.2 kg/m"},
	ForcePerLength:  {"force per length", "N/m", "kN/m", "N/m", "40 kN/m"},
	MomentPerLength: {"moment per length", "N·m/m", "kN·m/m", "N·m/m", "2 kN·m/m"},
	MomentPerAngle:  {"moment per angle", "N·m/rad", "kN·m/deg", "N·m/rad", "7 kN·m/deg"},
}

func (d Dimension) known() bool { return d >= 0 && d < dimensionCount }

func (d Dimension) words() dimensionWords {
	if !d.known() {
		return dimensionWords{name: "unknown dimension"}
	}
	return dimensions[d]
}

// bare reports whether a number without a unit is a complete value.
func (d Dimension) bare() bool { return d == Number || d == Share }

// String returns the trade's word, such as "length" or "kinematic viscosity".
func (d Dimension) String() string { return d.words().name }

// SI returns the unit that values of the dimension are kept in, such as "m/s";
// it is empty for numbers and shares.
func (d Dimension) SI() string { return d.words().si }

// Example returns a text that Parse reads as this dimension, for help pages.
func (d Dimension) Example() string { return d.words().example }

// Units lists the units that would do, the usual one first, other spellings of
// the same unit left out. It is empty for a plain number.
func (d Dimension) Units() []string {
	var names []string
	if first := d.words().first; first != "" {
		names = append(names, first)
	}
	for _, u := range units {
		if u.dimension == d && u.names[0] != "" && u.names[0] != d.words().first {
			names = append(names, u.names[0])
		}
	}
	return names
}

// withArticle returns "a mass", "an angle".
func (d Dimension) withArticle() string {
	name := d.String()
	if strings.ContainsRune("aeiou", rune(name[0])) {
		return "an " + name
	}
	return "a " + name
}
