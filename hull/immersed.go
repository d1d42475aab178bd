package hull

import (
	"math"

	"foilwright/boat"
	"foilwright/frame"
)

// Immersed is what of one hull is under the undisturbed water, in the track
// frame. Of a hull that flies everything is zero.
type Immersed struct {
	Volume float64                  // displaced, m³
	Centre frame.Point[frame.Track] // of that volume: the centre of buoyancy, m

	Surface       float64                  // wetted: bottom and sides, without transom and deck, m²
	SurfaceCentre frame.Point[frame.Track] // its centroid, m

	Waterplane       float64                  // its area, m²
	WaterplaneCentre frame.Point[frame.Track] // its centroid, the centre of flotation, m
	AcrossInertia    float64                  // second moment of the waterplane about the fore-and-aft axis through its centroid, m⁴
	AlongInertia     float64                  // about the athwartships axis through it, m⁴

	spread float64 // standard deviation of the volume along x, m
}

// Wet returns what of each hull is under water in an attitude, in the order of
// the boat's hulls. Hulls without sections are dry. The slice is valid until the
// workspace is used again.
func Wet(b *boat.Boat, a boat.Attitude, w *Workspace) []Immersed {
	w.wetAt(b, a)
	return w.wet
}

// sums are integrals over the wet triangles. With the outward vector area dA and
// the plane z = 0 for a lid, Gauss's theorem gives ∫f dV = ∮F·dA with ∂F_z/∂z = f
// and F_z = 0 on the lid, and ∫g dx dy over the lid = −∫g dA_z over the wet skin for
// any g(x, y): nothing needs to know where the waterline is.
type sums struct {
	volume, x, y, z, xx     float64 // ∫dV, ∫x dV, …
	plane, px, py, pxx, pyy float64 // of the waterplane
	skin, sx, sy, sz        float64
}

// immerse cuts a mesh by the water.
func (w *Workspace) immerse(m *mesh, pose frame.Pose[frame.Track, frame.Boat]) Immersed {
	if m == nil {
		return Immersed{}
	}
	turn, up := pose.Turn.Matrix(), pose.Origin
	if m.clear(turn[2], up.Z) {
		return Immersed{}
	}
	lowest := math.Inf(1)
	w.points = grown(w.points, len(m.points))
	for i, p := range m.points {
		q := [3]float64{
			turn[0][0]*p[0] + turn[0][1]*p[1] + turn[0][2]*p[2] + up.X,
			turn[1][0]*p[0] + turn[1][1]*p[1] + turn[1][2]*p[2] + up.Y,
			turn[2][0]*p[0] + turn[2][1]*p[1] + turn[2][2]*p[2] + up.Z,
		}
		lowest = math.Min(lowest, q[2])
		w.points[i] = q
	}
	if !(lowest < 0) {
		return Immersed{}
	}
	var s sums
	for i, t := range m.triangles {
		s.clip(w.points[t[0]], w.points[t[1]], w.points[t[2]], i < m.skin)
	}
	return s.immersed()
}

// clip adds what of a triangle is under water: nothing, a corner, all but a
// corner, or all.
func (s *sums) clip(p, q, r [3]float64, skin bool) {
	// Turn the corners so that p is alone on its side of the water.
	switch pw, qw, rw := p[2] < 0, q[2] < 0, r[2] < 0; {
	case pw && qw && rw:
		s.add(p, q, r, skin)
		return
	case !pw && !qw && !rw:
		return
	case qw != pw && qw != rw:
		p, q, r = q, r, p
	case rw != pw && rw != qw:
		p, q, r = r, p, q
	}
	a, b := crossing(p, q), crossing(p, r)
	if p[2] < 0 {
		s.add(p, a, b, skin)
		return
	}
	s.add(a, q, r, skin)
	s.add(a, r, b, skin)
}

// crossing returns where the edge from p to q meets the water.
func crossing(p, q [3]float64) [3]float64 {
	t := p[2] / (p[2] - q[2])
	return [3]float64{p[0] + t*(q[0]-p[0]), p[1] + t*(q[1]-p[1]), 0}
}

// add adds one wet triangle. Means of products over a triangle are exact: of two
// linear functions (Σf·Σg + Σfg)/12 with sums over the corners, of x²z as below.
func (s *sums) add(p, q, r [3]float64, skin bool) {
	ax, ay := q[0]-p[0], q[1]-p[1]
	az := q[2] - p[2]
	bx, by, bz := r[0]-p[0], r[1]-p[1], r[2]-p[2]
	areaX, areaY, areaZ := (ay*bz-az*by)/2, (az*bx-ax*bz)/2, (ax*by-ay*bx)/2

	x, y, z := p[0]+q[0]+r[0], p[1]+q[1]+r[1], p[2]+q[2]+r[2]
	xz := p[0]*p[2] + q[0]*q[2] + r[0]*r[2]
	yz := p[1]*p[2] + q[1]*q[2] + r[1]*r[2]
	zz := p[2]*p[2] + q[2]*q[2] + r[2]*r[2]
	xx := p[0]*p[0] + q[0]*q[0] + r[0]*r[0]
	yy := p[1]*p[1] + q[1]*q[1] + r[1]*r[1]
	xxz := p[0]*p[0]*p[2] + q[0]*q[0]*q[2] + r[0]*r[0]*r[2]

	s.volume += areaZ * z / 3
	s.x += areaZ * (x*z + xz) / 12
	s.y += areaZ * (y*z + yz) / 12
	s.z += areaZ * (z*z + zz) / 24 // z dV is ½z² on the skin
	s.xx += areaZ * (x*x*z + xx*z + 2*x*xz + 2*xxz) / 60
	s.plane -= areaZ
	s.px -= areaZ * x / 3
	s.py -= areaZ * y / 3
	s.pxx -= areaZ * (x*x + xx) / 12
	s.pyy -= areaZ * (y*y + yy) / 12
	if skin {
		area := math.Sqrt(areaX*areaX + areaY*areaY + areaZ*areaZ)
		s.skin += area
		s.sx += area * x / 3
		s.sy += area * y / 3
		s.sz += area * z / 3
	}
}

// immersed reads the figures off the sums.
func (s *sums) immersed() Immersed {
	if !(s.volume > 0) {
		return Immersed{}
	}
	m := Immersed{Volume: s.volume, Centre: frame.Point[frame.Track]{X: s.x / s.volume, Y: s.y / s.volume, Z: s.z / s.volume}}
	m.spread = math.Sqrt(math.Max(0, s.xx/s.volume-m.Centre.X*m.Centre.X))
	if s.skin > 0 {
		m.Surface = s.skin
		m.SurfaceCentre = frame.Point[frame.Track]{X: s.sx / s.skin, Y: s.sy / s.skin, Z: s.sz / s.skin}
	}
	if s.plane > 0 {
		m.Waterplane = s.plane
		m.WaterplaneCentre = frame.Point[frame.Track]{X: s.px / s.plane, Y: s.py / s.plane}
		m.AlongInertia = math.Max(0, s.pxx-s.px*s.px/s.plane)
		m.AcrossInertia = math.Max(0, s.pyy-s.py*s.py/s.plane)
	}
	return m
}
