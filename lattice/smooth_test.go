package lattice

import (
	"math"
	"testing"
)

// wetted cuts a canted straight wing by the water: its upper end stands at
// height above the plane, in m along z, and only what is below carries panels.
// Two arms in a V share the cut wing's foot.
func wetted(p *Panels, height float64) {
	const cant = 20 * degree
	sin, cos := math.Sin(cant), math.Cos(cant)
	span := func(s float64) Station {
		return Station{
			Quarter: [3]float64{-0.3 * s, 2 * (1 - s) * cos, height - 2*s*sin},
			Aft:     [3]float64{-1, 0, 0}, Chord: 0.3 + 0.1*s, Normal: [3]float64{0, -sin, cos},
		}
	}
	start := max(0, height/(2*sin))
	exact := func(s float64) Station {
		st := span(s)
		if s == start && height >= 0 {
			st.Quarter[2] = 0
		}
		return st
	}
	AppendSpan(p, exact, start, 1, 18, 1, 0, 0.1)
	foot := span(1).Quarter
	other := func(s float64) Station {
		return Station{
			Quarter: [3]float64{foot[0] + 0.2*s, foot[1] - s, foot[2] + 0.1*s},
			Aft:     [3]float64{-1, 0, 0}, Chord: 0.4 - 0.2*s, Normal: [3]float64{0, 0.1 / math.Hypot(0.1, 1), 1 / math.Hypot(0.1, 1)},
		}
	}
	AppendSpan(p, other, 0, 1, 18, 1, 0, 0.1)
}

// Loads are continuous as the tip comes to the surface from below and goes on
// through it: a step of a micrometre moves them by less than a millionth of
// lift where the tip pierces, and the approach from below closes with the
// distance.
func TestTipThroughSurface(t *testing.T) {
	total := func(height float64) loads {
		var p Panels
		wetted(&p, height)
		_, _, sum := loaded(t, &p, FreeSurface, 0.05, 0.01)
		return sum
	}
	at := total(0)
	gap := func(height float64) float64 {
		s := total(height)
		worst := math.Abs(s.Induced-at.Induced) / at.Induced
		for k := range 3 {
			worst = max(worst, math.Abs(s.Force[k]-at.Force[k])/at.Force[2])
		}
		return worst
	}
	for _, height := range []float64{1e-3, 1e-6, 1e-9, -1e-9, -1e-6, -1e-3} {
		t.Logf("tip %+.0e m above the water: loads move by %.2e", height, gap(height))
	}
	for _, height := range []float64{1e-6, -1e-6} {
		if g := gap(height); g > 1e-4 {
			t.Errorf("tip %+.0e m above the water: loads jump by %.2e", height, g)
		}
	}
	if gap(-1e-9) > 1e-6 || gap(1e-9) > 1e-6 {
		t.Errorf("loads jump at the surface: %g from below, %g from above", gap(-1e-9), gap(1e-9))
	}
}

// A wing that rises level to the surface keeps finite loads, smooth in depth,
// down to the limit of one half of the plate's lift.
func TestWingRisesToSurface(t *testing.T) {
	last := math.Inf(1)
	for depth := 2.0; depth > 1e-5; depth /= 1.5 {
		var p Panels
		AppendSpan(&p, wing(4, 0, depth), 0, 1, 24, 1, 0, 0)
		_, _, total := loaded(t, &p, FreeSurface, 1, 0)
		lift := total.Force[2] / 2
		if math.IsNaN(lift) || lift > last || lift < 0.3*math.Pi {
			t.Errorf("depth %.4g chords: lift slope %.4f after %.4f", depth, lift, last)
		}
		last = lift
	}
	t.Logf("at the surface aspect ratio 4 keeps a lift slope of %.3f", last)
}

// A leg that runs into another surface is smoothed by its core: a rudder wing
// that passes through the wake of the wing ahead has no jump in its load.
func TestThroughWake(t *testing.T) {
	load := func(height float64) (float64, float64) {
		var p Panels
		cut(&p, 24, 0.3, CosineBoth, side{from: [2]float64{1, -1}, to: [2]float64{-1, -1}})
		behind := func(s float64) Station {
			return Station{Quarter: [3]float64{-5, 0.9 - s, -1 + height}, Aft: [3]float64{-1, 0, 0}, Chord: 0.15, Normal: [3]float64{0, 0, 1}}
		}
		AppendSpan(&p, behind, 0, 1, 24, 1, 1, 0.04)
		_, force, total := loaded(t, &p, FreeSurface, 0.05, 0)
		sum := 0.0
		for i, f := range force {
			if p.Surface[i] == 1 {
				sum += f[2]
			}
		}
		return sum / total.Force[2], total.Induced
	}
	const step = 0.002
	low, lowDrag := load(-0.1)
	for height := -0.1 + step; height < 0.1; height += step {
		share, drag := load(height)
		if math.Abs(share-low) > 0.002 || math.Abs(drag/lowDrag-1) > 0.01 {
			t.Errorf("height %+.3f m over the wake: share of lift %.4f after %.4f, drag %.5g after %.5g", height, share, low, drag, lowDrag)
		}
		low, lowDrag = share, drag
	}
}
