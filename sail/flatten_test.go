package sail

import (
	"math"
	"strings"
	"testing"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/si"
)

// withFlatten returns the test boat with a further control that flattens the main.
func withFlatten(t testing.TB) (b *boat.Boat, control int) {
	b = testRig(t)
	control = len(b.Controls)
	b.Controls = append(b.Controls, boat.Control{Name: "main flatten", Kind: boat.ShareControl, Upper: 1})
	b.Sails[0].Flatten = control
	if err := Check(b); err != nil {
		t.Fatal(err)
	}
	return b, control
}

// A sail that is not flattened is, to the bit, one that cannot be. Flattening
// leaves lift and induced drag alone, takes largest lift away in proportion, and
// moves the sheet's load as the moment of a thin arc moves.
func TestFlatten(t *testing.T) {
	b, flatten := withFlatten(t)
	plain := testRig(t)
	s, wind := flying()
	s.Settings[mainSheet] = 0.06
	air := fluid.StandardAir()
	want := Explain(plain, mainAlone, s, wind, air, &Workspace{})[0]
	s.Settings = append(s.Settings, 0)
	var w Workspace
	full := Explain(b, mainAlone, s, wind, air, &w)[0]
	if full.Lift != want.Lift || full.SectionDrag != want.SectionDrag || full.SheetLoad != want.SheetLoad || full.SheetingAngle != want.SheetingAngle {
		t.Errorf("not flattened: %+v, want %+v", full, want)
	}
	for _, flat := range []float64{0.25, 0.5, 1} {
		s.Settings[flatten] = flat
		got := Explain(b, mainAlone, s, wind, air, &w)[0]
		near(t, "lift", got.Lift, full.Lift, 1e-9*full.Lift)
		near(t, "induced drag", got.InducedDrag, full.InducedDrag, 1e-9*full.InducedDrag)
		near(t, "largest lift", got.LargestLift/full.LargestLift, 1-flat/2, 1e-12)
		near(t, "sheet load", got.SheetLoad/full.SheetLoad, (0.4-0.15*flat)/0.4, 1e-12)
		near(t, "sheeting angle", float64(full.SheetingAngle-got.SheetingAngle), 2*0.08*flat, 1e-12)
		near(t, "flatten", got.Flatten, flat, 0)
	}
	s.Settings[flatten], s.Settings[mainSheet] = 1, 0.35
	if r := Explain(b, mainAlone, s, wind, air, &w)[0]; r.Margin >= 0 {
		t.Errorf("a sail without camber, sheeted to a lift coefficient of %.2f, has %.2f in hand", r.LiftCoefficient, r.Margin)
	}
}

// The drag that flattening saves has a bottom: where the flow meets the luff
// smoothly at the lift that is asked. Below the full sail's own such lift, about
// 1.0, some flattening pays, more the less lift; above it none does.
func TestFlattenSavesDragAtLittleLift(t *testing.T) {
	for _, c := range []struct{ lift, best float64 }{{0, 1}, {0.25, 0.751}, {0.5, 0.503}, {1.0053, 0}, {1.4, 0}} {
		best, least := 0.0, math.Inf(1)
		for flat := 0.0; flat <= 1; flat += 0.001 {
			if e := entry(c.lift, flat); e < least {
				best, least = flat, e
			}
		}
		near(t, "best share out", best, c.best, 0.002)
	}
	near(t, "no lift, no camber", entry(0, 1), 1/(1+0.25*math.Pow(4*math.Pi*0.08, 2)), 1e-12)
	near(t, "full", entry(0.3, 0), 1, 0)
	for lift := 0.0; lift < 3; lift += 0.01 {
		for _, flat := range []float64{0, 0.3, 1} {
			const step = 1e-6
			if e := entry(lift, flat); !(e > 0.5 && e < 3) || math.Abs(entry(lift+step, flat)-e) > 2*step {
				t.Fatalf("at a lift of %g flattened by %g: factor %g", lift, flat, e)
			}
		}
	}
}

