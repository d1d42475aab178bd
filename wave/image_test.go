package wave

import (
	"fmt"
	"testing"

	"foilwright/lattice"
)

// What a lattice knows of the surface's image is what is found without it, strip by
// strip, and spares no error.
func TestImageOfALattice(t *testing.T) {
	p, s := craft(8)
	n := s.Len()
	var l lattice.Workspace
	if err := l.Assemble(p, lattice.FreeSurface, lattice.Options{}); err != nil {
		t.Fatal(err)
	}
	l.Forces(s.Circulation, make([][3]float64, n))
	known := *s
	known.Image = make([]float64, n)
	l.ImageDrag(known.Image)
	for _, speed := range []float64{0, 4, 12, 1e6} {
		found, given := make([]float64, n+1), make([]float64, n+1)
		var w Workspace
		for _, c := range []struct {
			s      *Strips
			shares []float64
		}{{s, found}, {&known, given}} {
			var err error
			if c.shares[n], err = w.Increment(c.s, speedOf(speed), gravity, c.shares[:n]); err != nil {
				t.Fatal(err)
			}
		}
		for i := range found {
			near(t, fmt.Sprintf("%g m/s, strip %d", speed, i), given[i], found[i], 1e-14)
		}
	}
	var w Workspace
	known.Image = known.Image[1:]
	if _, err := w.Increment(&known, 5, gravity, nil); err == nil {
		t.Error("fewer drags of images than strips are accepted")
	}
}
