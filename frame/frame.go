package frame

import (
	"math"

	"foilwright/si"
)

// Boat marks the boat frame: x forward, y to port, z up, origin at the datum.
type Boat struct{}

// Track marks the track frame: x along the boat's velocity through the water,
// y to port of it, z up, origin on the undisturbed surface under the datum.
type Track struct{}

// Vec is a free vector in frame F. The zero value is the null vector.
type Vec[F any] struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
	Z float64 `json:"z"`
}

// Point is a place in frame F, m. The zero value is the frame's origin.
type Point[F any] struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
	Z float64 `json:"z"`
}

// Plus returns v + w.
func (v Vec[F]) Plus(w Vec[F]) Vec[F] { return Vec[F]{v.X + w.X, v.Y + w.Y, v.Z + w.Z} }

// Minus returns v − w.
func (v Vec[F]) Minus(w Vec[F]) Vec[F] { return Vec[F]{v.X - w.X, v.Y - w.Y, v.Z - w.Z} }

// Times returns v scaled by s.
func (v Vec[F]) Times(s float64) Vec[F] { return Vec[F]{s * v.X, s * v.Y, s * v.Z} }

// Dot returns the scalar product of v and w.
func (v Vec[F]) Dot(w Vec[F]) float64 { return v.X*w.X + v.Y*w.Y + v.Z*w.Z }

// Cross returns the vector product v × w, right-handed.
func (v Vec[F]) Cross(w Vec[F]) Vec[F] {
	return Vec[F]{v.Y*w.Z - v.Z*w.Y, v.Z*w.X - v.X*w.Z, v.X*w.Y - v.Y*w.X}
}

// Norm returns the length of v.
func (v Vec[F]) Norm() float64 { return math.Sqrt(v.Dot(v)) }

// Unit returns v at length one; the null vector stays null.
func (v Vec[F]) Unit() Vec[F] {
	n := v.Norm()
	if n == 0 {
		return v
	}
	return v.Times(1 / n)
}

// Array returns the components for a kernel.
func (v Vec[F]) Array() [3]float64 { return [3]float64{v.X, v.Y, v.Z} }

// Array returns the coordinates for a kernel, m.
func (p Point[F]) Array() [3]float64 { return [3]float64{p.X, p.Y, p.Z} }

// VecOf returns the vector with components a, out of a kernel.
func VecOf[F any](a [3]float64) Vec[F] { return Vec[F]{a[0], a[1], a[2]} }

// PointOf returns the point with coordinates a, out of a kernel.
func PointOf[F any](a [3]float64) Point[F] { return Point[F]{a[0], a[1], a[2]} }

// Add returns the point v away from p.
func (p Point[F]) Add(v Vec[F]) Point[F] { return Point[F]{p.X + v.X, p.Y + v.Y, p.Z + v.Z} }

// From returns the vector that leads from q to p.
func (p Point[F]) From(q Point[F]) Vec[F] { return Vec[F]{p.X - q.X, p.Y - q.Y, p.Z - q.Z} }

// Toward returns the point a share s of the way from p to q: 0 is p, 1 is q.
func (p Point[F]) Toward(q Point[F], s float64) Point[F] {
	return p.Add(q.From(p).Times(s))
}

// Rotation turns components in frame From into components in frame To. Its
// zero value is not a rotation; only this package's functions build one.
type Rotation[To, From any] struct{ m [3][3]float64 }

// Apply returns v, written in From, as written in To.
func (r Rotation[To, From]) Apply(v Vec[From]) Vec[To] {
	return Vec[To]{
		r.m[0][0]*v.X + r.m[0][1]*v.Y + r.m[0][2]*v.Z,
		r.m[1][0]*v.X + r.m[1][1]*v.Y + r.m[1][2]*v.Z,
		r.m[2][0]*v.X + r.m[2][1]*v.Y + r.m[2][2]*v.Z,
	}
}

// Z returns the z of v, written in From, as written in To.
func (r *Rotation[To, From]) Z(v Vec[From]) float64 {
	m := &r.m[2]
	return m[0]*v.X + m[1]*v.Y + m[2]*v.Z
}

// Inverse returns the rotation that leads back.
func (r Rotation[To, From]) Inverse() Rotation[From, To] {
	var t Rotation[From, To]
	for i := range 3 {
		for j := range 3 {
			t.m[i][j] = r.m[j][i]
		}
	}
	return t
}

