package wave

import "math"

// Kernel is what a lifting line under waves does upstream, as a table. It is
// built once, never changes, and serves any number of goroutines.
//
// The table is a cubic spline over the logarithm of the distance R in lengths of
// 1/k0, the angle of the target ahead of the plane across the stream, and its
// angle from the vertical in that plane. What it holds is made of one size by R
// and R². Over distances from 1/300 to 30 its error is below two thousandths of
// the largest value at that distance (held by a test); nearer than 1/500, values
// fall off in proportion to R as at high speed, beyond 60 they are a wall's.
type Kernel struct {
	legs  [][2]float64 // spline coefficients of R S_Y and R S_Z
	bound [][3]float64 // of R² times S_XX, S_XY and S_XZ
}

// The table's axes: number of nodes and ends. The spline has one coefficient
// more than nodes at either end.
const (
	distances, ahead, aside = 30, 13, 17
	nearest, furthest       = 0.002, 60.0
)

// NewKernel computes the table, which takes a fraction of a second.
func NewKernel() *Kernel {
	k := &Kernel{}
	const cells = (distances + 2) * (ahead + 2) * (aside + 2)
	var fields [5][]float64
	for i := range fields {
		fields[i] = make([]float64, cells)
	}
	for i := range distances {
		r := math.Exp(math.Log(nearest) + float64(i)*math.Log(furthest/nearest)/(distances-1))
		for j := range ahead {
			for l := range aside {
				at := index(i+1, j+1, l+1)
				for n, v := range node(r, j, l) {
					fields[n][at] = v
				}
			}
		}
	}
	k.legs, k.bound = make([][2]float64, cells), make([][3]float64, cells)
	for n := range fields {
		spline(fields[n])
		for at, v := range fields[n] {
			if n < 2 {
				k.legs[at][n] = v
			} else {
				k.bound[at][n-2] = v
			}
		}
	}
	return k
}

// node returns what the table holds at the distance r and the nodes of the two
// angles. Straight ahead, where legs' own terms cancel out of all bounds, it is
// carried on from close by.
func node(r float64, j, l int) [5]float64 {
	e, b := float64(j)*math.Pi/2/(ahead-1), float64(l)*math.Pi/2/(aside-1)
	if j < ahead-1 {
		return evenSlopes(r, e, b)
	}
	const close = 0.005
	near, far := evenSlopes(r, e-close, b), evenSlopes(r, e-2*close, b)
	for n := range near {
		near[n] = 2*near[n] - far[n]
	}
	return near
}

// evenSlopes returns the slopes made of one size.
func evenSlopes(r, e, b float64) [5]float64 {
	sinE, cosE := math.Sincos(e)
	sinB, cosB := math.Sincos(b)
	f := upstream(r*sinE, r*cosE*sinB, -r*cosE*math.Max(cosB, 1e-6)) // the surface itself from just below
	return [5]float64{r * f.y, r * f.z, r * r * f.xx, r * r * f.xy, r * r * f.xz}
}

func index(i, j, l int) int { return (i*(ahead+2)+j)*(aside+2) + l }

// spline turns values at the nodes into coefficients, one axis after the other.
func spline(f []float64) {
	line := make([]float64, max(distances, ahead, aside)+2)
	run := func(n, start, stride int) {
		for k := range n + 2 {
			line[k] = f[start+k*stride]
		}
		splineLine(line[:n+2])
		for k := range n + 2 {
			f[start+k*stride] = line[k]
		}
	}
	for i := 1; i <= distances; i++ {
		for j := 1; j <= ahead; j++ {
			run(aside, index(i, j, 0), 1)
		}
	}
	for i := 1; i <= distances; i++ {
		for l := range aside + 2 {
			run(ahead, index(i, 0, l), aside+2)
		}
	}
	for j := range ahead + 2 {
		for l := range aside + 2 {
			run(distances, index(0, j, l), (ahead+2)*(aside+2))
		}
	}
}

