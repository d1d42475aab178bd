package study

import (
	"fmt"

	"foilwright/foil"
	"foilwright/quantity"
)

// Lattice is how finely foils are cut and what is made of the waves that their
// lift makes. Zero values stand for what holds unless a person says otherwise,
// and are filled in.
type Lattice struct {
	Strips int    `json:"strips"` // on each wet piece
	Rows   int    `json:"rows"`   // of bound vortices over the chord
	Waves  string `json:"waves"`  // see WaveWords
}

// WaveWords tells what waves may be.
const WaveWords = "none, drag or full"

// What foils can be cut into: fewer strips than the least say nothing about a
// span, and work grows with the third power of strips times rows.
const (
	leastStrips, mostStrips = 4, 48
	mostRows                = 6
)

var waves = [...]struct {
	name string
	is   foil.Waves
}{{"drag", foil.WaveDrag}, {"none", foil.NoWaves}, {"full", foil.WaveWash}}

// options fills in what is not said and returns it for the lattice.
func (q *Lattice) options() (foil.Options, error) {
	o := foil.DefaultOptions()
	if q.Strips == 0 {
		q.Strips = o.Strips
	}
	if q.Rows == 0 {
		q.Rows = o.Rows
	}
	if q.Waves == "" {
		q.Waves = waves[0].name
	}
	if err := counted("strips", q.Strips, leastStrips, mostStrips, o.Strips); err != nil {
		return o, err
	}
	if err := counted("rows", q.Rows, 1, mostRows, o.Rows); err != nil {
		return o, err
	}
	o.Strips, o.Rows = q.Strips, q.Rows
	for _, w := range waves {
		if w.name == q.Waves {
			o.Waves = w.is
			return o, nil
		}
	}
	return o, fmt.Errorf("waves: %q is not what can be made of them\nhint: %s", q.Waves, WaveWords)
}

// counted holds a number of parts against what is allowed.
func counted(what string, n, low, high, usual int) error {
	if n >= low && n <= high {
		return nil
	}
	count := func(n int) string {
		return quantity.Format(float64(n), quantity.Number, "", quantity.Decimals(0))
	}
	return fmt.Errorf("%s: %s is outside %s to %s\nhint: %s is the default, at which a test holds the lattice converged",
		what, count(n), count(low), count(high), count(usual))
}
