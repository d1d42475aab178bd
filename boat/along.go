package boat

// Along is a figure that changes in straight lines along a piece: chord, twist.
// Its zero value is zero everywhere.
type Along struct {
	Share []float64 // of the path, rising from 0 to 1
	Value []float64
}

// Even returns the figure that is the same all along.
func Even(value float64) Along { return Along{Share: []float64{0}, Value: []float64{value}} }

// Even tells whether the figure is the same all along.
func (a Along) Even() bool {
	for _, v := range a.Value {
		if v != a.Value[0] {
			return false
		}
	}
	return true
}

// At returns the figure at a share of the path; beyond the ends, the end's.
func (a Along) At(share float64) float64 {
	n := len(a.Share)
	if n == 0 {
		return 0
	}
	i := 0 // a handful: in turn is faster than by halves
	for i < n && a.Share[i] < share {
		i++
	}
	switch {
	case i == 0:
		return a.Value[0]
	case i == n:
		return a.Value[n-1]
	}
	t := (share - a.Share[i-1]) / (a.Share[i] - a.Share[i-1])
	return a.Value[i-1] + t*(a.Value[i]-a.Value[i-1])
}

// Between returns the figure's integral over the share of the path from a to b,
// exact for its straight lines.
func (a Along) Between(from, to float64) float64 {
	if from > to {
		return -a.Between(to, from)
	}
	sum, last := 0.0, from
	for _, s := range a.Share {
		if s > last && s < to {
			sum += (s - last) * (a.At(last) + a.At(s)) / 2
			last = s
		}
	}
	return sum + (to-last)*(a.At(last)+a.At(to))/2
}
