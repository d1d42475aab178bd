package wave

import (
	"math"

	"foilwright/si"
)

// Workspace holds scratch memory and grows with the largest set that it has
// seen. It serves one goroutine at a time. The zero value is ready.
type Workspace struct {
	images  images
	traces  traces
	own     []int        // surfaces, as the strips name them
	sums    []amplitudes // of each surface
	felt    []amplitudes // what strips of each surface feel, times the quadrature's weight
	middles []middle     // of each surface
	raised  []amplitudes // of each strip
	shares  [][several]float64
	// finer divides the step of the quadrature; 0 counts as 1. Tests of
	// convergence set it.
	finer float64

	k0         float64 // g/V² of the wash, 1/m
	ends       []end
	from, to   []int     // ends of each strip
	made, feel []float64 // what strips make and points feel, by direction
	columns    int       // twice the directions
}

// middle sums a surface's strips: their width, and width times y.
type middle struct{ width, y float64 }

// Increment returns what the waves of a finite Froude number add to the drag of
// the strips under a surface of zero potential, W − 2σ, over the water's
// density, m⁴/s², positive aft; it may be negative. W is the drag of the waves,
// σ what a surface of zero potential adds to the drag in unbounded water, both
// for the circulations as they are. perStrip, as long as the strips or nil,
// receives each strip's share; the shares sum to the whole.
//
// A strip's share is its part of the two quadratic forms: of W half of what
// any two strips do to each other, whichever of them goes ahead. For one plane
// unswept line that is where the drag acts. Between surfaces one behind the
// other the sum is right while in truth the whole interference acts on the one
// behind; Wash tells them apart.
//
// At rest there are no waves and the surface is a wall: −2σ.
//
// Errors are *InputError.
func (w *Workspace) Increment(s *Strips, speed si.Speed, gravity float64, perStrip []float64) (float64, error) {
	v := speed.MetresPerSecond()
	if err := s.check(v, gravity); err != nil {
		return 0, err
	}
	if perStrip != nil && len(perStrip) != s.Len() {
		return 0, &InputError{-1, "shares for another number of strips"}
	}
	if s.Len() == 0 {
		return 0, nil
	}
	clear(perStrip)
	sum := w.image(s, -2, perStrip)
	return sum + w.waves(s, gravity/(v*v), perStrip), nil
}

// Waves returns the drag of the waves alone over the water's density, m⁴/s².
// Errors are *InputError.
func (w *Workspace) Waves(s *Strips, speed si.Speed, gravity float64) (float64, error) {
	v := speed.MetresPerSecond()
	if err := s.check(v, gravity); err != nil || s.Len() == 0 {
		return 0, err
	}
	return w.waves(s, gravity/(v*v), nil), nil
}

// decay is the exponent below which a strip's amplitude counts for nothing.
const decay = 25

// blurring is the number of radians p from one end of a strip to the other, of
// phase k0 cosh t sinh t |ly| along y and of decay k0 cosh²t |lz| along z, over
// which its amplitude fades as exp(−(p/blurring)⁴). Waves that change more than
// that within a strip cannot be told from longer ones and would count as those.
const blurring = 3.5

// longest and shortest are the ends of the range of k0, 1/m, that is computed. Beyond
// them the limits of high and low speed are reached.
const (
	longest  = 1e-9
	shortest = 1e9
)

// most bounds the directions on either side of the track.
const most = 400

// coherence times the radians by which the phase between surfaces that lie apart
// across the stream turns from one direction to the next is where what they do to
// each other has faded to 1/e: see direction. At 0.7 the drag of two foils 3 m
// apart that pierce the surface has no ripple left; without it ripples of 0.5 %.
const coherence = 0.7

// waves returns W/ρ for the wave number k0 = g/V², and adds the strips' shares.
//
// With tan θ = sinh t,
//
//	W/ρ = (k0²/2π) ∫ |H|² cosh²t dt,  −∞ < t < ∞,
//	H = Σ Γ (i ly cosh t + lz sinh t) exp(k0 cosh²t z + i k0 cosh t (x + y sinh t)).
//
// The integrand is analytic and falls off faster than any exponential, also over u,
// sinh t = a sinh u: the trapezoidal rule with equal steps of u converges
// geometrically.
func (w *Workspace) waves(s *Strips, k0 float64, perStrip []float64) float64 {
	if k0 < longest {
		return w.image(s, 2, perStrip)
	}
	if k0 > shortest {
		return 0
	}
	shape := w.look(s, k0)
	rule, some := w.ruleOf(&shape, k0)
	if !some {
		return 0
	}
	w.shares = sized(w.shares, s.Len())
	clear(w.shares)
	for d := (directions{}); rule.next(&d, nil); {
		w.raise(&d)
		w.weigh(&d)
	}
	return w.shared(perStrip)
}

