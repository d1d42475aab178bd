package study

import (
	"fmt"
	"slices"
	"strings"

	"foilwright/boat"
	"foilwright/quantity"
	"foilwright/si"
	"foilwright/trim"
)

// swept is the variable of a sweep with its values.
type swept struct {
	name      string // speed, heel, pitch, leeway, ride height, or a control by the wind
	dimension quantity.Dimension
	control   bool
	values    []float64
}

// mostPoints is the longest sweep.
const mostPoints = 500

// sweepExample is a sweep as a person may write it.
const sweepExample = `"cant 0 to 25 deg by 1" or "speed 18, 24, 30 kn"`

// unit is the SI unit of the values.
func (v *swept) unit() string {
	if si := v.dimension.SI(); si != "" {
		return si
	}
	return "1"
}

// variable reads what is swept over.
func (q *Sweep) variable(b *boat.Boat) (*swept, error) {
	side, err := sideOf(q.WindFrom)
	if err != nil {
		return nil, err
	}
	q.WindFrom = side.String()
	name, written := parted(q.Over)
	if name == "" || written == "" {
		return nil, fmt.Errorf("sweep: %q is not a variable with its values\nhint: write %s", q.Over, sweepExample)
	}
	v := &swept{name: name, dimension: quantity.Angle}
	taken := false
	switch name {
	case "speed":
		v.dimension, taken = quantity.Speed, q.Speed != 0
	case "ride", "ride height":
		v.name, v.dimension, taken = "ride height", quantity.Length, q.Ride != nil
	case "heel":
		taken = q.Heel != 0
	case "pitch":
		taken = q.Pitch != 0
	case "leeway":
		taken = q.Leeway != 0
	default:
		if taken, err = v.findControl(q, b, side); err != nil {
			return nil, err
		}
	}
	if taken {
		return nil, fmt.Errorf("sweep: %s is swept, and set to one value besides\nhint: leave the one value out", v.name)
	}
	if q.Speed == 0 && v.name != "speed" {
		return nil, fmt.Errorf("speed: the speed to tow at is missing\nhint: give one, such as 30 kn, or sweep over it")
	}
	return v, v.read(b, written, side)
}

// findControl finds the control that is meant, with or without "leeward" before
// it, and tells whether it is set to one value.
func (v *swept) findControl(q *Sweep, b *boat.Boat, side boat.Side) (set bool, err error) {
	index, err := control(b, v.name, side)
	if err != nil {
		var other error
		if index, other = control(b, "leeward "+v.name, side); other != nil {
			return false, fmt.Errorf("%w; besides controls, speed, heel, pitch, leeway and ride can be swept", err)
		}
	}
	for _, s := range q.Settings {
		if other, err := control(b, s.Name, side); err == nil && other == index {
			set = true
		}
	}
	v.name, v.dimension, v.control = trim.ByWind(b.Controls[index].Name, side), dimensionOf(b.Controls[index].Kind), true
	return set, nil
}

// read reads the values and holds each against what may be asked.
func (v *swept) read(b *boat.Boat, written string, side boat.Side) error {
	list, err := quantity.ParseList(written, v.dimension)
	if err != nil {
		return fmt.Errorf("sweep: %s: %w", v.name, err)
	}
	if len(list) > mostPoints {
		return fmt.Errorf("sweep: %s: more than %d points\nhint: take a longer step", v.name, mostPoints)
	}
	for _, p := range list {
		if !p.Exact() {
			return fmt.Errorf("sweep: %s: %s has a spread, and plain values are wanted\nhint: write %s", v.name, p, sweepExample)
		}
		if v.control {
			_, _, err = settingOf(b, Setting{Name: v.name, Value: v.text(p.Likely)}, side)
		} else {
			err = sane(v.name, p.Likely, v.dimension)
		}
		if err != nil {
			return fmt.Errorf("sweep: %w", err)
		}
		v.values = append(v.values, p.Likely)
	}
	return nil
}

// text writes a value so that it is read back to the last bit or near it.
func (v *swept) text(value float64) string {
	unit := map[quantity.Dimension]string{quantity.Angle: "deg", quantity.Length: "m", quantity.Share: "%"}[v.dimension]
	return quantity.Format(value, v.dimension, unit, quantity.Shortest)
}

// put returns the question of one state of the sweep.
func (v *swept) put(q *Tow, i int) Tow {
	at, value := *q, v.values[i]
	switch v.name {
	case "speed":
		at.Speed = si.Speed(value)
	case "heel":
		at.Heel = si.Angle(value)
	case "pitch":
		at.Pitch = si.Angle(value)
	case "leeway":
		at.Leeway = si.Angle(value)
	case "ride height":
		at.Ride = &value
	default:
		at.Settings = append(slices.Clone(q.Settings), Setting{Name: v.name, Value: v.text(value)})
	}
	return at
}

// parted cuts a sweep's text where its values begin: at the equals sign, else
// before the first word that begins like a number. Two points stand for "to".
func parted(text string) (name, values string) {
	text = strings.NewReplacer("..", " to ", "…", " to ").Replace(text)
	if name, values, ok := strings.Cut(text, "="); ok {
		return strings.Join(strings.Fields(name), " "), strings.TrimSpace(values)
	}
	words := strings.Fields(text)
	for i, word := range words {
		if strings.ContainsAny(word[:1], "0123456789+-.") || strings.HasPrefix(word, "−") {
			return strings.Join(words[:i], " "), strings.Join(words[i:], " ")
		}
	}
	return strings.Join(words, " "), ""
}
