package foil

import (
	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
)

// Three Gauss–Legendre points on [0, 1] (Abramowitz and Stegun 1964, table 25.4).
var (
	gaussPlace  = [3]float64{0.1127016653792583, 0.5, 0.8872983346207417}
	gaussWeight = [3]float64{5.0 / 18, 8.0 / 18, 5.0 / 18}
)

// Windage appends the drag in the wind of every foil's dry part and of the
// bodies that are out of the water. The drag coefficient on chord times span is
// one figure for all attitudes, Model.RaisedFoil: judgement, for sections that
// meet the wind anywhere between end-on and broadside.
func Windage(b *boat.Boat, s boat.State, wind fluid.Wind, air fluid.Air, w *Workspace, items []boat.Item) []boat.Item {
	for i := range b.Foils {
		f := &b.Foils[i]
		pose := place(b, i, &s)
		for j := range f.Pieces {
			p := placed{piece: &f.Pieces[j], pose: pose, memory: w.memoryOf(b, i, j)}
			w.breaks = p.piece.Path.AppendBreaks(w.breaks[:0])
			w.found = p.wet(w.breaks, tipOf(f, j), w.found[:0])
			if len(w.found) > 0 {
				p.memory = nil
			}
			var total gathered
			length := p.piece.Path.Length()
			dry := 0.0
			last := 0.0
			for k := 0; k <= len(w.found); k++ {
				next := 1.0
				if k < len(w.found) {
					next = w.found[k].From
				}
				for g := range gaussPlace {
					if next <= last {
						break
					}
					share := last + (next-last)*gaussPlace[g]
					l := p.local(share)
					area := l.chord * length * (next - last) * gaussWeight[g]
					at := pose.Point(l.quarter)
					total.add(Push(area*b.Model.RaisedFoil*b.Model.Windage, at.Z, s, wind, air), at)
					dry += area
				}
				if k < len(w.found) {
					last = w.found[k].To
				}
			}
			if dry > 0 {
				items = append(items, boat.Item{Part: f.Name, Piece: p.piece.Name, Cause: boat.WindDrag, Load: total.load})
			}
		}
	}
	return items
}

// Push returns the force of the wind at a height, m, on a drag area, m²: along
// the air's velocity over the boat.
func Push(dragArea, height float64, s boat.State, wind fluid.Wind, air fluid.Air) frame.Vec[frame.Track] {
	v := wind.VelocityOverBoat(s.Speed, height)
	return v.Times(air.Density / 2 * v.Norm() * dragArea)
}
