package boat

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"foilwright/frame"
)

type local = frame.Point[Local]

func path(t testing.TB, radius float64, points ...local) Path {
	t.Helper()
	p, err := NewPath(points, radius)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// An L with a rounded corner: two straight lengths shortened by the radius and a
// quarter circle (closed form).
func TestRoundedCorner(t *testing.T) {
	p := path(t, 0.25, local{}, local{Z: -2}, local{Y: 1.5, Z: -2})
	want := 1.75 + math.Pi/2*0.25 + 1.25
	if got := p.Length(); math.Abs(got-want) > 1e-12 {
		t.Errorf("length %.12f m, want %.12f", got, want)
	}
	middle, tangent := p.At((1.75 + math.Pi/4*0.25) / want)
	s := 0.25 * (1 - math.Sqrt(0.5))
	if d := middle.From(local{Y: s, Z: -2 + s}).Norm(); d > 1e-12 {
		t.Errorf("middle of the bend at %v, %.2g m off", middle, d)
	}
	if d := tangent.Minus(frame.Vec[Local]{Y: math.Sqrt(0.5), Z: -math.Sqrt(0.5)}).Norm(); d > 1e-12 {
		t.Errorf("tangent %v in the middle of the bend", tangent)
	}
	if breaks := p.AppendBreaks(nil); len(breaks) != 2 || math.Abs(breaks[0]-1.75/want) > 1e-12 {
		t.Errorf("breaks at %v", breaks)
	}
}

// Along any path the tangent is the derivative of the place, ends are where they
// were asked for, and a mirror image of a mirror image is the path.
func TestTangentIsTheDerivative(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.Float64Range(-1, 1)
		points := []local{{}}
		for i := range 3 {
			last := points[i]
			points = append(points, local{X: last.X + g.Draw(t, "x"), Y: last.Y + g.Draw(t, "y"), Z: last.Z - 1.5 - g.Draw(t, "z")})
		}
		p, err := NewPath(points, 0.05)
		if err != nil {
			return // a corner too sharp for its radius
		}
		if d := p.End().From(points[3]).Norm(); d > 1e-9 {
			t.Fatalf("the path ends %.2g m from its last point", d)
		}
		share := rapid.Float64Range(0.001, 0.998).Draw(t, "share")
		const h = 1e-6
		a, _ := p.At(share - h)
		b, tangent := p.At(share)
		c, _ := p.At(share + h)
		slope := c.From(a).Times(1 / (2 * h * p.Length()))
		if d := slope.Minus(tangent).Norm(); d > 1e-4 {
			t.Fatalf("tangent %v, difference %v", tangent, slope)
		}
		back, _ := p.Mirrored(0.7).Mirrored(0.7).At(share)
		if d := back.From(b).Norm(); d > 1e-12 {
			t.Fatalf("mirrored twice the path is %.2g m off", d)
		}
	})
}

func TestPathsThatCannotBe(t *testing.T) {
	for want, points := range map[string][]local{
		"needs two points or more":      {{}},
		"points 1 and 2 of the path co": {{}, {}},
		"needs 2 m on either side":      {{}, {Z: -1}, {Y: 1, Z: -1}},
		"doubles back":                  {{}, {Z: -5}, {Z: -1}},
		"overlap":                       {{}, {Z: -3}, {Y: 3, Z: -3}, {Y: 3, Z: -9}},
	} {
		if _, err := NewPath(points, 2); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v: error %v, want one with %q", points, err, want)
		}
	}
}

func TestAlong(t *testing.T) {
	a := Along{Share: []float64{0, 0.6, 1}, Value: []float64{0.34, 0.29, 0.12}}
	if got := a.At(0.3); math.Abs(got-0.315) > 1e-15 {
		t.Errorf("at 0.3: %v, want 0.315", got)
	}
	if got, want := a.Between(0, 1), 0.6*0.315+0.4*0.205; math.Abs(got-want) > 1e-15 {
		t.Errorf("area %v, want %v (two trapezia)", got, want)
	}
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.Float64Range(-0.2, 1.2)
		x, y, z := g.Draw(t, "x"), g.Draw(t, "y"), g.Draw(t, "z")
		if d := a.Between(x, y) + a.Between(y, z) - a.Between(x, z); math.Abs(d) > 1e-12 {
			t.Fatalf("the parts miss the whole by %g", d)
		}
	})
	if got := (Along{}).At(0.5); got != 0 {
		t.Errorf("zero value is %v", got)
	}
}

// A quarter circle is least far along the direction across its corner in its middle, and
// turns nowhere along the one that it follows; where it turns it runs square.
func TestTurnsOfABend(t *testing.T) {
	p := path(t, 0.5, local{}, local{Z: -2}, local{Y: 1.5, Z: -2})
	if got := p.AppendTurns(frame.Vec[Local]{Y: 1, Z: 1}, nil); len(got) != 1 || math.Abs(got[0]*p.Length()-(1.5+math.Pi/8)) > 1e-12 {
		t.Errorf("turns at %v, want the middle of the bend", got)
	}
	if got := p.AppendTurns(frame.Vec[Local]{Y: 1, Z: -1}, nil); len(got) != 0 {
		t.Errorf("turns at %v, where the path runs on", got)
	}
	for _, angle := range []float64{0.1, 0.7, 1.5} {
		up := frame.Vec[Local]{Y: math.Sin(angle), Z: math.Cos(angle)}
		turns := p.AppendTurns(up, nil)
		if len(turns) != 1 {
			t.Errorf("%v: turns at %v, want one", up, turns)
		}
		for _, share := range turns {
			q, tangent := p.At(share)
			if math.Abs(tangent.Dot(up)) > 1e-12 {
				t.Errorf("%v: the path runs along %v at %v", up, tangent, q)
			}
		}
	}
}
