package sail

import (
	"math"
	"testing"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/si"
)

// Loads a tiny step from a held state are those of a fresh workspace but for the square of
// the step; those of a step that is not tiny, and all after the release, are the same to
// the last bit.
func TestBesideAState(t *testing.T) {
	b, air := testRig(t), fluid.StandardAir()
	start, wind := flying()
	for name, change := range map[string]func(s *boat.State, w *fluid.Wind, step float64){
		"leeway": func(s *boat.State, _ *fluid.Wind, step float64) { s.Attitude.Leeway += si.Angle(step) },
		"heel":   func(s *boat.State, _ *fluid.Wind, step float64) { s.Attitude.Heel += si.Angle(step) },
		"pitch":  func(s *boat.State, _ *fluid.Wind, step float64) { s.Attitude.Pitch += si.Angle(step) },
		"height": func(s *boat.State, _ *fluid.Wind, step float64) { s.Attitude.Height += step },
		"speed":  func(s *boat.State, _ *fluid.Wind, step float64) { s.Speed += si.Speed(step) },
		"angle":  func(_ *boat.State, w *fluid.Wind, step float64) { w.Angle += si.Angle(step) },
		"sheet":  func(s *boat.State, _ *fluid.Wind, step float64) { s.Settings[mainSheet] += step },
	} {
		var holder, leaning Workspace
		leaning.LeanOn(&holder)
		Loads(b, mainAndJib, start, wind, air, &holder, nil)
		holder.Hold()
		// offBy is how far loads lie from a fresh workspace's, over the largest force.
		offBy := func(w *Workspace, step float64) float64 {
			s, now := start.Clone(), wind
			change(&s, &now, step)
			got, want := Loads(b, mainAndJib, s, now, air, w, nil), Loads(b, mainAndJib, s, now, air, &Workspace{}, nil)
			most, size := 0.0, 0.0
			for i := range want {
				off := func(a, b frame.Vec[frame.Track]) float64 { return a.Minus(b).Norm() }
				most = math.Max(most, math.Max(off(got[i].Load.Force, want[i].Load.Force), off(got[i].Load.Moment, want[i].Load.Moment)))
				size = math.Max(size, want[i].Load.Force.Norm())
			}
			return most / size
		}
		for _, w := range []*Workspace{&holder, &leaning} {
			far, near := offBy(w, 8e-5), offBy(w, 1e-5)
			if far > 1e-7 || near > far/30+1e-12 {
				t.Errorf("%s: loads are off by %.1e at a step of 8e-5, %.1e at 1e-5", name, far, near)
			}
			if off := offBy(w, 2e-3); off != 0 && (name != "sheet" || off > 1e-14) { // a sheet leaves sails where they are held
				t.Errorf("%s: loads far from a held state are off by %.1e", name, off)
			}
		}
		offBy(&leaning, 1e-5)
		offBy(&holder, 1e-5)
		holder.Release()
		if off := offBy(&leaning, 1e-5) + offBy(&holder, 1e-5); off != 0 {
			t.Errorf("%s: after the release loads are off by %.1e", name, off)
		}
	}
}
