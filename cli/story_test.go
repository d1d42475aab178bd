package cli

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"foilwright": func() { os.Exit(Run(context.Background(), os.Args[1:], os.Stdout, os.Stderr)) },
	})
}

// TestStories runs the scripted stories in testdata against the program as a
// process of its own, in a folder that holds the examples.
//
// Besides the usual commands a story has
//
//	status N foilwright …   the exit status is N
//	json path [value]       standard output is JSON, finite all through, with something at path
//	noise name bytes        a file of noise of a size
//	brackets name n         a file of n opening brackets
//	mark name from          a file with a byte-order mark before the text of another
func TestStories(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata",
		Setup: func(e *testscript.Env) error {
			return os.CopyFS(filepath.Join(e.WorkDir, "examples"), os.DirFS("../examples"))
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"status": status, "json": jsonHas, "noise": noise, "brackets": brackets, "mark": mark,
		},
		RequireExplicitExec: true,
	})
}

func status(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N command …")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var e *exec.ExitError
		if !errors.As(err, &e) {
			ts.Fatalf("%s: %v", args[1], err)
		}
		got = e.ExitCode()
	}
	if got != want {
		ts.Fatalf("status is %d, want %d", got, want)
	}
}

// jsonHas reads standard output as JSON and looks up a path such as results.0.speed_mps.
func jsonHas(ts *testscript.TestScript, neg bool, args []string) {
	var v any
	ts.Check(json.Unmarshal([]byte(ts.ReadFile("stdout")), &v))
	for _, key := range strings.Split(args[0], ".") {
		switch at := v.(type) {
		case map[string]any:
			next, ok := at[key]
			if !ok {
				ts.Fatalf("%s: no %q", args[0], key)
			}
			v = next
		case []any:
			i, err := strconv.Atoi(key)
			if err != nil || i < 0 || i >= len(at) {
				ts.Fatalf("%s: no %q in a list of %d", args[0], key, len(at))
			}
			v = at[i]
		default:
			ts.Fatalf("%s: nothing below %v", args[0], v)
		}
	}
	if f, ok := v.(float64); ok && (math.IsNaN(f) || math.IsInf(f, 0)) {
		ts.Fatalf("%s is %v", args[0], f)
	}
	if len(args) > 1 && same(v, args[1]) == neg {
		ts.Fatalf("%s is %v, want %s", args[0], v, args[1])
	}
}

// same tells whether a value is what a story says: numbers to nine digits.
func same(v any, want string) bool {
	f, isNumber := v.(float64)
	w, err := strconv.ParseFloat(want, 64)
	if !isNumber || err != nil {
		return fmt.Sprint(v) == want
	}
	return math.Abs(f-w) <= 1e-9*math.Max(1, math.Abs(w))
}

func noise(ts *testscript.TestScript, _ bool, args []string) {
	n, err := strconv.Atoi(args[1])
	ts.Check(err)
	text := make([]byte, n)
	state := uint32(1)
	for i := range text {
		state = state*1664525 + 1013904223
		text[i] = byte(state >> 24)
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), text, 0o644))
}

func brackets(ts *testscript.TestScript, _ bool, args []string) {
	n, err := strconv.Atoi(args[1])
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.Repeat("[", n)), 0o644))
}

func mark(ts *testscript.TestScript, _ bool, args []string) {
	text := "\ufeff" + ts.ReadFile(args[1])
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(text), 0o644))
}
