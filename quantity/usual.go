package quantity

import "fmt"

// Usual is how figures of one SI unit are shown to people unless a face knows better.
type Usual struct {
	Dimension Dimension
	Unit      string
	Decimals  int
}

// Units is a choice of the units that figures are shown in. The zero value is Trade.
type Units int

// The choices.
const (
	Trade Units = iota // knots, degrees, kilonewtons
	SI                 // metres a second and newtons; degrees, which the SI takes beside the radian
)

// UnmarshalText reads a choice by its name, "trade" or "si"; nothing is Trade.
func (c *Units) UnmarshalText(text []byte) error {
	switch string(text) {
	case "", "trade":
		*c = Trade
	case "si":
		*c = SI
	default:
		return fmt.Errorf("units: %q are not known; trade or si", text)
	}
	return nil
}

// MarshalText writes the name of a choice.
func (c Units) MarshalText() ([]byte, error) {
	if c == SI {
		return []byte("si"), nil
	}
	return []byte("trade"), nil
}

// For returns how figures with an SI unit ("m/s", "rad", "N·m") are shown; of any
// other unit, as a plain number.
func (c Units) For(unit string) Usual {
	if c == SI {
		switch unit {
		case "m/s":
			return Usual{Speed, "m/s", 2}
		case "N":
			return Usual{Force, "N", 0}
		case "N·m":
			return Usual{Moment, "N·m", 0}
		}
	}
	return UsualFor(unit)
}

// On is For with forces and moments by the size of the boat that they are of, whose
// weight is in N; 0 where it is not known.
func (c Units) On(weight float64, unit string) Usual {
	if c == SI {
		u := c.For(unit)
		if u.Dimension == Force && weight > 0 && weight < lightBoat {
			u.Decimals = 1
		}
		return u
	}
	return UsualOn(weight, unit)
}

// UsualFor returns how figures with an SI unit ("m/s", "rad", "N·m") are shown in the
// units of the trade; of any other unit, as a plain number.
func UsualFor(unit string) Usual {
	switch unit {
	case "m/s":
		return Usual{Speed, "kn", 2}
	case "rad":
		return Usual{Angle, "deg", 1}
	case "m":
		return Usual{Length, "m", 2}
	case "m²":
		return Usual{Area, "m²", 2}
	case "N":
		return Usual{Force, "kN", 2}
	case "N·m":
		return Usual{Moment, "kN·m", 1}
	case "kg":
		return Usual{Mass, "kg", 0}
	case "s":
		return Usual{Time, "s", 1}
	}
	return Usual{Number, "", 3}
}

// lightBoat is the weight below which a boat's forces are shown in newtons, N.
const lightBoat = 5e3

// UsualOn is UsualFor with forces and moments by the size of the boat that they
// are of, whose weight is in N; 0 where it is not known.
func UsualOn(weight float64, unit string) Usual {
	if weight > 0 && weight < lightBoat {
		switch unit {
		case "N":
			return Usual{Force, "N", 1}
		case "N·m":
			return Usual{Moment, "N·m", 0}
		}
	}
	return UsualFor(unit)
}

// Numeral returns a figure (SI) without its unit.
func (u Usual) Numeral(value float64) string {
	return Numeral(value, u.Dimension, u.Unit, Decimals(u.Decimals))
}

// Format returns a figure (SI) with its unit.
func (u Usual) Format(value float64) string {
	return Format(value, u.Dimension, u.Unit, Decimals(u.Decimals))
}

// FormatChange returns a difference of figures (SI) with its sign and unit.
func (u Usual) FormatChange(change float64) string {
	return FormatChange(change, u.Dimension, u.Unit, Decimals(u.Decimals))
}

// To is the same with another count of decimals.
func (u Usual) To(decimals int) Usual {
	u.Decimals = decimals
	return u
}

// In returns a figure (SI) as a number of the unit, for the axes of charts.
func (u Usual) In(value float64) float64 { return InUnit(value, u.Dimension, u.Unit) }
