package wave

import "math"

// The order of operations in this file is that of the vector kernels, so that all
// give the same bits.

// trace is a strip as the waves see it.
type trace struct {
	x, y, z float64 // force point, z at most 0, m
	dy, dz  float64 // breadth and height, over blurring, m
	ly, lz  float64 // circulation times B − A, m³/s
}

// traces are the strips, and by surface the runs of them.
type traces struct {
	strips []trace
	runs   []run
}

// run is a stretch of strips, from one to before another, that share a surface.
type run struct{ surface, from, to int }

// take makes the traces those of others.
func (t *traces) take(o *traces) {
	t.strips, t.runs = append(t.strips[:0], o.strips...), append(t.runs[:0], o.runs...)
}

func (t *traces) reset(n int) { t.strips, t.runs = sized(t.strips, n), t.runs[:0] }

// grow carries the last run on by one, or begins a new one where the surface is
// another.
func grow(runs []run, surface int) []run {
	at := 0
	if k := len(runs) - 1; k >= 0 {
		if runs[k].surface == surface {
			runs[k].to++
			return runs
		}
		at = runs[k].to
	}
	return append(runs, run{surface, at, at + 1})
}

// several is how many directions are taken together.
const several = 8

// amplitudes are shares of the free waves in several directions θ and −θ.
type amplitudes struct{ re, im, reM, imM [several]float64 }

func (a *amplitudes) add(b *amplitudes) {
	for i := range several {
		a.re[i] += b.re[i]
		a.im[i] += b.im[i]
		a.reM[i] += b.reM[i]
		a.imM[i] += b.imM[i]
	}
}

// directions are some of those of the free waves, in rising order: tan θ = sinh t.
type directions struct {
	sinh, cosh    [several]float64
	kappa         [several]float64 // wave number, 1/m
	along, across [several]float64 // its components, 1/m
	weight        [several]float64 // in the quadrature
	fading        [several]float64 // exponent of coherent
	coherent      [several]float64 // share of what surfaces do to each other that counts
	phase         float64          // largest phase of any strip, whichever its sign
}

// fades tells that the waves of a strip have faded in all directions.
func (t *trace) fades(d *directions) bool { return !(d.kappa[0]*t.z > -decay) }

// raiseScalar fills the amplitudes of the strips from one to before another, and
// adds them up. Those of strips that fade are left as they are.
func raiseScalar(t *traces, d *directions, from, to int, made []amplitudes, sum *amplitudes) {
	var exponent, phase, phaseM, sin, cos, sinM, cosM [several]float64
	for i := from; i < to; i++ {
		p, a := &t.strips[i], &made[i]
		if p.fades(d) {
			continue
		}
		for k := range several {
			exponent[k] = p.exponent(d, k)
			along, across := d.along[k]*p.x, d.across[k]*p.y
			phase[k], phaseM[k] = along+across, along-across
		}
		e := exponent
		expsScalar(&e)
		if d.phase > furthestPhase {
			for k := range several {
				sin[k], cos[k] = math.Sincos(phase[k])
				sinM[k], cosM[k] = math.Sincos(phaseM[k])
			}
		} else {
			sincosScalar(&phase, &sin, &cos)
			sincosScalar(&phaseM, &sinM, &cosM)
		}
		for k := range several {
			if !(exponent[k] > -decay) {
				a.re[k], a.im[k], a.reM[k], a.imM[k] = 0, 0, 0, 0
				continue
			}
			vertical, lateral := e[k]*(p.ly*d.cosh[k]), e[k]*(p.lz*d.sinh[k])
			a.re[k], a.im[k] = lateral*cos[k]-vertical*sin[k], vertical*cos[k]+lateral*sin[k]
			a.reM[k], a.imM[k] = 0-(lateral*cosM[k]+vertical*sinM[k]), vertical*cosM[k]-lateral*sinM[k]
		}
		sum.add(a)
	}
}

// exponent returns the exponent of a strip's amplitude in direction k.
func (t *trace) exponent(d *directions, k int) float64 {
	phase, fall := d.across[k]*t.dy, d.kappa[k]*t.dz
	blur := phase*phase + fall*fall
	return d.kappa[k]*t.z - blur*blur
}

