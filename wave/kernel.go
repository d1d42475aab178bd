package wave

import (
	"math"
	"math/cmplx"
)

// slopes are derivatives of the potential S of a line of unit sources that runs
// from a point straight downstream, of which only the part counts that waves add
// to a surface of zero potential; times 4π, in lengths of 1/k0.
//
// With X, Y the way from the source to the target and Z the sum of their
// heights, S = ∫ w ds, where 1/r − 1/r′ + w is Kelvin's source under waves. A
// bound vortex along l with its legs has the potential −(lz S_Y + ly S_Z)/4π.
type slopes struct{ y, z, xx, xy, xz float64 }

// upstream returns the slopes for X ≥ 0 and Z < 0, where no waves run: with
// tan θ = sinh t, κ = cosh²t and q = κZ + i cosh t (X + Y sinh t),
//
//	S_Z = −2Z/(Y²+Z²) − (2/π) Re ∫ i κ N dt,  N = ∫ exp(sq)/(s−1) ds = e^q E₁(q),
//	S_Y = −2Y/(Y²+Z²) + (2/π) Re ∫ tanh t κ N dt,
//	S_XX = (2/π) Re ∫ i κ M dt,  M = N − 1/q,
//	S_XY = (2/π) Re ∫ i sinh t κ M dt,  S_XZ = (2/π) Re ∫ cosh t κ M dt,
//
// over all real t, the first terms being those of the pole at cos θ = 0. The
// path is shifted to t + iα with tan 2α = |Y|/|Z|, where nothing oscillates
// across the track; singularities then stay π/4 away at least, and the
// trapezoidal rule converges geometrically. N is continued across the negative
// real axis from above: there lies the pole of the waves.
func upstream(X, Y, Z float64) slopes {
	const step = 0.2
	side := math.Copysign(1, Y)
	y := math.Abs(Y)
	square := y*y + Z*Z
	last := 22 + math.Log1p(X*X/square)/2 // tails fall off as exp(−|t|) X/√(Y²+Z²)
	sin, cos := math.Sincos(math.Atan2(y, -Z) / 2)
	var f slopes
	for k := 0.0; k <= last/step; k++ {
		cosh, sinh := math.Cosh(k*step), math.Sinh(k*step)
		for _, sinh := range [2]float64{sinh, -sinh} {
			weight := step
			if k == 0 {
				weight /= 2
			}
			c, s := complex(cosh*cos, sinh*sin), complex(sinh*cos, cosh*sin) // of t + iα
			kappa := c * c
			q := kappa*complex(Z, 0) + complex(0, 1)*c*(complex(X, 0)+complex(y, 0)*s)
			n, m := exponential(q)
			n *= kappa
			m *= kappa
			f.z += weight * imag(n)
			f.y += weight * real(s/c*n)
			f.xx -= weight * imag(m)
			f.xy -= weight * imag(s*m)
			f.xz += weight * real(c*m)
		}
	}
	const scale = 2 / math.Pi
	return slopes{
		side * (scale*f.y - 2*y/square), scale*f.z - 2*Z/square,
		scale * f.xx, side * scale * f.xy, scale * f.xz,
	}
}

// exponential returns N = e^q E₁(q) and N − 1/q with the logarithm cut along the
// positive real axis: by the series near the origin and the negative axis, by
// the continued fraction, and by the asymptotic series (Abramowitz and Stegun
// 1964, 5.1.11, 5.1.22 and 5.1.51).
func exponential(q complex128) (n, m complex128) {
	size := math.Sqrt(real(q)*real(q) + imag(q)*imag(q))
	below := imag(q) < 0
	if size > 36 {
		inverse := 1 / q
		term, sum := inverse, complex128(0)
		terms := math.Ceil(1 + 40/math.Log(size)) // past the rounding
		for k := 1.0; k < math.Min(24, terms); k++ {
			term *= complex(-k, 0) * inverse
			sum += term
		}
		if below {
			sum -= complex(0, 2*math.Pi) * cmplx.Exp(q)
		}
		return inverse + sum, sum
	}
	if size > 6 && math.Abs(imag(q)) > -real(q) {
		fraction := q + 121
		for k := 60.0; k >= 1; k-- {
			fraction = q + complex(2*k-1, 0) - complex(k*k, 0)/fraction
		}
		n = 1 / fraction
		if below {
			n -= complex(0, 2*math.Pi) * cmplx.Exp(q)
		}
		return n, n - 1/q
	}
	logarithm := cmplx.Log(q)
	if below {
		logarithm += complex(0, 2*math.Pi)
	}
	const euler = 0.57721566490153286
	sum, term := -euler-logarithm, complex128(-1)
	terms := 20 + 3*size // past the rounding
	for k := 1.0; k < terms; k++ {
		term *= -q * complex(1/k, 0)
		sum += term * complex(1/k, 0)
	}
	n = cmplx.Exp(q) * sum
	return n, n - 1/q
}
