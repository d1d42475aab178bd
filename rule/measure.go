package rule

import (
	"math"
	"strings"

	"foilwright/boat"
	"foilwright/boatfile"
	"foilwright/foil"
	"foilwright/frame"
	"foilwright/quantity"
)

// measure is one thing that a rule can measure.
type measure struct {
	name      string
	dimension quantity.Dimension
	of        []string // first keys of the parts that have it
	words     string   // what is measured
}

// measures returns all that can be measured.
func measures() []measure {
	return []measure{
		{"mass", quantity.Mass, []string{"boat", "weights", "foils", "bodies"}, "mass; of a pair of foils, of each"},
		{"length", quantity.Length, []string{"boat"}, "reference length"},
		{"area", quantity.Area, []string{"sails", "sets", "foils"}, "area of a sail, of a set of them, or of a foil seen square to its pieces"},
		{"wing area", quantity.Area, []string{"foils"}, "area of the pieces of a foil whose tips are free"},
		{"span", quantity.Length, []string{"foils"}, "from one end to the other of the pieces whose tips are free, across the boat"},
		{"drop", quantity.Length, []string{"foils"}, "how far the lowest free tip lies below where its piece begins"},
		{"height", quantity.Length, []string{"sails"}, "of a sail's head above the datum"},
		{"movable parts", quantity.Number, []string{"foils"}, "controls that move a foil or its flaps and are not fixed; each side of a pair for itself"},
		{"box", quantity.Length, []string{"foils"}, "x forward, y outboard and z up of all of a foil"},
	}
}

func measureNames() []string {
	var names []string
	for _, m := range measures() {
		names = append(names, m.name)
	}
	return names
}

// figure is what was measured of one part.
type figure struct {
	part  string  // "port main", "jib", "boat"
	path  string  // where the boat file speaks of it: "foils.main"
	value float64 // SI
	low   float64 // box: the least coordinate of each axis is here
	high  float64 // and the greatest here; else both are value
}

func single(part, path string, value float64) figure {
	return figure{part: part, path: path, value: value, low: value, high: value}
}

// of returns the parts of a boat that a path means, with what is measured of each.
// An empty list means that there is no such part.
func (l *limit) of(b *boat.Boat) []figure {
	switch l.head {
	case "boat":
		if l.measure.name == "length" {
			return []figure{single("boat", "length", b.Length)}
		}
		return []figure{single("boat", "", b.Mass())}
	case "weights":
		return matching(l.name, "weights.", len(b.Weights), func(i int) (string, float64) { return b.Weights[i].Name, b.Weights[i].Mass })
	case "bodies":
		return matching(l.name, "bodies.", len(b.Bodies), func(i int) (string, float64) { return b.Bodies[i].Name, b.Bodies[i].Mass })
	case "sails":
		return matching(l.name, "sails.", len(b.Sails), func(i int) (string, float64) {
			s := &b.Sails[i]
			if l.measure.name == "height" {
				return s.Name, s.Tack.Z + s.Luff*s.Lean.Cos()
			}
			return s.Name, s.Area
		})
	case "sets":
		return matching(l.name, "sets.", len(b.Sets), func(i int) (string, float64) {
			sum := 0.0
			for _, k := range b.Sets[i].Sails {
				sum += b.Sails[k].Area
			}
			return b.Sets[i].Name, sum
		})
	}
	return l.ofFoils(b)
}

// matching measures the parts whose names match.
func matching(name, prefix string, n int, read func(i int) (string, float64)) []figure {
	var all []figure
	for i := range n {
		part, value := read(i)
		// Of a pair each side is a part, and the file speaks of both at once.
		written := part
		for _, side := range [2]boat.Side{boat.Port, boat.Starboard} {
			written = strings.TrimPrefix(written, side.String()+" ")
		}
		if boatfile.Starred(name, part) || boatfile.Starred(name, written) {
			all = append(all, single(part, prefix+written, value))
		}
	}
	return all
}

// ofFoils measures foils. Of movable parts, all foils of a name count together.
func (l *limit) ofFoils(b *boat.Boat) []figure {
	var all []figure
	moved := make([]bool, len(b.Controls))
	named := false
	for i := range b.Foils {
		f := &b.Foils[i]
		if !boatfile.Starred(l.name, f.Kind) && !boatfile.Starred(l.name, f.Name) {
			continue
		}
		named = true
		path := "foils." + f.Kind
		switch l.measure.name {
		case "mass":
			all = append(all, single(f.Name, path, f.Mass))
		case "area", "wing area":
			all = append(all, single(f.Name, path, planArea(b, i, l.measure.name)))
		case "span":
			low, high := l.extent(b, f, freeTips(f), nil, 1)
			all = append(all, single(f.Name, path, high-low))
		case "drop":
			all = append(all, single(f.Name, path, l.drop(b, f)))
		case "box":
			low, high := l.extent(b, f, everyPiece(f), chordEnds[:], l.axis)
			all = append(all, figure{part: f.Name, path: path, low: low, high: high})
		case "movable parts":
			mark(moved, f)
		}
	}
	if l.measure.name != "movable parts" || !named {
		return all
	}
	count := 0.0
	for i := range moved {
		if moved[i] && !b.Controls[i].Fixed() {
			count++
		}
	}
	part, path := "foils", "foils"
	if l.name != "*" {
		part, path = l.name, "foils."+l.name
	}
	return []figure{single(part, path, count)}
}