// heldStrips are strips that others lie near, in several directions.
type heldStrips struct {
	unit  []amplitudes // at lz sinh t = 1 and ly = 0
	parts []parts
}

// from returns those from one on.
func (h *heldStrips) from(i int) heldStrips { return heldStrips{h.unit[i:], h.parts[i:]} }

// parts are what the amplitudes of a held strip are made of: the exponent of their size,
// and what x and y give to their phase.
type parts struct{ exponent, xPhase, yPhase [several]float64 }

// keepScalar fills in the parts of strips in some directions.
func keepScalar(t *traces, d *directions, held []parts) {
	for i := range held {
		p, h := &t.strips[i], &held[i]
		for k := range several {
			h.exponent[k], h.xPhase[k], h.yPhase[k] = p.exponent(d, k), d.along[k]*p.x, d.across[k]*p.y
		}
	}
}

// followScalar fills the amplitudes of the strips from one to before another that
// lie, in directions that lie, very near others, and adds them up: to first order in
// how near. Those of strips that fade there are zero.
func followScalar(t, near *traces, d, now *directions, from, to int, held heldStrips, made []amplitudes, sum *amplitudes) {
	for i := from; i < to; i++ {
		p, q, u, h, a := &t.strips[i], &near.strips[i], &held.unit[i], &held.parts[i], &made[i]
		if p.fades(d) {
			*a = amplitudes{}
			continue
		}
		for k := range several {
			grown := 1 + (q.exponent(now, k) - h.exponent[k])
			along, across := now.along[k]*q.x-h.xPhase[k], now.across[k]*q.y-h.yPhase[k]
			turn, turnM := along+across, along-across
			vertical, lateral := q.ly*now.cosh[k], q.lz*now.sinh[k]
			re, im := u.re[k]*grown-u.im[k]*turn, u.im[k]*grown+u.re[k]*turn
			reM, imM := u.reM[k]*grown-u.imM[k]*turnM, u.imM[k]*grown+u.reM[k]*turnM
			a.re[k], a.im[k] = lateral*re-vertical*im, vertical*re+lateral*im
			a.reM[k], a.imM[k] = lateral*reM+vertical*imM, lateral*imM-vertical*reM
		}
		sum.add(a)
	}
}

// feelScalar fills what strips of each surface feel of the sums of all surfaces, times the
// quadrature's weight: see Workspace.weigh.
func feelScalar(d *directions, sums, felt []amplitudes) {
	var sum amplitudes
	for s := range sums {
		sum.add(&sums[s])
	}
	for k := range several {
		all, alone := d.weight[k]*d.coherent[k], d.weight[k]*(1-d.coherent[k])
		for s := range sums {
			a, f := &sums[s], &felt[s]
			f.re[k], f.im[k] = alone*a.re[k]+all*sum.re[k], alone*a.im[k]+all*sum.im[k]
			f.reM[k], f.imM[k] = alone*a.reM[k]+all*sum.reM[k], alone*a.imM[k]+all*sum.imM[k]
		}
	}
}

// shareScalar adds to the shares of the strips from one to before another, one of
// each direction, the product of their amplitudes with what they feel.
func shareScalar(t *traces, d *directions, from, to int, made []amplitudes, felt *amplitudes, shares [][several]float64) {
	for i := from; i < to; i++ {
		if t.strips[i].fades(d) {
			continue
		}
		a, s := &made[i], &shares[i]
		for k := range several {
			s[k] += felt.re[k]*a.re[k] + felt.im[k]*a.im[k] + felt.reM[k]*a.reM[k] + felt.imM[k]*a.imM[k]
		}
	}
}

// folded returns the sum over several directions.
func folded(p *[several]float64) float64 {
	return ((p[0] + p[4]) + (p[2] + p[6])) + ((p[1] + p[5]) + (p[3] + p[7]))
}

// furthestPhase is how far the two parts of π/2 hold all digits.
const furthestPhase = 1e6

