package cli

import (
	"fmt"
	"strings"

	"foilwright/quantity"
	"foilwright/si"
	"foilwright/study"
)

// flagError says which flag cannot be read.
func flagError(flag string, err error) error { return fmt.Errorf("--%s: %w", flag, err) }

// value reads a flag that takes one value; where it is empty, otherwise counts.
func value(flag, text string, want quantity.Dimension, otherwise float64) (float64, error) {
	if text == "" {
		return otherwise, nil
	}
	q, err := quantity.Parse(text, want)
	if err != nil {
		return 0, flagError(flag, err)
	}
	if !q.Exact() {
		return 0, fmt.Errorf("--%s: %s has a spread, and one value is wanted\nhint: write %s", flag, text,
			quantity.Format(q.Likely, want, q.Unit, quantity.Shortest))
	}
	return q.Likely, nil
}

// values reads a flag that takes one value or a list of them.
func values(flag, text string, want quantity.Dimension) ([]float64, error) {
	list, err := quantity.ParseList(text, want)
	if err != nil {
		return nil, flagError(flag, err)
	}
	all := make([]float64, len(list))
	for i, q := range list {
		if !q.Exact() {
			return nil, fmt.Errorf("--%s: %s has a spread, and plain values are wanted\nhint: write %s", flag, q,
				quantity.Format(q.Likely, want, q.Unit, quantity.Shortest))
		}
		all[i] = q.Likely
	}
	return all, nil
}

// turned reads an angle to which one of two words may be added: "3 deg to
// windward" is minus "3 deg to leeward".
func turned(flag, text, plus, minus string) (si.Angle, error) {
	sign := 1.0
	if rest, ok := strings.CutSuffix(text, " "+minus); ok {
		text, sign = rest, -1
	} else if rest, ok := strings.CutSuffix(text, " "+plus); ok {
		text = rest
	}
	v, err := value(flag, text, quantity.Angle, 0)
	return si.Angle(sign * v), err
}

// settings reads flags of the form name=value.
func settings(flag string, texts []string) ([]study.Setting, error) {
	var all []study.Setting
	for _, text := range texts {
		name, value, ok := strings.Cut(text, "=")
		name, value = strings.TrimSpace(name), strings.TrimSpace(value)
		if !ok || name == "" || value == "" {
			return nil, fmt.Errorf("--%s: %q names no value\nhint: write --%s \"leeward main cant=20 deg\"", flag, text, flag)
		}
		all = append(all, study.Setting{Name: name, Value: value})
	}
	return all, nil
}

// across reads a point of the transverse plane: "y=1.2 m, z=-0.5 m".
func across(flag, text string) (*study.Across, error) {
	if text == "" {
		return nil, nil
	}
	fault := fmt.Errorf("--%s: %q is no point\nhint: write --%s \"y=1.2 m, z=-0.5 m\": y to port of the track, z above the water", flag, text, flag)
	var p study.Across
	seen := ""
	for _, part := range strings.Split(text, ",") {
		name, written, ok := strings.Cut(part, "=")
		name = strings.TrimSpace(name)
		if !ok || (name != "y" && name != "z") || strings.Contains(seen, name) {
			return nil, fault
		}
		seen += name
		v, err := value(flag, strings.TrimSpace(written), quantity.Length, 0)
		if err != nil {
			return nil, err
		}
		if name == "y" {
			p.Y = v
		} else {
			p.Z = v
		}
	}
	if len(seen) != 2 {
		return nil, fault
	}
	return &p, nil
}
