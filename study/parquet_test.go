package study

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/parquet-go/parquet-go"

	"foilwright/batch"
	"foilwright/boatfile"
	"foilwright/odds"
	"foilwright/si"
)

// standInOdds is odds of two real sheets whose progress is made up: the first boat
// cannot sail where the rail's scale is large.
func standInOdds(t *testing.T, anchor *odds.Anchor) (*Odds, *desk, *odds.Result) {
	t.Helper()
	d := &desk{request: &Request{Boats: []string{sorrel, tansy}}}
	for _, name := range d.request.Boats {
		text, err := open(name)
		if err != nil {
			t.Fatal(err)
		}
		s, err := boatfile.Read(name, text, open)
		if err != nil {
			t.Fatal(err)
		}
		d.sheets = append(d.sheets, s)
	}
	unknowns, err := odds.Pool(d.sheets, nil)
	if err != nil {
		t.Fatal(err)
	}
	scale := slices.IndexFunc(unknowns, func(u odds.Unknown) bool { return u.Name == "harrow-unknowns.yaml: bow-on photo scale" })
	if scale < 0 {
		t.Fatal("the shared scale is not among the unknowns")
	}
	p := &odds.Plan{
		Boats: []string{"Sorrel", "Tansy"}, Aim: "best progress to windward", Wind: 9, Bands: []si.Speed{8}, Unknowns: unknowns,
		Seed: 5, Samples: 96, Confidence: 0.8, Anchor: anchor,
		Evaluate: func(_ context.Context, x []float64, columns int) ([]odds.Outcome, error) {
			out := make([]odds.Outcome, columns)
			for i := range out {
				out[i] = odds.Outcome{Progress: 8 + x[scale] + float64(i)/7, Speed: 13 + x[scale], Angle: math.Pi / 4}
			}
			if x[scale] > 1.03 {
				out[0] = odds.Outcome{State: odds.CannotSail}
			}
			return out, nil
		},
	}
	cores := batch.Cores(2)
	r, err := odds.Of(t.Context(), p, odds.Runners{Samples: cores, Tornado: cores}, odds.Watch{})
	if err != nil {
		t.Fatal(err)
	}
	return &Odds{Samples: 96, Seed: 5, Confidence: 0.8}, d, r
}

// The file holds every figure, with its unit and what it rests on; the same samples
// make the same bytes.
func TestParquet(t *testing.T) {
	for _, anchor := range []*odds.Anchor{nil, {Boat: 1, Wind: 9, Observed: 14, Deviation: 0.02, Words: "Tansy 14 m/s ± 0.02 m/s at 9 m/s"}} {
		q, d, r := standInOdds(t, anchor)
		file, err := q.parquet(d, r)
		if err != nil {
			t.Fatal(err)
		}
		again, err := q.parquet(d, r)
		if err != nil || !bytes.Equal(file, again) {
			t.Errorf("the same samples make other bytes, %v", err)
		}
		f, err := parquet.OpenFile(bytes.NewReader(file), int64(len(file)))
		if err != nil {
			t.Fatal(err)
		}
		if f.NumRows() != 96 {
			t.Errorf("%d rows", f.NumRows())
		}
		for key, want := range map[string]string{
			"foilwright.version": Version, "foilwright.kernel": Kernel, "foilwright.seed": "5", "foilwright.samples": "96", "foilwright.caution": Caution,
			"foilwright.boat 1": sorrel + ": " + d.sheets[0].Fingerprint(),
		} {
			if got, _ := f.Lookup(key); got != want {
				t.Errorf("%s is %q, want %q", key, got, want)
			}
		}
		if got, _ := f.Lookup("foilwright.fingerprint"); len(got) != 64 {
			t.Errorf("fingerprint %q", got)
		}
		if _, weighted := f.Schema().Lookup("weight by the anchor"); weighted != (anchor != nil) {
			t.Errorf("the file has weights: %t", weighted)
		}
	}
}

// readBack is what the other reader makes of a file.
type readBack struct {
	CreatedBy string            `json:"created_by"`
	Columns   []string          `json:"columns"`
	Codecs    []string          `json:"codecs"`
	About     map[string]string `json:"about"`
	Rows      []map[string]any  `json:"rows"`
}

// Another program's reader, hyparquet under Node, finds the same figures.
func TestParquetIsReadElsewhere(t *testing.T) {
	folder := filepath.Join("testdata", "reader")
	node, err := exec.LookPath("node")
	if _, missing := os.Stat(filepath.Join(folder, "node_modules")); err != nil || missing != nil {
		if strings.Contains(os.Getenv("FOILWRIGHT_NEEDS"), "node") {
			t.Fatalf("node or its packages are missing: run npm ci in study/%s", filepath.ToSlash(folder))
		}
		t.Skipf("node or its packages are missing: to read samples with another reader, run npm ci in study/%s", filepath.ToSlash(folder))
	}
	q, d, r := standInOdds(t, nil)
	file, err := q.parquet(d, r)
	if err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), samplesFile)
	if err := os.WriteFile(name, file, 0o666); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(node, filepath.Join(folder, "read.mjs"), name).Output()
	if err != nil {
		t.Fatal(err)
	}
	var back readBack
	if err := json.Unmarshal(out, &back); err != nil {
		t.Fatal(err)
	}
	if len(back.Rows) != 96 || !slices.Equal(back.Codecs, []string{"ZSTD"}) || !strings.HasPrefix(back.CreatedBy, "foilwright") || back.About["foilwright.seed"] != "5" {
		t.Fatalf("%d rows, codecs %v, by %q, seed %q", len(back.Rows), back.Codecs, back.CreatedBy, back.About["foilwright.seed"])
	}
	failed := 0
	for s, row := range back.Rows {
		if row["sample"] != float64(s) {
			t.Fatalf("row %d is sample %v", s, row["sample"])
		}
		for i, u := range r.Table.Unknowns {
			name := "input " + u.Name
			if unit := u.Quantity.Dimension.SI(); unit != "" {
				name += " (" + unit + ")"
			}
			if got, ok := row[name].(float64); !ok || got != r.Table.Values[s][i] {
				t.Fatalf("sample %d: %s is %v, want %v", s, name, row[name], r.Table.Values[s][i])
			}
		}
		o := r.Table.Outcomes[s][0]
		if o.State != odds.Sails {
			failed++
			if row["Sorrel answer"] != "cannot sail" || row["Sorrel progress (m/s)"] != nil {
				t.Errorf("sample %d: %v, %v", s, row["Sorrel answer"], row["Sorrel progress (m/s)"])
			}
			continue
		}
		if row["Sorrel answer"] != "sails" || row["Sorrel progress (m/s)"] != o.Progress || row["Sorrel true wind angle (rad)"] != o.Angle {
			t.Errorf("sample %d: %v, %v", s, row["Sorrel answer"], row["Sorrel progress (m/s)"])
		}
	}
	if failed == 0 || failed != r.Failed {
		t.Errorf("%d samples without an answer, want %d", failed, r.Failed)
	}
	band := slices.IndexFunc(back.Columns, func(c string) bool {
		return strings.HasPrefix(c, "Tansy in 15.55") && strings.HasSuffix(c, " kn speed (m/s)")
	})
	if band < 0 {
		t.Errorf("no column for the band: %q", back.Columns)
	}
}
