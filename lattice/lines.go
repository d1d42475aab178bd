package lattice

import "math"

// Lines are lifting lines (Prandtl 1918) seen end-on, in the plane normal to wakes that
// all drift one way, over a rigid wall: for high aspect ratios with no sweep to speak
// of, where a strip's circulation is half times (flow − downwash), half being half its
// chord times its lift slope. Units and signs are the caller's: nothing here is per unit
// of anything. A strip of unit circulation sheds a vortex at its lower node and the
// opposite one at its upper; each has an image of opposite sense as far behind the wall.
// On other surfaces a vortex has a core, v = κ·r/(2π·(r² + r_c²)) (Scully 1975); on its
// own it has none.
//
// The zero value is ready for Reset. It serves one goroutine at a time.
type Lines struct {
	wall  float64
	nodes []lineNode
	runs  []run // of nodes that share a surface
	strips
	influence []float64 // downwash at strip i of unit circulation of strip j, at j·padded(n) + i
	matrix    []float64 // identity plus half times influence, factorised
	factors   factors
}

// lineNode is where a trailing vortex leaves.
type lineNode struct {
	y, z, core2 float64 // m, m²
	source      int     // the strip that leads here from the node before; first where none does
}

// strips are lifting lines' control points and normals as a structure of arrays.
type strips struct {
	y, z, v, w, half []float64
	runs             []run
}

// Reset forgets all nodes and strips, and sets the wall's height, m.
func (l *Lines) Reset(wall float64) {
	l.wall, l.nodes, l.runs = wall, l.nodes[:0], l.runs[:0]
	s := &l.strips
	s.y, s.z, s.v, s.w, s.half, s.runs = s.y[:0], s.z[:0], s.v[:0], s.w[:0], s.half[:0], s.runs[:0]
}

// AddNode adds a node at (y, z), m, with the radius of its vortex's core on other
// surfaces, m. Nodes of one surface follow one another.
func (l *Lines) AddNode(y, z, core float64, surface int) {
	n := len(l.nodes)
	l.nodes = append(l.nodes, lineNode{y, z, core * core, first})
	l.runs = grow(l.runs, surface, n, n+1)
}

// AddStrip adds the strip from a node, counted from 0, to the next, which are there
// already: its control point, m, its unit normal on the side that positive circulation
// pulls to, and half, m. Strips of one surface follow one another.
func (l *Lines) AddStrip(node int, point, normal [2]float64, half float64, surface int) {
	s := &l.strips
	n := len(s.y)
	s.y, s.z, s.v, s.w = append(s.y, point[0]), append(s.z, point[1]), append(s.v, normal[0]), append(s.w, normal[1])
	s.half, s.runs = append(s.half, half), grow(s.runs, surface, n, n+1)
	l.nodes[node+1].source = n
}

// Factorise finds what strips do to one another and factorises their equations. It tells
// whether they have a solution.
func (l *Lines) Factorise() (solved bool) {
	l.see()
	n := len(l.strips.y)
	stride := padded(n)
	for j := range n {
		clear(l.matrix[j*stride+n : (j+1)*stride])
		l.matrix[j*stride+j]++
	}
	return l.factors.factorise(l.matrix, n) == regular
}

// Beside finds what strips do to one another that lie very near those of other lines, as
// many and in the same order, and factorises nothing: SolveBeside has their circulations.
func (l *Lines) Beside() {
	l.see()
	l.factors.n = 0
}

// see fills the influence, and half times it.
func (l *Lines) see() {
	n := len(l.strips.y)
	stride := padded(n)
	l.influence, l.matrix = sized(l.influence, n*stride), sized(l.matrix, n*stride)
	thin := l.thin()
	for _, at := range l.strips.runs {
		for _, of := range l.runs {
			lines(l.nodes[of.from:of.to], &l.strips, at.from, at.to, at.surface == of.surface, thin, l.wall, l.influence, l.matrix, stride)
		}
	}
	for j := range n {
		clear(l.influence[j*stride+n : (j+1)*stride])
	}
}

// thin returns the square of a length far below any of the surfaces', m², which keeps a
// line that is seen end-on finite.
func (l *Lines) thin() float64 {
	size := 1e-12
	for _, half := range l.strips.half {
		size = max(size, half)
	}
	return 1e-18 * size * size
}

// Solve fills the circulation of each strip for the flow that would be normal to it
// without wakes, times the incidence, and the downwash that goes with it: as many
// figures each as strips.
func (l *Lines) Solve(flow, circulation, downwash []float64) {
	for i, half := range l.strips.half {
		circulation[i] = half * flow[i]
	}
	l.factors.solveOne(circulation)
	clear(downwash)
	addProducts(downwash, l.influence, padded(len(circulation)), circulation)
}

// SolveBeside is Solve of lines near others that are factorised and whose circulations for
// nearly the same flow are known: to first order in how far they lie apart, by one step of
// iterative refinement, as [Workspace.SolveBeside] does.
func (l *Lines) SolveBeside(other *Lines, known, flow, circulation, downwash []float64) {
	stride := padded(len(circulation))
	clear(downwash)
	addProducts(downwash, l.influence, stride, known)
	for i, half := range l.strips.half {
		circulation[i] = half*(flow[i]-downwash[i]) - known[i]
	}
	other.factors.solveOne(circulation)
	addProducts(downwash, l.influence, stride, circulation)
	for i, g := range known {
		circulation[i] += g
	}
}

// Keep makes the lines' factors those of others, which may change afterwards.
func (l *Lines) Keep(o *Lines) {
	f, g := &l.factors, &o.factors
	l.matrix = append(l.matrix[:0], o.matrix...)
	f.n, f.stride, f.a, f.pivot = g.n, g.stride, l.matrix, append(f.pivot[:0], g.pivot...)
}

// Influence returns the downwash at strip i of unit circulation of strip j, 1/m.
func (l *Lines) Influence(i, j int) float64 { return l.influence[j*padded(len(l.strips.y))+i] }

// overFourPi is what half of a straight vortex's velocity far downstream is multiplied by.
const overFourPi = 1 / (4 * math.Pi)

// linesScalar writes to into, one row of stride values for each strip of unit circulation
// that leads to one of the nodes, the velocity against their normals at the strips from
// one to before another, and to scaled that times half of these. thin is added to all
// distances squared.
func linesScalar(nodes []lineNode, t *strips, from, to int, own bool, thin, wall float64, into, scaled []float64, stride int) {
	for i := from; i < to; i++ {
		y, z, v, w, half := t.y[i], t.z[i], t.v[i], t.w[i], t.half[i]
		below, last := z-2*wall, 0.0
		for k := range nodes {
			n := &nodes[k]
			core2 := thin
			if !own {
				core2 += n.core2
			}
			dy, up, down := y-n.y, z-n.z, below+n.z
			square := dy*dy + core2
			q, mirroredQ := up*up+square, down*down+square
			// One division for both: it takes longest.
			both := overFourPi / (q * mirroredQ)
			each, mirroredEach := mirroredQ*both, q*both
			felt := (up*each-down*mirroredEach)*v + dy*(mirroredEach-each)*w
			if n.source != first {
				into[n.source*stride+i] = last - felt
				scaled[n.source*stride+i] = half * (last - felt)
			}
			last = felt
		}
	}
}
