package odds

import (
	"context"

	"foilwright/si"
)

// State tells how one boat of one sample came out.
type State uint8

// The states. Only a boat that sails has figures; one that does not loses to one
// that does.
const (
	Sails State = iota
	CannotSail
	CannotBe // the draw makes a boat that cannot be built
)

// Outcome is what one boat of one sample does in one wind.
type Outcome struct {
	State    State
	Progress float64 // what the aim makes most of, m/s
	Speed    float64 // through the water, m/s
	Angle    float64 // true wind angle off the track, rad
}

// Evaluate finds the outcomes of one sample, for the first so many of the plan's
// columns, from one value, SI, for each of its unknowns. It is called from any
// goroutine and depends on its arguments alone.
type Evaluate func(ctx context.Context, values []float64, columns int) ([]Outcome, error)

// Column is what one outcome of a sample is of.
type Column struct {
	Boat int      // index of Plan.Boats
	Wind si.Speed // true
}

// Plan is what is to be found out. The columns are the boats in the wind that is
// asked about, in the order of Boats; then the boats in each wind of the bands;
// then, where there is an anchor, its boat in its wind.
type Plan struct {
	Boats    []string
	Aim      string // in words
	Unknowns []Unknown
	Wind     si.Speed   // that is asked about
	Bands    []si.Speed // winds over which bands are drawn; may be empty
	Anchor   *Anchor    // nil for none
	Evaluate Evaluate

	Seed       uint64
	Samples    int     // at least 2; where Until is set, at most so many
	Until      float64 // stop at a power of two once no chance has a larger sampling error; 0 for never
	Confidence float64 // below which a difference is too close to call, in (0.5, 1)
	Tornado    Tornado
}

// Tornado tells whether unknowns are also moved one at a time.
type Tornado int

// Without and with a tornado.
const (
	NoTornado Tornado = iota
	WithTornado
)

// Columns returns what the outcomes of a sample are of.
func (p *Plan) Columns() []Column {
	var all []Column
	for _, wind := range append([]si.Speed{p.Wind}, p.Bands...) {
		for boat := range p.Boats {
			all = append(all, Column{boat, wind})
		}
	}
	if p.Anchor != nil {
		all = append(all, Column{p.Anchor.Boat, p.Anchor.Wind})
	}
	return all
}

// likelyValues returns the likely value of every unknown.
func likelyValues(unknowns []Unknown) []float64 {
	values := make([]float64, len(unknowns))
	for i := range values {
		values[i] = unknowns[i].Quantity.Likely
	}
	return values
}

// points returns the sample points of the plan's seed.
func (p *Plan) points() (*Points, error) {
	names := make([]string, len(p.Unknowns))
	for i := range names {
		names[i] = p.Unknowns[i].Name
	}
	return NewPoints(p.Seed, names)
}

// draw returns the values of a sample.
func (p *Plan) draw(points *Points, sample int) []float64 {
	values := make([]float64, len(p.Unknowns))
	for i := range values {
		values[i] = p.Unknowns[i].Quantity.At(points.At(uint32(sample), i))
	}
	return values
}
