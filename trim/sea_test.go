package trim

import (
	"math"
	"testing"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/si"
)

func sea(t testing.TB, height, period float64) fluid.Sea {
	t.Helper()
	s, err := fluid.NewSea(height, period)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Of long swell that runs with the boat nothing is missed, of short waves met
// head on all, and at the frequency that parts the two half of the power.
func TestNotFollowed(t *testing.T) {
	for _, c := range []struct{ met, want float64 }{{0, 0}, {followFrequency, math.Sqrt2 / 2}, {-followFrequency, math.Sqrt2 / 2}, {20 * followFrequency, 1}} {
		if got := notFollowed(c.met); math.Abs(got-c.want) > 4e-6 {
			t.Errorf("met at %g rad/s the share missed is %g, want %g", c.met, got, c.want)
		}
	}
	swell, chop := sea(t, 1, 14), sea(t, 1, 2.4)
	up := roomIn(swell, 15, 45*si.Degree)
	if r := roomIn(chop, 15, 45*si.Degree); !(up.Room < 0.1*up.Amplitude && r.Room > 0.95*r.Amplitude) {
		t.Errorf("swell asks for %.3f m of %.3f m, chop for %.3f m of %.3f m", up.Room, up.Amplitude, r.Room, r.Amplitude)
	}
	celerity := si.Speed(chop.Length() / chop.Period)
	if r := roomIn(chop, 2*celerity, 180*si.Degree); r.Overtaking != BoatPass || math.Abs(*r.Encounter-chop.Period) > 1e-9 {
		t.Errorf("at twice the waves' speed before them they are met every %v, %s", *r.Encounter, r.Overtaking)
	}
	if r := (Request{}); r.room(15, 1) != 0 {
		t.Error("a calm asks for room")
	}
}

// A sea that asks for less than the boat has changes nothing; one that asks for
// more holds her there, and what it costs is what solving again in a little more
// and a little less of it says.
func TestSeaAsksForRoom(t *testing.T) {
	b := monohull(t)
	r := usual(17)
	r.Starts = 1
	calm := found(t, b, r)
	if calm.Sea != nil {
		t.Error("a calm is told as a sea")
	}
	r.Sea = sea(t, 0.1, 3)
	if low := found(t, b, r); math.Abs(float64(low.VMG/calm.VMG)-1) > 1e-6 {
		t.Errorf("0.1 m of sea changes progress from %.6f to %.6f m/s", calm.VMG, low.VMG)
	}
	in := func(height float64) *Result {
		r.Sea = sea(t, height, 4)
		return found(t, b, r)
	}
	const height, step = 1.2, 0.01
	res := in(height)
	price := 0.0
	for _, l := range res.Limits {
		if l.Name != rideInSea && l.Name != tipInSea {
			continue
		}
		t.Logf("%s %.4f m, at least %.4f, price %.4f m/s per m", l.Name, l.Value, *l.Lower, l.Price)
		price += l.Price
		if math.Abs(*l.Lower-res.Sea.Room) > 1e-9 || l.Value < *l.Lower-1e-7 {
			t.Errorf("%s is %.5f m, the sea asks for %.5f, told as %.5f", l.Name, l.Value, res.Sea.Room, *l.Lower)
		}
	}
	if !(price > 0) {
		t.Fatalf("%.1f m of sea costs nothing", height)
	}
	solved := (in(height-step).VMG - in(height+step).VMG).MetresPerSecond() / (2 * step)
	told := price * res.Sea.Room / height
	t.Logf("a metre of wave height costs %.5f m/s by the price of the room, %.5f by solving again", told, solved)
	if math.Abs(told-solved) > 0.02*solved {
		t.Errorf("a metre of wave height costs %.5f m/s by the price of the room, %.5f by solving again", told, solved)
	}
}

// What the sea asks is asked of hulls that must stay dry and of tips that must stay
// under; limits that let them be elsewhere, or that do not hold, ask nothing.
func TestWhomTheSeaAsks(t *testing.T) {
	names := func(change func(b *boat.Boat, r *Request)) (hull, tip int) {
		b, r := monohull(t), usual(17)
		r.Sea = sea(t, 0.5, 3)
		change(b, &r)
		w := &Workspace{}
		p, err := newProblem(b, &r, mustWay(t, b, &r), &w.fine)
		if err != nil {
			t.Fatal(err)
		}
		for i := range p.rows {
			switch p.rows[i].figure {
			case seaHull:
				hull++
			case seaTip:
				tip++
			}
		}
		return hull, tip
	}
	limit := func(b *boat.Boat, kind boat.LimitKind) *boat.Limit {
		for i := range b.Limits {
			if b.Limits[i].Kind == kind {
				return &b.Limits[i]
			}
		}
		t.Fatal("no such limit")
		return nil
	}
	for _, c := range []struct {
		name      string
		change    func(b *boat.Boat, r *Request)
		hull, tip bool
	}{
		{"as she is", func(*boat.Boat, *Request) {}, true, true},
		{"a calm", func(_ *boat.Boat, r *Request) { r.Sea = fluid.Sea{} }, false, false},
		{"tips may fly", func(b *boat.Boat, _ *Request) { limit(b, boat.LimitTipDepth).Lower = -0.3 }, true, false},
		{"the hull may float", func(b *boat.Boat, _ *Request) { limit(b, boat.LimitRideHeight).Lower = -0.3 }, false, true},
		{"no limit on ride height", func(b *boat.Boat, _ *Request) { limit(b, boat.LimitRideHeight).Kind = boat.LimitSpeed }, true, true},
		{"tip depth relaxed", func(_ *boat.Boat, r *Request) { r.Relaxed = []string{"tip depth"} }, true, false},
		{"relaxed by name", func(_ *boat.Boat, r *Request) { r.Relaxed = SeaLimits() }, false, false},
	} {
		if hull, tip := names(c.change); hull > 0 != c.hull || tip > 0 != c.tip {
			t.Errorf("%s: %d rows of the hull and %d of tips in the sea", c.name, hull, tip)
		}
	}
}

// A sea that asks for more than the boat can ride and reach has no answer, and the
// sea is the reason.
func TestTooMuchSea(t *testing.T) {
	b, r := monohull(t), usual(17)
	r.Starts, r.Sea, r.Aim, r.WindAngle = 1, sea(t, 4, 5.2), AtAngle, 60*si.Degree
	res, err := Best(t.Context(), b, r, nil)
	if err != nil {
		t.Fatal(err)
	}
	if res.Answer != NoAnswer {
		t.Fatalf("4 m of sea is sailed at a ride height of %.2f m", res.RideHeight)
	}
	if res.Reason.Limit != TheSea {
		t.Errorf("the reason is %q: %+v", res.Reason.Limit, res.Reason)
	}
}
