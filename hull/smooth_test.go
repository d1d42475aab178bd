package hull

import (
	"math"
	"testing"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/si"
)

// yacht is a made-up hull with a rocker, a transom and a bilge.
func yacht() *boat.Boat {
	return afloat(8, frame.Vec[frame.Boat]{},
		boat.HullSection{X: 8.8, Points: [][2]float64{{0, 0.45}, {0.10, 1.75}}},
		boat.HullSection{X: 5, Points: [][2]float64{{0, 0.05}, {0.85, 0.35}, {1.40, 1.65}}},
		boat.HullSection{X: 0, Points: [][2]float64{{0, 0}, {1.55, 0.15}, {2.25, 0.60}, {2.50, 1.50}}},
		boat.HullSection{X: -4.5, Points: [][2]float64{{0, 0.08}, {1.70, 0.20}, {2.40, 0.60}, {2.55, 1.40}}},
		boat.HullSection{X: -9.2, Points: [][2]float64{{0, 0.35}, {1.70, 0.45}, {2.30, 0.75}, {2.40, 1.30}}})
}

// total is a hull's force and moment about the datum.
func total(b *boat.Boat, s boat.State, w *Workspace) [6]float64 {
	l := frame.Load[frame.Track]{About: s.Attitude.Pose().Origin}
	for _, it := range Loads(b, s, fluid.StandardSea(), w, nil) {
		l = l.Plus(it.Load)
	}
	return [6]float64{l.Force.X, l.Force.Y, l.Force.Z, l.Moment.X, l.Moment.Y, l.Moment.Z}
}

// Loads and their slopes over height are continuous all the way out of the water:
// over steps a tenth as long, jumps of the slope are much smaller. So they are over
// heel and pitch. Wetted surface changes fast, though without a step, where a flat
// panel of the bottom comes out level; the path keeps away from that.
func TestLoadsAndSlopesAreContinuous(t *testing.T) {
	b := yacht()
	var w Workspace
	for _, speed := range []si.Speed{3, 10} {
		path := func(share float64) boat.State {
			return boat.State{Speed: speed, Attitude: boat.Attitude{
				Heel: si.Angle(0.3 + 0.1*share), Pitch: si.Angle(-0.01 - 0.02*share), Height: -0.5 + 1.6*share}}
		}
		jump := func(n int) (largest [6]float64, slopes [6]float64) {
			var before, last [6]float64
			for k := range n + 1 {
				now := total(b, path(float64(k)/float64(n)), &w)
				for i := range now {
					slope := (now[i] - before[i]) * float64(n)
					if k > 1 {
						largest[i] = math.Max(largest[i], math.Abs(slope-last[i]))
					}
					if k > 0 {
						slopes[i] = math.Max(slopes[i], math.Abs(slope))
						last[i] = slope
					}
				}
				before = now
			}
			return largest, slopes
		}
		coarse, slopes := jump(400)
		fine, _ := jump(4000)
		for i, j := range fine {
			if j > 0.3*coarse[i] && j > 1e-2*slopes[i] {
				t.Errorf("%v m/s, sum %d: jumps of the slope are %.3g over steps of 1/4000, %.3g over 1/400, of %.3g", float64(speed), i, j, coarse[i], slopes[i])
			}
		}
	}
}

// Out of the water there is nothing, and just before next to nothing.
func TestFadesToNothing(t *testing.T) {
	b := yacht()
	var w Workspace
	s := boat.State{Speed: 10, Attitude: b.AtRideHeight(boat.Attitude{}, 0)}
	if items := Loads(b, s, fluid.StandardSea(), &w, nil); len(items) != 0 {
		t.Errorf("a hull that touches at a point has %d loads", len(items))
	}
	for _, depth := range []float64{1e-2, 1e-3, 1e-4} {
		at := s
		at.Attitude.Height -= depth
		sum := total(b, at, &w)
		// A patch of depth d is some 20 √d m long and 20 d wide, under 50 kPa with a
		// friction of 0.4 %, and residuary resistance is little.
		if most := 7e4 * math.Pow(depth, 1.5); -sum[0] > most || sum[0] > 0 {
			t.Errorf("%g m deep: drag %.3g N, at most %.3g is expected", depth, -sum[0], most)
		}
	}
}

// A boat that heels and leeway the other way has the mirror image's loads.
func TestMirror(t *testing.T) {
	b := yacht()
	var w Workspace
	s := boat.State{Speed: 8, Attitude: boat.Attitude{Leeway: 0.03, Heel: 0.3, Pitch: -0.01, Height: -0.3}}
	m := s
	m.Attitude.Leeway, m.Attitude.Heel = -m.Attitude.Leeway, -m.Attitude.Heel
	one, other := total(b, s, &w), total(b, m, &w)
	for i, sign := range [6]float64{1, -1, 1, -1, 1, -1} {
		near(t, "mirrored sum", other[i], sign*one[i], 1e-8*(1+math.Abs(one[i])))
	}
}

