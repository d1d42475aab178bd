package section

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// shape is a closed outline of unit chord with a sharp trailing edge at (1, 0)
// and its foremost point at x = 0: a cubic spline of the ordinate over the
// station angle θ, x = (1 − cos θ)/2, which runs from −π (trailing edge, lower
// side) through 0 (leading edge) to π (trailing edge, upper side). In θ a round
// nose is a smooth function.
type shape struct {
	y      []float64 // ordinates at the knots, lower trailing edge first
	spline spline
}

// sideKnots is how many intervals each side has.
const sideKnots = 160

// stationAngle returns the θ ≥ 0 of a share x of the chord.
func stationAngle(x float64) float64 { return math.Acos(1 - 2*min(max(x, 0), 1)) }

func knots() []float64 {
	theta := make([]float64, 2*sideKnots+1)
	for i := range theta {
		theta[i] = math.Pi * (float64(i)/sideKnots - 1)
	}
	return theta
}

// newShape takes the ordinates at the knots.
func newShape(y []float64) (*shape, error) {
	s := &shape{y: y}
	for _, v := range y {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, errors.New("an ordinate is not a number")
		}
	}
	if err := s.spline.fit(knots(), y); err != nil {
		return nil, err
	}
	for i := 1; i < sideKnots; i++ {
		if y[sideKnots+i] <= y[sideKnots-i] {
			x := (1 - math.Cos(math.Pi*float64(i)/sideKnots)) / 2
			return nil, fmt.Errorf("the lower side meets or passes the upper one at %.3f of the chord", x)
		}
	}
	return s, nil
}

// fromSides makes a shape of half-thickness and mean ordinate over θ ≥ 0.
func fromSides(side func(theta float64) (upper, lower float64)) (*shape, error) {
	y := make([]float64, 2*sideKnots+1)
	for i, theta := range knots() {
		upper, lower := side(math.Abs(theta))
		if theta >= 0 {
			y[i] = upper
		} else {
			y[i] = lower
		}
	}
	return newShape(y)
}

// Over the last tenth of the chord the sides are held apart by a wedge, since a
// spline through the few points that lists give of a cusp can make them cross.
const (
	heldApart  = 0.9
	leastWedge = 0.01
)

// fromOutline makes a shape of an outline given as points from the trailing
// edge over the upper side to the leading edge and back along the lower side.
// The outline is scaled so that it reaches from x = 0 to x = 1 and turned so
// that the middle of its trailing edge is at y = 0; the foremost point of a
// cambered section is left off the chord line, where it belongs. A blunt
// trailing edge is closed by taking half of the gap times x⁴ off each side:
// that is what the NACA four-digit formula with its last coefficient at −0.1036
// does to the one with −0.1015.
func fromOutline(points []Point) (*shape, error) {
	points, err := normalised(points)
	if err != nil {
		return nil, err
	}
	n := len(points)
	length := make([]float64, n)
	x, y := make([]float64, n), make([]float64, n)
	for i, p := range points {
		x[i], y[i] = p.X, p.Y
		if i > 0 {
			length[i] = length[i-1] + math.Hypot(p.X-x[i-1], p.Y-y[i-1])
		}
	}
	var xs, ys spline
	if err := xs.fit(length, x); err != nil {
		return nil, err
	}
	if err := ys.fit(length, y); err != nil {
		return nil, err
	}
	nose := foremost(&xs, length, x)
	// The chord line runs from the origin of y at the nose to the trailing edge.
	x0 := xs.at(nose)
	chord := math.Hypot(1-x0, (y[0]+y[n-1])/2)
	c, sn := (1-x0)/chord, (y[0]+y[n-1])/2/chord
	place := func(at float64) Point {
		dx, dy := xs.at(at)-x0, ys.at(at)
		return Point{(c*dx + sn*dy) / chord, (c*dy - sn*dx) / chord}
	}
	gap := place(0).Y
	return fromSides(func(theta float64) (upper, lower float64) {
		at := (1 - math.Cos(theta)) / 2
		blunt := gap * at * at * at * at
		switch theta {
		case 0:
			y := place(nose).Y
			return y, y
		case math.Pi:
			return 0, 0
		}
		upper, lower = sideAt(place, nose, 0, at)-blunt, sideAt(place, nose, length[n-1], at)+blunt
		if at > heldApart {
			mean, half := (upper+lower)/2, max((upper-lower)/2, leastWedge*(1-at))
			upper, lower = mean+half, mean-half
		}
		return upper, lower
	})
}

