package section

import "math"

// measurePoints is how many points of the surface areas and lengths are taken
// from: the polygon through them then lies within 1e-5 of both.
const measurePoints = 801

// measured returns the section's area over chord squared and the length of its
// outline over chord, the open trailing edge left out.
func (s Section) measured() (area, perimeter float64) {
	points := s.Points(measurePoints)
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		area += (a.X*b.Y - b.X*a.Y) / 2
		perimeter += math.Hypot(b.X-a.X, b.Y-a.Y)
	}
	return math.Abs(area), perimeter
}
