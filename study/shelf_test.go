package study_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"foilwright/study"
)

// A boat is read once while its files stand, and anew when one of them changes: also one
// that it is only like.
func TestShelfFollowsItsFiles(t *testing.T) {
	folder := filepath.Join("..", "examples", "which-foil")
	var mu sync.Mutex
	opened, changed := 0, map[string]string{}
	open := func(name string) ([]byte, error) {
		mu.Lock()
		defer mu.Unlock()
		opened++
		text, err := os.ReadFile(filepath.Join(folder, name))
		for from, to := range changed {
			text = []byte(strings.ReplaceAll(string(text), from, to))
		}
		return text, err
	}
	var shelf study.Shelf
	ask := func() *study.Result {
		t.Helper()
		r, err := study.Run(context.Background(), study.Request{Boats: []string{"tansy.yaml"}, Question: &study.Levers{}, Open: open, Shelf: &shelf})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	first, second := ask(), ask()
	if first.Fingerprint != second.Fingerprint {
		t.Error("the same files gave two fingerprints")
	}
	changed["1150 kg"] = "1250 kg"
	third := ask()
	if third.Fingerprint == first.Fingerprint {
		t.Error("a file that tansy is like changed, and the boat did not")
	}
	mass := func(r *study.Result) float64 { return r.Results.(*study.LeversResult).Boats[0].Weight }
	if !(mass(third) > mass(first)) {
		t.Errorf("100 kg more weigh %.1f N, before %.1f N", mass(third), mass(first))
	}
	changed = map[string]string{}
	if back := ask(); back.Fingerprint != first.Fingerprint {
		t.Error("the file is as it was, and the boat is not")
	}
}

// Goroutines share a shelf.
func TestShelfIsShared(t *testing.T) {
	var shelf study.Shelf
	var group sync.WaitGroup
	for range 4 {
		group.Go(func() {
			open := func(name string) ([]byte, error) {
				return os.ReadFile(filepath.Join("..", "examples", "which-foil", name))
			}
			if _, err := study.Run(context.Background(), study.Request{
				Boats: []string{"sorrel.yaml", "tansy.yaml"}, Question: &study.Levers{}, Open: open, Shelf: &shelf,
			}); err != nil {
				t.Error(err)
			}
		})
	}
	group.Wait()
}

// A question as a result carries it can be asked again.
func TestAskedReadsWhatResultsCarry(t *testing.T) {
	q, err := study.Asked("trim", []byte(`{"true_wind_speeds_mps": [8.7], "aim": "best progress to leeward", "holds": [{"name": "heel", "value": "2 deg"}]}`))
	if err != nil {
		t.Fatal(err)
	}
	trim := q.(*study.Trim)
	if trim.Aim.String() != "best progress to leeward" || len(trim.WindSpeeds) != 1 || trim.WindProfile != "open sea" || trim.Holds[0].Value != "2 deg" {
		t.Errorf("read as %+v", trim.Sailing)
	}
	for text, says := range map[string]string{
		`{"tws": 8}`:    `unknown field "tws"`,
		`{"aim": "up"}`: `"up" is none`,
		`{} {}`:         "more follows",
		`{`:             "cannot be read",
	} {
		if _, err := study.Asked("trim", []byte(text)); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v, want %q", text, err, says)
		}
	}
	if _, err := study.Asked("guess", nil); err == nil || !strings.Contains(err.Error(), "hint: check, levers") {
		t.Errorf("guess: %v", err)
	}
}
