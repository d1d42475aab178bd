package study

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"

	"github.com/parquet-go/parquet-go"
	"github.com/parquet-go/parquet-go/compress/zstd"

	"foilwright/odds"
	"foilwright/quantity"
)

// sheetColumn is one column of the file of samples.
type sheetColumn struct {
	name string
	node parquet.Node
	cell func(sample int) parquet.Value // null where there is no figure
}

// Names of columns, and ends of them.
const (
	weightColumn   = "weight by the anchor"
	answerColumn   = " answer"
	progressColumn = " progress (m/s)"
)

// stateWords are how a boat of a sample came out.
var stateWords = [...]string{odds.Sails: "sails", odds.CannotSail: "cannot sail", odds.CannotBe: "cannot be built"}

// parquet returns the samples as one Parquet file: a row for each sample in the
// order of its index, a column for each unknown and for each figure, with the
// unit in its name, and what they rest on as the file's own metadata. It holds no
// times, so that the same run gives the same bytes.
func (q *Odds) parquet(d *desk, res *odds.Result) ([]byte, error) {
	columns := sampleColumns(res)
	group := parquet.Group{}
	for _, c := range columns {
		if _, twice := group[c.name]; twice {
			return nil, fmt.Errorf("internal error: two columns are called %q", c.name)
		}
		group[c.name] = c.node
	}
	schema := parquet.NewSchema("samples", group)
	options := []parquet.WriterOption{schema, parquet.Compression(&zstd.Codec{}), parquet.CreatedBy("foilwright", Version, "")}
	about, err := q.provenance(d, res)
	if err != nil {
		return nil, err
	}
	for _, a := range about {
		options = append(options, parquet.KeyValueMetadata("foilwright."+a[0], a[1]))
	}
	place := make([]int, len(columns))
	for i, c := range columns {
		leaf, ok := schema.Lookup(c.name)
		if !ok {
			return nil, fmt.Errorf("internal error: no column is called %q", c.name)
		}
		place[i] = leaf.ColumnIndex
	}
	var out bytes.Buffer
	w := parquet.NewWriter(&out, options...)
	for sample := range res.Table.Outcomes {
		row := make(parquet.Row, len(columns))
		for i, c := range columns {
			v, level := c.cell(sample), 0
			if c.node.Optional() && !v.IsNull() {
				level = 1
			}
			row[place[i]] = v.Level(0, level, place[i])
		}
		if _, err := w.WriteRows([]parquet.Row{row}); err != nil {
			return nil, fmt.Errorf("internal error: samples cannot be written: %w", err)
		}
	}
	if err := w.Close(); err != nil {
		return nil, fmt.Errorf("internal error: samples cannot be written: %w", err)
	}
	return out.Bytes(), nil
}

// provenance is what the file's figures rest on, as keys and values.
func (q *Odds) provenance(d *desk, res *odds.Result) ([][2]string, error) {
	question, err := json.Marshal(q)
	if err != nil {
		return nil, fmt.Errorf("internal error: the question cannot be written: %w", err)
	}
	about := [][2]string{
		{"version", Version}, {"kernel", Kernel}, {"seed", strconv.FormatUint(res.Seed, 10)}, {"samples", strconv.Itoa(res.Samples)},
		{"question", string(question)}, {"caution", Caution},
	}
	prints := make([]string, len(d.sheets))
	for i, s := range d.sheets {
		prints[i] = s.Fingerprint()
		about = append(about, [2]string{fmt.Sprintf("boat %d", i+1), d.request.Boats[i] + ": " + prints[i]})
	}
	return append(about, [2]string{"fingerprint", fingerprint("", prints, q.Verb(), question)}), nil
}

// sampleColumns returns the columns of the file.
func sampleColumns(res *odds.Result) []sheetColumn {
	t := res.Table
	columns := []sheetColumn{{"sample", parquet.Leaf(parquet.Int64Type), func(s int) parquet.Value { return parquet.Int64Value(int64(s)) }}}
	if t.Weights != nil {
		columns = append(columns, sheetColumn{weightColumn, parquet.Leaf(parquet.DoubleType), func(s int) parquet.Value { return parquet.DoubleValue(t.Weights[s]) }})
	}
	for i := range t.Unknowns {
		name := "input " + t.Unknowns[i].Name
		if unit := t.Unknowns[i].Quantity.Dimension.SI(); unit != "" {
			name += " (" + unit + ")"
		}
		columns = append(columns, sheetColumn{name, parquet.Leaf(parquet.DoubleType), func(s int) parquet.Value { return parquet.DoubleValue(t.Values[s][i]) }})
	}
	for i, c := range t.Columns {
		of := res.Boats[c.Boat].Name
		switch {
		case i < len(res.Boats):
		case res.Anchor != nil && i == len(t.Columns)-1:
			of += " anchor"
		default:
			of += " in " + quantity.Format(float64(c.Wind), quantity.Speed, "kn", quantity.Shortest)
		}
		columns = append(columns, sheetColumn{of + answerColumn, parquet.String(), func(s int) parquet.Value {
			return parquet.ByteArrayValue([]byte(stateWords[t.Outcomes[s][i].State]))
		}})
		for _, f := range []struct {
			name string
			read func(odds.Outcome) float64
		}{
			{progressColumn, func(o odds.Outcome) float64 { return o.Progress }},
			{" speed (m/s)", func(o odds.Outcome) float64 { return o.Speed }},
			{" true wind angle (rad)", func(o odds.Outcome) float64 { return o.Angle }},
		} {
			columns = append(columns, sheetColumn{of + f.name, parquet.Optional(parquet.Leaf(parquet.DoubleType)), func(s int) parquet.Value {
				if o := t.Outcomes[s][i]; o.State == odds.Sails {
					return parquet.DoubleValue(f.read(o))
				}
				return parquet.NullValue()
			}})
		}
	}
	return columns
}
