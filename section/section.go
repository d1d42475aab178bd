package section

import (
	"fmt"
	"math"
	"slices"

	"foilwright/si"
)

// Section is a two-dimensional section. It never changes after it is built and
// may be shared between goroutines. The zero value is no section; [Parse],
// [ParseWith] and [FromCoordinates] make one.
type Section struct {
	Name string
	// Mended says what was mended of the coordinates that it was read from; empty
	// where nothing was.
	Mended string
	// Thickness is the largest thickness over the chord.
	Thickness float64
	// ThickestAt is where the section is thickest, share of the chord.
	ThickestAt float64
	// ZeroLift is the angle of attack of no lift by thin-aerofoil theory on the
	// mean line (Glauert 1926): negative for positive camber. Measured angles of
	// the 6-series are smaller, about three quarters of it (Abbott, von Doenhoff,
	// Stivers 1945), since the boundary layer thins the camber.
	ZeroLift si.Angle
	// Moment is the moment coefficient about the quarter chord, on chord squared,
	// by the same theory: negative for positive camber.
	Moment float64
	// IdealLift is the lift coefficient at which the thin mean line takes the
	// flow without going round its nose (Theodorsen 1931).
	IdealLift float64
	// LargestLift and LargestDownLift are the largest usable lift coefficients to
	// either side, the second negative. They are an estimate; see [Section.WithLargestLift].
	LargestLift, LargestDownLift float64
	// Area is the section's area over chord squared, Perimeter the length of its
	// outline over chord.
	Area, Perimeter float64

	liftRange  float64 // largest lift of the uncambered section
	formFactor float64
	shape      *shape
	table      *DragTable // the user's own drag, or nil
}

// Thinnest and thickest sections that are taken, thickness over chord.
const (
	thinnest = 0.02
	thickest = 0.30
)

// nominal is what a section's name or its mean line already fixes, so that it
// need not be read off the shape.
type nominal struct {
	thickness float64
	mean      meanLine
}

// meanLine is what thin-aerofoil theory makes of a mean line.
type meanLine struct {
	zeroLift  float64 // rad
	moment    float64
	idealLift float64
}

func build(name string, s *shape, n nominal) (Section, error) {
	if !(n.thickness >= thinnest && n.thickness <= thickest) {
		return Section{}, fmt.Errorf("section %q: thickness is %.1f %% of the chord, allowed is %g to %g %%",
			name, 100*n.thickness, 100*thinnest, 100*thickest)
	}
	_, thickestAt := s.thickness()
	largest := largestLift(s.noseRise())
	sec := Section{
		Name:       name,
		Thickness:  n.thickness,
		ThickestAt: thickestAt,
		ZeroLift:   si.Angle(n.mean.zeroLift),
		Moment:     n.mean.moment,
		IdealLift:  n.mean.idealLift,
		liftRange:  largest,
		formFactor: FormFactor(n.thickness, thickestAt),
		shape:      s,
	}
	sec.LargestLift, sec.LargestDownLift = sec.lifts(n.mean.idealLift)
	sec.Area, sec.Perimeter = sec.measured()
	return sec, nil
}

// lifts returns the largest lift to either side at an ideal lift coefficient.
func (s *Section) lifts(ideal float64) (up, down float64) {
	return s.liftRange + CamberGain*ideal, -s.liftRange + CamberGain*ideal
}

// WithLargestLift returns the section with another largest usable lift
// coefficient, above 0.1 and at most 4, say from a test at the right Reynolds
// number; the one the other way moves with it.
func (s Section) WithLargestLift(lift float64) (Section, error) {
	if !(lift-CamberGain*s.IdealLift > 0.1 && lift <= 4) {
		return Section{}, fmt.Errorf("section %q: largest lift coefficient is %g, allowed is %.2f to 4",
			s.Name, lift, 0.1+CamberGain*s.IdealLift)
	}
	s.liftRange = lift - CamberGain*s.IdealLift
	s.LargestLift, s.LargestDownLift = s.lifts(s.IdealLift)
	return s, nil
}

// Scaled returns the section with its thickness brought to another share of the
// chord, 0.02 to 0.30, by scaling the ordinates about the mean line, which
// stays as it is.
func (s Section) Scaled(thickness float64) (Section, error) {
	name := fmt.Sprintf("%s at %.4g %%", s.Name, 100*thickness)
	if !(thickness >= thinnest && thickness <= thickest) {
		return Section{}, fmt.Errorf("section %q: thickness is %.4g %% of the chord, allowed is %g to %g %%\nhint: write %s at 11 %%",
			s.Name, 100*thickness, 100*thinnest, 100*thickest, s.Name)
	}
	scaled, err := s.shape.scaled(thickness / s.Thickness)
	if err != nil {
		return Section{}, fmt.Errorf("section %q: %w", name, err)
	}
	return build(name, scaled, nominal{thickness, meanLine{float64(s.ZeroLift), s.Moment, s.IdealLift}})
}

// Equal tells whether two sections are the same in name, figures, shape and
// drag table.
func (s Section) Equal(o Section) bool {
	if (s.shape == nil) != (o.shape == nil) {
		return false
	}
	if s.shape != nil && s.shape != o.shape && !slices.Equal(s.shape.y, o.shape.y) {
		return false
	}
	if !s.table.equal(o.table) {
		return false
	}
	s.shape, o.shape = nil, nil
	s.table, o.table = nil, nil
	return s == o
}

// Point is a point of a section's surface, in chords: x aft of the leading
// edge, y towards the upper side.
type Point struct{ X, Y float64 }

// Points returns n points of the surface, from the trailing edge over the upper
// side to the leading edge and back along the lower side, closer together at
// both edges. Fewer than three points are three.
func (s Section) Points(n int) []Point {
	if s.shape == nil {
		return nil
	}
	points := make([]Point, max(n, 3))
	for i := range points {
		points[i] = s.shape.at(math.Pi * (1 - 2*float64(i)/float64(len(points)-1)))
	}
	return points
}

// Surface returns the ordinates of the upper and the lower side at x, a share
// of the chord aft of the leading edge.
func (s Section) Surface(x float64) (upper, lower float64) {
	if s.shape == nil {
		return 0, 0
	}
	theta := stationAngle(x)
	return s.shape.at(theta).Y, s.shape.at(-theta).Y
}
