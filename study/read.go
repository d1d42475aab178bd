package study

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"github.com/parquet-go/parquet-go"

	"foilwright/compare"
	"foilwright/odds"
	"foilwright/polar"
	"foilwright/trim"
	"foilwright/why"
)

// ReadResult reads a result that was written as JSON, so that the charts of it are those
// of the result that was written. samples is the file that a keeper has under
// [SamplesFile], nil where there is none: without it odds have no table of samples.
//
// What results hold beside their JSON is not there: full trims beside points of a polar,
// and states as the solver has them.
func ReadResult(text, samples []byte) (*Result, error) {
	var r Result
	said := struct {
		*Result
		Question json.RawMessage `json:"question"`
		Results  json.RawMessage `json:"results"`
	}{Result: &r}
	if err := json.Unmarshal(text, &said); err != nil {
		return nil, fmt.Errorf("the result cannot be read: %w", err)
	}
	q, err := Asked(r.Verb, said.Question)
	if err != nil {
		return nil, fmt.Errorf("the result cannot be read: %w", err)
	}
	r.Question, r.Results = q, resultsOf(q)
	if r.Results == nil {
		return nil, fmt.Errorf("the result cannot be read: an answer of %s is none that is kept", r.Verb)
	}
	if err := json.Unmarshal(said.Results, r.Results); err != nil {
		return nil, fmt.Errorf("the result cannot be read: %w", err)
	}
	r.Results = listed(r.Results)
	if o, ok := r.Results.(*odds.Result); ok && samples != nil {
		if o.Table, err = readSamples(samples, o); err != nil {
			return nil, fmt.Errorf("the samples cannot be read: %w", err)
		}
	}
	return &r, nil
}

// resultsOf returns where the answers of a question are read into; nil for a question
// whose answers are not kept.
func resultsOf(q Question) any {
	switch q := q.(type) {
	case *View:
		return new([]*ViewResult)
	case *Trim:
		return new([]*trim.Result)
	case *Compare:
		return new([]*compare.Result)
	case *Why:
		return new([]*why.Result)
	case *Odds:
		return new(odds.Result)
	case *Polar:
		if q.TakeOff {
			return new(polar.TakeOff)
		}
		return new(polar.Result)
	}
	return nil
}

// listed takes lists out of what they were read into: results hold them as they are.
func listed(results any) any {
	switch r := results.(type) {
	case *[]*ViewResult:
		return *r
	case *[]*trim.Result:
		return *r
	case *[]*compare.Result:
		return *r
	case *[]*why.Result:
		return *r
	}
	return results
}

// readSamples reads from the file of samples what became of every boat in the wind that
// is asked about, and what each sample weighs.
func readSamples(file []byte, r *odds.Result) (*odds.Table, error) {
	f, err := parquet.OpenFile(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		return nil, err
	}
	if f.NumRows() != int64(r.Samples) {
		return nil, fmt.Errorf("they are %d, and the answer is of %d", f.NumRows(), r.Samples)
	}
	t := &odds.Table{Outcomes: make([][]odds.Outcome, r.Samples)}
	for i := range t.Outcomes {
		t.Outcomes[i] = make([]odds.Outcome, len(r.Boats))
	}
	place := func(name string) (int, bool) {
		leaf, ok := f.Schema().Lookup(name)
		return leaf.ColumnIndex, ok
	}
	type reader func(sample int, v parquet.Value)
	readers := map[int]reader{}
	if at, ok := place(weightColumn); ok {
		t.Weights = make([]float64, r.Samples)
		readers[at] = func(s int, v parquet.Value) { t.Weights[s] = v.Double() }
	}
	for i, b := range r.Boats {
		state, found := place(b.Name + answerColumn)
		progress, also := place(b.Name + progressColumn)
		if !found || !also {
			return nil, fmt.Errorf("they do not tell of %s", b.Name)
		}
		readers[state] = func(s int, v parquet.Value) { t.Outcomes[s][i].State = stateOf(string(v.ByteArray())) }
		readers[progress] = func(s int, v parquet.Value) {
			if !v.IsNull() {
				t.Outcomes[s][i].Progress = v.Double()
			}
		}
	}
	for s, row := range allRows(f, &err) {
		for _, v := range row {
			if read := readers[v.Column()]; read != nil && s < r.Samples {
				read(s, v)
			}
		}
	}
	return t, err
}

// stateOf is the inverse of stateWords.
func stateOf(words string) odds.State {
	for s, w := range stateWords {
		if w == words {
			return odds.State(s)
		}
	}
	return odds.CannotBe
}

// allRows gives the rows of a file, by number. What goes wrong is left in fault.
func allRows(f *parquet.File, fault *error) func(yield func(int, parquet.Row) bool) {
	return func(yield func(int, parquet.Row) bool) {
		rows := parquet.NewReader(f)
		defer rows.Close()
		buffer := make([]parquet.Row, 64)
		for at := 0; ; {
			n, err := rows.ReadRows(buffer)
			for _, row := range buffer[:n] {
				if !yield(at, row) {
					return
				}
				at++
			}
			switch {
			case errors.Is(err, io.EOF):
				return
			case err != nil:
				*fault = err
				return
			}
		}
	}
}
