package study

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"foilwright/trim"
)

// Asked reads a question from JSON with the names that results carry it under. What is
// not said stands as where nothing is said on the command line.
func Asked(verb string, text []byte) (Question, error) {
	sailing := Sailing{Conditions: Standard()}
	var q Question
	switch verb {
	case "check":
		q = &Check{}
	case "levers":
		q = &Levers{}
	case "tow":
		q = &Tow{Conditions: Standard()}
	case "hold":
		q = &Held{Conditions: Standard()}
	case "view":
		q = &View{Sailing: sailing}
	case "trim":
		q = &Trim{Sailing: sailing}
	case "polar":
		q = &Polar{Sailing: sailing}
	case "compare":
		q = &Compare{Sailing: sailing}
	case "why":
		q = &Why{Sailing: sailing}
	case "odds":
		q = &Odds{Sailing: sailing}
	default:
		return nil, fmt.Errorf("%q is no question\nhint: check, levers, tow, hold, view, trim, polar, compare, why or odds", verb)
	}
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	if err := d.Decode(q); err != nil {
		return nil, fmt.Errorf("%s: the question cannot be read: %w", verb, err)
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("%s: more follows the question", verb)
	}
	if s, ok := q.(interface{ aimed() error }); ok {
		return q, s.aimed()
	}
	return q, nil
}

// aimed sets the aim from its words.
func (q *Sailing) aimed() error {
	switch q.Aimed {
	case "", trim.Windward.String(), trim.AtAngle.String(), polarAim, trim.LeastWind.String():
		q.Aim = trim.Windward
	case trim.Leeward.String():
		q.Aim = trim.Leeward
	default:
		return fmt.Errorf("aim: %q is none\nhint: %s or %s", q.Aimed, trim.Windward, trim.Leeward)
	}
	return nil
}
