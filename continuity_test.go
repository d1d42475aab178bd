package foilwright_test

import (
	"fmt"
	"math"
	"testing"

	"foilwright/boat"
	"foilwright/si"
	"foilwright/trim"
)

// Speed is continuous in wind and angle: along a chain of trims at rising wind, or
// at rising angle, the best of what is found from either neighbour bends and has no
// jumps. A change of mode, set of sails, or side of the surface is a kink.
func TestSpeedIsContinuous(t *testing.T) {
	for _, c := range []optimumCase{{"examples/dinghy/sloe.yaml", "", 16}, {"examples/catamaran/bramble.yaml", "", 14}} {
		b := example(t, c.file)
		r := c.request(trim.AtAngle)
		r.Starts = 1
		var winds, angles []chainPlace
		for knots := 9.0; knots <= 21; knots += 2 {
			winds = append(winds, chainPlace{si.Speed(knots) * si.Knot, 105 * si.Degree})
		}
		for angle := 60.0; angle <= 140; angle += 10 {
			angles = append(angles, chainPlace{r.WindSpeed, si.Angle(angle) * si.Degree})
		}
		for _, places := range [][]chainPlace{winds, angles} {
			l := chain{boat: b, request: r, places: places}
			l.sail(t)
			if l.smooth(t) < 5 {
				t.Errorf("%s flies at few of %v: the test says little", b.Name, places)
			}
		}
	}
}

// branchCase is one example on one branch, over winds in which it is sailed.
type branchCase struct {
	file, mode string
	branch     trim.Branch
	from, to   float64 // kn
}

// branches are all four kinds of boat, on their hulls and flying; of the one that is
// partly lifted the second is what its limits allow.
func branches() []branchCase {
	return []branchCase{
		{"examples/twenty-metre/hawthorn.yaml", "one foil", trim.Afloat, 3, 6},
		{"examples/twenty-metre/hawthorn.yaml", "one foil", trim.AsLimited, 10, 20},
		{"examples/dinghy/sloe.yaml", "", trim.Afloat, 3, 6},
		{"examples/dinghy/sloe.yaml", "", trim.AsLimited, 8, 18},
		{"examples/catamaran/bramble.yaml", "", trim.Afloat, 2.5, 5.5},
		{"examples/catamaran/bramble.yaml", "", trim.AsLimited, 7, 17},
		{"examples/keelboat/guelder.yaml", "", trim.Afloat, 4, 10},
		{"examples/keelboat/guelder.yaml", "", trim.AsLimited, 17, 23},
	}
}

// branchSteps is into how many steps the winds of a branch are cut.
const branchSteps = 5

// Speed is continuous in wind on each branch, afloat and flying, of all four kinds of
// boat: most speed at 105°.
func TestSpeedIsContinuousOnEachBranch(t *testing.T) {
	if testing.Short() {
		t.Skip("eight chains of trims: left out in short runs")
	}
	for _, c := range branches() {
		t.Run(c.file[len("examples/"):]+" "+c.branch.String(), func(t *testing.T) {
			r := optimumCase{c.file, c.mode, c.from}.request(trim.AtAngle)
			r.Branch, r.Starts = c.branch, 1
			l := chain{boat: example(t, c.file), request: r}
			for k := 0; k <= branchSteps; k++ {
				knots := c.from + (c.to-c.from)*float64(k)/branchSteps
				l.places = append(l.places, chainPlace{si.Speed(knots) * si.Knot, 105 * si.Degree})
			}
			l.sail(t)
			for i, f := range l.found {
				if f == nil {
					t.Errorf("no answer at %v", l.places[i])
					continue
				}
				t.Logf("%v: %.2f kn, %.0f %% on the hulls", l.places[i], f.Speed.Knots(), 100*f.OnHulls)
			}
			if looked := l.smooth(t); looked < branchSteps-1 {
				t.Errorf("three neighbours sail at %d places, %d are there", looked, branchSteps-1)
			}
		})
	}
}

type chainPlace struct {
	wind  si.Speed
	angle si.Angle
}

