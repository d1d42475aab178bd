package fluid

import (
	"fmt"
	"math"

	"foilwright/frame"
	"foilwright/si"
)

const (
	// ReferenceHeight is the height above the water, m, that a wind speed is
	// given for unless a profile says otherwise (WMO-No. 8).
	ReferenceHeight = 10.0
	// OpenSeaRoughness is the roughness length of open sea, m (WMO-No. 8,
	// Davenport class 1).
	OpenSeaRoughness = 0.0002
	// SpeedTrialExponent is the power law of ISO 15016:2015 (from memory).
	SpeedTrialExponent = 1.0 / 9
	// SeventhPower is the power law of ISO 19030-2 (from memory).
	SeventhPower = 1.0 / 7
)

// lowestLaw is the height, m, below which no law is trusted: there the wind is
// led smoothly to rest at the surface.
const lowestLaw = 0.1

type law int

const (
	uniform law = iota
	logarithmic
	power
)

// Profile is how the wind varies over height. The zero value is the uniform
// wind; profiles compare with ==.
type Profile struct {
	law       law
	parameter float64 // roughness length, m, or exponent
	reference float64 // height of ratio one, m; zero means ReferenceHeight
}

// Uniform returns the wind that is the same at every height.
func Uniform() Profile { return Profile{} }

// LogLaw returns the profile ln(z/z₀)/ln(z_ref/z₀) of a neutral surface layer
// over a roughness length z₀, m, above 0 and at most 0.1 m (Prandtl, von
// Kármán; WMO-No. 8). It leaves out stability, gusts, and waves as anything
// but roughness.
func LogLaw(roughness float64) (Profile, error) {
	const roughest = 0.1
	if !(roughness > 0 && roughness <= roughest) {
		return Profile{}, fmt.Errorf("wind roughness: %g m, allowed is above 0 to %g m\nhint: open sea is %g m; for no change with height use the uniform wind",
			roughness, roughest, OpenSeaRoughness)
	}
	return Profile{law: logarithmic, parameter: roughness}, nil
}

// PowerLaw returns the profile (z/z_ref)^α, the exponent α above 0 and at most 1.
func PowerLaw(exponent float64) (Profile, error) {
	if !(exponent > 0 && exponent <= 1) {
		return Profile{}, fmt.Errorf("wind exponent: %g, allowed is above 0 to 1\nhint: one seventh is usual; for no change with height use the uniform wind", exponent)
	}
	return Profile{law: power, parameter: exponent}, nil
}

// OpenSea returns the log law over open sea, roughness 0.2 mm, at 10 m.
func OpenSea() Profile { return Profile{law: logarithmic, parameter: OpenSeaRoughness} }

// ReferredTo returns the same law with ratio one at another height, m, from 2
// to 200 m.
func (p Profile) ReferredTo(height float64) (Profile, error) {
	const lowest, highest = 2.0, 200.0
	if !(height >= lowest && height <= highest) {
		return Profile{}, fmt.Errorf("wind reference height: %g m, allowed is %g to %g m\nhint: %g m is usual", height, lowest, highest, ReferenceHeight)
	}
	p.reference = height
	return p, nil
}

// Reference returns the height of ratio one, m above the undisturbed water.
func (p Profile) Reference() float64 {
	if p.reference == 0 {
		return ReferenceHeight
	}
	return p.reference
}

// Ratio returns the wind speed at a height, m above the undisturbed water, as a
// share of that at the reference height. Below 0.1 m, or ten roughness lengths
// where that is more, the law gives way to the cubic that meets it in value and
// slope and comes to rest, with zero slope, at the water: the ratio is finite,
// never negative, rises with height and has a continuous first derivative
// everywhere; at and below the surface it is zero. The uniform wind is one
// everywhere.
func (p Profile) Ratio(height float64) float64 {
	if p.law == uniform {
		return 1
	}
	join := p.join()
	if height >= join {
		ratio, _ := p.at(height)
		return ratio
	}
	if !(height > 0) {
		return 0
	}
	ratio, slope := p.at(join)
	s := height / join
	return s * s * (ratio*(3-2*s) + slope*join*(s-1))
}