// splineLine turns the values c[1] … c[n] into the n+2 coefficients of a cubic
// B-spline with unit knots, (c₋ + 4c + c₊)/6 at a node, whose slopes at the ends are
// those of the polynomial through five values.
func splineLine(c []float64) {
	n := len(c) - 2
	slope := func(v0, v1, v2, v3, v4 float64) float64 { return (-25*v0 + 48*v1 - 36*v2 + 16*v3 - 3*v4) / 12 }
	first := slope(c[1], c[2], c[3], c[4], c[5])
	last := -slope(c[n], c[n-1], c[n-2], c[n-3], c[n-4])
	// c₋ = c₊ − 2·slope at the ends leaves a system of three diagonals.
	upper := make([]float64, n)
	value := make([]float64, n)
	for k := range n {
		below, above, right := 1.0, 1.0, 6*c[k+1]
		if k == 0 {
			below, above, right = 0, 2, right+2*first
		} else if k == n-1 {
			below, above, right = 2, 0, right-2*last
		}
		pivot := 4.0
		if k > 0 {
			pivot -= below * upper[k-1]
			right -= below * value[k-1]
		}
		upper[k], value[k] = above/pivot, right/pivot
	}
	for k := n - 1; k >= 0; k-- {
		if k < n-1 {
			value[k] -= upper[k] * value[k+1]
		}
		c[k+1] = value[k]
	}
	c[0] = c[2] - 2*first
	c[n+1] = c[n-1] + 2*last
}

// place is where a target lies in the table.
type place struct {
	at      int           // index of the first coefficient
	weights [3][4]float64 // of the spline along each axis
	side    float64       // sign of Y
	inverse float64       // 1/R
	faded   float64       // below the nearest distance, R over it
}

// find returns the place of a target ahead by X ≥ 0, to port by Y and down by
// −Z ≥ 0, in lengths of 1/k0.
func find(X, Y, Z float64) place {
	p := place{side: 1, faded: 1}
	if Y < 0 {
		p.side, Y = -1, -Y
	}
	square := Y*Y + Z*Z
	r := math.Sqrt(X*X + square)
	p.inverse = 1 / math.Max(r, 1e-12)
	if r < nearest {
		p.faded = r / nearest
	}
	const perLog = (distances - 1) / 10.308952660644293 // ln(furthest/nearest)
	u := perLog * math.Log(math.Min(math.Max(r, nearest), furthest)/nearest)
	e := math.Atan2(X, math.Sqrt(square)) * (ahead - 1) / (math.Pi / 2)
	b := math.Atan2(Y, math.Max(-Z, 0)) * (aside - 1) / (math.Pi / 2)
	i, j, l := min(int(u), distances-2), min(int(e), ahead-2), min(int(b), aside-2)
	p.weights = [3][4]float64{basis(u - float64(i)), basis(e - float64(j)), basis(b - float64(l))}
	p.at = index(i, j, l)
	return p
}

// basis returns the four cubic B-splines at the share t of a cell.
func basis(t float64) [4]float64 {
	s := 1 - t
	return [4]float64{s * s * s / 6, (4 - 3*t*t*(2-t)) / 6, (4 - 3*s*s*(2-s)) / 6, t * t * t / 6}
}

// legSlopes returns S_Y and S_Z at a place, in units of k0.
func (k *Kernel) legSlopes(p *place) (y, z float64) {
	for i, wi := range p.weights[0] {
		for j, wj := range p.weights[1] {
			at := p.at + index(i, j, 0)
			c := k.legs[at : at+4]
			w := wi * wj
			a, b, d, e := w*p.weights[2][0], w*p.weights[2][1], w*p.weights[2][2], w*p.weights[2][3]
			y += a*c[0][0] + b*c[1][0] + d*c[2][0] + e*c[3][0]
			z += a*c[0][1] + b*c[1][1] + d*c[2][1] + e*c[3][1]
		}
	}
	scale := p.inverse * p.faded
	return p.side * scale * y, scale * z
}

// boundSlopes returns S_XX, S_XY and S_XZ at a place, in units of k0².
func (k *Kernel) boundSlopes(p *place) (xx, xy, xz float64) {
	for i, wi := range p.weights[0] {
		for j, wj := range p.weights[1] {
			at := p.at + index(i, j, 0)
			c := k.bound[at : at+4]
			for l, wl := range p.weights[2] {
				w := wi * wj * wl
				xx += w * c[l][0]
				xy += w * c[l][1]
				xz += w * c[l][2]
			}
		}
	}
	scale := p.inverse * p.inverse * p.faded
	return scale * xx, p.side * scale * xy, scale * xz
}