// Then returns the rotation From to To by way of Mid.
func Then[To, Mid, From any](second Rotation[To, Mid], first Rotation[Mid, From]) Rotation[To, From] {
	var c Rotation[To, From]
	x, y, z := &first.m[0], &first.m[1], &first.m[2]
	for i := range 3 {
		a := &second.m[i]
		c.m[i] = [3]float64{a[0]*x[0] + a[1]*y[0] + a[2]*z[0], a[0]*x[1] + a[1]*y[1] + a[2]*z[1], a[0]*x[2] + a[1]*y[2] + a[2]*z[2]}
	}
	return c
}

// Matrix returns the rotation's matrix, rows first: To components from From ones.
func (r Rotation[To, From]) Matrix() [3][3]float64 { return r.m }

// About returns the rotation within one frame by angle, right-handed about axis,
// which is brought to unit length (Rodrigues 1840). A null axis turns nothing.
func About[F any](axis Vec[F], angle si.Angle) Rotation[F, F] {
	u := axis.Unit()
	s, c := angle.Sincos()
	if u == (Vec[F]{}) {
		c, s = 1, 0
	}
	t := 1 - c
	return Rotation[F, F]{[3][3]float64{
		{c + t*u.X*u.X, t*u.X*u.Y - s*u.Z, t*u.X*u.Z + s*u.Y},
		{t*u.X*u.Y + s*u.Z, c + t*u.Y*u.Y, t*u.Y*u.Z - s*u.X},
		{t*u.X*u.Z - s*u.Y, t*u.Y*u.Z + s*u.X, c + t*u.Z*u.Z},
	}}
}

// TrackFromBoat returns the rotation Rz(leeway)·Ry(pitch)·Rx(heel), each
// right-handed: leeway positive with the bow to port of the track, pitch
// positive bow down, heel positive starboard down.
func TrackFromBoat(leeway, pitch, heel si.Angle) Rotation[Track, Boat] {
	sl, cl := leeway.Sincos()
	sp, cp := pitch.Sincos()
	sh, ch := heel.Sincos()
	return Rotation[Track, Boat]{[3][3]float64{
		{cl * cp, cl*sp*sh - sl*ch, cl*sp*ch + sl*sh},
		{sl * cp, sl*sp*sh + cl*ch, sl*sp*ch - cl*sh},
		{-sp, cp * sh, cp * ch},
	}}
}

// Pose is where frame From stands in frame To: how it is turned and where its
// origin lies. It takes points across; vectors need only its rotation.
type Pose[To, From any] struct {
	Turn   Rotation[To, From]
	Origin Point[To] // From's origin, in To, m
}

// Point returns p, given in From, in To.
func (w Pose[To, From]) Point(p Point[From]) Point[To] {
	o, m := &w.Origin, &w.Turn.m // by hand: a rotation is worth not copying
	return Point[To]{
		o.X + (m[0][0]*p.X + m[0][1]*p.Y + m[0][2]*p.Z),
		o.Y + (m[1][0]*p.X + m[1][1]*p.Y + m[1][2]*p.Z),
		o.Z + (m[2][0]*p.X + m[2][1]*p.Y + m[2][2]*p.Z),
	}
}

// Z returns the z of p, given in From, in To.
func (w *Pose[To, From]) Z(p Point[From]) float64 { return w.Origin.Z + w.Turn.Z(Vec[From](p)) }

// Vec returns v, given in From, in To.
func (w Pose[To, From]) Vec(v Vec[From]) Vec[To] { return w.Turn.Apply(v) }

// Inverse returns the pose that leads back.
func (w Pose[To, From]) Inverse() Pose[From, To] {
	back := w.Turn.Inverse()
	return Pose[From, To]{Turn: back, Origin: Point[From](back.Apply(Vec[To](w.Origin)).Times(-1))}
}

// Load returns l, given in From, in To, about the same place.
func (w Pose[To, From]) Load(l Load[From]) Load[To] {
	return Load[To]{Force: w.Vec(l.Force), Moment: w.Vec(l.Moment), About: w.Point(l.About)}
}

// Rename returns a rotation within one frame as a rotation from a frame whose
// axes are parallel to another's: a foil's own frame and the boat's.
func Rename[To, From any](r Rotation[From, From]) Rotation[To, From] {
	return Rotation[To, From](r)
}
