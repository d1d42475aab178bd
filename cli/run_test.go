package cli

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A fault of the program's own is told as such, with status 2 and nothing on
// standard output.
func TestInternalError(t *testing.T) {
	var none context.Context // nothing that works with it can go well
	var out, errs bytes.Buffer
	status := Run(none, []string{"trim", "../examples/dinghy/sloe.yaml", "--tws", "15 kn", "--json"}, &out, &errs)
	if status != wrong || out.Len() != 0 {
		t.Errorf("status %d, %d bytes of output", status, out.Len())
	}
	for _, want := range []string{"internal error: ", "hint: this is the program's own fault; please report it", `arguments ["trim"`} {
		if !strings.Contains(errs.String(), want) {
			t.Errorf("%q is not in %q", want, errs.String())
		}
	}
}

func TestInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	var out, errs bytes.Buffer
	if status := Run(ctx, []string{"trim", "../examples/dinghy/sloe.yaml", "--tws", "15 kn"}, &out, &errs); status != interrupted {
		t.Errorf("status %d", status)
	}
	if out.Len() != 0 || errs.String() != "interrupted\n" {
		t.Errorf("output %q, errors %q", out.String(), errs.String())
	}
}

// full is a writer with no room.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no room") }

func TestOutputThatCannotBeWritten(t *testing.T) {
	var errs bytes.Buffer
	if status := Run(t.Context(), []string{"--version"}, full{}, &errs); status != wrong || !strings.Contains(errs.String(), "the answer cannot be written: no room") {
		t.Errorf("status %d, errors %q", status, errs.String())
	}
}

// The examples on the pages of help work as they stand: each is parsed, and its
// boats are there.
func TestHelpExamples(t *testing.T) {
	for _, verb := range []string{"check", "levers", "tow", "trim", "polar", "compare"} {
		var out, errs bytes.Buffer
		if status := Run(t.Context(), []string{verb, "--help"}, &out, &errs); status != found {
			t.Fatalf("%s --help: status %d, %s", verb, status, errs.String())
		}
		examples := 0
		for _, line := range strings.Split(out.String(), "\n") {
			call, ok := strings.CutPrefix(strings.TrimSpace(line), "foilwright "+verb+" ")
			if !ok {
				continue
			}
			examples++
			c, _, err := parse(append([]string{verb}, quoted(call)...), &out)
			if err != nil {
				t.Errorf("%s: %v", call, err)
				continue
			}
			if _, err := c.question(); err != nil {
				t.Errorf("%s: %v", call, err)
			}
			for _, f := range c.files() {
				if _, err := os.Stat(filepath.Join("..", f)); err != nil {
					t.Errorf("%s: %v", call, err)
				}
			}
		}
		if examples == 0 {
			t.Errorf("%s --help shows no example", verb)
		}
	}
}

// quoted parts a line at blanks outside of double quotes.
func quoted(line string) []string {
	var all []string
	for i, part := range strings.Split(line, `"`) {
		if i%2 == 1 {
			all = append(all, part)
		} else {
			all = append(all, strings.Fields(part)...)
		}
	}
	return all
}
