package section

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"

	"foilwright/si"
)

// PanelCount is the number of panels that [Section.PeakTable] takes, and a good
// one for [Section.Potential].
const PanelCount = 200

// Potential is the plane flow of an ideal fluid past a section, at any angle of
// attack, by a panel method. The zero value is no flow.
type Potential struct {
	nodes []Point
	// Surface speed at the nodes over the stream's, positive from the nose aft
	// over the upper side and from the trailing edge forward on the lower one,
	// for a stream along the chord and one square to it, from below.
	along, across []float64
	// Lift coefficient of either.
	liftAlong, liftAcross float64
	hinge                 hinge
}

// Potential returns the ideal flow past the section with a flap turned as it
// stands (the zero Flap for none), by so many panels, 20 to 1000.
//
// Each panel carries a vortex sheet whose strength runs in a straight line from
// node to node; the stream function is one and the same at all nodes, so that
// the inside is at rest and the sheet's strength is the speed along the surface
// (the formulation of Drela 1989, Low Reynolds Number Aerodynamics, sec. 2,
// without its boundary layer). The flow leaves the trailing edge smoothly: the
// strengths of its two sides cancel; since they share one place, the equation
// that would be doubled says instead that the mean strength runs in a straight
// line over the last two panels.
//
// It leaves out the boundary layer (real lift slopes are a tenth lower), the
// free surface and cavitation. Flaps from 0.05 to 0.6 of the chord turn up to
// 45 degrees.
func (s Section) Potential(flap Flap, panels int) (Potential, error) {
	switch {
	case s.shape == nil:
		return Potential{}, errors.New("section: no section to find the flow of")
	case panels < 20 || panels > 1000:
		return Potential{}, fmt.Errorf("section %q: %d panels, allowed is 20 to 1000", s.Name, panels)
	case flap.Share != 0 && !(flap.Share >= leastFlapShare && flap.Share <= mostFlapShare):
		return Potential{}, fmt.Errorf("section %q: flap of %.3g %% of the chord, allowed is %g to %g %%",
			s.Name, 100*flap.Share, 100*leastFlapShare, 100*mostFlapShare)
	case !(math.Abs(float64(flap.Deflection)) <= float64(mostFlapAngle)):
		return Potential{}, fmt.Errorf("section %q: flap angle %.3g deg, allowed is %.0f deg either way",
			s.Name, flap.Deflection.Degrees(), mostFlapAngle.Degrees())
	}
	outline, anchors := s.shape.pieces(flap)
	points, err := nodes(outline, anchors, panels)
	if err == nil {
		var flow Potential
		if flow, err = solve(points); err == nil {
			flow.hinge = s.shape.hinge(flap)
			return flow, nil
		}
	}
	return Potential{}, fmt.Errorf("section %q: %w", s.Name, err)
}

// solve finds the strengths for nodes that start and end at the trailing edge.
// Unknowns are the strength at each node and the stream function of the body.
func solve(points []Point) (Potential, error) {
	n := len(points)
	size := n + 1
	a := make([]float64, size*size)
	b := make([]float64, size*2)
	seen := make([]sight, n)
	for i, p := range points[:n-1] {
		row := a[i*size : (i+1)*size]
		for j := range points {
			seen[j] = see(p, points[j])
		}
		for j := range n - 1 {
			from, to := streamFunction(p, points[j], points[j+1], seen[j], seen[j+1])
			row[j] += from
			row[j+1] += to
		}
		row[n] = -1
		b[2*i], b[2*i+1] = -p.Y, p.X
	}
	edge := a[(n-1)*size : n*size]
	edge[0], edge[1], edge[2] = 1, -2, 1
	edge[n-1], edge[n-2], edge[n-3] = -1, 2, -1
	kutta := a[n*size : (n+1)*size]
	kutta[0], kutta[n-1] = 1, 1

	matrix := blas64.General{Rows: size, Cols: size, Stride: size, Data: a}
	right := blas64.General{Rows: size, Cols: 2, Stride: 2, Data: b}
	pivots := make([]int, size)
	if !lapack64.Getrf(matrix, pivots) {
		return Potential{}, errors.New("the panels have no solution: nodes stand on one another")
	}
	lapack64.Getrs(blas.NoTrans, matrix, right, pivots)

	flow := Potential{nodes: points, along: make([]float64, n), across: make([]float64, n)}
	for i := range n {
		flow.along[i], flow.across[i] = b[2*i], b[2*i+1]
		if !finite(b[2*i]) || !finite(b[2*i+1]) {
			return Potential{}, errors.New("the panels have no finite solution")
		}
	}
	for i := range n - 1 {
		length := math.Hypot(points[i+1].X-points[i].X, points[i+1].Y-points[i].Y)
		flow.liftAlong += (flow.along[i] + flow.along[i+1]) * length
		flow.liftAcross += (flow.across[i] + flow.across[i+1]) * length
	}
	if !(flow.liftAcross > 0) {
		return Potential{}, errors.New("the panels carry no lift: the outline is not that of a section")
	}
	return flow, nil
}

