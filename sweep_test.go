package foilwright_test

import (
	"math"
	"testing"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/foil"
	"foilwright/frame"
	"foilwright/si"
)

// swept are all examples, sailed so far or not: what the water does to foils is
// known for all of them.
var swept = []string{
	"which-foil/sorrel", "which-foil/tansy", "dinghy/sloe", "catamaran/bramble", "keelboat/guelder", "twenty-metre/hawthorn",
}

// Sweeps of every example over ride height, speed and cant (or a board's drop)
// have no kink but where a tip or a joint comes out of the water or goes in: lift,
// side force and drag bend by no more than a little between neighbours anywhere
// else.
func TestSweepsHaveNoUnexplainedKink(t *testing.T) {
	for _, name := range swept {
		b := example(t, "examples/"+name+".yaml")
		middle := usualSettings(b)
		at := boat.State{Speed: 25 * si.Knot, Settings: middle, Attitude: boat.Attitude{Leeway: 1 * si.Degree}}
		checkSweep(t, b, "ride height", func(u float64) boat.State {
			s := at.Clone()
			s.Attitude = b.AtRideHeight(s.Attitude, -0.2+2.2*u)
			return s
		})
		at.Attitude = b.AtRideHeight(at.Attitude, 0.6)
		checkSweep(t, b, "speed", func(u float64) boat.State {
			s := at.Clone()
			s.Speed = si.Speed(2 + 18*u)
			return s
		})
		for i := range b.Controls {
			c := &b.Controls[i]
			if (c.Label != "cant" && c.Label != "drop") || c.Side == boat.Port {
				continue
			}
			low, high := math.Max(c.Lower, -0.2), math.Min(c.Upper, 1.2)
			checkSweep(t, b, c.Name, func(u float64) boat.State {
				s := at.Clone()
				s.Settings[i] = low + (high-low)*u
				return s
			})
		}
	}
}

// usualSettings are those of a boat's first mode, wide ranges at their middles.
func usualSettings(b *boat.Boat) []float64 {
	settings := b.Starts()
	if len(b.Modes) == 0 {
		return settings
	}
	lower, upper := b.Bounds(&b.Modes[0], boat.Port)
	for i := range settings {
		settings[i] = math.Min(math.Max(settings[i], lower[i]), upper[i])
		if l := b.Controls[i].Label; upper[i]-lower[i] > 0.25 && l != "sheet" && l != "twist" {
			settings[i] = (lower[i] + upper[i]) / 2
		}
	}
	return settings
}

// reading is drag, side force and lift, N, and a count that changes wherever a
// piece or a tip gets wet or dry.
type reading struct {
	load [3]float64
	wet  int
}

func checkSweep(t *testing.T, b *boat.Boat, what string, state func(u float64) boat.State) {
	t.Helper()
	const points, clear = 240, 6
	var w foil.Workspace
	var all []reading
	var scale [3]float64
	for i := range points + 1 {
		r, err := read(b, state(float64(i)/points), &w)
		if err != nil {
			t.Errorf("%s over %s: %v", b.Name, what, err)
			return
		}
		all = append(all, r)
		for k := range scale {
			scale[k] = math.Max(scale[k], math.Abs(r.load[k]))
		}
	}
	bend := func(i, k int) float64 {
		return math.Abs(all[i+1].load[k]-2*all[i].load[k]+all[i-1].load[k]) / scale[k]
	}
	for i := clear; i < len(all)-clear; i++ {
		if all[i-clear].wet != all[i+clear].wet {
			continue // something came out, or went in
		}
		for k, name := range [3]string{"drag", "side force", "lift"} {
			around := math.Max(bend(i-3, k), bend(i+3, k))
			if here := bend(i, k); here > 2e-3 && here > 6*around {
				t.Errorf("%s over %s: %s bends by %.2f %% of its largest at %.3f of the way, %.3f %% around", b.Name, what, name, 100*here, float64(i)/points, 100*around)
			}
		}
	}
}

func read(b *boat.Boat, s boat.State, w *foil.Workspace) (reading, error) {
	items, err := foil.Loads(b, s, fluid.StandardSea(), w, nil)
	if err != nil {
		return reading{}, err
	}
	var sum frame.Vec[frame.Track]
	for i := range items {
		if items[i].Cause.Medium() == boat.Water {
			sum = sum.Plus(items[i].Load.Force)
		}
	}
	r := reading{load: [3]float64{-sum.X, sum.Y, sum.Z}}
	for _, o := range foil.Outlines(b, s) {
		if o.WetPlan > 0 {
			r.wet++
		}
		if o.FreeTip == foil.FreeTip && o.Depth() > 0 {
			r.wet += 100
		}
	}
	return r, nil
}