// A table by incidence says the same as one by wind angle where both hold the
// same section: lift up to 1.5, drag 0.02 + 0.005·cl² at cl = 2πα.
func TestTableByIncidence(t *testing.T) {
	b := testRig(t)
	s, wind := flying()
	air := fluid.StandardAir()
	// One line holds at every angle.
	b.Sails[0].Coefficients = boat.SailCoefficients{Name: boat.OwnTable, Angle: []float64{0}, Lift: []float64{1.5}, Drag: []float64{0.02}}
	byWind := Explain(b, mainAlone, s, wind, air, &Workspace{})[0]
	own := boat.SailCoefficients{Name: boat.OwnTable, Against: boat.Incidence}
	for i := range 41 {
		a := 0.3 * float64(i) / 40
		own.Angle, own.Lift, own.Drag = append(own.Angle, a), append(own.Lift, 1.5), append(own.Drag, 0.02+0.005*math.Pow(2*math.Pi*a, 2))
	}
	c := *b
	c.Sails = append([]boat.Sail(nil), b.Sails...)
	c.Sails[0].Coefficients = own
	if err := Check(&c); err != nil {
		t.Fatal(err)
	}
	byIncidence := Explain(&c, mainAlone, s, wind, air, &Workspace{})[0]
	near(t, "lift", byIncidence.Lift, byWind.Lift, 1e-9)
	near(t, "section drag", byIncidence.SectionDrag/byWind.SectionDrag, 1, 1e-3)
	near(t, "margin", byIncidence.Margin, byWind.Margin, 1e-12)
	if byWind.Beyond != "" || byIncidence.Beyond != "" {
		t.Errorf("within their tables: %q, %q", byWind.Beyond, byIncidence.Beyond)
	}
	// Stalled beyond 12 degrees: the strips that ask for more have nothing in hand.
	c.Sails[0].Coefficients = boat.SailCoefficients{
		Name: boat.OwnTable, Against: boat.Incidence, Angle: []float64{0, 0.21, 0.3}, Lift: []float64{1.2, 1.2, 0.7}, Drag: []float64{0.02, 0.05, 0.3},
	}
	s.Settings[mainSheet] = 0.40
	stalled := Explain(&c, mainAlone, s, wind, air, &Workspace{})[0]
	if stalled.Margin >= 0 || stalled.LargestLift >= 1.2 || stalled.SectionDrag <= 3*byIncidence.SectionDrag {
		t.Errorf("stalled: margin %.3f, largest lift %.3f, section drag %.0f N after %.0f N", stalled.Margin, stalled.LargestLift, stalled.SectionDrag, byIncidence.SectionDrag)
	}
}

// Where the boat file's own table does not reach the report says so, and what is
// done there; a built-in table's reach is told in its documentation.
func TestBeyondTheTable(t *testing.T) {
	b := testRig(t)
	s, wind := flying()
	air := fluid.StandardAir()
	for _, c := range []struct {
		against     boat.Abscissa
		from, to    float64
		want, other string
	}{
		{boat.WindAngle, 0.6, 3, "apparent wind angle 16.9 deg, its table has 34.38 to 171.9 deg: ", "largest lift led to nothing head to wind, drag held"},
		{boat.WindAngle, 0.1, 0.2, "apparent wind angle up to 16.9 deg, ", "its table has 5.73 to 11.46 deg: its last line held"},
		{boat.WindAngle, 0.1, 3, "", ""},
		{boat.Incidence, 0.5, 0.6, "incidence down to ", "its first line held"},
		{boat.Incidence, 0, 0.01, "incidence up to ", "its last line held"},
		{boat.Incidence, 0, 0.6, "", ""},
	} {
		b.Sails[0].Coefficients = boat.SailCoefficients{Name: boat.OwnTable, Against: c.against, Angle: []float64{c.from, c.to}, Lift: []float64{1.4, 1.5}, Drag: []float64{0.02, 0.03}}
		got := Explain(b, mainAlone, s, wind, air, &Workspace{})[0].Beyond
		if !strings.HasPrefix(got, c.want) || !strings.Contains(got, c.other) || c.want == "" && got != "" {
			t.Errorf("by %s from %g to %g: %q, want %q … %q", c.against, c.from, c.to, got, c.want, c.other)
		}
	}
	b.Sails[0].Coefficients, _ = Coefficients("jib")
	if got := Explain(b, mainAlone, s, wind, air, &Workspace{})[0].Beyond; got != "" {
		t.Errorf("a built-in table: %q", got)
	}
}

// Sails farther aft push the bow up to the wind by their side force times the
// distance, and change no force: the centre of effort fore and aft enters yaw.
func TestCentreOfEffortEntersYaw(t *testing.T) {
	b := testRig(t)
	s, wind := flying()
	s.Attitude.Heel, s.Attitude.Pitch = 0, 0
	air := fluid.StandardAir()
	const aft = 0.5
	for _, side := range []float64{1, -1} {
		wind.Angle = si.Angle(side * math.Abs(float64(wind.Angle)))
		moved := *b
		moved.Sails = append([]boat.Sail(nil), b.Sails...)
		for i := range moved.Sails {
			moved.Sails[i].Tack.X -= aft
		}
		origin := frame.Point[frame.Track]{}
		before := sum(Loads(b, mainAndJib, s, wind, air, &Workspace{}, nil)).MovedTo(origin)
		after := sum(Loads(&moved, mainAndJib, s, wind, air, &Workspace{}, nil)).MovedTo(origin)
		near(t, "force", after.Force.Minus(before.Force).Norm(), 0, 1e-9*before.Force.Norm())
		boatFromTrack := s.Attitude.Pose().Turn.Inverse()
		turned := after.Moment.Z - before.Moment.Z
		sails := sum(Loads(b, mainAndJib, s, wind, air, &Workspace{}, nil), boat.SailLift, boat.SailInduced, boat.SailSection)
		near(t, "yaw moment", turned, -aft*boatFromTrack.Apply(sails.Force).Y, 1e-9*math.Abs(before.Moment.Z))
		if turned*side <= 0 {
			t.Errorf("sails farther aft turn the bow by %.0f N·m, want up to the wind", turned)
		}
		for i, r := range Explain(&moved, mainAndJib, s, wind, air, &Workspace{}) {
			near(t, "centre of effort", r.CentreOfEffort.X, Explain(b, mainAndJib, s, wind, air, &Workspace{})[i].CentreOfEffort.X-aft, 1e-9)
		}
	}
}

