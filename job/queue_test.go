package job

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"foilwright/figure"
	"foilwright/report"
	"foilwright/study"
)

// aboard returns a folder with two boats.
func aboard(t *testing.T) *os.Root {
	t.Helper()
	folder := t.TempDir()
	for _, name := range []string{"sorrel.yaml", "tansy.yaml", "harrow-unknowns.yaml", "sorrel-resistance.csv"} {
		text, err := os.ReadFile(filepath.Join("..", "examples", "which-foil", name))
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(folder, name), text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	root, err := os.OpenRoot(folder)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = root.Close() })
	return root
}

func opener(root *os.Root) func(string) ([]byte, error) { return root.ReadFile }

// sure asks how sure a difference is, coarsely.
func sure(samples int) Request {
	return Request{Verb: "odds", Boats: []string{"sorrel.yaml", "tansy.yaml"},
		Question: json.RawMessage(fmt.Sprintf(`{"true_wind_speeds_mps":[8.5],"strips":4,"samples":%d,"seed":1}`, samples))}
}

// working has a queue work until the test ends or stop is called.
func working(t *testing.T, q *Queue) (stop func()) {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		q.Work(ctx)
	}()
	stop = func() {
		cancel()
		<-ended
	}
	t.Cleanup(stop)
	return stop
}

// until waits for a job to stand in a way.
func until(t *testing.T, q *Queue, id string, holds func(State) bool) State {
	t.Helper()
	for end := time.Now().Add(5 * time.Minute); time.Now().Before(end); time.Sleep(5 * time.Millisecond) {
		s, err := q.State(id, opener(q.root))
		if err != nil {
			t.Fatal(err)
		}
		if holds(s) {
			return s
		}
		if s.Standing == Failed {
			t.Fatalf("the job failed: %s", s.Problem)
		}
	}
	t.Fatal("the job does not come on")
	return State{}
}

func standing(want Standing) func(State) bool {
	return func(s State) bool { return s.Standing == want }
}

func quiet(State) {}

// drawn returns every chart of a result, as a page gets it.
func drawn(t *testing.T, r *study.Result) string {
	t.Helper()
	var all []string
	for _, kind := range figure.Kinds() {
		chart, err := figure.Of(kind, r)
		if err != nil {
			continue
		}
		text, err := json.Marshal(chart)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, string(text))
	}
	if len(all) == 0 {
		t.Fatalf("nothing is drawn of %s", r.Verb)
	}
	return strings.Join(all, "\n")
}

