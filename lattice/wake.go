package lattice

import "math"

// wake is the far wake: the strips' traces in a plane across the stream far
// behind, each a pair of point vortices at its ends.
type wake struct {
	a, b, mid [][2]float64 // of strips of several rows: (y, z) of their ends and angular midpoints, m
	surface   []int
	core4     []float64
	chains    *chains   // x does not count
	targets   *targets  // with (0, −lz, ly)
	traces    chains    // of strips of several rows
	middles   targets   // of them
	drag      []float64 // induced drag D/(ρV²) of strip i's unit circulation in strip j's wash, at j·n + i
	mirror    []float64 // the image's part of it
	known     extent

	own, others []float64 // for a set of circulations: wash at each strip of its own surface, and of the others
}

// take lists the strips and their chains, of panels with those chains and force
// points: those of the panels themselves where each strip is one. Strips of several rows
// lie at the mean of their rows, their circulation is the sum.
func (k *wake) take(p *Panels, rows []int, bound *chains, forces *targets) {
	k.known = nothing
	if single(p, rows) {
		k.chains, k.targets = bound, forces
		return
	}
	n := len(rows)
	k.a, k.b, k.mid = sized(k.a, n), sized(k.b, n), sized(k.mid, n)
	k.surface, k.core4 = sized(k.surface, n), sized(k.core4, n)
	clear(k.a)
	clear(k.b)
	clear(k.mid)
	for i, s := range p.Strip {
		share := 1 / float64(rows[s])
		for c := range 2 {
			k.a[s][c] += share * p.A[i][c+1]
			k.b[s][c] += share * p.B[i][c+1]
			k.mid[s][c] += share * p.Mid[i][c+1]
		}
		k.surface[s] = p.Surface[i]
		k.core4[s] = p.Core[i] * p.Core[i] * p.Core[i] * p.Core[i]
	}
	k.trace()
}

// single tells that each panel is a strip, in the order of strips.
func single(p *Panels, rows []int) bool {
	if len(rows) != p.Len() {
		return false
	}
	for i, s := range p.Strip {
		if i != s {
			return false
		}
	}
	return true
}

// trace lists the chains and targets of the strips in the plane.
func (k *wake) trace() {
	k.chains, k.targets = &k.traces, &k.middles
	k.chains.reset()
	k.targets.reset(len(k.a))
	for s := range k.a {
		a, b, m := k.a[s], k.b[s], k.mid[s]
		k.chains.add(s, &[3]float64{0, a[0], a[1]}, &[3]float64{0, b[0], b[1]}, k.surface[s], k.core4[s], 1/(4*math.Pi))
		k.targets.put(s, &[3]float64{0, m[0], m[1]}, &[3]float64{0, -(b[1] - a[1]), b[0] - a[0]}, k.surface[s], k.core4[s])
	}
}

// see builds the drag matrix where it is not known yet.
//
// The induced drag is half of what the bound vortices would suffer in the wash
// far behind (Prandtl 1918; Munk 1921, NACA Report 121). With nodes at the
// cosine and wash at the angular midpoints the drag of a planar wake is a
// trapezoidal rule in the angle, exact for a finite Fourier series up to a
// factor that it shares with the square of lift.
func (k *wake) see(b Boundary) {
	if k.known == everything {
		return
	}
	n := len(k.targets.x)
	k.drag, k.mirror = sized(k.drag, n*n), sized(k.mirror, n*n)
	for _, at := range k.targets.runs {
		for _, of := range k.chains.runs {
			far(k.chains.steps[of.from:of.to], k.targets, at.from, at.to, at.surface == of.surface, b.mirror(), k.drag, k.mirror, n)
		}
	}
	k.known = everything
}

// wash fills own and others for the strips' circulations.
func (k *wake) wash(b Boundary, circulation []float64) {
	k.see(b)
	n := len(circulation)
	k.own, k.others = sized(k.own, n), sized(k.others, n)
	k.targets.sum(k.drag, circulation, k.own, k.others)
}

// induced returns the induced drag D/(ρV²), m², of the strips' circulations.
func (k *wake) induced(b Boundary, circulation []float64) float64 {
	k.wash(b, circulation)
	sum := 0.0
	for i, g := range circulation {
		sum += g * (k.own[i] + k.others[i])
	}
	return sum
}