// What the ends of the luffs hand on adds up to the sail's force.
func TestEndsOfTheLuff(t *testing.T) {
	b := testRig(t)
	s, wind := flying()
	var w Workspace
	air := fluid.StandardAir()
	items := Loads(b, mainAndJib, s, wind, air, &w, nil)
	boatFromTrack := s.Attitude.Pose().Turn.Inverse()
	for i, r := range Explain(b, mainAndJib, s, wind, air, &w) {
		force := boatFromTrack.Apply(sum(items[3*i : 3*i+3]).Force)
		near(t, r.Name+" side force", r.MastFoot+r.MastHead, force.Y, 1e-9*force.Norm())
		near(t, r.Name+" force ahead", r.MastFootAhead+r.MastHeadAhead, force.X, 1e-9*force.Norm())
		if r.MastFoot >= r.MastHead || r.MastFootAhead <= 0 {
			t.Errorf("%s: %.0f N to port at the foot, %.0f N at the head, %.0f N ahead: want most at the foot, to leeward", r.Name, r.MastFoot, r.MastHead, r.MastFootAhead)
		}
	}
}

// Bad days with a flattened sail and a table by incidence: nothing is other than a
// number, and a workspace that sailed on remembers nothing wrong.
func TestFlattenedOnBadDays(t *testing.T) {
	b, flatten := withFlatten(t)
	b.Sails[0].Coefficients = boat.SailCoefficients{
		Name: boat.OwnTable, Against: boat.Incidence, Angle: []float64{0, 0.2, 0.5}, Lift: []float64{0, 1.4, 0}, Drag: []float64{0, 0.03, 0},
	}
	if err := Check(b); err != nil {
		t.Fatal(err)
	}
	s, wind := flying()
	s.Settings = append(s.Settings, 0)
	air := fluid.StandardAir()
	var w Workspace
	for _, windSpeed := range []si.Speed{0, 10, 40} {
		for angle := -180 * si.Degree; angle <= 180*si.Degree; angle += 45 * si.Degree {
			for _, sheet := range []float64{-0.4, 0, 0.1, 1} {
				for _, flat := range []float64{0, 0.5, 1} {
					wind.Speed, wind.Angle = windSpeed, angle
					s.Settings[mainSheet], s.Settings[flatten] = sheet, flat
					used, fresh := Loads(b, mainAndJib, s, wind, air, &w, nil), Loads(b, mainAndJib, s, wind, air, &Workspace{}, nil)
					for i := range used {
						if n := used[i].Load.Force.Norm() + used[i].Load.Moment.Norm(); math.IsNaN(n) || math.IsInf(n, 0) || used[i] != fresh[i] {
							t.Fatalf("wind %g from %g deg, sheet %g, flat %g: %v, from a fresh workspace %v", windSpeed, angle.Degrees(), sheet, flat, used[i], fresh[i])
						}
					}
					for i := range StripsOf(&w) {
						if n := InHand(&w, 0, i) + Lift(&w, 0, i); math.IsNaN(n) || math.IsInf(n, 0) {
							t.Fatalf("strip %d has %g in hand, lift %g", i, InHand(&w, 0, i), Lift(&w, 0, i))
						}
					}
				}
			}
		}
	}
	// What else is set leaves the sails' loads as they are.
	before := append([]boat.Item(nil), Loads(b, mainAndJib, s, wind, air, &w, nil)...)
	s.Settings[crewAcross] = -0.5
	after := Loads(b, mainAndJib, s, wind, air, &w, nil)
	for i := range after {
		if moved := after[i] != before[i]; moved != (after[i].Part == "crew") {
			t.Errorf("people moved: %s %v is %v after %v", after[i].Part, after[i].Cause, after[i].Load, before[i].Load)
		}
	}
}