// A job that was ended half-way and taken up by another program comes to the bytes of
// one that was not, and both draw what a plain run draws.
func TestJobIsTakenUp(t *testing.T) {
	if testing.Short() {
		t.Skip("three runs of odds take long: left out in short runs")
	}
	root := aboard(t)
	r := sure(24)
	question, err := study.Asked(r.Verb, r.Question)
	if err != nil {
		t.Fatal(err)
	}
	plain, err := study.Run(t.Context(), study.Request{Boats: r.Boats, Question: question, Open: opener(root), Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	first := New(root, 1, quiet)
	asked, err := first.Ask(r, opener(root))
	if err != nil {
		t.Fatal(err)
	}
	if !Named(asked.ID) || !strings.HasSuffix(asked.ID[:len(asked.ID)-9], "-odds-sorrel-tansy") {
		t.Errorf("the folder is called %q", asked.ID)
	}
	stop := working(t, first)
	until(t, first, asked.ID, func(s State) bool { return s.Done > 0 || s.Standing == Done })
	stop()
	// What is on disk now is of another boat; the job is of those that it was asked about.
	text, err := root.ReadFile("sorrel.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if err := root.WriteFile("sorrel.yaml", append([]byte("# a note\n"), text...), 0o644); err != nil {
		t.Fatal(err)
	}

	second := New(root, 1, quiet)
	if all := second.List(opener(root)); len(all) != 1 || !slices.Equal(all[0].Changed, []string{"sorrel.yaml"}) {
		t.Errorf("listed %+v", all)
	}
	if begun, err := fileTime(root, asked.ID, "samples/000000"); err == nil {
		defer func() {
			if again, err := fileTime(root, asked.ID, "samples/000000"); err == nil && again != begun {
				t.Error("a sample that was kept was made again")
			}
		}()
	}
	end := working(t, second)
	until(t, second, asked.ID, standing(Done))
	end() // by then it is written that the job is done
	kept, words, err := second.Result(asked.ID)
	if err != nil {
		t.Fatal(err)
	}
	want, err := report.JSON(plain)
	if err != nil {
		t.Fatal(err)
	}
	got, err := second.kept(asked.ID).Get(resultFile)
	if err != nil || string(got) != string(want) {
		t.Errorf("the result is not that of a plain run (%v):\n%s", err, got)
	}
	if words != report.Text(plain) {
		t.Error("the text is not that of a plain run")
	}
	if drawn(t, kept) != drawn(t, plain) {
		t.Error("the charts of the result that was read back are not those of a plain run")
	}
	third, _, err := New(root, 1, quiet).Result(asked.ID)
	if err != nil || drawn(t, third) != drawn(t, plain) {
		t.Errorf("the charts after another restart differ (%v)", err)
	}
}

func fileTime(root *os.Root, id, name string) (time.Time, error) {
	info, err := root.Stat(filepath.Join(Folder, id, name))
	if err != nil {
		return time.Time{}, err
	}
	return info.ModTime(), nil
}

// Results of every kind that are read back draw what they drew.
func TestResultsAreReadBack(t *testing.T) {
	if testing.Short() {
		t.Skip("a study of each kind takes long: left out in short runs")
	}
	root := aboard(t)
	text, err := root.ReadFile("sorrel.yaml")
	if err != nil {
		t.Fatal(err)
	}
	heavier := strings.Replace(string(text), "name: Sorrel", "name: Sorrel Heavy", 1)
	heavier = strings.Replace(heavier, "mass: 240 kg", "mass: 260 kg", 1)
	if err := root.WriteFile("heavy.yaml", []byte(heavier), 0o644); err != nil {
		t.Fatal(err)
	}
	one, two := []string{"sorrel.yaml"}, []string{"sorrel.yaml", "tansy.yaml"}
	for _, c := range []struct {
		verb, question string
		boats          []string
	}{
		{"trim", `{"true_wind_speeds_mps":[8.5],"strips":4}`, one},
		{"view", `{"true_wind_speeds_mps":[8.5],"strips":4}`, one},
		{"compare", `{"true_wind_speeds_mps":[8.5],"strips":4}`, two},
		{"polar", `{"true_wind_speeds_mps":[8.5],"true_wind_angles_rad":[1.9,2.1],"strips":4}`, one},
		{"why", `{"true_wind_speeds_mps":[8.5],"strips":4}`, []string{"sorrel.yaml", "heavy.yaml"}},
	} {
		q, err := study.Asked(c.verb, []byte(c.question))
		if err != nil {
			t.Fatal(err)
		}
		r, err := study.Run(t.Context(), study.Request{Boats: c.boats, Question: q, Open: opener(root), Workers: 2})
		if err != nil {
			t.Fatalf("%s: %v", c.verb, err)
		}
		written, err := report.JSON(r)
		if err != nil {
			t.Fatal(err)
		}
		back, err := study.ReadResult(written, nil)
		if err != nil {
			t.Errorf("%s: %v", c.verb, err)
			continue
		}
		again, err := report.JSON(back)
		if err != nil || string(again) != string(written) {
			t.Errorf("%s: what is read back is written in another way (%v)", c.verb, err)
		}
		if drawn(t, back) != drawn(t, r) {
			t.Errorf("%s: the charts of what is read back are others", c.verb)
		}
	}
	for _, text := range []string{"", "{", "[]", `{"verb":"odds"}`, `{"verb":"check","question":{},"results":{}}`, `{"verb":"trim","question":{},"results":{}}`} {
		if r, err := study.ReadResult([]byte(text), nil); err == nil {
			t.Errorf("%q is read as %+v", text, r)
		}
	}
}
