// Package si gives angles and speeds types of their own, because those two are
// where people slip: degrees for radians, knots for metres a second.
//
// In goes a number with its unit named in the call; out comes an SI value.
// The package knows no text and no formatting: units as words live in
// package quantity and at the faces.
package si

import "math"

// Angle is an angle in radians. The zero value is no angle.
type Angle float64

// Speed is a speed in metres a second. The zero value is rest.
type Speed float64

// Units, used as 3*si.Degree or 17*si.Knot.
const (
	Radian Angle = 1
	Degree Angle = math.Pi / 180

	MetrePerSecond Speed = 1
	// Knot is 1852 m an hour (ISO 80000-3).
	Knot Speed = 1852.0 / 3600.0
)

// Gravity is the standard acceleration of free fall, m/s²
// (3rd CGPM 1901; ISO 80000-3).
const Gravity = 9.80665

// Radians returns the angle as a plain number, rad.
func (a Angle) Radians() float64 { return float64(a) }

// Degrees returns the angle in degrees, for faces only.
func (a Angle) Degrees() float64 { return float64(a / Degree) }

// Sin returns the sine of the angle.
func (a Angle) Sin() float64 { return math.Sin(float64(a)) }

// Cos returns the cosine of the angle.
func (a Angle) Cos() float64 { return math.Cos(float64(a)) }

// Sincos returns the sine and the cosine, for less than the two cost apart.
func (a Angle) Sincos() (sin, cos float64) { return math.Sincos(float64(a)) }

// MetresPerSecond returns the speed as a plain number, m/s.
func (s Speed) MetresPerSecond() float64 { return float64(s) }

// Knots returns the speed in knots, for faces only.
func (s Speed) Knots() float64 { return float64(s / Knot) }
