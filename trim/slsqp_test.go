package trim

import (
	"bufio"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"foilwright/fluid"
	"foilwright/si"
	"foilwright/solve"
)

// python is Debian's own, which sees Debian's SciPy.
const python = "/usr/bin/python3"

// needSciPy skips where SciPy is missing, and fails where it is said to be there.
func needSciPy(t testing.TB) {
	t.Helper()
	if err := exec.Command(python, "-c", "import scipy").Run(); err != nil {
		if strings.Contains(os.Getenv("FOILWRIGHT_NEEDS"), "scipy") {
			t.Fatalf("SciPy is needed and %s does not import it: %v", python, err)
		}
		t.Skip("SciPy is missing: install python3-scipy to compare with its SLSQP")
	}
}

func usual(knots float64) Request {
	return Request{WindSpeed: si.Speed(knots) * si.Knot, Profile: fluid.OpenSea(), Water: fluid.StandardSea(), Air: fluid.StandardAir()}
}

// A general-purpose optimiser, SciPy's SLSQP (Kraft 1988), driving the same
// functions from the same starts, finds nothing better by more than 0.1 %.
func TestSLSQPFindsNothingBetter(t *testing.T) {
	needSciPy(t)
	b := monohull(t)
	r := usual(17)
	w := &Workspace{}
	all, err := search(t.Context(), b, &r, w)
	if err != nil {
		t.Fatal(err)
	}
	best := pick(all.refined)
	if !best.ok() {
		t.Fatal("no answer to compare with")
	}
	var starts [][]float64
	for i := range all.surveyed {
		starts = append(starts, all.surveyed[i].start)
	}
	starts = append(starts, best.outcome.X)
	reached := 0
	for _, found := range driveSLSQP(t, best.problem, starts) {
		t.Logf("SLSQP: %+v (here %.9f)", found, best.outcome.Values.F)
		if found.Violation > 1e-6 {
			continue
		}
		gain := best.outcome.Values.F - found.F
		if gain > 1e-3*math.Abs(best.outcome.Values.F) {
			t.Errorf("SLSQP finds %.6f, better than %.6f by %.2f %%", found.F, best.outcome.Values.F, 100*gain/math.Abs(best.outcome.Values.F))
		}
		if math.Abs(gain) <= 1e-3*math.Abs(best.outcome.Values.F) {
			reached++
		}
	}
	if reached == 0 {
		t.Error("SLSQP closes the equations nowhere near the answer, so that it says nothing about it")
	}
}

type slsqpEnd struct {
	F, Violation float64
	Success      bool
	Message      string
	Iterations   int
}

// driveSLSQP serves the problem to the script.
func driveSLSQP(t *testing.T, p *problem, starts [][]float64) []slsqpEnd {
	t.Helper()
	sp := p.solve()
	cmd := exec.Command(python, "testdata/slsqp.py")
	in, err := cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	cmd.Stderr = os.Stderr
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	task, err := json.Marshal(map[string]any{
		"lower": sp.Lower, "upper": sp.Upper, "scale": sp.Scale, "starts": starts,
		"equalities": sp.Equalities, "values": 1 + sp.Equalities + sp.Inequalities,
	})
	if err != nil {
		t.Fatal(err)
	}
	fmt.Fprintf(in, "%s\n", task)
	v := solve.Values{Equal: make([]float64, sp.Equalities), Inequal: make([]float64, sp.Inequalities)}
	lines := bufio.NewScanner(out)
	lines.Buffer(nil, 1<<20)
	var ends []slsqpEnd
	for lines.Scan() {
		text := lines.Text()
		if rest, ok := strings.CutPrefix(text, "= "); ok {
			if err := json.Unmarshal([]byte(rest), &ends); err != nil {
				t.Fatal(err)
			}
			break
		}
		var x []float64
		for _, f := range strings.Fields(strings.TrimPrefix(text, "? ")) {
			value, err := strconv.ParseFloat(f, 64)
			if err != nil {
				t.Fatalf("the script says %q", text)
			}
			x = append(x, value)
		}
		if !p.values(x, &v) {
			fmt.Fprintln(in)
			continue
		}
		all := append(append([]float64{v.F}, v.Equal...), v.Inequal...)
		fmt.Fprintln(in, strings.Trim(fmt.Sprint(all), "[]"))
	}
	in.Close()
	if err := cmd.Wait(); err != nil {
		t.Fatalf("the script failed: %v", err)
	}
	return ends
}
