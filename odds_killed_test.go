package foilwright_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// Odds that are killed half-way, by a signal that no program can catch, and asked
// again end in the same answer and the same file as those that were left alone,
// on another number of cores.
func TestKilledOddsEndInTheSameBytes(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the program and trims a boat 120 times: left out in short runs")
	}
	folder := t.TempDir()
	program := filepath.Join(folder, "foilwright")
	if out, err := exec.Command("go", "build", "-o", program, "./cmd/foilwright").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	call := func(cores, out string) *exec.Cmd {
		c := exec.Command(program, "odds", "examples/dinghy/sloe.yaml", "--tws", "12 kn ± 0.5 kn", "--samples", "56", "--tornado", "--out", filepath.Join(folder, out))
		c.Env = append(os.Environ(), "GOMAXPROCS="+cores)
		return c
	}
	pieces := func(out string) []string {
		all, err := filepath.Glob(filepath.Join(folder, out, "samples", "*"))
		if err != nil {
			t.Fatal(err)
		}
		return slices.DeleteFunc(all, func(name string) bool { return strings.HasSuffix(name, ".part") })
	}
	killed := call("1", "killed")
	if err := killed.Start(); err != nil {
		t.Fatal(err)
	}
	for deadline := time.Now().Add(5 * time.Minute); len(pieces("killed")) < 3; time.Sleep(5 * time.Millisecond) {
		if time.Now().After(deadline) {
			t.Error("no pieces are kept")
			break
		}
	}
	if err := killed.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	if err := killed.Wait(); err == nil {
		t.Fatal("the run had ended before it was killed")
	}
	before := len(pieces("killed"))
	if _, err := os.Stat(filepath.Join(folder, "killed", "samples.parquet")); err == nil || before >= 7 {
		t.Fatalf("the run had %d of 7 pieces and its file when it was killed", before)
	}
	var answers, files [2][]byte
	for i, c := range [2][2]string{{"2", "killed"}, {"1", "whole"}} {
		var err error
		if answers[i], err = call(c[0], c[1]).Output(); err != nil {
			t.Fatal(err)
		}
		if files[i], err = os.ReadFile(filepath.Join(folder, c[1], "samples.parquet")); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(answers[0], answers[1]) {
		t.Errorf("answers differ:\n%s\n%s", answers[0], answers[1])
	}
	if !bytes.Equal(files[0], files[1]) || len(files[0]) == 0 {
		t.Errorf("files of %d and %d bytes differ", len(files[0]), len(files[1]))
	}
	if left, err := filepath.Glob(filepath.Join(folder, "killed", "*", "*.part")); err != nil || len(left) > 0 {
		t.Errorf("half-written files are left: %v, %v", left, err)
	}
	t.Logf("killed after %d of 7 pieces", before)
}
