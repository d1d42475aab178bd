package study

import (
	"fmt"
	"strings"

	"foilwright/boat"
	"foilwright/quantity"
	"foilwright/trim"
)

// Setting is a control, or a figure of attitude, set to a value: in the words
// of the person who asks, since only the boat tells what its controls measure.
type Setting struct {
	Name  string `json:"name"`  // "leeward main cant", "starboard main cant", "leeward cant", "heel"
	Value string `json:"value"` // with its unit
}

// sideOf reads the side that the wind comes from; empty is port.
func sideOf(windFrom string) (boat.Side, error) {
	switch windFrom {
	case "", boat.Port.String():
		return boat.Port, nil
	case boat.Starboard.String():
		return boat.Starboard, nil
	}
	return boat.Port, fmt.Errorf("wind from: %q is no side\nhint: port or starboard", windFrom)
}

// control returns the control that a name means, by side or by the wind. A label
// that one control alone has on that side ("leeward cant") will do.
func control(b *boat.Boat, name string, windFrom boat.Side) (int, error) {
	name = strings.Join(strings.Fields(name), " ")
	sided := trim.BySide(name, windFrom)
	var found []int
	for i := range b.Controls {
		c := &b.Controls[i]
		if c.Name == sided {
			return i, nil
		}
		short := c.Label
		if c.Side != boat.Centre {
			short = c.Side.String() + " " + c.Label
		}
		if short == sided {
			found = append(found, i)
		}
	}
	if len(found) == 1 {
		return found[0], nil
	}
	var names []string
	for i := range b.Controls {
		if len(found) == 0 || contains(found, i) {
			names = append(names, trim.ByWind(b.Controls[i].Name, windFrom))
		}
	}
	if len(found) > 1 {
		return -1, fmt.Errorf("%s: %q may mean more than one control\nhint: say which: %s", b.Name, name, strings.Join(names, ", "))
	}
	return -1, fmt.Errorf("%s: there is no control %q\nhint: %s", b.Name, name, suggestion(name, names))
}

func contains(all []int, one int) bool {
	for _, i := range all {
		if i == one {
			return true
		}
	}
	return false
}

// dimensionOf returns what a control's setting measures.
func dimensionOf(k boat.ControlKind) quantity.Dimension {
	return [...]quantity.Dimension{quantity.Angle, quantity.Length, quantity.Share}[k]
}

// unitOf returns the unit that a control's setting is shown in.
func unitOf(k boat.ControlKind) string { return [...]string{"deg", "m", "%"}[k] }

// settingOf reads a control's setting and holds it against what the control can do.
func settingOf(b *boat.Boat, s Setting, windFrom boat.Side) (index int, value float64, err error) {
	index, err = control(b, s.Name, windFrom)
	if err != nil {
		return 0, 0, err
	}
	c := &b.Controls[index]
	called := trim.ByWind(c.Name, windFrom)
	q, err := quantity.Parse(s.Value, dimensionOf(c.Kind))
	if err != nil {
		return 0, 0, fmt.Errorf("%s: %w", called, err)
	}
	// Written and read back, a bound may differ from itself in the last bit.
	const slack = 1e-12
	if q.Likely < c.Lower-slack || q.Likely > c.Upper+slack {
		allowed := quantity.Range{Low: c.Lower, High: c.Upper, Dimension: dimensionOf(c.Kind), Unit: unitOf(c.Kind)}
		return 0, 0, fmt.Errorf("%s: %s: %s is outside what the boat can do, %s\nhint: stay inside, or widen the range in the boat file",
			b.Name, called, s.Value, allowed)
	}
	return index, q.Likely, nil
}

// suggestion offers the names that resemble one, or all of them.
func suggestion(name string, names []string) string {
	if len(names) == 0 {
		return "there is none to name"
	}
	best, distance := "", len(name)/3+1
	for _, n := range names {
		if d := edits(name, n); d <= distance {
			best, distance = n, d-1
		}
	}
	if best != "" {
		return "did you mean " + best + "?"
	}
	return "there are: " + strings.Join(names, ", ")
}

// edits is the least number of letters to add, drop or change between two texts
// (Levenshtein 1966).
func edits(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := 1
			if a[i] == b[j] {
				cost = 0
			}
			diagonal, row[j+1] = row[j+1], min(row[j+1]+1, row[j]+1, diagonal+cost)
		}
	}
	return row[len(b)]
}
