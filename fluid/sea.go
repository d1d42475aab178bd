package fluid

import (
	"fmt"
	"math"

	"foilwright/si"
)

// Sea is a sea state as sailors are told it: how high its waves are and how long
// they take to pass. Waves are those of deep water, long-crested, and run with
// the true wind. The zero value is a calm sea; seas compare with ==.
type Sea struct {
	Height float64 // significant, m: four times the standard deviation of the surface
	Period float64 // of the spectrum's peak at a fixed place, s
}

// Bounds of what is taken for a sea.
const (
	// steepestWave is the height over the length at which a regular wave in deep
	// water breaks (Michell 1893). A significant height as steep as that is no sea.
	steepestWave = 0.142
	highestSea   = 20.0 // m; judgement: nobody races in it
	longestSea   = 30.0 // s; the longest swell
)

// NewSea returns the sea of a significant height, m, and a peak period, s. A
// height of 0 is the calm sea, whatever the period. The error says what is out of
// range: a height below 0 or above 20 m, a period not above 0 or above 30 s, or
// waves steeper than waves can be.
func NewSea(height, period float64) (Sea, error) {
	switch {
	case !(height >= 0 && height <= highestSea):
		return Sea{}, fmt.Errorf("wave height: %.4g m, allowed is 0 to %g m\nhint: give the significant height, such as 0.6 m", height, highestSea)
	case height == 0:
		return Sea{}, nil
	case !(period > 0 && period <= longestSea):
		return Sea{}, fmt.Errorf("wave period: %.4g s, allowed is above 0 to %g s\nhint: give the period of the highest waves, such as 3.2 s", period, longestSea)
	}
	s := Sea{Height: height, Period: period}
	if longest := s.Length(); height > steepestWave*longest {
		least := period * math.Sqrt(height/(steepestWave*longest))
		return Sea{}, fmt.Errorf("wave height: %.4g m on waves that a period of %.4g s makes %.3g m long is steeper than waves can be (%g of their length)\nhint: such a height needs a period of %.2g s or more; seas of the wind have twice that",
			height, period, longest, steepestWave, math.Ceil(10*least)/10)
	}
	return s, nil
}

// Calm tells whether there are no waves.
func (s Sea) Calm() bool { return !(s.Height > 0) }

// Frequency returns 2π over the period, rad/s; 0 in a calm.
func (s Sea) Frequency() float64 {
	if s.Calm() {
		return 0
	}
	return 2 * math.Pi / s.Period
}

// Number returns the wave number ω²/g, rad/m: the dispersion of small waves in
// deep water (Airy 1845; Lamb 1932, art. 229).
func (s Sea) Number() float64 {
	w := s.Frequency()
	return w * w / si.Gravity
}

// Length returns the wave length gT²/2π, m; 0 in a calm.
func (s Sea) Length() float64 {
	if s.Calm() {
		return 0
	}
	return si.Gravity * s.Period * s.Period / (2 * math.Pi)
}

// Encounter returns the frequency at which a boat meets the waves, rad/s:
// ω + kV cos γ, γ the true wind angle off the track, since the waves come from
// where the wind does (Denis and Pierson 1953). It is negative where the boat
// overtakes them.
func (s Sea) Encounter(speed si.Speed, windAngle si.Angle) float64 {
	return s.Frequency() + s.Number()*speed.MetresPerSecond()*windAngle.Cos()
}

// Exceeded returns the amplitude, m, that one wave in so many exceeds: those of a
// narrow band of frequencies are distributed as Rayleigh found,
// P(a > A) = exp(−8A²/H²), H the significant height (Longuet-Higgins 1952). It is
// 0 for a wave in one or fewer.
//
// Crests of steep seas are up to a fifth higher than that and troughs as much
// shallower, which is left out.
func (s Sea) Exceeded(waves float64) float64 {
	if !(waves > 1) {
		return 0
	}
	return s.Height * math.Sqrt(math.Log(waves)/8)
}
