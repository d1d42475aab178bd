package fluid

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"foilwright/accuracy"
	"foilwright/frame"
	"foilwright/si"
)

func profiles(t *testing.T) []Profile {
	t.Helper()
	var all []Profile
	for _, make := range []func() (Profile, error){
		func() (Profile, error) { return LogLaw(OpenSeaRoughness) },
		func() (Profile, error) { return PowerLaw(SeventhPower) },
		func() (Profile, error) { return PowerLaw(SpeedTrialExponent) },
		func() (Profile, error) { return LogLaw(0.1) },
		func() (Profile, error) { return PowerLaw(1) },
		func() (Profile, error) { return OpenSea().ReferredTo(30) },
		func() (Profile, error) { return Uniform(), nil },
	} {
		p, err := make()
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
	return all
}

func TestRatio(t *testing.T) {
	want := published(t, "wmo-2008.csv")
	for id, height := range map[string]float64{"6.01": 2, "6.02": 5, "6.04": 30} {
		for i, p := range profiles(t)[:3] {
			accuracy.Check(t, accuracy.Row{
				File: "wmo-2008.csv", ID: id, Quantity: "wind over that at 10 m, " + []string{"log law, 0.2 mm", "power 1/7", "power 1/9"}[i],
				Published: want[id][i], Computed: p.Ratio(height), Tolerance: 1e-6,
			})
		}
	}
	if OpenSea() != profiles(t)[0] {
		t.Error("the open sea is not the log law over its roughness")
	}
}

func TestRatioIsOneAtItsReference(t *testing.T) {
	for _, p := range profiles(t) {
		near(t, "ratio at the reference height", p.Ratio(p.Reference()), 1, 1e-15)
	}
}

// The law and its continuation to the surface meet in value and slope, the
// whole rises with height, and nothing blows under water.
func TestRatioIsSmoothDownToTheWater(t *testing.T) {
	for _, p := range profiles(t) {
		if p == Uniform() {
			continue
		}
		for _, z := range []float64{0, math.Copysign(0, -1), -3, math.Inf(-1), math.NaN()} {
			if r := p.Ratio(z); r != 0 {
				t.Errorf("%+v: ratio at %g m is %g, want 0", p, z, r)
			}
		}
		const step = 1e-4
		previous, previousSlope := 0.0, 0.0
		for z := step; z < 3; z += step {
			r := p.Ratio(z)
			if r <= previous {
				t.Fatalf("%+v: ratio falls to %g at %g m", p, r, z)
			}
			slope := (r - previous) / step
			// A kink of the join would show as a jump; the cubic's own curvature is below 12/join².
			if math.Abs(slope-previousSlope) > 12/(lowestLaw*lowestLaw)*step {
				t.Fatalf("%+v: slope jumps from %g to %g at %g m", p, previousSlope, slope, z)
			}
			previous, previousSlope = r, slope
		}
	}
}

func TestApparent(t *testing.T) {
	want := published(t, "closed-forms.csv")
	for _, c := range []struct {
		id    string
		speed si.Speed
		angle si.Angle
		boat  si.Speed
	}{
		{"7.01", 10, 90 * si.Degree, 10}, {"7.02", 12, 45 * si.Degree, 8}, {"7.04", 20, 130 * si.Degree, 35},
	} {
		speed, angle := Wind{Speed: c.speed, Angle: c.angle, Profile: OpenSea()}.Apparent(c.boat)
		accuracy.Check(t, accuracy.Row{
			File: "closed-forms.csv", ID: c.id, Quantity: "apparent wind speed", Unit: "m/s",
			Published: want[c.id][0], Computed: speed.MetresPerSecond(), Tolerance: 1e-5,
		})
		accuracy.Check(t, accuracy.Row{
			File: "closed-forms.csv", ID: c.id, Quantity: "apparent wind angle", Unit: "deg",
			Published: want[c.id][1], Computed: angle.Degrees(), Tolerance: 1e-5,
		})
		if other, mirrored := (Wind{Speed: c.speed, Angle: -c.angle}).Apparent(c.boat); other != speed || mirrored != -angle {
			t.Errorf("row %s on the other tack: %v from %v, want %v from %v", c.id, other, mirrored, speed, -angle)
		}
	}
}

// Wind from port blows to starboard; from ahead, aft.
func TestWindSigns(t *testing.T) {
	if v := (Wind{Speed: 5, Angle: 90 * si.Degree}).Velocity(10); v.Minus(frame.Vec[frame.Track]{Y: -5}).Norm() > 1e-12 {
		t.Errorf("wind from port moves at %v, want to starboard", v)
	}
	if v := (Wind{Speed: 5}).VelocityOverBoat(3, 10); v != (frame.Vec[frame.Track]{X: -8}) {
		t.Errorf("head wind over the boat is %v, want -8 along x", v)
	}
	if s, a := (Wind{}).Apparent(0); s != 0 || a != 0 {
		t.Errorf("calm at rest is %v from %v", s, a)
	}
	if s, a := (Wind{}).Apparent(4); s != 4 || a != 0 {
		t.Errorf("calm under way is %v from %v, want 4 from ahead", s, a)
	}
}

// The apparent wind closes the triangle at any height.
func TestTriangle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := Wind{
			Speed:   si.Speed(rapid.Float64Range(0, 40).Draw(t, "wind")),
			Angle:   si.Angle(rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "angle")),
			Profile: OpenSea(),
		}
		boat := si.Speed(rapid.Float64Range(0, 30).Draw(t, "boat"))
		height := rapid.Float64Range(0, 40).Draw(t, "height")
		closed := w.VelocityOverBoat(boat, height).Plus(frame.Vec[frame.Track]{X: float64(boat)})
		if closed.Minus(w.Velocity(height)).Norm() > 1e-12 {
			t.Errorf("triangle does not close: %v, %v", closed, w.Velocity(height))
		}
		speed, angle := w.Apparent(boat)
		air := w.VelocityOverBoat(boat, ReferenceHeight)
		back := frame.Vec[frame.Track]{X: -float64(speed) * angle.Cos(), Y: -float64(speed) * angle.Sin()}
		if back.Minus(air).Norm() > 1e-12*(1+air.Norm()) {
			t.Errorf("speed and angle give %v, want %v", back, air)
		}
	})
}

func TestProfileRefusesWhatIsNotALaw(t *testing.T) {
	_, roughness := LogLaw(0)
	_, rough := LogLaw(2)
	_, exponent := PowerLaw(7)
	_, nan := PowerLaw(math.NaN())
	_, height := OpenSea().ReferredTo(0.05)
	for says, err := range map[string]error{
		"wind roughness: 0 m, allowed is above 0 to 0.1 m":   roughness,
		"open sea is 0.0002 m":                               rough,
		"wind exponent: 7, allowed is above 0 to 1":          exponent,
		"wind exponent: NaN":                                 nan,
		"wind reference height: 0.05 m, allowed is 2 to 200": height,
	} {
		if err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("error is %v, want one that says %q", err, says)
		}
	}
}

func BenchmarkVelocityOverBoat(b *testing.B) {
	w := Wind{Speed: 10, Angle: 1, Profile: OpenSea()}
	b.ReportAllocs()
	sum := 0.0
	for b.Loop() {
		sum += w.VelocityOverBoat(12, 7.3).X
	}
	_ = sum
}