// Moving the datum, or turning the boat about the vertical, changes no force but
// that turned with it.
func TestDatumMayMove(t *testing.T) {
	b := yacht()
	c := *b
	c.Hulls = []boat.Hull{b.Hulls[0]}
	by := frame.Vec[frame.Boat]{X: 1.2, Y: -0.1, Z: 0.6}
	c.Hulls[0].Offset = by
	var w Workspace
	a := boat.Attitude{Leeway: 0.03, Heel: 0.3, Pitch: -0.01, Height: -0.3}
	one := Wet(b, a, &w)[0]
	turn := a.Pose().Turn.Apply(by)
	moved := a
	moved.Height -= turn.Z
	other := Wet(&c, moved, &w)[0]
	near(t, "volume", other.Volume, one.Volume, 1e-9)
	near(t, "centre x", other.Centre.X-turn.X, one.Centre.X, 1e-9)
	near(t, "centre z", other.Centre.Z, one.Centre.Z, 1e-9)
}

// Drag grows with speed and with the weight carried.
func TestResistanceGrows(t *testing.T) {
	b := yacht()
	var w Workspace
	last := 0.0
	for v := 0.5; v < 16; v += 0.25 {
		drag := -total(b, boat.State{Speed: si.Speed(v), Attitude: boat.Attitude{Height: -0.33}}, &w)[0]
		if !(drag > last) {
			t.Errorf("%.2f m/s: drag %.1f N, a little slower %.1f", v, drag, last)
		}
		last = drag
	}
	last = 0
	for depth := 0.02; depth < 0.5; depth += 0.02 {
		drag := -total(b, boat.State{Speed: 6, Attitude: boat.Attitude{Height: -depth}}, &w)[0]
		if !(drag > last) {
			t.Errorf("%.2f m deep: drag %.1f N, a little less deep %.1f", depth, drag, last)
		}
		last = drag
	}
	if drag := total(b, boat.State{Attitude: boat.Attitude{Height: -0.3}}, &w)[0]; drag != 0 {
		t.Errorf("drag at rest: %g N", -drag)
	}
}

// The user's own curve is the hull's drag at the boat's whole weight.
func TestOwnCurve(t *testing.T) {
	b := yacht()
	b.Hulls[0].Resistance = boat.Resistance{Source: "own curve", Speed: []float64{2, 4, 8}, Force: []float64{400, 2500, 9000}}
	var w Workspace
	_, height := RestOf(b, &w)
	for i, v := range b.Hulls[0].Resistance.Speed {
		drag := -total(b, boat.State{Speed: si.Speed(v), Attitude: boat.Attitude{Height: height}}, &w)[0]
		near(t, "drag", drag, b.Hulls[0].Resistance.Force[i], 1e-6*drag)
	}
	half := -total(b, boat.State{Speed: 8, Attitude: boat.Attitude{Height: height + 0.15}}, &w)[0]
	if !(half > 0 && half < 9000) {
		t.Errorf("less deep: drag %.0f N", half)
	}
}

// The surface handed over as its own sections, and cut finer again, has the same
// volume and skin: the mesh is fine enough.
func TestMeshIsFine(t *testing.T) {
	b := yacht()
	fine := yacht()
	var w Workspace
	stations := stationsOf(&b.Hulls[0], girthShares(&b.Hulls[0]))
	// The same surface, handed over as more sections.
	fine.Hulls[0].Sections = nil
	for i := range stations {
		s := boat.HullSection{X: stations[i].x}
		for j := range stations[i].y {
			s.Points = append(s.Points, [2]float64{stations[i].y[j], stations[i].z[j]})
		}
		fine.Hulls[0].Sections = append(fine.Hulls[0].Sections, s)
	}
	a := boat.Attitude{Heel: 0.25, Height: -0.35}
	one := Wet(b, a, &w)[0]
	other := Wet(fine, a, &w)[0]
	near(t, "volume", other.Volume, one.Volume, 1e-3*one.Volume)
	near(t, "surface", other.Surface, one.Surface, 1e-3*one.Surface)
}

func BenchmarkLoads(b *testing.B) {
	y := yacht()
	var w Workspace
	s := boat.State{Speed: 6, Attitude: boat.Attitude{Heel: 0.2, Height: -0.3}}
	var items []boat.Item
	for b.Loop() {
		s.Attitude.Heel += 1e-9
		items = Loads(y, s, fluid.StandardSea(), &w, items[:0])
	}
}
