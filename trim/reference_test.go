package trim

import (
	"bytes"
	"encoding/json"
	"flag"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"

	"foilwright/boat"
	"foilwright/boatfile"
)

// referenceFile is where TestReferenceProblem writes what bench/reference is
// handed, for a look by hand:
//
//	go test -run TestReferenceProblem ./trim -reference-problem "$PWD/problem.json"
var referenceFile = flag.String("reference-problem", "", "file that the problem for bench/reference is written to")

const (
	referenceBoat   = "../examples/which-foil/sorrel.yaml"
	referenceScript = "../bench/reference/run.py"
)

// referenceRequest is what is asked of the reference and of this program: one
// mode, one set of sails, 17 knots, progress to windward.
func referenceRequest() Request {
	r := usual(17)
	r.Mode, r.Set = "one foil", "working"
	return r
}

func readExample(t testing.TB, name string) *boat.Boat {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	sheet, err := boatfile.Read(name, text, os.ReadFile)
	if err != nil {
		t.Fatal(err)
	}
	b, err := sheet.Boat(nil)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// searched searches for the reference's answer and keeps what was found.
func searched(t testing.TB, b *boat.Boat, r *Request) (best *attempt, all findings) {
	t.Helper()
	all, err := search(t.Context(), b, r, &Workspace{})
	if err != nil {
		t.Fatal(err)
	}
	best = pick(all.refined)
	if best == nil || !best.ok() {
		t.Fatal("no answer to compare with")
	}
	return best, all
}

// writeReference writes the problem with states to be looked at into a file.
func writeReference(t testing.TB, b *boat.Boat, r *Request, name string) (*referenceProblem, *attempt) {
	t.Helper()
	best, all := searched(t, b, r)
	reference, err := referenceOf(b, best, all)
	if err != nil {
		t.Fatalf("bench/reference cannot be handed %s: %v", b.Name, err)
	}
	reference.look(t, best.problem, best.outcome.X)
	for _, start := range reference.Starts {
		reference.look(t, best.problem, start)
	}
	reference.look(t, best.problem, shaken(best))
	reference.look(t, best.problem, strained(best))
	reference.write(t, name)
	return reference, best
}

// shaken is a state off the answer with everything moved, and so high that a wing
// comes out of the water.
func shaken(best *attempt) []float64 {
	x := slices.Clone(best.outcome.X)
	for i := range best.problem.variables {
		v := &best.problem.variables[i]
		x[i] = math.Min(math.Max(x[i]+3*v.scale*math.Sin(float64(3*i+1)), v.lower), v.upper)
		if v.kind == heightVariable {
			x[i] += 0.6
		}
	}
	return x
}

// strained is the answer with flaps, sheets and all that fine trim turns as far over
// as they go: foils and sails stall.
func strained(best *attempt) []float64 {
	x := slices.Clone(best.outcome.X)
	for i := range best.problem.variables {
		if v := &best.problem.variables[i]; v.kind == controlVariable {
			x[i] = v.upper
		}
	}
	return x
}

// runReference runs bench/reference on a problem.
func runReference(t testing.TB, into any, args ...string) {
	t.Helper()
	cmd := exec.Command(python, append([]string{referenceScript}, args...)...)
	var faults bytes.Buffer
	cmd.Stderr = &faults
	text, err := cmd.Output()
	if err != nil {
		t.Fatalf("bench/reference: %v\n%s", err, &faults)
	}
	if faults.Len() > 0 {
		t.Logf("%s", &faults)
	}
	if err := json.Unmarshal(text, into); err != nil {
		t.Fatal(err)
	}
}

// referenceAnswer is what run.py prints.
type referenceAnswer struct {
	Seconds, CPU float64 // s, by the clock and of the processor
	OneState     float64 // s
	Ends         []referenceEnd
	Best         *referenceEnd
	Build        string
	States       []referenceState
}

type referenceEnd struct {
	X                                  []float64
	Progress, Violation, Seconds, CPU  float64
	Iterations, Evaluations, Gradients int
	Message                            string
}

// The reference that this program's speed is measured against is the same
// problem: the same loads in the same states, item by item, and the same optimum.
func TestReferenceIsTheSameProblem(t *testing.T) {
	needSciPy(t)
	b, r := readExample(t, referenceBoat), referenceRequest()
	file := filepath.Join(t.TempDir(), "problem.json")
	reference, best := writeReference(t, b, &r, file)
	var looked referenceAnswer
	runReference(t, &looked, file, "--states")
	if len(looked.States) != len(reference.States) {
		t.Fatalf("%d states looked at, wanted are %d", len(looked.States), len(reference.States))
	}
	for i := range looked.States {
		compareStates(t, i, b, &looked.States[i], &reference.States[i])
	}
	var found referenceAnswer
	runReference(t, &found, file)
	for _, end := range found.Ends {
		t.Logf("SLSQP: progress %.6f m/s, violation %.1e, %d iterations, %d evaluations, %s", end.Progress, end.Violation, end.Iterations, end.Evaluations, end.Message)
	}
	if found.Best == nil {
		t.Fatal("the reference closes the equations from no start")
	}
	if gap := found.Best.Progress/best.progress() - 1; math.Abs(gap) > 1e-3 {
		t.Errorf("the reference's best is %.6f m/s, here it is %.6f: they differ by %.3f %%", found.Best.Progress, best.progress(), 100*gap)
	}
}

// same is how near the reference's figures are this program's, in weights, weights
// times the length and sizes of constraints: they differ by rounding alone, 1e-13 at
// most where this was written.
const same = 1e-9

// compareStates holds a state by the reference against this program's.
func compareStates(t *testing.T, index int, b *boat.Boat, got, want *referenceState) {
	t.Helper()
	force, moment := same*b.Weight(), same*b.Weight()*b.Length
	sums := make(map[referenceItem][2][3]float64)
	for side, items := range [2][]referenceItem{got.Items, want.Items} {
		sign := float64(1 - 2*side)
		for _, it := range items {
			key := referenceItem{Part: it.Part, Piece: it.Piece, Cause: it.Cause}
			s := sums[key]
			for k := range 3 {
				s[0][k] += sign * it.Force[k]
				s[1][k] += sign * it.Moment[k]
			}
			sums[key] = s
		}
	}
	for key, s := range sums {
		for k := range 3 {
			if !(math.Abs(s[0][k]) <= force && math.Abs(s[1][k]) <= moment) {
				t.Errorf("state %d: %s %s, %s: off by %.3g N and %.3g N·m along axis %d", index, key.Part, key.Piece, key.Cause, s[0][k], s[1][k], k)
			}
		}
	}
	compareRows(t, index, "objective", []float64{got.Objective}, []float64{want.Objective})
	compareRows(t, index, "equation", got.Equal, want.Equal)
	compareRows(t, index, "constraint", got.Inequal, want.Inequal)
}

func compareRows(t *testing.T, index int, what string, got, want []float64) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("state %d: %d %ss, wanted are %d", index, len(got), what, len(want))
		return
	}
	for i := range got {
		if !(math.Abs(got[i]-want[i]) <= same*math.Max(1, math.Abs(want[i]))) {
			t.Errorf("state %d: %s %d is %.9g, here it is %.9g", index, what, i, got[i], want[i])
		}
	}
}

func TestReferenceProblem(t *testing.T) {
	if *referenceFile == "" {
		t.Skip("no file named: see -reference-problem")
	}
	b, r := readExample(t, referenceBoat), referenceRequest()
	writeReference(t, b, &r, *referenceFile)
}
