package compare

import (
	"encoding/json"
	"math"
	"os"
	"path"
	"testing"

	"github.com/google/go-cmp/cmp"

	"foilwright/boat"
	"foilwright/boatfile"
	"foilwright/fluid"
	"foilwright/si"
	"foilwright/trim"
)

// dinghies are the example's dinghy and one with half her hull's windage.
func dinghies(t testing.TB) []trim.Job {
	t.Helper()
	request := trim.Request{
		WindSpeed: 7.7, Profile: fluid.OpenSea(), WindAngle: 90 * si.Degree, Water: fluid.StandardSea(), Air: fluid.StandardAir(),
		Aim: trim.AtAngle, Starts: 1,
	}
	const variant = "foilwright: 1\nname: Lean Sloe\nlike: sloe.yaml\nhulls: {hull: {windage: {area: 0.2 m²}}}\n"
	return []trim.Job{{Boat: read(t, "sloe.yaml", nil), Request: request}, {Boat: read(t, "lean.yaml", []byte(variant)), Request: request}}
}

func read(t testing.TB, name string, text []byte) *boat.Boat {
	t.Helper()
	const folder = "../examples/dinghy"
	open := func(name string) ([]byte, error) { return os.ReadFile(path.Join(folder, name)) }
	if text == nil {
		var err error
		if text, err = open(name); err != nil {
			t.Fatal(err)
		}
	}
	sheet, err := boatfile.Read(name, text, open)
	if err != nil {
		t.Fatal(err)
	}
	b, err := sheet.Boat(nil)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// One goroutine or two: the same bits. And what a comparison must hold.
func TestRunIsTheSameOnOneAndTwo(t *testing.T) {
	jobs := dinghies(t)
	one, err := Run(t.Context(), jobs, 0, 1, nil)
	if err != nil {
		t.Fatal(err)
	}
	two, err := Run(t.Context(), jobs, 0, 2, nil)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(bits(t, one), bits(t, two)); diff != "" {
		t.Errorf("one goroutine and two differ:\n%s", diff)
	}
	if one.Fastest != 1 {
		t.Errorf("fastest is %d, want the boat with less windage", one.Fastest)
	}
	holdsTogether(t, one)
	mirrorsTheBase(t, one, jobs)
}

func bits(t *testing.T, r *Result) string {
	t.Helper()
	text, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// The differences of the balance sheet add up to nothing, as both boats close;
// each change is the value less the base's.
func holdsTogether(t *testing.T, r *Result) {
	t.Helper()
	var sum Resolved
	for _, row := range r.Sheet {
		if *row.Changes[0] != (Resolved{}) {
			t.Errorf("%s %s: the base differs from itself by %v", row.Part, row.Cause, *row.Changes[0])
		}
		sum.Forward += row.Changes[1].Forward
		sum.Leeward += row.Changes[1].Leeward
		sum.Up += row.Changes[1].Up
	}
	if worst := math.Max(math.Abs(sum.Forward), math.Max(math.Abs(sum.Leeward), math.Abs(sum.Up))); worst > 1e-5 {
		t.Errorf("changes of all items add up to %v N, and both boats are in balance", sum)
	}
	last := math.Inf(1)
	for i := range r.Sheet {
		if size := r.Sheet[i].largest(); size > last {
			t.Errorf("row %d of the balance sheet is larger than the one before", i)
		} else {
			last = size
		}
	}
	for _, d := range r.Differences {
		for i := range d.Values {
			if d.Changes[i] == nil {
				continue
			}
			if want := *d.Values[i] - *d.Values[0]; *d.Changes[i] != want {
				t.Errorf("%s: change %v, want %v", d.Figure, *d.Changes[i], want)
			}
			if d.Shares[i] != nil && math.Abs(*d.Shares[i]*math.Abs(*d.Values[0])-*d.Changes[i]) > 1e-12*math.Abs(*d.Values[0]) {
				t.Errorf("%s: share %v of %v is not %v", d.Figure, *d.Shares[i], *d.Values[0], *d.Changes[i])
			}
		}
	}
}

// With the other boat as the base every change turns its sign.
func mirrorsTheBase(t *testing.T, r *Result, jobs []trim.Job) {
	t.Helper()
	other, err := Run(t.Context(), jobs, 1, 2, nil)
	if err != nil {
		t.Fatal(err)
	}
	for i, d := range r.Differences {
		o := other.Differences[i]
		if d.Figure != o.Figure {
			t.Fatalf("row %d is %s and %s", i, d.Figure, o.Figure)
		}
		if d.Changes[1] != nil && *d.Changes[1] != -*o.Changes[0] {
			t.Errorf("%s: %v from the first, %v from the second", d.Figure, *d.Changes[1], *o.Changes[0])
		}
	}
	if r.CarriedAt != other.CarriedAt || r.Fastest != other.Fastest {
		t.Error("height of the side force carried and the fastest do not depend on the base")
	}
}

func TestRunRefusesUnequalConditions(t *testing.T) {
	jobs := dinghies(t)
	jobs[1].Request.WindSpeed++
	if _, err := Run(t.Context(), jobs, 0, 1, nil); err == nil {
		t.Error("two winds were compared")
	}
	if _, err := Run(t.Context(), jobs, 2, 1, nil); err == nil {
		t.Error("a base that is no boat was taken")
	}
}

func TestDiffer(t *testing.T) {
	v := func(x float64) *float64 { return &x }
	d := Differ("speed", "m/s", Ratio, 0, []*float64{v(-2), v(-1), nil})
	if *d.Changes[1] != 1 || *d.Shares[1] != 0.5 || d.Changes[2] != nil || d.Shares[2] != nil {
		t.Errorf("changes %v, shares %v", d.Changes, d.Shares)
	}
	if d := Differ("speed", "m/s", Ratio, 1, []*float64{v(3), v(0)}); d.Shares[0] != nil {
		t.Errorf("a share of nothing is %v", *d.Shares[0])
	}
	if d := Differ("heel", "rad", Direction, 0, []*float64{v(3), v(4)}); d.Shares[1] != nil {
		t.Errorf("a share of a direction is %v", *d.Shares[1])
	}
	if d := Differ("speed", "m/s", Ratio, 0, []*float64{nil, v(4)}); d.Changes[1] != nil {
		t.Errorf("a change from nothing is %v", *d.Changes[1])
	}
}
