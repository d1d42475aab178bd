package lattice

import "math"

// wake is the far wake: the strips' traces in a plane across the stream far
// behind, each a pair of point vortices at its ends.
type wake struct {
	a, b, mid []([2]float64) // (y, z) of the strips' ends and angular midpoints, m
	surface   []int
	core4     []float64
	drag      []float64 // induced drag D/(ρV²) of strip i's unit circulation in strip j's wash, row after row
}

// assemble builds the drag matrix. Strips of several rows lie at the mean of
// their rows, their circulation is the sum.
//
// The induced drag is half of what the bound vortices would suffer in the wash
// far behind (Prandtl 1918; Munk 1921, NACA Report 121). With nodes at the
// cosine and wash at the angular midpoints the drag of a planar wake is a
// trapezoidal rule in the angle, exact for a finite Fourier series up to a
// factor that it shares with the square of lift.
func (k *wake) assemble(p *Panels, b Boundary, rows []int) {
	n := len(rows)
	k.a, k.b, k.mid = sized(k.a, n), sized(k.b, n), sized(k.mid, n)
	k.surface, k.core4 = sized(k.surface, n), sized(k.core4, n)
	k.drag = sized(k.drag, n*n)
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
	_, mv, mw := b.mirror()
	for i := range n {
		ly, lz := k.b[i][0]-k.a[i][0], k.b[i][1]-k.a[i][1]
		y, z := k.mid[i][0], k.mid[i][1]
		row := k.drag[i*n : (i+1)*n]
		for j := range n {
			core4 := 0.0
			if k.surface[j] != k.surface[i] {
				core4 = k.core4[j]
			}
			v, w := trace(k.a[j], k.b[j], y, z, core4)
			if b != Unbounded {
				iv, iw := trace(k.a[j], k.b[j], y, -z, core4)
				v += mv * iv
				w += mw * iw
			}
			row[j] = -(v*lz - w*ly) / (4 * math.Pi)
		}
	}
}

// trace returns 2π times the velocity at (y, z) of a strip of unit circulation
// far behind: a vortex along −x at b, its opposite at a.
func trace(a, b [2]float64, y, z, core4 float64) (v, w float64) {
	yb, zb := y-b[0], z-b[1]
	ya, za := y-a[0], z-a[1]
	qb, qa := yb*yb+zb*zb, ya*ya+za*za
	if core4 > 0 {
		qb, qa = math.Sqrt(qb*qb+core4), math.Sqrt(qa*qa+core4)
	}
	fb, fa := 0.0, 0.0
	if qb > axis {
		fb = 1 / qb
	}
	if qa > axis {
		fa = 1 / qa
	}
	return zb*fb - za*fa, ya*fa - yb*fb
}

// induced returns the induced drag D/(ρV²), m², of the strips' circulations.
func (k *wake) induced(circulation []float64) float64 {
	n := len(circulation)
	sum := 0.0
	for i, g := range circulation {
		row := k.drag[i*n : (i+1)*n]
		at := 0.0
		for j, d := range row {
			at += d * circulation[j]
		}
		sum += g * at
	}
	return sum
}