// mark marks the controls that move a foil or its flaps.
func mark(moved []bool, f *boat.Foil) {
	for _, m := range f.Moves {
		if m.Control >= 0 {
			moved[m.Control] = true
		}
	}
	for j := range f.Pieces {
		if k := &f.Pieces[j].Flap; k.Share > 0 && k.Control >= 0 {
			moved[k.Control] = true
		}
	}
}

// planArea returns a foil's area seen square to its pieces, m², all of it or of its
// wings.
func planArea(b *boat.Boat, index int, name string) float64 {
	sum := 0.0
	for _, o := range foil.Outlines(b, boat.State{Settings: b.Starts()}) {
		if o.Foil == index && (name == "area" || o.FreeTip == foil.FreeTip) {
			sum += o.WetPlan + o.DryPlan
		}
	}
	return sum
}

func everyPiece(f *boat.Foil) []int {
	all := make([]int, len(f.Pieces))
	for i := range all {
		all[i] = i
	}
	return all
}

func freeTips(f *boat.Foil) []int { return foil.FreeTips(f) }

// chordEnds are where leading and trailing edge lie ahead of the quarter-chord
// line, in chords.
var chordEnds = [2]float64{0.25, -0.75}

// samples is how many places along a piece are looked at besides its corners.
const samples = 64

// extent returns the least and the greatest coordinate (0 is x, 1 y outboard, 2 z)
// of pieces of a foil at the limit's settings, m: of the quarter-chord line, or of
// points some chords ahead of it.
func (l *limit) extent(b *boat.Boat, f *boat.Foil, pieces []int, ahead []float64, axis int) (low, high float64) {
	if len(ahead) == 0 {
		ahead = []float64{0}
	}
	low, high = math.Inf(1), math.Inf(-1)
	outboard := f.Side.Sign()
	if outboard == 0 {
		outboard = 1
	}
	for _, settings := range l.settings(b, f) {
		pose := f.Pose(settings)
		for _, i := range pieces {
			p := &f.Pieces[i]
			shares := p.Path.AppendBreaks(append([]float64(nil), p.Chord.Share...))
			for k := range samples + 1 {
				shares = append(shares, float64(k)/samples)
			}
			for _, share := range shares {
				q, _ := p.Path.At(share)
				for _, a := range ahead {
					at := pose.Point(q.Add(frame.Vec[boat.Local]{X: a * p.Chord.At(share)}))
					c := [3]float64{at.X, outboard * at.Y, at.Z}[axis]
					low, high = math.Min(low, c), math.Max(high, c)
				}
			}
		}
	}
	return low, high
}

// drop returns how far the lowest free tip lies below where its piece begins, m.
func (l *limit) drop(b *boat.Boat, f *boat.Foil) float64 {
	most := math.Inf(-1)
	for _, settings := range l.settings(b, f) {
		pose := f.Pose(settings)
		for _, i := range freeTips(f) {
			p := &f.Pieces[i]
			most = math.Max(most, pose.Point(p.Path.Start()).Z-pose.Point(p.Path.End()).Z)
		}
	}
	return most
}

// settings returns the settings at which a foil is measured: its moves at zero, a
// slide all the way down, but for what the limit states. A range is looked at in
// steps.
func (l *limit) settings(b *boat.Boat, f *boat.Foil) [][]float64 {
	start := make([]float64, len(b.Controls))
	for _, m := range f.Moves {
		if m.Control >= 0 && m.Kind == boat.Slide {
			start[m.Control] = 1
		}
	}
	all := [][]float64{start}
	for _, s := range l.at {
		steps := steps
		if s.rng.Pinned() {
			steps = 0
		}
		var next [][]float64
		for _, settings := range all {
			for k := range steps + 1 {
				value := s.rng.Low
				if steps > 0 {
					value += (s.rng.High - s.rng.Low) * float64(k) / float64(steps)
				}
				moved := append([]float64(nil), settings...)
				for _, m := range f.Moves {
					if m.Control >= 0 && m.Name == s.move {
						moved[m.Control] = value
					}
				}
				next = append(next, moved)
			}
		}
		all = next
	}
	return all
}

// steps is into how many a range of settings is parted.
const steps = 24