func (p chainPlace) String() string {
	return fmt.Sprintf("%.1f kn, %.1f°", p.wind.Knots(), p.angle.Degrees())
}

// chain is a row of trims, each the best of what both neighbours lead to, and
// searched afresh where neither flies; nil where there is none.
type chain struct {
	boat    *boat.Boat
	request trim.Request
	places  []chainPlace
	found   []*trim.Result
}

// at trims at a place from a neighbour, or afresh where there is none.
func (l *chain) at(t *testing.T, p chainPlace, from *trim.Result) *trim.Result {
	t.Helper()
	r := l.request
	r.WindSpeed, r.WindAngle, r.From = p.wind, p.angle, from
	if from != nil {
		r.Starts = trim.OnlyFrom
	}
	if res := best(t, l.boat, r); res.Answer == trim.Found {
		return res
	}
	return nil
}

func (l *chain) sail(t *testing.T) {
	t.Helper()
	l.found = make([]*trim.Result, len(l.places))
	for i, p := range l.places {
		if i > 0 {
			l.carry(t, i-1, i)
		}
		if l.found[i] == nil {
			l.found[i] = l.at(t, p, nil)
		}
	}
	for i := len(l.places) - 2; i >= 0; i-- {
		l.carry(t, i+1, i)
	}
}

func (l *chain) carry(t *testing.T, from, to int) {
	t.Helper()
	if l.found[from] != nil {
		l.found[to] = faster(l.found[to], l.at(t, l.places[to], l.found[from]))
	}
}

func faster(a, b *trim.Result) *trim.Result {
	if a == nil || b != nil && b.Speed > a.Speed {
		return b
	}
	return a
}

// bend is by how much of itself speed may lie off the line through its neighbours
// before it is looked at more closely, and jump what may be left of that when the
// steps have been halved until only a jump could be left.
const (
	bend   = 0.02
	jump   = 0.002
	halved = 4
)

// smooth looks at each three neighbours, and returns at how many it could.
func (l *chain) smooth(t *testing.T) int {
	t.Helper()
	looked := 0
	for i := 1; i+1 < len(l.found); i++ {
		a, m, c := l.found[i-1], l.found[i], l.found[i+1]
		if a == nil || m == nil || c == nil {
			continue
		}
		looked++
		off := math.Abs(float64(m.Speed-(a.Speed+c.Speed)/2)) / float64(m.Speed)
		if off <= bend {
			continue
		}
		for _, ends := range [2][2]int{{i - 1, i}, {i, i + 1}} {
			l.closer(t, ends[0], ends[1])
		}
	}
	return looked
}

// closer halves the step between two places, on the side that holds most of the
// change, and fails where the change does not shrink with the step.
func (l *chain) closer(t *testing.T, i, k int) {
	t.Helper()
	low, high := l.places[i], l.places[k]
	a, c := l.found[i], l.found[k]
	whole := math.Abs(float64(c.Speed-a.Speed)) / float64(a.Speed)
	for range halved {
		mid := chainPlace{(low.wind + high.wind) / 2, (low.angle + high.angle) / 2}
		m := faster(l.at(t, mid, a), l.at(t, mid, c))
		if m == nil {
			return // a gap between two places that are sailed: another test's matter
		}
		if math.Abs(float64(m.Speed-a.Speed)) > math.Abs(float64(c.Speed-m.Speed)) {
			high, c = mid, m
		} else {
			low, a = mid, m
		}
	}
	left := math.Abs(float64(c.Speed-a.Speed)) / float64(a.Speed)
	t.Logf("%s: between %v and %v speed changes by %.2f %%, over a sixteenth of that, at %v, by %.3f %%", l.boat.Name, l.places[i], l.places[k], 100*whole, low, 100*left)
	if left > jump && left > whole/4 {
		t.Errorf("%s: speed jumps by %.2f %% between %v and %v (%.4f and %.4f m/s)", l.boat.Name, 100*left, low, high, a.Speed, c.Speed)
	}
}
