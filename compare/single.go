package compare

import (
	"strings"

	"foilwright/boat"
	"foilwright/trim"
)

// Figure is one figure as it is read off one boat's answer.
type Figure struct {
	Name string
	Unit string                                      // m/s, rad, m, m², N, N·m or 1
	Read func(*trim.Result) (value float64, ok bool) // false where the answer has none
}

// Figures returns the figures that boats are compared by and their drags by cause.
// Unlike in a table of differences, a cause that makes no drag counts as nothing.
func Figures() []Figure {
	var all []Figure
	for _, f := range figures() {
		all = append(all, Figure{f.name, f.unit, f.read})
	}
	all = append(all, Figure{"vmg", "m/s", always(func(r *trim.Result) float64 { return r.VMG.MetresPerSecond() })})
	for c := range boat.Cause(boat.Causes) {
		if c.Medium() != boat.Static {
			all = append(all, Figure{"drag: " + c.String(), "N", always(func(r *trim.Result) float64 { return r.Drag[c] })})
		}
	}
	return all
}

// FigureOf returns a figure by name: one of [Figures], or of the balance sheet a
// part named by the wind, a cause and a direction (forward, to leeward or up), as
// in "leeward main lift up". It is false where the name is neither. A part that an
// answer has, but not with that cause, counts as nothing.
func FigureOf(name string) (Figure, bool) {
	name = strings.Join(strings.Fields(name), " ")
	for _, f := range Figures() {
		if strings.EqualFold(f.Name, name) {
			return f, true
		}
	}
	for _, d := range []struct {
		words string
		of    func(Resolved) float64
	}{
		{" forward", func(f Resolved) float64 { return f.Forward }},
		{" to leeward", func(f Resolved) float64 { return f.Leeward }},
		{" up", func(f Resolved) float64 { return f.Up }},
	} {
		rest, ok := strings.CutSuffix(name, d.words)
		if !ok {
			continue
		}
		part, item := "", ""
		for c := range boat.Cause(boat.Causes) {
			// The longest name counts: "sail lift", not "lift".
			if p, ok := strings.CutSuffix(rest, " "+c.String()); ok && len(c.String()) > len(item) {
				part, item = p, c.String()
			}
		}
		if item != "" {
			return Figure{name, "N", func(r *trim.Result) (float64, bool) { return onSheet(r, part, item, d.of) }}, true
		}
	}
	return Figure{}, false
}

// onSheet sums a part's loads of one cause; false where an answer has no such part.
func onSheet(r *trim.Result, part, item string, of func(Resolved) float64) (sum float64, ok bool) {
	tack := leeward(r)
	for i := range r.Loads {
		l := &r.Loads[i]
		if trim.ByWind(l.Part, r.Conditions.WindFrom()) != part {
			continue
		}
		ok = true
		if l.Item == item {
			sum += of(Resolved{Forward: l.Force.X, Leeward: -tack * l.Force.Y, Up: l.Force.Z})
		}
	}
	return sum, ok
}
