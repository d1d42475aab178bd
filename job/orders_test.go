package job

import (
	"encoding/json"
	"os"
	"path"
	"strings"
	"testing"
	"time"
)

// The same question joins its job; a job that is cancelled ends at once, keeps its
// pieces, and goes on when it is resumed; one that is forgotten is gone.
func TestOrders(t *testing.T) {
	root := aboard(t)
	told := make(chan State, 1024)
	q := New(root, 1, func(s State) { told <- s })
	working(t, q)
	asked, err := q.Ask(sure(4096), opener(root))
	if err != nil {
		t.Fatal(err)
	}
	until(t, q, asked.ID, func(s State) bool { return s.Done > 0 })
	if same, err := q.Ask(sure(4096), opener(root)); err != nil || same.ID != asked.ID || len(q.List(opener(root))) != 1 {
		t.Errorf("the same question is another job: %v, %v", same, err)
	}
	next, err := q.Ask(sure(8), opener(root))
	if err != nil || next.Standing != Waiting {
		t.Errorf("another question: %+v, %v", next, err)
	}
	if err := q.Forget(asked.ID); err == nil || !strings.Contains(err.Error(), "is being done") {
		t.Errorf("a job that is being done is forgotten: %v", err)
	}
	began := time.Now()
	if _, err := q.Cancel(asked.ID); err != nil {
		t.Fatal(err)
	}
	s := until(t, q, asked.ID, standing(Cancelled))
	t.Logf("cancelled within %v", time.Since(began))
	if s.Done == 0 || !strings.HasPrefix(s.Says, "cancelled, with ") {
		t.Errorf("cancelled: %+v", s)
	}
	until(t, q, next.ID, standing(Done))
	if info, err := root.Stat(path.Join(Folder, asked.ID, "samples")); err != nil || !info.IsDir() {
		t.Errorf("its samples are gone: %v", err)
	}
	before := s.Done
	if s, err = q.Resume(asked.ID); err != nil || s.Standing != Waiting {
		t.Errorf("resumed: %+v, %v", s, err)
	}
	until(t, q, asked.ID, func(s State) bool { return s.Done >= before && s.Standing == Running })
	if _, err := q.Cancel(asked.ID); err != nil {
		t.Fatal(err)
	}
	until(t, q, asked.ID, standing(Cancelled))
	if words, err := q.Size(asked.ID); err != nil || !strings.Contains(words, "runs/"+asked.ID) {
		t.Errorf("what would be removed: %q, %v", words, err)
	}
	if err := q.Forget(asked.ID); err != nil {
		t.Fatal(err)
	}
	if _, err := root.Stat(path.Join(Folder, asked.ID)); !os.IsNotExist(err) || len(q.List(opener(root))) != 1 {
		t.Errorf("forgotten and there: %v", err)
	}
	if _, err := q.State(asked.ID, opener(root)); err == nil {
		t.Error("forgotten and known")
	}
	most := map[string]int{}
	for len(told) > 0 {
		s := <-told
		most[s.ID]++
	}
	if most[asked.ID] == 0 || most[next.ID] == 0 {
		t.Errorf("told of jobs: %v", most)
	}
}

// What is wrong with a request is said at once; what fails later keeps its inputs.
func TestRefused(t *testing.T) {
	root := aboard(t)
	q := New(root, 1, quiet)
	for want, r := range map[string]Request{
		"is not done in the background": {Verb: "check", Boats: []string{"sorrel.yaml"}, Question: json.RawMessage(`{}`)},
		"cannot be read":                {Verb: "odds", Boats: []string{"sorrel.yaml"}, Question: json.RawMessage(`{"sample":3}`)},
		"no boat file is named":         {Verb: "trim", Question: json.RawMessage(`{}`)},
		"no such file":                  {Verb: "trim", Boats: []string{"nettle.yaml"}, Question: json.RawMessage(`{}`)},
		"boats are more than":           {Verb: "odds", Boats: make([]string, 9), Question: json.RawMessage(`{}`)},
		"which the desk takes":          {Verb: "odds", Boats: []string{"sorrel.yaml"}, Question: json.RawMessage(`{"samples":16000000}`)},
	} {
		if s, err := q.Ask(r, opener(root)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s %v: %+v, %v, want %q", r.Verb, r.Boats, s, err, want)
		}
	}
	working(t, q)
	s, err := q.Ask(Request{Verb: "why", Boats: []string{"sorrel.yaml"}, Question: json.RawMessage(`{"true_wind_speeds_mps":[8.5]}`)}, opener(root))
	if err != nil {
		t.Fatal(err)
	}
	for end := time.Now().Add(time.Minute); s.Standing != Failed && time.Now().Before(end); time.Sleep(5 * time.Millisecond) {
		if s, err = q.State(s.ID, opener(root)); err != nil {
			t.Fatal(err)
		}
	}
	if s.Standing != Failed || !strings.Contains(s.Problem, "why takes two boat files") || !strings.Contains(s.Problem, "hint: ") {
		t.Errorf("failed: %+v", s)
	}
	if text, err := root.ReadFile(path.Join(Folder, s.ID, requestFile)); err != nil || !strings.Contains(string(text), "name: Sorrel") {
		t.Errorf("its inputs are gone: %v", err)
	}
}

