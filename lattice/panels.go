package lattice

import (
	"fmt"
	"math"
	"slices"
)

// Boundary is what stands at the plane z = 0. The zero value is Unbounded.
type Boundary int

const (
	// Unbounded is fluid everywhere.
	Unbounded Boundary = iota
	// FreeSurface is the water surface in the high-speed limit (depth Froude
	// numbers above about 10): zero potential on z = 0, the image of the same
	// circulation at −z. The fluid is z < 0.
	FreeSurface
	// Wall is a rigid plane: the image of the opposite circulation at −z.
	// The panels stand on either side of it.
	Wall
)

// String returns the boundary's name.
func (b Boundary) String() string {
	switch b {
	case Unbounded:
		return "unbounded"
	case FreeSurface:
		return "free surface"
	case Wall:
		return "wall"
	}
	return fmt.Sprintf("boundary %d", int(b))
}

// Panel is one bound vortex with what belongs to it, in the track frame.
type Panel struct {
	A, B    [3]float64 // ends of the bound vortex, m; positive circulation runs from A to B
	Mid     [3]float64 // force point on the bound vortex, at the strip's angular midpoint, m
	Control [3]float64 // control point, at the strip's angular midpoint, m
	Normal  [3]float64 // unit normal at the control point, on the side of the positive force
	Chord   float64    // chord of the strip, m
	Strip   int        // index of the strip, from 0 and below the number of panels; its rows share it
	Surface int        // connected surface; inside one, wakes act without a core
	Core    float64    // core radius of the wake legs where they meet another surface, m: fourth powers of both's add
}

// Panels is a set of panels as a structure of arrays, all of one length, in
// the track frame. Neighbours along the span should follow one another with
// ends that are equal bit for bit: they then share their trailing leg.
//
// Normal points to the side of the positive force: Normal · (0, lz, −ly) > 0
// for l = B − A. The zero value is an empty set.
type Panels struct {
	A, B    [][3]float64 // ends of the bound vortices, m; positive circulation runs from A to B
	Mid     [][3]float64 // force points, m
	Control [][3]float64 // control points, m
	Normal  [][3]float64 // unit normals at the control points
	Chord   []float64    // strip chords, m
	Strip   []int        // strip indices
	Surface []int        // connected surfaces
	Core    []float64    // core radii of the wake legs, m
}

// Len returns the number of panels.
func (p *Panels) Len() int { return len(p.A) }

// Reset empties the set and keeps its memory.
func (p *Panels) Reset() {
	p.A, p.B, p.Mid, p.Control, p.Normal = p.A[:0], p.B[:0], p.Mid[:0], p.Control[:0], p.Normal[:0]
	p.Chord, p.Strip, p.Surface, p.Core = p.Chord[:0], p.Strip[:0], p.Surface[:0], p.Core[:0]
}

// Append adds one panel.
func (p *Panels) Append(q Panel) {
	p.A, p.B = append(p.A, q.A), append(p.B, q.B)
	p.Mid = append(p.Mid, q.Mid)
	p.Control = append(p.Control, q.Control)
	p.Normal = append(p.Normal, q.Normal)
	p.Chord = append(p.Chord, q.Chord)
	p.Strip = append(p.Strip, q.Strip)
	p.Surface = append(p.Surface, q.Surface)
	p.Core = append(p.Core, q.Core)
}

// AppendFrom adds panels of another set, from one to before another, that are whole strips.
// Strips are numbered on from those that the set holds.
func (p *Panels) AppendFrom(o *Panels, from, to int) {
	shift := p.Strips() - slices.Min(o.Strip[from:to])
	at := p.grow(to - from)
	copy(p.A[at:], o.A[from:to])
	copy(p.B[at:], o.B[from:to])
	copy(p.Mid[at:], o.Mid[from:to])
	copy(p.Control[at:], o.Control[from:to])
	copy(p.Normal[at:], o.Normal[from:to])
	copy(p.Chord[at:], o.Chord[from:to])
	copy(p.Surface[at:], o.Surface[from:to])
	copy(p.Core[at:], o.Core[from:to])
	for i, strip := range o.Strip[from:to] {
		p.Strip[at+i] = strip + shift
	}
}

// grow makes room for more panels, which are to be filled, and returns the first.
func (p *Panels) grow(more int) int {
	n := p.Len()
	p.A, p.B = longer(p.A, more), longer(p.B, more)
	p.Mid, p.Control, p.Normal = longer(p.Mid, more), longer(p.Control, more), longer(p.Normal, more)
	p.Chord, p.Strip, p.Surface, p.Core = longer(p.Chord, more), longer(p.Strip, more), longer(p.Surface, more), longer(p.Core, more)
	return n
}

func longer[T any](s []T, more int) []T { return slices.Grow(s, more)[:len(s)+more] }

// Strips returns the number of strips: one more than the largest index.
func (p *Panels) Strips() int {
	most := -1
	for _, s := range p.Strip {
		most = max(most, s)
	}
	return most + 1
}

// InputError tells which panel cannot be used, and why.
type InputError struct {
	Panel int // index of the panel, or −1 for the set as a whole
	Fault string
}

// Error words the fault.
func (e *InputError) Error() string {
	if e.Panel < 0 {
		return "lattice: " + e.Fault
	}
	return fmt.Sprintf("lattice: panel %d: %s", e.Panel, e.Fault)
}

// check refuses sets that would lead to a number that is none.
func (p *Panels) check(b Boundary) error {
	n := p.Len()
	if n == 0 {
		return &InputError{-1, "no panels\nhint: a set needs at least one"}
	}
	for _, l := range []int{len(p.B), len(p.Mid), len(p.Control), len(p.Normal), len(p.Chord), len(p.Strip), len(p.Surface), len(p.Core)} {
		if l != n {
			return &InputError{-1, fmt.Sprintf("arrays of lengths %d and %d\nhint: fill panels with Append", n, l)}
		}
	}
	if b < Unbounded || b > Wall {
		return &InputError{-1, b.String() + " is none of unbounded, free surface and wall"}
	}
	for i := range n {
		// A sum of finite numbers of sane size is finite; one NaN or infinity spoils it.
		sum := p.Chord[i] + p.Core[i]
		for k := range 3 {
			sum += p.A[i][k] + p.B[i][k] + p.Mid[i][k] + p.Control[i][k] + p.Normal[i][k]
		}
		switch {
		case math.IsNaN(sum) || math.IsInf(sum, 0):
			return &InputError{i, "a coordinate is not a finite number"}
		case p.Chord[i] <= 0:
			return &InputError{i, fmt.Sprintf("chord %g m, must be above 0", p.Chord[i])}
		case p.Core[i] < 0:
			return &InputError{i, fmt.Sprintf("core %g m, must not be negative", p.Core[i])}
		case p.Strip[i] < 0 || p.Strip[i] >= n:
			return &InputError{i, fmt.Sprintf("strip %d, must be from 0 to below %d", p.Strip[i], n)}
		case b == FreeSurface && p.Mid[i][2] > p.Chord[i]:
			return &InputError{i, fmt.Sprintf("force point %g m above the water\nhint: cut surfaces at z = 0", p.Mid[i][2])}
		}
	}
	return nil
}
