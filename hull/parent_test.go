package hull

import (
	"math"
	"testing"

	"foilwright/boat"
	"foilwright/frame"
)

// A hull told by its coefficients has them: laid out, floated at her design
// displacement and measured, dimensions within 0.5 % and coefficients within 1 %.
func TestParentHasItsOwnCoefficients(t *testing.T) {
	for _, l := range []Lines{
		{Length: 10, Beam: 2.6, Draught: 0.45, Block: 0.38, Prismatic: 0.56, Freeboard: 0.9},
		{Length: 17, Beam: 4.4, Draught: 0.5, Block: 0.42, Prismatic: 0.60, Transom: 0.2, Freeboard: 1.2, Middle: -0.6},
		{Length: 3.3, Beam: 0.35, Draught: 0.14, Block: 0.5, Prismatic: 0.62, Transom: 0.3, Freeboard: 0.2},
		{Length: 12, Beam: 0.7, Draught: 0.4, Block: 0.36, Prismatic: 0.66, Transom: 0.1, Freeboard: 0.8},
		{Length: 8, Beam: 2, Draught: 0.4, Block: 0.47, Prismatic: 0.52, Freeboard: 0.8},
		{Length: 8, Beam: 2, Draught: 0.4, Block: 0.45, Prismatic: 0.75, Transom: 0.4, Freeboard: 0.8},
	} {
		sections, err := l.Sections()
		if err != nil {
			t.Errorf("%+v: %v", l, err)
			continue
		}
		volume := l.Block * l.Length * l.Beam * l.Draught
		var w Workspace
		rests, height := RestOf(afloat(volume, frame.Vec[frame.Boat]{}, sections...), &w)
		r := rests[0]
		block := r.Volume / (r.Length * r.Beam * r.Draught)
		t.Logf("block %.4f of %.4f, prismatic %.4f of %.4f, length %.4f, beam %.4f, draught %.4f, centre %+.4f", block, l.Block, r.Prismatic, l.Prismatic, r.Length, r.Beam, r.Draught, r.Centre)
		share := func(what string, got, want, within float64) {
			if math.Abs(got/want-1) > within {
				t.Errorf("%+v: %s %.5g, asked for %.5g", l, what, got, want)
			}
		}
		share("length", r.Length, l.Length, 0.005)
		share("beam", r.Beam, l.Beam, 0.005)
		share("draught", r.Draught, l.Draught, 0.005)
		share("block", block, l.Block, 0.01)
		share("prismatic", r.Prismatic, l.Prismatic, 0.01)
		if math.Abs(height+l.Draught) > 0.005*l.Draught {
			t.Errorf("%+v: floats %.4f m deep", l, -height)
		}
		if l.Transom == 0 && math.Abs(r.Centre) > 1e-3 || l.Transom > 0 && r.Centre >= 0 {
			t.Errorf("%+v: centre of buoyancy %+.4f of the length ahead of the middle", l, r.Centre)
		}
	}
}

// The laid-out volume is that of the formulas at the design waterline, level.
func TestParentVolume(t *testing.T) {
	for _, prismatic := range []float64{0.45, 0.52, 0.56, 0.62, 0.7, 0.75} {
		for _, midship := range []float64{0.5, 0.65, 0.8, 0.95} {
			l := Lines{Length: 9, Beam: 2.2, Draught: 0.4, Block: prismatic * midship, Prismatic: prismatic, Freeboard: 0.7}
			sections, err := l.Sections()
			if err != nil {
				t.Errorf("prismatic %.2f, midship %.2f: %v", prismatic, midship, err)
				continue
			}
			m := wet(afloat(1, frame.Vec[frame.Boat]{}, sections...), boat.Attitude{Height: -l.Draught})
			within := 0.008
			if prismatic >= 0.52 && prismatic <= 0.7 {
				within = 0.0055
			}
			if off := m.Volume/(l.Block*l.Length*l.Beam*l.Draught) - 1; math.Abs(off) > within {
				t.Errorf("prismatic %.2f, midship %.2f: volume is off by %+.2f %%", prismatic, midship, 100*off)
			}
		}
	}
}

// What no hull of the form can have is told.
func TestParentRefuses(t *testing.T) {
	good := Lines{Length: 9, Beam: 2.2, Draught: 0.4, Block: 0.4, Prismatic: 0.56, Freeboard: 0.7}
	for what, spoil := range map[string]func(*Lines){
		"no draught":   func(l *Lines) { l.Draught = 0 },
		"block":        func(l *Lines) { l.Block = 0.56 },
		"prismatic":    func(l *Lines) { l.Block, l.Prismatic = 0.7, 0.9 },
		"transom":      func(l *Lines) { l.Transom = 1 },
		"wide transom": func(l *Lines) { l.Transom = 0.9 },
		"not a number": func(l *Lines) { l.Prismatic = math.NaN() },
	} {
		l := good
		spoil(&l)
		if _, err := l.Sections(); err == nil {
			t.Errorf("%s: no error", what)
		}
	}
}