// sight is what two neighbouring panels share of a point and a node: the square
// of the distance and its logarithm. At the node itself the logarithm's factor is
// nil, and it counts as 0.
type sight struct{ square, log float64 }

func see(p, node Point) sight {
	dx, dy := p.X-node.X, p.Y-node.Y
	square := dx*dx + dy*dy
	if square == 0 {
		return sight{}
	}
	return sight{square, math.Log(square)}
}

// streamFunction returns the stream function at p of the panel from a to b, for
// unit strength at a that falls to none at b, and the other way round:
// (1/2π)∫γ(s)·ln r ds, clockwise positive.
func streamFunction(p, a, b Point, atA, atB sight) (from, to float64) {
	tx, ty := b.X-a.X, b.Y-a.Y
	length := math.Sqrt(tx*tx + ty*ty)
	if length == 0 {
		return 0, 0
	}
	tx, ty = tx/length, ty/length
	dx, dy := p.X-a.X, p.Y-a.Y
	t, n := dx*tx+dy*ty, dy*tx-dx*ty
	x1, x2 := -t, length-t
	uniform := 0.5*(x2*atB.log-x1*atA.log) - length
	if n != 0 {
		// The angle that the panel fills, seen from p.
		uniform += n * math.Atan2(n*length, n*n+x1*x2)
	}
	rising := (0.25*(atB.square*(atB.log-1)-atA.square*(atA.log-1)) + t*uniform) / length
	return (uniform - rising) / (2 * math.Pi), rising / (2 * math.Pi)
}

// Lift returns the lift coefficient at an angle of attack.
func (f Potential) Lift(angle si.Angle) float64 {
	return f.liftAlong*angle.Cos() + f.liftAcross*angle.Sin()
}

// LiftSlope returns the slope of lift at the angle of no lift, a radian.
func (f Potential) LiftSlope() float64 { return math.Hypot(f.liftAlong, f.liftAcross) }

// ZeroLift returns the angle of attack of no lift.
func (f Potential) ZeroLift() si.Angle { return si.Angle(-math.Atan2(f.liftAlong, f.liftAcross)) }

// AngleFor returns the angle of attack of a lift coefficient; beyond what the
// ideal flow can carry at any angle, that of the most.
func (f Potential) AngleFor(lift float64) si.Angle {
	slope := f.LiftSlope()
	if slope == 0 {
		return 0
	}
	return f.ZeroLift() + si.Angle(math.Asin(min(max(lift/slope, -1), 1)))
}

// Nodes returns the points of the surface, from the trailing edge over the upper
// side to the nose and back.
func (f Potential) Nodes() []Point { return append([]Point(nil), f.nodes...) }

// Pressure returns the pressure coefficient at each node at an angle of attack.
func (f Potential) Pressure(angle si.Angle) []float64 {
	cp := make([]float64, len(f.nodes))
	for i := range cp {
		v := f.along[i]*angle.Cos() + f.across[i]*angle.Sin()
		cp[i] = 1 - v*v
	}
	return cp
}

// Moment returns the moment coefficient about the quarter chord, by the
// pressures, on chord squared, positive nose up.
func (f Potential) Moment(angle si.Angle) float64 {
	cp := f.Pressure(angle)
	sum := 0.0
	for i := range len(cp) - 1 {
		p, q := f.nodes[i], f.nodes[i+1]
		mean := (cp[i] + cp[i+1]) / 2
		x, y := (p.X+q.X)/2-0.25, (p.Y+q.Y)/2
		// Pressure pushes inward; the nodes run anticlockwise.
		sum += mean * (x*(q.X-p.X) + y*(q.Y-p.Y))
	}
	return -sum
}

// Peak returns the least pressure coefficient on the surface at an angle of
// attack: at the node of the highest speed, bettered by the parabola through it
// and its neighbours.
func (f Potential) Peak(angle si.Angle) float64 {
	return f.peakOver(angle, stretch{0, len(f.nodes)})
}

// stretch is a run of nodes, the last one not in it.
type stretch struct{ from, to int }

// peakOver is [Potential.Peak] over a stretch of the surface.
func (f Potential) peakOver(angle si.Angle, over stretch) float64 {
	cos, sin := angle.Cos(), angle.Sin()
	speed := func(i int) float64 { return math.Abs(f.along[i]*cos + f.across[i]*sin) }
	best := over.from
	for i := over.from; i < over.to; i++ {
		if speed(i) > speed(best) {
			best = i
		}
	}
	if best == 0 || best >= len(f.nodes)-1 {
		v := speed(best)
		return 1 - v*v
	}
	gap := func(p, q Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }
	a, b := gap(f.nodes[best], f.nodes[best-1]), gap(f.nodes[best+1], f.nodes[best])
	v0, v1, v2 := speed(best-1), speed(best), speed(best+1)
	before, after := (v1-v0)/a, (v2-v1)/b
	// The parabola's top helps only where it lies between the neighbours.
	if before > 0 && after < 0 {
		curve := (after - before) / (a + b)
		slope := (before*b + after*a) / (a + b)
		v1 -= 0.25 * slope * slope / curve
	}
	return 1 - v1*v1
}