// Constants of sincosScalar and expsScalar. Adding magic rounds to a whole number and leaves
// it in the lowest bits.
const (
	magic     = 3 << 51
	perRight  = 2 / math.Pi
	right1    = 1.57079632673412561417e+00 // π/2 in two parts, of 33 bits the first (fdlibm)
	right2    = 6.07710050650619224932e-11
	sin1      = -1.66666666666666324348e-01 // sin and cos within π/4 (fdlibm)
	sin2      = 8.33333333332248946124e-03
	sin3      = -1.98412698298579493134e-04
	sin4      = 2.75573137070700676789e-06
	sin5      = -2.50507602534068634195e-08
	sin6      = 1.58969099521155010221e-10
	cos1      = 4.16666666666666019037e-02
	cos2      = -1.38888888888741095749e-03
	cos3      = 2.48015872894767294178e-05
	cos4      = -2.75573143513906633035e-07
	cos5      = 2.08757232129817482790e-09
	cos6      = -1.13596475577881948265e-11
	perTwo    = math.Log2E
	two1      = 6.93147180369123816490e-01 // ln 2 in two parts (fdlibm)
	two2      = 1.90821492927058770002e-10
	bias      = 1023
	fractions = 52
)

// sincosScalar writes sines and cosines of phases up to furthestPhase, to a few last
// bits: by the polynomials of fdlibm (Sun Microsystems 1993), even and odd
// powers each for themselves, which halves what one step waits for another.
func sincosScalar(phases, sines, cosines *[several]float64) {
	for k, phase := range phases {
		shifted := phase*perRight + magic
		turns := shifted - magic
		r := phase - turns*right1 - turns*right2
		z := r * r
		w := z * z
		s := r + r*z*((sin1+w*(sin3+w*sin5))+z*(sin2+w*(sin4+w*sin6)))
		c := 1 - 0.5*z + w*((cos1+w*(cos3+w*cos5))+z*(cos2+w*(cos4+w*cos6)))
		quadrant, sinBits, cosBits := math.Float64bits(shifted), math.Float64bits(s), math.Float64bits(c)
		// In odd quadrants they change places: by bits, since no branch could be foreseen.
		change := (sinBits ^ cosBits) & -(quadrant & 1)
		const sign = 1 << 63
		sinSign, cosSign := quadrant<<62&sign, (quadrant+1)<<62&sign
		sines[k], cosines[k] = math.Float64frombits(sinBits^change^sinSign), math.Float64frombits(cosBits^change^cosSign)
	}
}

// expsScalar replaces numbers from −leastExp to 0 by their exponentials, to a few last
// bits: Taylor's series within half a power of two, every fourth power for itself. Those
// below become garbage.
func expsScalar(all *[several]float64) {
	for k, x := range all {
		shifted := x*perTwo + magic
		powers := shifted - magic
		r := x - powers*two1 - powers*two2
		z := r * r
		w := z * z
		even := (1 + w*(1./24+w*(1./40320+w*(1./479001600)))) + z*(1./2+w*(1./720+w*(1./3628800)))
		odd := (1 + w*(1./120+w*(1./362880))) + z*(1./6+w*(1./5040+w*(1./39916800)))
		e := even + r*odd
		all[k] = e * math.Float64frombits((math.Float64bits(shifted)+bias)<<fractions)
	}
}

// leastExp is how far below 0 exp reaches.
const leastExp = 700

// imageScalar adds 2π times the velocity up and across, to port, at the force
// points from one to before another from the image of the legs, on the points'
// own surface or on another, smoothed there by the cores of both (Vatistas, Kozel and
// Mih 1991, Experiments in Fluids 11, exponent 2): their fourth powers add.
func imageScalar(legs []leg, v *images, from, to int, own bool) {
	for i := from; i < to; i++ {
		y, z, up, across := v.y[i], v.z[i], v.up[i], v.across[i]
		for j := range legs {
			n := &legs[j]
			dy, down := y-n.y, z-n.z
			q := dy*dy + down*down
			if !own {
				q = math.Sqrt(q*q + (n.core4 + v.core4[i]))
			}
			f := n.circulation / q
			if q <= axis {
				f = 0
			}
			up += f * dy
			across += f * down
		}
		v.up[i], v.across[i] = up, across
	}
}
