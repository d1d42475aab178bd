package report

import (
	"encoding/json"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"foilwright/compare"
	"foilwright/quantity"
	"foilwright/study"
	"foilwright/trim"
)

var digits = regexp.MustCompile(`[+-]?[0-9]+(\.[0-9]+)?`)

// Every figure of the panel stands in the text of the command line, digit for digit,
// in the line of the same name; the sentence is the text's own.
func TestPanelSaysWhatTheTextSays(t *testing.T) {
	r := ask(t, &study.Compare{Sailing: sailing(7.5)}, sloe, "../examples/dinghy/spindle.yaml")
	text, a := Text(r), AnswerOf(quantity.Trade, r)
	flat := strings.Join(strings.Fields(text), " ")
	for _, c := range a.Sentence {
		if said := sentence(c.Phrases).String(); !strings.Contains(flat, said) {
			t.Errorf("the text does not say %q", said)
		}
	}
	lines := strings.Split(text, "\n")
	rows := 0
	for _, g := range a.Groups {
		for _, row := range g.Rows {
			rows++
			prefix, _, _ := strings.Cut(row.Figure, ": ")
			at := slices.IndexFunc(lines, func(l string) bool {
				l = strings.TrimSpace(l)
				return strings.HasPrefix(l, row.Name+"  ") || strings.HasPrefix(l, prefix+": "+row.Name+"  ")
			})
			if at < 0 {
				t.Errorf("the text has no row %q", row.Name)
				continue
			}
			_, figures, _ := strings.Cut(lines[at], row.Name)
			want := strings.Fields(figures)
			if len(want) > 0 && !digits.MatchString(want[0]) && want[0] != "none" {
				want = want[1:] // the unit
			}
			var got []string
			for i := range row.Values {
				for _, cell := range []string{row.Values[i], row.Changes[i], row.Shares[i]} {
					got = append(got, strings.Fields(cell)...)
				}
			}
			if !slices.Equal(got, want) {
				t.Errorf("%s: the panel has %q, the text %q", row.Name, got, want)
			}
		}
	}
	if rows < 25 || len(a.Groups) != 6 {
		t.Errorf("%d rows in %d groups", rows, len(a.Groups))
	}
}

// Every figure that boats are compared by has a working, each with a source that
// docs/references.md lists, and inputs that the result has.
func TestEveryFigureHasItsWorking(t *testing.T) {
	listed, err := os.ReadFile("../docs/references.md")
	if err != nil {
		t.Fatal(err)
	}
	years := regexp.MustCompile(`^(.*) (\d{4})$`)
	for _, w := range workings() {
		if w.formula == "" || w.says == "" {
			t.Errorf("%s: no formula, or no words", w.figure)
		}
		for _, s := range w.sources {
			m := years.FindStringSubmatch(s)
			if m == nil || !regexp.MustCompile(regexp.QuoteMeta(m[1])+`[^|\n]*\(?`+m[2]).Match(listed) {
				t.Errorf("%s: %s is not in docs/references.md", w.figure, s)
			}
		}
	}
	p := &page{}
	for _, f := range compare.Figures() {
		if f.Name != "vmg" && p.workingOf(f.Name, []*trim.Result{{}}, nil) == nil {
			t.Errorf("%s has no working", f.Name)
		}
	}
	a := AnswerOf(quantity.SI, ask(t, &study.Trim{Sailing: sailing(7.5)}, sloe))
	for _, g := range a.Groups {
		for _, row := range g.Rows {
			switch w := row.Working; {
			case w == nil:
				t.Errorf("%s has no working", row.Figure)
			case len(w.Inputs) == 0:
				t.Errorf("%s: no inputs", row.Figure)
			}
		}
	}
	text, err := json.Marshal(a)
	if err != nil || strings.Contains(string(text), "%!") {
		t.Errorf("%v, %s", err, text)
	}
}

// What a working rests on is told by boat.
func TestWorkingsRestOnFigures(t *testing.T) {
	sources := []study.Source{
		{Unknowns: []study.Unknown{{File: "a.yaml", Name: "weights.rig.mass", Value: "240 kg ± 5 kg", Basis: "scales"}, {File: "model", Name: "spray", Value: "1 ± 0.3"}, {File: "s.yaml", Name: "photo scale", Value: "1 ± 0.02"}}},
		{Unknowns: []study.Unknown{{File: "model", Name: "spray", Value: "1 ± 0.3"}}, Assumptions: []study.Assumption{{Path: "weights.crew.mass", Value: "80 kg", Basis: "usual"}}},
	}
	got := restsOf([]string{"weights", "model.spray"}, sources)
	want := []Rest{
		{"weights.rig.mass", Stated, []string{"240 kg ± 5 kg", ""}, "scales"}, {"spray", OfModel, []string{"1 ± 0.3", "1 ± 0.3"}, ""},
		{"weights.crew.mass", AsUsual, []string{"", "80 kg"}, "usual"},
	}
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i := range want {
		if got[i].Name != want[i].Name || got[i].Basis != want[i].Basis || !slices.Equal(got[i].Values, want[i].Values) {
			t.Errorf("%+v, want %+v", got[i], want[i])
		}
	}
}
