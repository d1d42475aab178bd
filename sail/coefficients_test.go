package sail

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"foilwright/accuracy"
	"foilwright/boat"
	"foilwright/si"
)

// The tables are Hazen's (1980; rows 6.11 and 6.12: from memory, so this only
// says that the copy is true, not that the figures are).
func TestHazen(t *testing.T) {
	want := published(t, "hazen-1980.csv")
	for i, name := range []string{"fully battened main", "jib"} {
		c, err := Coefficients(name)
		if err != nil {
			t.Fatal(err)
		}
		for j, degrees := range []float64{27, 50, 80, 100, 180} {
			a := si.Angle(degrees) * si.Degree
			row := accuracy.Row{File: "hazen-1980.csv", Conditions: fmt.Sprintf("apparent wind angle %g°", degrees), Tolerance: 1e-6}
			row.ID, row.Quantity, row.Published, row.Computed = "6.11", "largest lift coefficient, "+name, want["6.11"][5*i+j], LargestLift(c, a)
			accuracy.Check(t, row)
			row.Source = "as row 6.11"
			row.ID, row.Quantity, row.Published, row.Computed = "6.12", "section drag coefficient, "+name, want["6.12"][5*i+j], SectionDrag(c, -a)
			accuracy.Check(t, row)
		}
	}
}

// Between its points every table is monotone, with a continuous slope, down to
// no lift head to wind; the other side and a turn more make no difference.
func TestCoefficientsAreSmooth(t *testing.T) {
	for _, c := range tables() {
		const step = 1e-4
		previous, slope := LargestLift(c, 0), 0.0
		near(t, c.Name+" lift head to wind", previous, 0, 0)
		for a := step; a < math.Pi; a += step {
			l := LargestLift(c, si.Angle(a))
			if now := (l - previous) / step; a > 2*step && math.Abs(now-slope) > 60*step {
				t.Fatalf("%s: slope of largest lift jumps from %g to %g at %g rad", c.Name, slope, now, a)
			}
			slope, previous = (l-previous)/step, l
			for i := 1; i < len(c.Angle); i++ {
				if a > c.Angle[i-1] && a < c.Angle[i] {
					if low, high := min(c.Lift[i-1], c.Lift[i]), max(c.Lift[i-1], c.Lift[i]); l < low-1e-12 || l > high+1e-12 {
						t.Fatalf("%s: largest lift %g at %g rad lies outside %g to %g", c.Name, l, a, low, high)
					}
				}
			}
			for _, same := range []float64{-a, a + 2*math.Pi} {
				if math.Abs(LargestLift(c, si.Angle(same))-l) > 1e-9 {
					t.Fatalf("%s: largest lift at %g rad differs from that at %g", c.Name, same, a)
				}
			}
		}
	}
	c, _ := Coefficients("fully battened main")
	// The start from zero is the lift of a plate at the wind's own angle.
	near(t, "slope of largest lift head to wind", LargestLift(c, 1e-6)/1e-6, 2*math.Pi, 0.1)
}

func TestUnknownCoefficients(t *testing.T) {
	_, err := Coefficients("bedsheet")
	if err == nil || !strings.Contains(err.Error(), `"bedsheet" are not known`) || !strings.Contains(err.Error(), "fully battened main, jib, large headsail, rigid wing") {
		t.Errorf("error is %v, want one that lists what is known", err)
	}
}

// Past the largest lift, lift and drag go on with a continuous slope, lift gains
// little and drag is bounded; both are even about no lift.
func TestStalled(t *testing.T) {
	const largest, step = 1.2, 1e-6
	for _, at := range []float64{largest, -largest} {
		l0, d0 := stalled(at-step, largest)
		l1, d1 := stalled(at+step, largest)
		near(t, "slope of lift at the largest", (l1-l0)/(2*step), 1, 1e-4)
		near(t, "slope of drag at the largest", (d1-d0)/(2*step), 0, 1e-4)
	}
	l, d := stalled(5, largest)
	if l <= largest || l > largest+yield || d <= 0 || d > mostStallDrag {
		t.Errorf("far past the largest: lift %g, drag %g", l, d)
	}
	if m, e := stalled(-5, largest); m != -l || e != d {
		t.Errorf("lift %g and drag %g to windward, want %g and %g", m, e, -l, d)
	}
}

// A plan has its stated area, for a hollow leech, a triangle, a roach; its
// chords integrate to it and none is negative.
func TestPlan(t *testing.T) {
	for fullness := leastFullness; fullness <= mostFullness; fullness += 0.05 {
		p := newPlan(5, 17, fullness*5*17)
		near(t, "area", p.below(1), fullness*5*17, 1e-10)
		near(t, "foot", p.chord(0), 5, 1e-12)
		near(t, "head", p.chord(1), 5*headShare, 1e-12)
		const steps = 4000
		sum := 0.0
		for i := range steps {
			eta := (float64(i) + 0.5) / steps
			if c := p.chord(eta); !(c > 0 && c < 1.3*5) {
				t.Fatalf("fullness %.2f: chord %g at %g", fullness, c, eta)
			}
			sum += p.chord(eta) * 17 / steps
			if i == steps/3 {
				near(t, "area below", p.below(eta+0.5/steps), sum, 1e-4)
			}
		}
	}
}

func TestCheckNamesEveryFault(t *testing.T) {
	b := testRig(t)
	b.Sails[0].Area, b.Sails[1].Luff, b.Sails[1].Sheet = 90, 0, 77
	b.Sails[1].Coefficients.Drag = nil
	b.Sets = append(b.Sets, boat.Set{Name: "storm", Sails: []int{5}})
	b.Windages[0].Area = -1
	b.Windages[1].Follows = 9
	b.Model.Gap = math.NaN()
	err := Check(b)
	if err == nil {
		t.Fatal("a faulty boat passes")
	}
	for _, says := range []string{
		"sails.main.area: 90 m², allowed with this luff and foot is 34.4 to 86 m²",
		"sails.jib.luff: 0 m, allowed is above 0",
		"sails.jib.sheet: control 77 does not exist, the boat has 5",
		"sails.jib.coefficients: 5 angles, 5 lifts, 0 drags",
		"sets.storm: sail 5 does not exist, the boat has 2",
		"windage of mast: area -1 m²",
		"windage of crew: follows weight 9, the boat has 1",
		"model.gap: NaN, allowed is 0 to 100",
	} {
		if !strings.Contains(err.Error(), says) {
			t.Errorf("the error does not say %q:\n%v", says, err)
		}
	}
}
