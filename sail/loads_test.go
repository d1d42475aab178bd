package sail

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/si"
)

// The other tack is the mirror image to rounding, solved as itself.
func TestMirroredTack(t *testing.T) {
	b, _ := withFlatten(t)
	var w, v Workspace
	origin := frame.Point[frame.Track]{}
	rapid.Check(t, func(t *rapid.T) {
		s, wind := flying()
		s.Settings = append(s.Settings, 0)
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		s.Attitude.Heel, s.Attitude.Pitch = si.Angle(draw("heel", -0.6, 0.6)), si.Angle(draw("pitch", -0.1, 0.1))
		s.Attitude.Leeway, s.Speed = si.Angle(draw("leeway", -0.1, 0.1)), si.Speed(draw("speed", 0, 25))
		wind.Angle = si.Angle(draw("wind angle", 0.5, 2.6))
		for i := range s.Settings {
			s.Settings[i] = draw(b.Controls[i].Name, -0.3, 0.3)
		}
		port := Loads(b, mainAndJib, s, wind, fluid.StandardAir(), &w, nil)
		o := s.Clone()
		o.Attitude.Leeway, o.Attitude.Heel, o.Settings[crewAcross] = -s.Attitude.Leeway, -s.Attitude.Heel, -s.Settings[crewAcross]
		wind.Angle = -wind.Angle
		starboard := Loads(b, mainAndJib, o, wind, fluid.StandardAir(), &v, nil)
		force, moment := sum(port).Force.Norm(), sum(port).Moment.Norm()
		for i := range port {
			p, q := port[i].Load.MovedTo(origin), starboard[i].Load.MovedTo(origin)
			q.Force.Y, q.Moment.X, q.Moment.Z = -q.Force.Y, -q.Moment.X, -q.Moment.Z
			if d := p.Force.Minus(q.Force).Norm(); d > 1e-12*force {
				t.Errorf("%s %v: force %v on port, %v mirrored", port[i].Part, port[i].Cause, p.Force, q.Force)
			}
			if d := p.Moment.Minus(q.Moment).Norm(); d > 1e-12*moment {
				t.Errorf("%s %v: moment %v on port, %v mirrored", port[i].Part, port[i].Cause, p.Moment, q.Moment)
			}
		}
	})
}

// Signs: with the wind from port a drawn sail pulls to starboard and ahead, its
// drags point with the wind, and heel to windward (port down) lifts.
func TestSigns(t *testing.T) {
	b := testRig(t)
	s, wind := flying()
	var w Workspace
	items := Loads(b, mainAndJib, s, wind, fluid.StandardAir(), &w, nil)
	lift := sum(items, boat.SailLift).Force
	if !(lift.X > 0 && lift.Y < 0) {
		t.Errorf("sail lift is %v, want ahead and to starboard", lift)
	}
	for _, c := range []boat.Cause{boat.SailInduced, boat.SailSection, boat.WindDrag} {
		if f := sum(items, c).Force; !(f.X < 0 && f.Y < 0) {
			t.Errorf("%v is %v, want aft and to starboard", c, f)
		}
	}
	for _, heel := range []si.Angle{-10 * si.Degree, 10 * si.Degree} {
		s.Attitude.Heel = heel
		f := sum(Loads(b, mainAndJib, s, wind, fluid.StandardAir(), &w, nil), boat.SailLift).Force
		if f.Z*float64(heel) >= 0 {
			t.Errorf("at heel %g deg sail lift is %v, want upward only with heel to windward", heel.Degrees(), f)
		}
		// The force is normal to the mast, near enough: the luff leans by heel alone.
		near(t, "vertical over side force", f.Z/f.Y, heel.Sin()/heel.Cos(), 0.02)
	}
}

// Bad days: calm, no speed, the wind from every side, a capsize, a dipped foot,
// no control at all. Nothing may be other than a number.
func TestAlwaysNumbers(t *testing.T) {
	b := testRig(t)
	var w Workspace
	for _, speed := range []si.Speed{0, 10, 25} {
		for _, windSpeed := range []si.Speed{0, 1e-9, 10, 25} {
			for angle := -180 * si.Degree; angle <= 180*si.Degree; angle += 30 * si.Degree {
				for _, heel := range []si.Angle{-90, -60, 0, 30, 90, 180} {
					for _, gap := range []float64{0, 1, 2} {
						c := *b
						c.Model.Gap = gap
						s, wind := flying()
						s.Speed, s.Attitude.Heel, s.Attitude.Height = speed, heel*si.Degree, -1
						wind.Speed, wind.Angle = windSpeed, angle
						for _, i := range Loads(&c, mainAndJib, s, wind, fluid.StandardAir(), &w, nil) {
							if n := i.Load.Force.Norm() + i.Load.Moment.Norm() + i.Load.About.X; math.IsNaN(n) || math.IsInf(n, 0) {
								t.Fatalf("speed %v, wind %v from %v, heel %v, gap %v: %s %v is %v", speed, windSpeed, angle.Degrees(), heel, gap, i.Part, i.Cause, i.Load)
							}
						}
						for _, m := range Margins(&w) {
							if n := m.LargestLift + m.Loading + m.SheetLoad; math.IsNaN(n) || math.IsInf(n, 0) {
								t.Fatalf("speed %v, wind %v from %v, heel %v, gap %v: margins %+v", speed, windSpeed, angle.Degrees(), heel, gap, m)
							}
						}
					}
				}
			}
		}
	}
}

