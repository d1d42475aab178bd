package wave

import (
	"math"

	"foilwright/si"
	"gonum.org/v1/gonum/blas/blas64"
)

// Wash fills the matrix of normal velocities that the waves of a finite Froude
// number add, at points, to what strips of unit circulation induce under a
// surface of zero potential, 1/m. The velocity at point i from strip j, along
// normals[i], is at matrix[i·strips + j]; a lattice adds it to its own influence
// at the control points. The strips' circulations do not matter.
//
// Upstream of a strip, where no waves run, velocities come from the kernel's
// table, legs at the strip's ends and the bound vortex at its middle. Downstream
// they are the whole train of free waves and a wall's far wake less the same table
// mirrored: v and w are even in x but for a part that is odd, u the other way
// about. Near the plane abreast either is carried on across it, and within a
// twentieth of the distance the two pass into each other. Abreast both make half the wave train and half the far wake, so
// that a plane unswept line suffers what Increment says, strip by strip.
//
// Errors are *InputError.
func (w *Workspace) Wash(k *Kernel, s *Strips, points, normals [][3]float64, speed si.Speed, gravity float64, matrix []float64) error {
	v := speed.MetresPerSecond()
	if err := s.check(v, gravity); err != nil {
		return err
	}
	if k == nil || len(k.legs) == 0 {
		return &InputError{-1, "no kernel\nhint: make one with NewKernel"}
	}
	if len(normals) != len(points) || len(matrix) != len(points)*s.Len() {
		return &InputError{-1, "points, normals and matrix do not fit each other"}
	}
	for i, p := range points {
		n := normals[i]
		sum := p[0] + p[1] + p[2] + n[0] + n[1] + n[2]
		if math.IsNaN(sum) || math.IsInf(sum, 0) {
			return &InputError{-1, "a point or normal is not finite"}
		}
	}
	clear(matrix)
	k0 := gravity / (v * v)
	if s.Len() == 0 || len(points) == 0 || k0 < longest {
		return nil
	}
	w.k0 = math.Min(k0, shortest)
	w.rank(s, points, normals)
	w.trace(s)
	n := s.Len()
	for i, p := range points {
		w.washAt(k, s, p, normals[i], w.feel[i*w.columns:(i+1)*w.columns], matrix[i*n:(i+1)*n])
	}
	return nil
}

// trace lists the strips' ends, each once where neighbours share it.
func (w *Workspace) trace(s *Strips) {
	n := s.Len()
	w.ends, w.from, w.to = w.ends[:0], sized(w.from, n), sized(w.to, n)
	add := func(p [3]float64, surface int, core float64) int {
		for k := max(0, len(w.ends)-2); k < len(w.ends); k++ {
			if e := &w.ends[k]; e.at == p && e.surface == surface && e.core == core {
				return k
			}
		}
		w.ends = append(w.ends, end{at: p, surface: surface, core: core})
		return len(w.ends) - 1
	}
	for i := range n {
		w.from[i] = add(s.A[i], s.Surface[i], s.Core[i])
		w.to[i] = add(s.B[i], s.Surface[i], s.Core[i])
	}
}

// end is where a leg begins, with what a target sees of it.
type end struct {
	at      [3]float64
	surface int
	core    float64
	ahead   [2]float64 // S_Y and S_Z, 1/m
	behind  [2]float64 // the same downstream, but for the waves, 1/m
}

// surfaceOf returns the surface of the strip that a point lies closest to, where
// wakes act without a core, and the strip's core, m.
func surfaceOf(s *Strips, p [3]float64) (surface int, core float64) {
	best, surface := math.Inf(1), -1
	for i, m := range s.Mid {
		dx, dy, dz := p[0]-m[0], p[1]-m[1], p[2]-m[2]
		if d := dx*dx + dy*dy + dz*dz; d < best {
			best, surface, core = d, s.Surface[i], s.Core[i]
		}
	}
	return surface, core
}

// washAt fills one row. feel is how the point feels free waves.
func (w *Workspace) washAt(k *Kernel, s *Strips, p, normal [3]float64, feel, row []float64) {
	k0 := w.k0
	own, core := surfaceOf(s, p)
	for i := range w.ends {
		w.ends[i].see(k, k0, p, own, core)
	}
	for j, m := range s.Mid {
		a, b := &w.ends[w.from[j]], &w.ends[w.to[j]]
		dx, dy, down := p[0]-m[0], p[1]-m[1], math.Min(p[2]+m[2], 0)
		lx, ly, lz := s.B[j][0]-s.A[j][0], s.B[j][1]-s.A[j][1], s.B[j][2]-s.A[j][2]
		distance := math.Sqrt(dx*dx + dy*dy + down*down + axis)
		ahead := blend(dx / (turn * distance))
		behind := 1 - ahead
		at := find(k0*math.Abs(dx), k0*dy, k0*down)
		xx, xy, xz := k.boundSlopes(&at)
		xxBack, xyBack, xzBack := xx, xy, xz
		if math.Abs(dx) < abreast*distance {
			at = find(0, k0*dy, k0*down)
			xx0, xy0, xz0 := k.boundSlopes(&at)
			xx, xxBack = sides(dx, xx, xx0)
			xy, xyBack = sides(dx, xy, xy0)
			xz, xzBack = sides(dx, xz, xz0)
		}
		xx, xy, xz = k0*k0*(ahead*xx-behind*xxBack), k0*k0*(ahead*xy+behind*xyBack), k0*k0*(ahead*xz+behind*xzBack)
		y := ahead*(b.ahead[0]-a.ahead[0]) + behind*(b.behind[0]-a.behind[0])
		z := ahead*(b.ahead[1]-a.ahead[1]) + behind*(b.behind[1]-a.behind[1])
		along, across, up := -lz*xy-ly*xz, z+lz*xx+lx*xz, -y+ly*xx-lx*xy
		row[j] = (normal[0]*along + normal[1]*across + normal[2]*up) / (4 * math.Pi)
		if behind > 0 && len(feel) > 0 {
			made := blas64.Vector{N: len(feel), Inc: 1, Data: w.made[j*len(feel) : (j+1)*len(feel)]}
			row[j] += behind * blas64.Dot(made, blas64.Vector{N: len(feel), Inc: 1, Data: feel})
		}
	}
}