// join returns the height, m, below which the law gives way.
func (p Profile) join() float64 {
	if p.law == logarithmic {
		return max(lowestLaw, 10*p.parameter)
	}
	return lowestLaw
}

// scale returns what the log law multiplies ln(z/z₀) by.
func (p Profile) scale() float64 { return 1 / math.Log(p.Reference()/p.parameter) }

// at returns the law's ratio at a height and its derivative, 1/m.
func (p Profile) at(height float64) (ratio, slope float64) {
	if p.law == logarithmic {
		scale := p.scale()
		return scale * math.Log(height/p.parameter), scale / height
	}
	ratio = math.Pow(height/p.Reference(), p.parameter)
	return ratio, p.parameter * ratio / height
}

// Wind is a steady true wind: relative to the undisturbed water, horizontal,
// the same everywhere at one height. The zero value is a calm.
type Wind struct {
	Speed   si.Speed // at the profile's reference height
	Angle   si.Angle // where it comes from, off the track: 0 ahead, positive from port
	Profile Profile
}

// Velocity returns the velocity of the air relative to the undisturbed water at
// a height, m: the way that it moves, so that a wind from port (positive angle)
// has a negative y.
func (w Wind) Velocity(height float64) frame.Vec[frame.Track] {
	u := w.Speed.MetresPerSecond() * w.Profile.Ratio(height)
	return frame.Vec[frame.Track]{X: -u * w.Angle.Cos(), Y: -u * w.Angle.Sin()}
}

// VelocityOverBoat returns the velocity of the air relative to a boat that
// moves along +x of the track frame at a speed, at a height, m: what sails and
// windage feel before they disturb it.
func (w Wind) VelocityOverBoat(boatSpeed si.Speed, height float64) frame.Vec[frame.Track] {
	s := w.Over(boatSpeed)
	return s.At(height)
}

// Stream is the air over a boat at one speed, for whoever asks at many heights. Over
// makes one.
type Stream struct {
	profile  Profile
	speed    float64 // of the wind at the reference height, m/s
	cos, sin float64 // of where it comes from
	boat     float64 // m/s
	scale    float64 // of the log law: what ln(z/z₀) is multiplied by
}

// Over returns the air over a boat that moves along +x of the track frame at a speed.
func (w Wind) Over(boatSpeed si.Speed) Stream {
	s := Stream{
		profile: w.Profile, speed: w.Speed.MetresPerSecond(),
		cos: w.Angle.Cos(), sin: w.Angle.Sin(), boat: boatSpeed.MetresPerSecond(),
	}
	if w.Profile.law == logarithmic {
		s.scale = w.Profile.scale()
	}
	return s
}

// At returns the air's velocity over the boat at a height, m.
func (s *Stream) At(height float64) frame.Vec[frame.Track] {
	u := s.speed
	if s.profile.law == logarithmic && height >= s.profile.join() {
		u *= s.scale * math.Log(height/s.profile.parameter)
	} else {
		u *= s.profile.Ratio(height)
	}
	return frame.Vec[frame.Track]{X: -u*s.cos - s.boat, Y: -u * s.sin}
}

// Apparent returns the apparent wind of a boat that moves along +x of the track
// frame, at 10 m above the water: its speed, and where it comes from off the
// track, positive from port, from −180 to 180 degrees. No apparent wind at all
// has angle zero.
func (w Wind) Apparent(boatSpeed si.Speed) (si.Speed, si.Angle) {
	air := w.VelocityOverBoat(boatSpeed, ReferenceHeight)
	if air == (frame.Vec[frame.Track]{}) {
		return 0, 0
	}
	return si.Speed(air.Norm()), si.Angle(math.Atan2(-air.Y, -air.X))
}