// shared returns the sum of the strips' shares of the waves, and adds them to perStrip.
func (w *Workspace) shared(perStrip []float64) float64 {
	total := 0.0
	for i := range w.shares {
		share := folded(&w.shares[i])
		total += share
		if perStrip != nil {
			perStrip[i] += share
		}
	}
	return total
}

// rule is the quadrature over directions: tan θ = sinh t = a sinh u at equal steps of u.
type rule struct {
	k0, step, last float64
	a              float64          // see shape.slow
	apart          float64          // see coherence
	grow, shrink   [several]float64 // e^u and e^−u after so many steps
	up, down       float64          // the same at the direction that is next
	taken          int              // directions before it
	shape          *shape
}

// ruleOf returns the quadrature of strips of a shape; false where no strip makes waves.
func (w *Workspace) ruleOf(f *shape, k0 float64) (rule, bool) {
	ratio := f.reach / k0
	if ratio <= 1 {
		return rule{}, false
	}
	alpha := f.alpha()
	step := f.step(k0, min(alpha, blurred))
	a := f.slow(k0, step)
	last := math.Asinh(math.Sqrt(ratio-1) / a)
	step = max(step, last/most)
	apart := coherence * k0 * f.apart * f.step(k0, alpha)
	if w.finer > 0 {
		step /= w.finer
	}
	r := rule{k0: k0, step: step, last: last, a: a, apart: apart, up: 1, down: 1, shape: f}
	once := math.Exp(step)
	r.grow[0], r.shrink[0] = 1, 1
	for i := 1; i < several; i++ {
		r.grow[i], r.shrink[i] = r.grow[i-1]*once, r.shrink[i-1]/once
	}
	return r, true
}

// next takes the next directions of the quadrature, of which those past the last count for
// nothing; near are others a tiny step from them, or nil. False tells that none is left.
func (r *rule) next(d, near *directions) bool {
	if float64(r.taken)*r.step > r.last {
		return false
	}
	each := r.k0 * r.k0 / (2 * math.Pi) * r.step
	for i := range several {
		up, down := r.up*r.grow[i], r.down*r.shrink[i]
		sinh := r.a * (up - down) / 2
		cosh := math.Sqrt(1 + sinh*sinh)
		along := r.k0 * cosh
		d.sinh[i], d.cosh[i] = sinh, cosh
		d.kappa[i], d.along[i], d.across[i] = along*cosh, along, along*sinh
		short := r.apart * sinh * sinh
		d.fading[i] = max(-short*short, -leastExp)
		d.weight[i] = 0
		if float64(r.taken+i)*r.step <= r.last {
			d.weight[i] = each * (r.a * (up + down) / 2) * cosh // dt/du · cosh²t
		}
	}
	if r.taken == 0 {
		d.weight[0] /= 2
	}
	if near != nil {
		for i, held := range near.coherent {
			d.coherent[i] = held * (1 + (d.fading[i] - near.fading[i]))
		}
	} else {
		d.coherent = d.fading
		exps(&d.coherent)
	}
	d.phase = d.along[several-1]*r.shape.far + d.across[several-1]*r.shape.wide
	r.taken += several
	r.up *= r.grow[several-1] * r.grow[1]
	r.down *= r.shrink[several-1] * r.shrink[1]
	return true
}

// raise fills the amplitudes of all strips and their sums by surface.
func (w *Workspace) raise(d *directions) {
	clear(w.sums)
	for _, r := range w.traces.runs {
		raise(&w.traces, d, r.from, r.to, w.raised, &w.sums[r.surface])
	}
}

// weigh adds the strips' shares of weight · |H|² of the directions ±θ. Of what surfaces
// do to each other the share coherent counts: waves so short that their phase between
// surfaces turns by radians from one direction of the quadrature to the next cannot be
// told to help or to harm, in the sum as in the sea, and each surface is left with its own.
func (w *Workspace) weigh(d *directions) {
	w.felt = sized(w.felt, len(w.sums))
	feel(d, w.sums, w.felt)
	for _, r := range w.traces.runs {
		share(&w.traces, d, r.from, r.to, w.raised, &w.felt[r.surface], w.shares)
	}
}

// shape is what the quadrature's step needs to know of the strips.
type shape struct {
	x, y            float64 // middle, m
	length, breadth float64 // along and across the stream, m
	depth           float64 // mean depth, m
	apart           float64 // how far surfaces lie from each other across the stream, m
	far, wide       float64 // largest distance of any strip from the middle, along and across the stream, m
	reach           float64 // largest wave number that any strip can make, 1/m
}