// see fills what the point p sees of the leg, on a surface whose legs have a core there.
func (e *end) see(k *Kernel, k0 float64, p [3]float64, own int, core float64) {
	dx, dy, down := p[0]-e.at[0], p[1]-e.at[1], math.Min(p[2]+e.at[2], 0)
	q := dy*dy + down*down
	at := find(k0*math.Abs(dx), k0*dy, k0*down)
	y, z := k.legSlopes(&at)
	yMirrored, zMirrored := y, z
	if dx*dx < abreast*abreast*(dx*dx+q) {
		at = find(0, k0*dy, k0*down)
		y0, z0 := k.legSlopes(&at)
		y, yMirrored = sides(dx, y, y0)
		z, zMirrored = sides(dx, z, z0)
	}
	e.ahead, e.behind = [2]float64{k0 * y, k0 * z}, [2]float64{-k0 * yMirrored, -k0 * zMirrored}
	if e.surface != own {
		q = math.Sqrt(q*q + e.core*e.core*e.core*e.core + core*core*core*core)
	}
	if q > axis {
		e.behind[0] -= 4 * dy / q
		e.behind[1] -= 4 * down / q
	}
}

// sides returns a slope that the table gives at |x| as it is at x and at −x,
// carried on across x = 0, where it is middle, as if it were straight there: of
// S_Y, S_Z and S_XX the part that is even in x hardly changes, of the two others
// the odd one grows in proportion.
func sides(x, value, middle float64) (here, mirrored float64) {
	if x < 0 {
		return 2*middle - value, value
	}
	return value, 2*middle - value
}

// abreast is the share of the distance, ahead and behind, within which slopes
// are carried on across x = 0.
const abreast = 0.3

// turn is the share of the distance, ahead and behind, within which the forms
// for upstream and downstream pass into each other.
const turn = 0.05

// blend goes smoothly from 0 at −1 to 1 at 1.
func blend(t float64) float64 {
	t = math.Min(1, math.Max(0, (t+1)/2))
	return t * t * (3 - 2*t)
}

// rank fills made and feel, whose products are what the free waves of each strip
// of unit circulation make at each point as if they ran everywhere: twice the
// even part,
//
//	(k0²/π) ∫ Re[−(nx + ny sinh t + i nz cosh t) E* h] cosh²t dt,
//
// E the wave at the point and h the strip's amplitude: twice the derivative of W
// by a load along the normal.
func (w *Workspace) rank(s *Strips, points, normals [][3]float64) {
	n, k0 := s.Len(), w.k0
	w.columns = 0
	shape := w.look(s, k0)
	ratio := shape.reach / k0
	if !(ratio > 1) {
		return
	}
	last := math.Acosh(math.Sqrt(ratio))
	step := max(shape.step(k0, min(shape.alpha(), blurred)), last/most)
	if w.finer > 0 {
		step /= w.finer
	}
	half := int(last / step)
	directions := 2*half + 1
	columns := 2 * directions
	w.columns = columns
	w.made, w.feel = sized(w.made, n*columns), sized(w.feel, len(points)*columns)
	for d := range directions {
		t := float64(d-half) * step
		c, h := math.Cosh(t), math.Sinh(t)
		kappa, along, across := k0*c*c, k0*c, k0*c*h
		for j := range n {
			m, p := s.Mid[j], &w.traces.strips[j]
			ly, lz := p.dy*blurring, p.dz*blurring
			phase, fall := across*p.dy, kappa*p.dz
			blur := phase*phase + fall*fall
			e := math.Exp(math.Max(kappa*p.z-blur*blur, -700))
			sin, cos := math.Sincos(along*(m[0]-shape.x) + across*(m[1]-shape.y))
			at := w.made[j*columns+2*d:]
			at[0], at[1] = e*(lz*h*cos-ly*c*sin), e*(ly*c*cos+lz*h*sin)
		}
		weight := k0 * k0 / math.Pi * step * c * c
		for i, p := range points {
			nx, ny, nz := normals[i][0], normals[i][1], normals[i][2]
			e := weight * math.Exp(math.Max(kappa*math.Min(p[2], 0), -700))
			sin, cos := math.Sincos(along*(p[0]-shape.x) + across*(p[1]-shape.y))
			flat, steep := nx+ny*h, nz*c
			// Re[−(flat + i steep)(cos − i sin)(a + i b)] = a·at[0] + b·at[1].
			at := w.feel[i*columns+2*d:]
			at[0], at[1] = -e*(flat*cos+steep*sin), e*(steep*cos-flat*sin)
		}
	}
}