// A job that ends the program again and again is not begun for ever, and one that
// another program has in hand is left to it.
func TestTakingUpHasBounds(t *testing.T) {
	root := aboard(t)
	first := New(root, 1, quiet)
	asked, err := first.Ask(sure(16), opener(root))
	if err != nil {
		t.Fatal(err)
	}
	stood := func(text string) {
		t.Helper()
		if err := root.WriteFile(path.Join(Folder, asked.ID, stateFile), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	stood(`{"standing":"running","done":8,"of":16,"begun":3,"by":"","at":"2026-01-02T03:04:05Z"}`)
	q := New(root, 1, quiet)
	stop := working(t, q)
	if s := until(t, q, asked.ID, standing(Interrupted)); !strings.Contains(s.Problem, "ended several times") {
		t.Errorf("%+v", s)
	}
	stop()
	now, err := json.Marshal(time.Now())
	if err != nil {
		t.Fatal(err)
	}
	stood(`{"standing":"running","done":8,"of":16,"begun":1,"by":"another","at":` + string(now) + `}`)
	q = New(root, 1, quiet)
	q.read()
	if j := q.next(); j != nil {
		t.Errorf("a job that another program has in hand is taken up: %+v", j.stood)
	}
	stood(`{"standing":"running","done":8,"of":16,"begun":1,"by":"another","at":"2026-01-02T03:04:05Z"}`)
	q = New(root, 1, quiet)
	q.read()
	if q.next() == nil {
		t.Error("a job of a program that is gone is not taken up")
	}
	for _, text := range []string{"", "{", "null", `{"standing":"odd"}`} {
		stood(text)
		q = New(root, 1, quiet)
		if all := q.List(opener(root)); len(all) != 1 || all[0].Standing != Waiting {
			t.Errorf("state %q: %+v", text, all)
		}
	}
}

// Names lead nowhere else, and neither do links.
func TestNames(t *testing.T) {
	for id, want := range map[string]bool{
		"2026-11-25-odds-sorrel-tansy-66f96ec8": true,
		"2026-11-25-trim--66f96ec8":             true,
		"":                                      false,
		"..":                                    false,
		"2026-11-25-odds-../../etc-66f96ec8":    false,
		"2026-11-25-odds-sorrel-66f96ec8/..":    false,
		"2026-11-25-odds-sorrel-66f96ec8\n":     false,
		"2026-11-25-odds-" + strings.Repeat("a", 200) + "-66f96ec8": false,
	} {
		if Named(id) != want {
			t.Errorf("%q: %v", id, !want)
		}
	}
	if got := nameOf("2026-11-25", "odds", []string{"Wild Rose", "../Ötzi", strings.Repeat("x", 90)}, "66f96ec8ffff"); !Named(got) {
		t.Errorf("%q is not named", got)
	}
	root := aboard(t)
	outside := t.TempDir()
	id := "2026-11-25-odds-sorrel-tansy-66f96ec8"
	if err := os.WriteFile(path.Join(outside, requestFile), []byte(`{"id":"`+id+`"}`), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := root.Mkdir(Folder, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(outside, path.Join(root.Name(), Folder, id)); err != nil {
		t.Skip("no links here")
	}
	q := New(root, 1, quiet)
	if all := q.List(opener(root)); len(all) != 0 {
		t.Errorf("a link that leads out is listed: %+v", all)
	}
	if err := q.kept(id).Put("state.json", nil); err == nil {
		t.Error("a file is written through a link that leads out")
	}
	if _, err := os.Stat(path.Join(outside, "state.json")); err == nil {
		t.Error("a file stands outside of the folder")
	}
}
