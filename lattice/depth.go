package lattice

import "math"

// plateDepths holds the lift of a flat plate under a plane of zero potential
// over its lift in deep water, k, and the slope dk/du, at u = 0, 1/24 … 1, with
// the depth in chords H = u²/(1−u). Values are the solution of the thin-aerofoil
// integral equation with the image of the same sign, which a test repeats; near
// H = 0, k = 1/2 + (H/π)(ln(1/H) + …), far down 1 − 1/(16H²).
var plateDepths = [...][2]float64{
	{0.5, 0},
	{0.5043057, 0.183098},
	{0.5146045, 0.307375},
	{0.5297156, 0.416443},
	{0.5492312, 0.519863},
	{0.5730317, 0.622827},
	{0.6011804, 0.729157},
	{0.6338882, 0.842178},
	{0.6714732, 0.962774},
	{0.7140577, 1.077968},
	{0.7607216, 1.151042},
	{0.8088144, 1.141461},
	{0.8545235, 1.038238},
	{0.8943952, 0.867984},
	{0.9265367, 0.674465},
	{0.9507937, 0.494200},
	{0.9681730, 0.346033},
	{0.9801321, 0.233772},
	{0.9880940, 0.153111},
	{0.9932339, 0.097135},
	{0.9964384, 0.059196},
	{0.9983423, 0.033932},
	{0.9993864, 0.017371},
	{0.9998714, 0.006707},
	{1, 0},
}

// plateFactor returns k at the depth H in chords, by cubic Hermite
// interpolation: the slope is continuous. Above the surface it is 1/2.
func plateFactor(H float64) float64 {
	if H <= 0 {
		return 0.5
	}
	// The root of u² + Hu − H = 0 between 0 and 1, in the form that keeps digits.
	u := 2 * H / (H + math.Sqrt(H*H+4*H))
	const last = len(plateDepths) - 1
	i := min(int(u*float64(last)), last-1)
	t := u*float64(last) - float64(i)
	p, q := plateDepths[i], plateDepths[i+1]
	step := 1 / float64(last)
	return (1+2*t)*(1-t)*(1-t)*p[0] + t*(1-t)*(1-t)*step*p[1] + t*t*(3-2*t)*q[0] - t*t*(1-t)*step*q[1]
}

// lumpedFactor returns what one vortex at the quarter chord and its image make
// of k with the condition at three quarters: (16H²+1)/(16H²+2).
func lumpedFactor(H float64) float64 { return (16*H*H + 1) / (16*H*H + 2) }

// correctDepth adds to the normal velocity of each single-row strip at its own
// control point what the image of a whole plate does beyond that of one vortex,
// −(1/k − 1/k₁)/(πc) for unit circulation, times the square of the cosine of
// the strip's dihedral: whole for a horizontal strip, nothing for a vertical
// one, whose image lies along its own span. The chord c is taken across the
// bound vortex, twice its distance from the control point, which carries the
// result over to a swept span; the depth is the strip's at half chord.
//
// The weight for canted strips is a fit of the two ends; a test holds it
// against many rows at several dihedrals.
func (w *Workspace) correctDepth(p *Panels) {
	n := p.Len()
	for i := range n {
		if w.rows[p.Strip[i]] != 1 {
			continue
		}
		l := w.length[i]
		across := l[1]*l[1] + l[2]*l[2]
		whole := across + l[0]*l[0]
		if across == 0 {
			continue
		}
		chord := p.Chord[i] * math.Sqrt(across/whole)
		depth := -(p.Mid[i][2] + p.Control[i][2]) / 2 / chord
		depth = max(depth, 0)
		cosine2 := l[1] * l[1] / across
		w.influence[i*padded(n)+i] -= cosine2 * (1/plateFactor(depth) - 1/lumpedFactor(depth)) / (math.Pi * chord)
	}
}
