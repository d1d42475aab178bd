package lattice

// step is one node of the bound vortices, from which a leg runs straight
// downstream, with the panel that leads to it from the step before. Panels that
// follow one another along a span and meet bit for bit are one chain of steps,
// in which each leg stands once.
type step struct {
	x, y, z float64 // m
	core4   float64 // core radius to the fourth power, m⁴
	scale   float64 // 1/(4π), negative where the panel runs from this step to the one before
	source  int     // the panel that leads here; first at the start of a chain
	surface int
}

// first stands for the panel of a step that none leads to.
const first = -1

// is tells whether the step's node is that at p.
func (s *step) is(p *[3]float64, surface int, core4 float64) bool {
	return s.x == p[0] && s.y == p[1] && s.z == p[2] && s.surface == surface && s.core4 == core4
}

// chains are the steps of a lattice, in the order of its panels, and the runs of
// steps that share a surface.
type chains struct {
	steps []step
	runs  []run
	start int // first step of the last chain
}

// run is a stretch of steps or of targets, from one to before another, that
// share a surface.
type run struct{ surface, from, to int }

func (c *chains) reset() { c.steps, c.runs, c.start = c.steps[:0], c.runs[:0], 0 }

// add puts panel number source, from a to b, on the last chain where it meets it,
// else on a new one. scale is what its influence is multiplied by.
func (c *chains) add(source int, a, b *[3]float64, surface int, core4, scale float64) {
	if *a == *b {
		scale = 0
	}
	if n := len(c.steps); n > 0 {
		if n-c.start == 2 {
			c.turn(a, b, surface, core4)
		}
		switch last := &c.steps[n-1]; {
		case last.is(a, surface, core4):
			c.steps = append(c.steps, step{b[0], b[1], b[2], core4, scale, source, surface})
			c.extend(1)
			return
		case last.is(b, surface, core4):
			c.steps = append(c.steps, step{a[0], a[1], a[2], core4, -scale, source, surface})
			c.extend(1)
			return
		}
	}
	c.start = len(c.steps)
	c.steps = append(c.steps,
		step{a[0], a[1], a[2], core4, 0, first, surface},
		step{b[0], b[1], b[2], core4, scale, source, surface})
	c.extend(2)
}

// turn walks a chain of a single panel from its other end where the next panel
// meets it there.
func (c *chains) turn(a, b *[3]float64, surface int, core4 float64) {
	from, to := &c.steps[c.start], &c.steps[c.start+1]
	if to.is(a, surface, core4) || to.is(b, surface, core4) || !from.is(a, surface, core4) && !from.is(b, surface, core4) {
		return
	}
	from.x, from.y, from.z, to.x, to.y, to.z = to.x, to.y, to.z, from.x, from.y, from.z
	to.scale = -to.scale
}

// extend counts the last steps into the last run, or into a new one.
func (c *chains) extend(by int) {
	n := len(c.steps)
	c.runs = grow(c.runs, c.steps[n-1].surface, n-by, n)
}

// grow carries the last run on from one index to before another, or begins a new
// one where the surface is another.
func grow(runs []run, surface, from, to int) []run {
	if k := len(runs) - 1; k >= 0 && runs[k].surface == surface {
		runs[k].to = to
		return runs
	}
	return append(runs, run{surface, from, to})
}

// targets are points with a direction each, as a structure of arrays.
type targets struct {
	x, y, z []float64 // m
	u, v, w []float64 // direction
	core4   []float64 // core of the legs that begin beside them, to the fourth power, m⁴
	runs    []run
	kept    // by a vector kernel
}

func (t *targets) reset(n int) {
	t.ready()
	t.x, t.y, t.z = sized(t.x, n), sized(t.y, n), sized(t.z, n)
	t.u, t.v, t.w, t.core4 = sized(t.u, n), sized(t.v, n), sized(t.w, n), sized(t.core4, n)
	t.runs = t.runs[:0]
}

// put places target i, in rising order, at p with the direction d.
func (t *targets) put(i int, p, d *[3]float64, surface int, core4 float64) {
	t.x[i], t.y[i], t.z[i] = p[0], p[1], p[2]
	t.u[i], t.v[i], t.w[i], t.core4[i] = d[0], d[1], d[2], core4
	t.runs = grow(t.runs, surface, i, i+1)
}

// sized returns s at length n, with new memory only where it must grow.
func sized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n, n+n/2)
	}
	return s[:n]
}
