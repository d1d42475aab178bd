package sail

import (
	"fmt"
	"math"
	"testing"

	"foilwright/accuracy"
	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/si"
)

// Two wings one above the other, both with elliptic loads, meet in each other's
// wake σ times the drag that each has alone (Prandtl 1921; rows 3.26 to 3.28).
func TestBiplane(t *testing.T) {
	want := published(t, "prandtl-1921.csv")
	const n = 64
	for row, gap := range map[string]float64{"3.26": 0.05, "3.27": 0.1, "3.28": 0.15} {
		k, other := wing(n, far, far+1, even), wing(n, far, far+1, even)
		for i := range other.nodes {
			other.nodes[i].t, other.nodes[i].sail = gap, 1
		}
		for i := range other.segments {
			other.segments[i].t, other.segments[i].sail = gap, 1
			other.first[i] += n + 1
		}
		k.nodes, k.segments, k.first = append(k.nodes, other.nodes...), append(k.segments, other.segments...), append(k.first, other.first...)
		if !k.factor() {
			t.Fatal("singular")
		}
		load := func(i int) float64 { eta := 2*(k.segments[i].z-far) - 1; return math.Sqrt(1 - eta*eta) }
		own, mutual := 0.0, 0.0
		for i := range n {
			for j := range n {
				own += load(i) * k.influence(i, j) * load(j) * k.segments[i].length
				mutual += load(i) * k.influence(i, n+j) * load(n+j) * k.segments[i].length
			}
		}
		accuracy.Check(t, accuracy.Row{
			File: "prandtl-1921.csv", ID: row, Quantity: "interference factor σ, elliptic loads", Conditions: fmt.Sprintf("gap %g of the span, two sails of 64 strips", gap),
			Published: want[row][0], Computed: mutual / own, Tolerance: 5e-4,
		})
	}
}

// What one sail's wake does to another it suffers in turn (Munk 1921), up to the
// cores' different radii, and the set's induced drag is positive whatever the
// loads.
func TestReciprocity(t *testing.T) {
	b := testRig(t)
	s, wind := flying()
	for _, core := range []float64{0, 0.25} {
		c := *b
		c.Model.WakeCore = core
		w := Workspace{Strips: 32}
		Loads(&c, mainAndJib, s, wind, fluid.StandardAir(), &w, nil)
		mutual := func(from, to int, load func(eta float64) float64) float64 {
			sum := 0.0
			for i := w.sails[to].first; i < w.sails[to].last; i++ {
				for j := w.sails[from].first; j < w.sails[from].last; j++ {
					sum += load(w.strips[i].eta) * w.wake.segments[i].length * w.wake.influence(i, j) * load(w.strips[j].eta)
				}
			}
			return sum
		}
		elliptic := func(eta float64) float64 { return math.Sqrt(eta * (1 - eta)) }
		there, back := mutual(0, 1, elliptic), mutual(1, 0, elliptic)
		// The strips' own quadrature is good for 1 %, different cores for a few more.
		near(t, "one way over the other", there/back, 1, 0.012+0.15*core)
		if own := mutual(0, 0, elliptic); !(own > 0 && mutual(1, 1, elliptic) > 0 && there*back < own*mutual(1, 1, elliptic)) {
			t.Errorf("core %g: some load of the set has negative induced drag", core)
		}
	}
}

// A sail in the plane of another's wake stays within bounds, because the wake has a core.
func TestSailInAnothersWake(t *testing.T) {
	b := testRig(t)
	b.Sails[1].Lean, b.Sails[1].Tack.Z = 0, 1.4
	for i := range b.Sails {
		b.Sails[i].Coefficients = boat.SailCoefficients{Angle: []float64{0}, Lift: []float64{5}, Drag: []float64{0.02}}
	}
	s, wind := flying()
	s.Attitude, wind.Profile, wind.Angle = boat.Attitude{Height: 0.8}, fluid.Uniform(), 0
	last := 0.0
	for i, angle := range []float64{0.02, 0.01, 0.001, 0} {
		wind.Angle = si.Angle(angle)
		lift, _ := totals(Explain(b, mainAndJib, s, wind, fluid.StandardAir(), &Workspace{}))
		if i > 0 {
			near(t, "lift as the wakes come into line", lift/last, 1, 0.01)
		}
		last = lift
	}
}

