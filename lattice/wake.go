package lattice

import "math"

// wake is the far wake: the strips' traces in a plane across the stream far
// behind, each a pair of point vortices at its ends.
type wake struct {
	a, b, mid [][2]float64 // (y, z) of the strips' ends and angular midpoints, m
	surface   []int
	core4     []float64
	drag      []float64 // induced drag D/(ρV²) of strip i's unit circulation in strip j's wash, row after row

	nodes    nodes // x is y, y is z; the rest as for the near field
	from, to []int
	pull     []float64 // drag of one target from a unit vortex at each node
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
	k.take(p, rows)
	n := len(rows)
	_, mv, mw := b.mirror()
	for i := range n {
		k.see(i, mv, mw)
		row := k.drag[i*n : (i+1)*n]
		from, to := k.from[:n], k.to[:n]
		for j := range row {
			row[j] = k.pull[to[j]] - k.pull[from[j]]
		}
	}
}

// take lists the strips and their nodes, each once where neighbours share it.
func (k *wake) take(p *Panels, rows []int) {
	n := len(rows)
	k.a, k.b, k.mid = sized(k.a, n), sized(k.b, n), sized(k.mid, n)
	k.surface, k.core4 = sized(k.surface, n), sized(k.core4, n)
	k.from, k.to = sized(k.from, n), sized(k.to, n)
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
	k.nodes.reset()
	last := [2]int{-1, -1}
	for s := range n {
		a, b := k.a[s], k.b[s]
		k.from[s] = k.nodes.add([3]float64{a[0], a[1], 0}, k.surface[s], k.core4[s], last)
		k.to[s] = k.nodes.add([3]float64{b[0], b[1], 0}, k.surface[s], k.core4[s], last)
		last = [2]int{k.from[s], k.to[s]}
	}
	k.pull = sized(k.pull, len(k.nodes.x))
}

// see fills pull for strip i: the drag −½(v lz − w ly) of its unit circulation
// in the velocity (Z, −Y)/(2π(Y² + Z²)) of a unit vortex along −x at each node
// and of its image, smoothed as in the near field.
func (k *wake) see(i int, mv, mw float64) {
	n := len(k.nodes.x)
	ny, nz, core4, surface, pull := k.nodes.x[:n], k.nodes.y[:n], k.nodes.core4[:n], k.nodes.surface[:n], k.pull[:n]
	ly, lz := (k.b[i][0]-k.a[i][0])/(4*math.Pi), (k.b[i][1]-k.a[i][1])/(4*math.Pi)
	y, z, own := k.mid[i][0], k.mid[i][1], k.surface[i]
	for j := range n {
		dy, up, down := y-ny[j], z-nz[j], -z-nz[j]
		q, mq := dy*dy+up*up, dy*dy+down*down
		if surface[j] != own {
			q, mq = math.Sqrt(q*q+core4[j]), math.Sqrt(mq*mq+core4[j])
		}
		f, mf := 0.0, 0.0
		if q > axis {
			f = 1 / q
		}
		if mw != 0 && mq > axis {
			mf = 1 / mq
		}
		pull[j] = -(f*up+mv*mf*down)*lz - (f*dy+mw*mf*dy)*ly
	}
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

// own returns the drag of strip s in the wash of its own surface.
func (k *wake) own(s int, circulation []float64) float64 {
	n := len(circulation)
	row := k.drag[s*n : (s+1)*n]
	at := 0.0
	for j, d := range row {
		if k.surface[j] == k.surface[s] {
			at += d * circulation[j]
		}
	}
	return at * circulation[s]
}
