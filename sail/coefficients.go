package sail

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"foilwright/boat"
	"foilwright/si"
)

// hazenAngles are the apparent wind angles of Hazen's table, degrees.
var hazenAngles = [...]float64{27, 50, 80, 100, 180}

// tables returns the built-in coefficients, from the most usual on.
//
// The first two are the main and jib of Hazen, A Model of Sail Aerodynamics for
// Diverse Rig Types, SNAME New England Sailing Yacht Symposium 1980, as printed
// in Larsson & Eliasson, Principles of Yacht Design: from memory, not verified
// against the book. The others are judgement: a large headsail between that jib
// and a spinnaker, and a two-element rigid wing with more lift and less drag
// than a cloth main while the flow is attached. All are referred to the sail's
// own area.
func tables() []boat.SailCoefficients {
	table := func(name string, lift, drag [5]float64) boat.SailCoefficients {
		angle := [5]float64{}
		for i, a := range hazenAngles {
			angle[i] = a * float64(si.Degree)
		}
		return boat.SailCoefficients{Name: name, Angle: angle[:], Lift: lift[:], Drag: drag[:]}
	}
	return []boat.SailCoefficients{
		table("fully battened main", [5]float64{1.50, 1.50, 0.95, 0.85, 0}, [5]float64{0.02, 0.15, 0.80, 1.00, 0.90}),
		table("jib", [5]float64{1.50, 0.50, 0.30, 0, 0}, [5]float64{0.02, 0.25, 0.15, 0, 0}),
		table("large headsail", [5]float64{1.50, 1.30, 0.90, 0.70, 0}, [5]float64{0.03, 0.15, 0.50, 0.70, 0.60}),
		table("rigid wing", [5]float64{1.90, 1.90, 1.30, 1.00, 0}, [5]float64{0.015, 0.10, 0.60, 0.90, 0.90}),
	}
}

// Coefficients returns the built-in coefficients called name. An unknown name's
// error lists those that are known.
func Coefficients(name string) (boat.SailCoefficients, error) {
	var known []string
	for _, t := range tables() {
		if t.Name == name {
			return t, nil
		}
		known = append(known, t.Name)
	}
	return boat.SailCoefficients{}, fmt.Errorf("sail coefficients %q are not known\nhint: write one of %s", name, strings.Join(known, ", "))
}

// LargestLift returns the largest lift coefficient, of coefficients that go by
// the apparent wind angle, at one, rad, whatever its sign: the table's, interpolated monotonically with a
// continuous slope (Fritsch and Butland 1984). Below the table's first angle β₁
// it is C₁·s·(2−s), s = β/β₁, so none is left head to wind: a sail's incidence
// cannot exceed its wind angle. That is judgement; with 1.5 at 27° it sets out
// from zero at 6.4 a radian, the 2π of a plate at the angle of the wind.
func LargestLift(c boat.SailCoefficients, windAngle si.Angle) float64 {
	beta := foldedAngle(windAngle)
	if len(c.Angle) == 0 {
		return 0
	}
	if first := c.Angle[0]; beta < first {
		s := beta / first
		return c.Lift[0] * s * (2 - s)
	}
	return monotone(c.Angle, c.Lift, beta)
}

// SectionDrag returns the section drag coefficient, of coefficients that go by
// the apparent wind angle, at one, rad, whatever its sign: the table's, interpolated as [LargestLift] is; below
// the table's first angle, the first value.
func SectionDrag(c boat.SailCoefficients, windAngle si.Angle) float64 {
	if len(c.Angle) == 0 {
		return 0
	}
	return monotone(c.Angle, c.Drag, foldedAngle(windAngle))
}

// beyond says where a sail's own table does not reach, and what is done there;
// nothing where it does, or the table is a built-in one.
func (w *Workspace) beyond(r *rigged) string {
	c := &r.sail.Coefficients
	n := len(c.Angle)
	if c.Name != boat.OwnTable || n < 2 { // one line holds everywhere
		return ""
	}
	low, high := float64(r.angle), float64(r.angle)
	if c.Against == boat.Incidence {
		low, high = math.Inf(1), 0
		for i := r.first; i < r.last; i++ {
			at := math.Abs(w.sections[i].asked) / liftSlope
			low, high = min(low, at), max(high, at)
		}
	}
	const slack = 1e-9
	span := fmt.Sprintf("%.4g to %.4g deg", si.Angle(c.Angle[0]).Degrees(), si.Angle(c.Angle[n-1]).Degrees())
	switch {
	case low < c.Angle[0]-slack && c.Against == boat.WindAngle:
		return fmt.Sprintf("%s %.1f deg, its table has %s: largest lift led to nothing head to wind, drag held", c.Against, si.Angle(low).Degrees(), span)
	case low < c.Angle[0]-slack:
		return fmt.Sprintf("%s down to %.1f deg, its table has %s: its first line held", c.Against, si.Angle(low).Degrees(), span)
	case high > c.Angle[n-1]+slack:
		return fmt.Sprintf("%s up to %.1f deg, its table has %s: its last line held", c.Against, si.Angle(high).Degrees(), span)
	}
	return ""
}

// foldedAngle returns an angle off the bow, 0 to π, for one of any size and sign.
func foldedAngle(a si.Angle) float64 {
	return math.Abs(math.Remainder(float64(a), 2*math.Pi))
}

// monotone interpolates y over rising x with cubics whose slopes are the
// weighted harmonic means of Fritsch and Butland (1984, SIAM J. Sci. Stat.
// Comput. 5, 300, with the weights of Brodlie), zero at the ends and at turns;
// beyond the ends it is level.
func monotone(x, y []float64, at float64) float64 {
	n := len(x)
	i, _ := slices.BinarySearch(x, at)
	switch {
	case i == 0:
		return y[0]
	case i == n:
		return y[n-1]
	}
	h := x[i] - x[i-1]
	t := (at - x[i-1]) / h
	before, after := slope(x, y, i-1), slope(x, y, i)
	return y[i-1] + t*t*(3-2*t)*(y[i]-y[i-1]) + h*t*(1-t)*((1-t)*before-t*after)
}

func slope(x, y []float64, i int) float64 {
	if i == 0 || i == len(x)-1 {
		return 0
	}
	h0, h1 := x[i]-x[i-1], x[i+1]-x[i]
	d0, d1 := (y[i]-y[i-1])/h0, (y[i+1]-y[i])/h1
	if d0*d1 <= 0 {
		return 0
	}
	w0, w1 := 2*h1+h0, h1+2*h0
	return (w0 + w1) / (w0/d0 + w1/d1)
}
