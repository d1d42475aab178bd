package web

import (
	"encoding/json"
	"fmt"

	"foilwright/quantity"
)

// Figure is a figure in SI and as it is shown.
type Figure struct {
	Value float64 `json:"value"`
	Text  string  `json:"text"`
}

// readFigure reads a figure that a person typed, or writes one.
func readFigure(text []byte, units quantity.Units) *Told {
	var q struct {
		Unit  string   `json:"unit"` // SI
		Text  string   `json:"text"`
		Value *float64 `json:"value"`
	}
	if err := json.Unmarshal(text, &q); err != nil {
		return &Told{Error: fmt.Sprintf("the figure cannot be read: %v", err)}
	}
	usual := units.For(q.Unit)
	if q.Value != nil {
		return &Told{Figure: &Figure{*q.Value, usual.Format(*q.Value)}}
	}
	v, err := quantity.Parse(q.Text, usual.Dimension)
	if err != nil {
		return &Told{Error: err.Error()}
	}
	return &Told{Figure: &Figure{v.Likely, usual.Format(v.Likely)}}
}