// Density doubles all; so does √2 on every speed, in a uniform wind.
func TestScales(t *testing.T) {
	b := testRig(t)
	s, wind := flying()
	wind.Profile = fluid.Uniform()
	var w Workspace
	air := fluid.StandardAir()
	once := sum(Loads(b, mainAndJib, s, wind, air, &w, nil))
	dense := air
	dense.Density *= 2
	for _, twice := range []frame.Load[frame.Track]{
		sum(Loads(b, mainAndJib, s, wind, dense, &w, nil)),
		func() frame.Load[frame.Track] {
			s.Speed *= math.Sqrt2
			wind.Speed *= math.Sqrt2
			return sum(Loads(b, mainAndJib, s, wind, air, &w, nil))
		}(),
	} {
		if d := twice.Force.Minus(once.Force.Times(2)).Norm(); d > 1e-10*once.Force.Norm() {
			t.Errorf("twice the pressure gives %v, want twice %v", twice.Force, once.Force)
		}
	}
}

// Reused factors give the bits that a fresh workspace gives, and lift is linear
// in the settings while no strip is past its largest lift.
func TestWorkspaceRemembersNothingWrong(t *testing.T) {
	b := testRig(t)
	s, wind := flying()
	var w Workspace
	air := fluid.StandardAir()
	Loads(b, mainAlone, s, wind, air, &w, nil)
	for _, change := range []func(){
		func() {}, func() { s.Settings[mainSheet] += 0.01 }, func() { s.Attitude.Heel += 0.02 }, func() { wind.Angle += 0.1 },
		func() { s.Settings[jibTwist] = 0 }, func() { s.Speed += 1 },
	} {
		change()
		var fresh Workspace
		got, want := Loads(b, mainAndJib, s, wind, air, &w, nil), Loads(b, mainAndJib, s, wind, air, &fresh, nil)
		for i := range want {
			if got[i] != want[i] {
				t.Fatalf("%s %v: %v from a used workspace, %v from a fresh one", got[i].Part, got[i].Cause, got[i].Load, want[i].Load)
			}
		}
	}
	items := make([]boat.Item, 0, 16)
	if n := testing.AllocsPerRun(20, func() {
		s.Settings[mainSheet] += 1e-6
		s.Attitude.Heel += 1e-6
		items = Loads(b, mainAndJib, s, wind, air, &w, items[:0])
	}); n > 0 {
		t.Errorf("loads allocate %g times in steady state", n)
	}
}

// Twice the strips: lift to 0.2 %, induced drag to 0.5 %.
func TestTwiceTheStrips(t *testing.T) {
	b := testRig(t)
	s, wind := flying()
	air := fluid.StandardAir()
	var last [2]float64
	for i, strips := range []int{16, 32, 64} {
		lift, induced := totals(Explain(b, mainAndJib, s, wind, air, &Workspace{Strips: strips}))
		t.Logf("%d strips: lift %.2f N, induced drag %.3f N", strips, lift, induced)
		if i > 0 {
			near(t, "lift over that of half the strips", lift/last[0], 1, 0.002)
			near(t, "induced drag over that of half the strips", induced/last[1], 1, 0.005)
		}
		last = [2]float64{lift, induced}
	}
}

// The report adds up to the items, and bare poles have no sails.
func TestExplain(t *testing.T) {
	b := testRig(t)
	s, wind := flying()
	air := fluid.StandardAir()
	var w Workspace
	items := Loads(b, mainAndJib, s, wind, air, &w, nil)
	for i, r := range Explain(b, mainAndJib, s, wind, air, &w) {
		own := items[3*i : 3*i+3]
		near(t, r.Name+" lift", r.Lift, own[0].Load.Force.Norm(), 1e-9)
		near(t, r.Name+" induced drag", r.InducedDrag, own[1].Load.Force.Norm(), 1e-9)
		near(t, r.Name+" section drag", r.SectionDrag, own[2].Load.Force.Norm(), 1e-9)
		near(t, r.Name+" margin", r.Margin, Margins(&w)[i].LargestLift, 0)
		near(t, r.Name+" sheeting angle", float64(r.SheetingAngle+r.Incidence), float64(r.WindAngle)+2*fullCamber, 1e-12)
		if sail := &b.Sails[i]; r.CentreOfEffort.Z < sail.Tack.Z || r.CentreOfEffort.Z > sail.Tack.Z+sail.Luff || r.SheetLoad <= 0 || r.Loading <= 0 {
			t.Errorf("%s: centre of effort %v, sheet load %g N, loading %g", r.Name, r.CentreOfEffort, r.SheetLoad, r.Loading)
		}
	}
	if bare := Loads(b, barePoles, s, wind, air, &w, nil); len(bare) != len(b.Windages) || len(Margins(&w)) != 0 {
		t.Errorf("bare poles carry %d items, want %d", len(bare), len(b.Windages))
	}
}

func BenchmarkLoads(b *testing.B) {
	rig := testRig(b)
	s, wind := flying()
	air := fluid.StandardAir()
	items := make([]boat.Item, 0, 16)
	var w Workspace
	b.Run("new attitude", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			s.Attitude.Heel += 1e-9
			items = Loads(rig, mainAndJib, s, wind, air, &w, items[:0])
		}
	})
	b.Run("new settings", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			s.Settings[mainSheet] += 1e-9
			items = Loads(rig, mainAndJib, s, wind, air, &w, items[:0])
		}
	})
}
