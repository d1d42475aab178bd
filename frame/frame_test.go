package frame

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"foilwright/si"
)

func near(a, b Vec[Track], tol float64) bool { return a.Minus(b).Norm() <= tol }

// Signs fixed by the design: leeway positive with the bow to port, pitch
// positive bow down, heel positive starboard down.
func TestSigns(t *testing.T) {
	bow, port := Vec[Boat]{X: 1}, Vec[Boat]{Y: 1}
	const a = 10 * si.Degree
	if v := TrackFromBoat(a, 0, 0).Apply(bow); v.Y <= 0 || math.Abs(v.Y-a.Sin()) > 1e-15 {
		t.Errorf("positive leeway puts the bow at %v, want to port", v)
	}
	if v := TrackFromBoat(0, a, 0).Apply(bow); v.Z >= 0 {
		t.Errorf("positive pitch puts the bow at %v, want down", v)
	}
	if v := TrackFromBoat(0, 0, a).Apply(port); v.Z <= 0 {
		t.Errorf("positive heel puts the port side at %v, want up (starboard down)", v)
	}
}

// The attitude is the product of the three elementary rotations in the stated order.
func TestAttitudeIsTheStatedProduct(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle := rapid.Float64Range(-3, 3)
		l, p, h := si.Angle(angle.Draw(t, "leeway")), si.Angle(angle.Draw(t, "pitch")), si.Angle(angle.Draw(t, "heel"))
		v := Vec[Boat]{angle.Draw(t, "x"), angle.Draw(t, "y"), angle.Draw(t, "z")}
		w := Vec[Track](About(Vec[Boat]{X: 1}, h).Apply(v))
		w = About(Vec[Track]{Y: 1}, p).Apply(w)
		w = About(Vec[Track]{Z: 1}, l).Apply(w)
		r := TrackFromBoat(l, p, h)
		if !near(r.Apply(v), w, 1e-12) {
			t.Fatalf("attitude gives %v, product gives %v", r.Apply(v), w)
		}
		if back := r.Inverse().Apply(r.Apply(v)); back.Minus(v).Norm() > 1e-12 {
			t.Fatalf("there and back gives %v for %v", back, v)
		}
	})
}

func TestMovedToKeepsTheLoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.Float64Range(-100, 100)
		vec := func(n string) Vec[Boat] { return Vec[Boat]{g.Draw(t, n), g.Draw(t, n), g.Draw(t, n)} }
		l := Load[Boat]{vec("force"), vec("moment"), Point[Boat](vec("about"))}
		p := Point[Boat](vec("p"))
		back := l.MovedTo(p).MovedTo(l.About)
		if back.Moment.Minus(l.Moment).Norm() > 1e-9 || back.Force != l.Force {
			t.Fatalf("moved there and back: %v, want %v", back, l)
		}
		// A load seen from another frame and moved there is the moved load seen from there.
		pose := Pose[Track, Boat]{TrackFromBoat(0.1, -0.2, 0.3), Point[Track]{1, 2, 3}}
		a := pose.Load(l.MovedTo(p))
		b := pose.Load(l).MovedTo(pose.Point(p))
		if a.Moment.Minus(b.Moment).Norm() > 1e-8 {
			t.Fatalf("move then turn %v, turn then move %v", a.Moment, b.Moment)
		}
		if q := pose.Inverse().Point(pose.Point(p)); q.From(p).Norm() > 1e-10 {
			t.Fatalf("pose there and back: %v, want %v", q, p)
		}
	})
}

func TestRodrigues(t *testing.T) {
	v := About(Vec[Boat]{Z: 2}, 90*si.Degree).Apply(Vec[Boat]{X: 1})
	if v.Minus(Vec[Boat]{Y: 1}).Norm() > 1e-15 {
		t.Errorf("x turned 90 deg about z is %v, want y", v)
	}
	if v := About(Vec[Boat]{}, 1).Apply(Vec[Boat]{X: 1}); v != (Vec[Boat]{X: 1}) {
		t.Errorf("a null axis turned x to %v", v)
	}
}