// sideAt returns the ordinate at x on the side between the nose and the trailing
// edge, each given by its place along the outline, by bisection.
func sideAt(place func(float64) Point, nose, edge, x float64) float64 {
	lo, hi := nose, edge
	for range 60 {
		mid := (lo + hi) / 2
		if place(mid).X < x {
			lo = mid
		} else {
			hi = mid
		}
	}
	return place((lo + hi) / 2).Y
}

// foremost returns where along the outline x is least: the foremost point given,
// bettered by golden section between its neighbours.
func foremost(xs *spline, length, x []float64) float64 {
	i := slices.Index(x, slices.Min(x))
	lo, hi := length[max(i-1, 0)], length[min(i+1, len(x)-1)]
	const golden = 0.6180339887498949
	for range 80 {
		a, b := hi-golden*(hi-lo), lo+golden*(hi-lo)
		if xs.at(a) < xs.at(b) {
			hi = b
		} else {
			lo = a
		}
	}
	return (lo + hi) / 2
}

// at returns the surface point at θ; the trailing edge is met exactly.
func (s *shape) at(theta float64) Point {
	if math.Abs(theta) >= math.Pi {
		return Point{1, 0}
	}
	return Point{(1 - math.Cos(theta)) / 2, s.spline.at(theta)}
}

// thickness returns the largest thickness, in chords, and where it is.
func (s *shape) thickness() (largest, at float64) {
	thick := func(theta float64) float64 { return s.spline.at(theta) - s.spline.at(-theta) }
	best := 1
	for i := 1; i < sideKnots; i++ {
		if s.y[sideKnots+i]-s.y[sideKnots-i] > s.y[sideKnots+best]-s.y[sideKnots-best] {
			best = i
		}
	}
	// A parabola through the three knots about the largest.
	const step = math.Pi / sideKnots
	theta := float64(best) * step
	a, b, c := thick(theta-step), thick(theta), thick(theta+step)
	if curve := a - 2*b + c; curve < 0 {
		theta += step * 0.5 * (a - c) / curve
	}
	return thick(theta), (1 - math.Cos(theta)) / 2
}

// noseRise returns how much the half-thickness grows from 0.15 to 6 % of the
// chord, in chords: a measure of how round the nose is.
func (s *shape) noseRise() float64 {
	half := func(x float64) float64 {
		theta := stationAngle(x)
		return (s.at(theta).Y - s.at(-theta).Y) / 2
	}
	return half(0.06) - half(0.0015)
}

// scaled returns the shape with its thickness times factor about the mean line.
func (s *shape) scaled(factor float64) (*shape, error) {
	y := make([]float64, len(s.y))
	for i := range y {
		mirror := s.y[len(y)-1-i]
		mean, half := (s.y[i]+mirror)/2, (s.y[i]-mirror)/2
		y[i] = mean + factor*half
	}
	return newShape(y)
}

// meanLine returns what thin-aerofoil theory makes of the line midway between
// the sides (Glauert 1926, ch. VII): with z the ordinate of that line and
// dz/dx = 2z′(θ)/sin θ the integrals for the angle of no lift, for A₁ and for
// A₂ − A₁ are regular at both ends.
func (s *shape) meanLine() meanLine {
	const n = 2000
	const step = math.Pi / n
	var zeroLift, ideal, moment float64
	for i := range n {
		theta := (float64(i) + 0.5) * step
		dz := (s.spline.slopeAt(theta) - s.spline.slopeAt(-theta)) / 2
		sin, cos := math.Sincos(theta)
		zeroLift += dz * (1 - cos) / sin
		ideal += dz * cos / sin
		moment += dz * (math.Cos(2*theta) - cos) / sin
	}
	return meanLine{zeroLift: 2 / math.Pi * zeroLift * step, idealLift: 4 * ideal * step, moment: moment * step}
}
