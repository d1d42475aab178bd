package report

import (
	"math"

	"foilwright/boat"
	"foilwright/quantity"
	"foilwright/si"
)

// shown is how figures of one SI unit are shown.
type shown struct {
	dimension quantity.Dimension
	unit      string
	decimals  int
}

// as tells how figures with an SI unit are shown to people.
func as(unit string) shown { return shownAs(quantity.UsualFor(unit)) }

func shownAs(u quantity.Usual) shown { return shown{u.Dimension, u.Unit, u.Decimals} }

// numeral returns a figure without its unit.
func (s shown) numeral(v float64) string {
	return quantity.Numeral(v, s.dimension, s.unit, quantity.Decimals(s.decimals))
}

// with returns a figure with its unit.
func (s shown) with(v float64) string {
	return quantity.Format(v, s.dimension, s.unit, quantity.Decimals(s.decimals))
}

// change returns a difference of figures with its sign and without its unit.
func (s shown) change(v float64) string {
	return signed(v, s)
}

func signed(v float64, s shown) string {
	n := s.numeral(v)
	if v > 0 && n != s.numeral(0) {
		return "+" + n
	}
	return n
}

func knots(v si.Speed) string   { return as("m/s").with(float64(v)) }
func degrees(v si.Angle) string { return as("rad").with(float64(v)) }
func metres(v float64) string   { return as("m").with(v) }

// as is the function as, with forces and moments by the size of the boat that
// the page is about.
func (p *page) as(unit string) shown { return shownAs(p.units.On(p.weight, unit)) }

// speed is a speed with its unit, and wind that of the wind, with a decimal less.
func (p *page) speed(v si.Speed) string { return p.as("m/s").with(float64(v)) }

func (p *page) wind(v si.Speed) string { return p.units.For("m/s").To(1).Format(float64(v)) }

func (p *page) number(unit string, v float64) string { return p.as(unit).numeral(v) }
func (p *page) force(v float64) string               { return p.as("N").with(v) }
func (p *page) moment(v float64) string              { return p.as("N·m").with(v) }
func (p *page) kN() string                           { return p.as("N").unit }
func (p *page) kNm() string                          { return p.as("N·m").unit }

// lift shows a force across the track, with one decimal less than one along it.
func (p *page) lift(v float64) string {
	s := p.as("N")
	s.decimals--
	return s.numeral(v)
}

func perCent(share float64) string {
	return quantity.Format(share, quantity.Share, "%", quantity.Decimals(1))
}

// changed shows a share as a change in per cent, without the sign of per cent.
func changed(share float64) string {
	return quantity.FormatChange(share, quantity.Share, "%", quantity.Decimals(1))
}

// sideways says on which side something is: "0.42 m to leeward".
func sideways(amount float64, s shown, leeward float64) string {
	if s.numeral(amount) == s.numeral(0) {
		return s.with(0)
	}
	if amount*leeward > 0 {
		return s.with(amount*leeward) + " to leeward"
	}
	return s.with(-amount*leeward) + " to windward"
}

// either shows figures, without their unit, by the way that they point: plus
// where times the figure is above zero, minus where it is below.
func (s shown) either(plus, minus string, times float64) func(float64) string {
	return func(v float64) string {
		switch v *= times; {
		case s.numeral(math.Abs(v)) == s.numeral(0):
			return s.numeral(0)
		case v > 0:
			return s.numeral(v) + " " + plus
		}
		return s.numeral(-v) + " " + minus
	}
}

// tack returns +1 where positive heel is to leeward: with the wind from port.
func tack(windFrom string) float64 {
	if windFrom == boat.Starboard.String() {
		return -1
	}
	return 1
}

// sideOf returns the side of a name.
func sideOf(windFrom string) boat.Side {
	if windFrom == boat.Starboard.String() {
		return boat.Starboard
	}
	return boat.Port
}
