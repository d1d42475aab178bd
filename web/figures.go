package web

import (
	"encoding/json"
	"fmt"

	"foilwright/quantity"
)

// Figures is a list of figures that a person typed, SI.
type Figures struct {
	Values []float64 `json:"values"`
}

// mostFigures is how many figures a list holds at most.
const mostFigures = 200

// readFigures reads a list such as "8, 12, 16 kn" or "40 to 150 deg by 10 deg".
func readFigures(text []byte, units quantity.Units) *Told {
	var q struct {
		Unit string `json:"unit"` // SI
		Text string `json:"text"`
	}
	if err := json.Unmarshal(text, &q); err != nil {
		return &Told{Error: fmt.Sprintf("the figures cannot be read: %v", err)}
	}
	all, err := quantity.ParseList(q.Text, units.For(q.Unit).Dimension)
	switch {
	case err != nil:
		return &Told{Error: err.Error()}
	case len(all) > mostFigures:
		return &Told{Error: fmt.Sprintf("these are %d values, and %d are the most\nhint: take longer steps", len(all), mostFigures)}
	}
	list := &Figures{Values: []float64{}}
	for _, v := range all {
		list.Values = append(list.Values, v.Likely)
	}
	return &Told{List: list}
}
