package sail

import (
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// liftSlope is the two-dimensional lift slope a₀ of thin aerofoils, 1/rad
// (Glauert 1926).
const liftSlope = 2 * math.Pi

// factor writes the equations of the lifting lines and factors them; it tells
// whether they have a solution.
//
// Prandtl (1918): Γ = ½·c·a₀·(W·α − w), with w = A·Γ the velocity that all
// trailing vortices and their images in the water raise at the lifting line,
// half of that far downstream, against the force. A strip of positive Γ sheds a
// vortex at each end, seen end-on in the plane normal to the wake; the water is
// a rigid wall, so that a vortex has an image of opposite sense as far behind
// the mirror (which the model's gap factor shifts). On other sails a vortex has
// a core, v = κ·r/(2π·(r² + r_c²)) (Scully 1975), since a sail in the plane of
// another's wake would meet a singularity; on its own sail it has none. Wakes
// drift straight along one direction and are seen as if all sails stood in one
// plane normal to it: by Munk (1921) that keeps the induced drag of a set, and
// leaves out what the fore-and-aft distance does to each sail's incidence.
func (k *wake) factor() (solved bool) {
	n, m := len(k.segments), len(k.nodes)
	k.influence = grow(k.influence, n*n)
	k.bent = grow(k.bent, m)
	k.pivots = grow(k.pivots, n)
	k.factored = blas64.General{Rows: n, Cols: n, Stride: max(1, n), Data: grow(k.factored.Data, n*n)}
	if n == 0 {
		return true
	}
	tiny := k.tiny()
	for i := range k.segments {
		s := &k.segments[i]
		for j := range k.nodes {
			k.bent[j] = k.nodes[j].against(s, k.mirror, tiny)
		}
		row, factored := k.influence[i*n:i*n+n], k.factored.Data[i*n:i*n+n]
		for j, first := range k.first {
			a := k.bent[first] - k.bent[first+1]
			row[j], factored[j] = a, s.half*a
		}
		factored[i]++
	}
	return lapack64.Getrf(k.factored, k.pivots)
}

// against returns the velocity against a segment's normal that unit circulation
// of a strip above the node raises on the segment through it, 1/m: half the
// far-wake value.
func (d *node) against(s *segment, mirror, tiny float64) float64 {
	core := tiny
	if d.sail != s.sail {
		core += d.core * d.core
	}
	dt, dz := s.t-d.t, s.z-d.z
	down := s.z - 2*mirror + d.z
	square := dt*dt + core
	own, image := dz*dz+square, down*down+square
	// One division for both distances squared: this is where the time goes.
	each := 1 / (4 * math.Pi) / (own * image)
	own, image = image*each, own*each
	return (dz*own-down*image)*s.mt + dt*(image-own)*s.mz
}

// tiny returns the square of a length far below any of the sails', m², which
// keeps a line that is seen end-on finite.
func (k *wake) tiny() float64 {
	size := 1e-12
	for i := range k.segments {
		size = max(size, k.segments[i].half)
	}
	return 1e-18 * size * size
}

// solve writes the circulation of every strip for W·α in flow, m²/s, and the
// velocity w that goes with it, m/s.
func (k *wake) solve(circulation, downwash []float64) {
	n := len(k.segments)
	if n == 0 {
		return
	}
	for i := range k.segments {
		circulation[i] = k.segments[i].half * k.flow[i]
	}
	// By hand, since lapack's solver is made for many right sides: three times as fast.
	for i, p := range k.pivots {
		circulation[i], circulation[p] = circulation[p], circulation[i]
	}
	x := blas64.Vector{N: n, Inc: 1, Data: circulation}
	lu := blas64.Triangular{Uplo: blas.Lower, Diag: blas.Unit, N: n, Stride: k.factored.Stride, Data: k.factored.Data}
	blas64.Trsv(blas.NoTrans, lu, x)
	lu.Uplo, lu.Diag = blas.Upper, blas.NonUnit
	blas64.Trsv(blas.NoTrans, lu, x)
	a := blas64.General{Rows: n, Cols: n, Stride: n, Data: k.influence}
	blas64.Gemv(blas.NoTrans, 1, a, x, 0, blas64.Vector{N: n, Inc: 1, Data: downwash})
}