// With upright sails incidence is the sheet's, plus how much freer the wind is
// than at mid-height, less the twist's share; worked out here from the wind alone.
func TestIncidence(t *testing.T) {
	b := testRig(t)
	s, wind := flying()
	s.Attitude = boat.Attitude{Height: 0.8, Leeway: 2 * si.Degree}
	for _, side := range []float64{1, -1} {
		wind.Angle = si.Angle(side * math.Abs(float64(wind.Angle)))
		s.Attitude.Leeway = si.Angle(side * math.Abs(float64(s.Attitude.Leeway)))
		r := Explain(b, mainAlone, s, wind, fluid.StandardAir(), &Workspace{})[0]
		angle := func(height float64) float64 {
			v := wind.VelocityOverBoat(s.Speed, height)
			return math.Abs(math.Atan2(-v.Y, -v.X) - float64(s.Attitude.Leeway))
		}
		middle := angle(0.8 + b.Sails[0].Tack.Z + b.Sails[0].Luff/2)
		near(t, "wind angle", float64(r.WindAngle), middle, 1e-12)
		for _, p := range r.Strips {
			want := s.Settings[mainSheet] + angle(p.Height) - middle - s.Settings[mainTwist]*(p.Share-0.5)
			near(t, "incidence", float64(p.Incidence), want, 1e-12)
		}
		if top, foot := r.Strips[15].Incidence+si.Angle(s.Settings[mainTwist]/2), r.Strips[0].Incidence-si.Angle(s.Settings[mainTwist]/2); top <= foot {
			t.Errorf("without twist the head stands at %g, the foot at %g: want more where the wind is freer", top, foot)
		}
		if side*r.MastFoot >= 0 {
			t.Errorf("side force at the mast foot is %g N, want to leeward", r.MastFoot)
		}
	}
}

// In a uniform wind an upright windage has its closed form, and follows its
// weight; in the sea's wind it is the integral over its height.
func TestWindage(t *testing.T) {
	b := testRig(t)
	s, wind := flying()
	s.Attitude = boat.Attitude{}
	air := fluid.StandardAir()
	var w Workspace
	wind.Profile = fluid.Uniform()
	items := Loads(b, barePoles, s, wind, air, &w, nil)
	v := wind.VelocityOverBoat(s.Speed, 10)
	want := v.Unit().Times(air.DynamicPressure(si.Speed(v.Norm())) * 7 * 0.35)
	if d := items[0].Load.Force.Minus(want).Norm(); d > 1e-9 {
		t.Errorf("mast drags %v, want %v", items[0].Load.Force, want)
	}
	near(t, "height of the mast's drag", items[0].Load.Moment.Norm(), 0, 1e-9)
	near(t, "mast's middle", items[0].Load.About.Z, 10.3, 1e-12)
	near(t, "crew's windage across", items[1].Load.About.Y, 0.9, 1e-12)

	wind.Profile = fluid.OpenSea()
	load := Loads(b, barePoles, s, wind, air, &w, nil)[0].Load
	force, moment := frame.Vec[frame.Track]{}, frame.Vec[frame.Track]{}
	const steps = 20000
	for i := range steps {
		z := 1 + 18.6*(float64(i)+0.5)/steps
		v := wind.VelocityOverBoat(s.Speed, z)
		f := v.Times(air.Density / 2 * v.Norm() * 7 * 0.35 / steps)
		force, moment = force.Plus(f), moment.Plus(frame.Vec[frame.Track]{Z: z}.Cross(f))
	}
	origin := load.MovedTo(frame.Point[frame.Track]{})
	near(t, "mast's drag in the sea's wind", origin.Force.Minus(force).Norm()/force.Norm(), 0, 1e-4)
	near(t, "mast's moment in the sea's wind", origin.Moment.Minus(moment).Norm()/moment.Norm(), 0, 1e-4)
}
