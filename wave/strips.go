package wave

import (
	"fmt"
	"math"
)

// Strips are the bound vortices of all lifting surfaces as a structure of
// arrays, all of one length, in the track frame: x along the boat's velocity,
// y to port, z up, z = 0 the undisturbed water. Each sheds a leg straight
// downstream, along −x, from either end. The arrays are those of a vortex
// lattice and may be shared with it. Neighbours along the span should follow one
// another with ends that are equal bit for bit: they then share their leg.
//
// Mid lies at the strip's angular midpoint on a span cut by the cosine: sums
// over strips are then a trapezoidal rule in the angle.
type Strips struct {
	A, B    [][3]float64 // ends of the bound vortices, m; positive circulation runs from A to B
	Mid     [][3]float64 // force points, m
	Surface []int        // connected surface; inside one, wakes act without a core
	Core    []float64    // core radius of the legs where they meet another surface, m: fourth powers of both's add
	// Image is what a surface of zero potential adds to the induced drag of each strip,
	// over density, m⁴/s², as a lattice knows it; nil where it is to be found.
	Image       []float64
	Circulation []float64 // m²/s; by the right-hand rule, its force is along (0, lz, −ly) for l = B − A
}

// Len returns the number of strips.
func (s *Strips) Len() int { return len(s.A) }

// InputError tells which strip or other input cannot be used, and why.
type InputError struct {
	Strip int // index of the strip, or −1
	Fault string
}

// Error words the fault.
func (e *InputError) Error() string {
	if e.Strip < 0 {
		return "wave: " + e.Fault
	}
	return fmt.Sprintf("wave: strip %d: %s", e.Strip, e.Fault)
}

// check refuses what would lead to a number that is none.
func (s *Strips) check(speed, gravity float64) error {
	n := s.Len()
	for _, l := range []int{len(s.B), len(s.Mid), len(s.Surface), len(s.Core), len(s.Circulation)} {
		if l != n {
			return &InputError{-1, fmt.Sprintf("arrays of lengths %d and %d, must be of one length", n, l)}
		}
	}
	if s.Image != nil && len(s.Image) != n {
		return &InputError{-1, fmt.Sprintf("%d drags of images for %d strips", len(s.Image), n)}
	}
	switch {
	case !(speed >= 0) || math.IsInf(speed, 0):
		return &InputError{-1, fmt.Sprintf("speed %g m/s, must be 0 or above\nhint: mirror the boat instead of running it backwards", speed)}
	case !(gravity > 0) || math.IsInf(gravity, 0):
		return &InputError{-1, fmt.Sprintf("gravity %g m/s², must be above 0", gravity)}
	}
	for i := range n {
		sum := s.Core[i] + s.Circulation[i]
		if s.Image != nil {
			sum += s.Image[i]
		}
		for k := range 3 {
			sum += s.A[i][k] + s.B[i][k] + s.Mid[i][k]
		}
		switch {
		case math.IsNaN(sum) || math.IsInf(sum, 0):
			return &InputError{i, "a coordinate or the circulation is not a finite number"}
		case s.Core[i] < 0:
			return &InputError{i, fmt.Sprintf("core %g m, must not be negative", s.Core[i])}
		case s.Mid[i][2] > 0 && s.Mid[i][2] > s.width(i):
			return &InputError{i, fmt.Sprintf("force point %g m above the water\nhint: cut surfaces at z = 0", s.Mid[i][2])}
		}
	}
	return nil
}

// width returns the width of a strip across the stream, m.
func (s *Strips) width(i int) float64 {
	dy, dz := s.B[i][1]-s.A[i][1], s.B[i][2]-s.A[i][2]
	return math.Sqrt(dy*dy + dz*dz)
}