// look fills traces and returns the shape. Length and breadth are those of an even
// spread of the same variance.
func (w *Workspace) look(s *Strips, k0 float64) shape {
	n := s.Len()
	seen := &w.traces
	seen.reset(n)
	w.raised = sized(w.raised, n)
	w.own, w.sums = w.own[:0], w.sums[:0]
	var f shape
	var weight, xx, yy float64
	for i := range n {
		m := s.Mid[i]
		ly, lz, width := s.B[i][1]-s.A[i][1], s.B[i][2]-s.A[i][2], s.width(i)
		g := s.Circulation[i]
		seen.strips[i] = trace{m[0], m[1], min(m[2], 0), ly / blurring, lz / blurring, g * ly, g * lz}
		seen.runs = grow(seen.runs, w.surface(s.Surface[i]))
		weight += width
		f.x += width * m[0]
		f.y += width * m[1]
		f.depth += width * -seen.strips[i].z
	}
	if weight == 0 {
		return f
	}
	f.x, f.y, f.depth = f.x/weight, f.y/weight, f.depth/weight
	w.middles = sized(w.middles, len(w.own))
	clear(w.middles)
	for _, r := range seen.runs {
		m := &w.middles[r.surface]
		for i := r.from; i < r.to; i++ {
			// From the middle, so that phases stay small.
			t := &seen.strips[i]
			t.x -= f.x
			t.y -= f.y
			f.far, f.wide = max(f.far, math.Abs(t.x)), max(f.wide, math.Abs(t.y))
			width := blurring * math.Sqrt(t.dy*t.dy+t.dz*t.dz)
			if width == 0 {
				continue
			}
			m.width += width
			m.y += width * t.y
			xx += width * t.x * t.x
			yy += width * t.y * t.y
			f.reach = max(f.reach, reach(k0, t.dy, t.dz, t.z))
		}
	}
	for _, m := range w.middles {
		if m.width > 0 {
			f.apart += m.y * m.y / m.width
		}
	}
	f.apart = 2 * math.Sqrt(f.apart/weight) // the distance of two alike
	f.length, f.breadth = math.Sqrt(12*xx/weight), math.Sqrt(12*yy/weight)
	return f
}

// surface returns the place of a surface among those met, adding it where it is new.
func (w *Workspace) surface(named int) int {
	for k, have := range w.own {
		if have == named {
			return k
		}
	}
	w.own, w.sums = append(w.own, named), append(w.sums, amplitudes{})
	return len(w.own) - 1
}

// reach returns a wave number cosh²t · k0, 1/m, past which a strip makes none.
func reach(k0, dy, dz, z float64) float64 {
	root := math.Sqrt(math.Sqrt(decay))
	// sinh t cosh t < cosh²t, and cosh²t < 1 + sinh t cosh t.
	reach := math.Inf(1)
	if dy != 0 {
		reach = k0 + root/math.Abs(dy)
	}
	if dz != 0 {
		reach = min(reach, root/math.Abs(dz))
	}
	if z < 0 {
		reach = min(reach, -decay/z)
	}
	return reach
}

// digits are those of the natural logarithm of the quadrature's error.
const digits = 14

// blurred is the angle α from which on the amplitude of a strip that blurring fades would
// grow in the complex plane, exp(−(p/blurring)⁴) with p as e^2t: π/16, and some to spare.
// With it the quadrature of a dinghy on two struts errs by 2e-7 of her waves' drag, without
// it by 1.5e-4.
const blurred = 0.15

// step returns a quadrature's step in t that is good to an angle α. In the complex plane
// t = τ + iα the waves grow with k0 breadth α; the trapezoidal rule errs by exp(−2πα/step)
// of that.
func (f shape) step(k0, alpha float64) float64 {
	const crowded = 1.5 // surfaces one behind the other stand at the ends of the length
	return 2 * math.Pi / (k0*(f.breadth+crowded*f.length) + digits/max(alpha, 0.02))
}

// alpha is the angle at which waves stop falling off for wave numbers far above k0:
// tan 2α = 2 depth/breadth.
func (f shape) alpha() float64 { return math.Atan2(2*f.depth, f.breadth) / 2 }

// slow returns a, how many times larger the quadrature's steps in t are at t = 0 than
// far out, where they are step: waves that run nearly along the track change little from
// one direction to the next where strips lie close together beside them. A third of the
// directions is spared that equal steps of t would take, on boats of all kinds at 4 to
// 20 m/s, and the error is the same. sinh t = a sinh u has branch points where
// sin(Im u) = 1/a, which bound a.
func (f shape) slow(k0, step float64) float64 {
	const spared = 6
	return max(1, min(spared/math.Sqrt(k0*(f.breadth+f.length)), 2*math.Pi/digits/step))
}

// sized returns s at length n, with new memory only where it must grow.
func sized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n, n+n/2)
	}
	return s[:n]
}
