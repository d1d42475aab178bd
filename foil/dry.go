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
	w.dip(b, &s)
	over := wind.Over(s.Speed)
	for i := range w.standing {
		p := &w.standing[i]
		found := w.found[p.wet[0]:p.wet[1]]
		var total gathered
		dry, last := 0.0, 0.0
		for k := 0; k <= len(found); k++ {
			next := 1.0
			if k < len(found) {
				next = found[k].From
			}
			if next > last {
				dry += p.push(b, last, next, &over, air, 1, &total)
			}
			if k < len(found) {
				last = found[k].To
				if sunk := p.sunk(&found[k]); sunk < 1 {
					dry += p.push(b, next, last, &over, air, 1-sunk, &total)
				}
			}
		}
		if dry > 0 {
			items = append(items, boat.Item{Part: b.Foils[p.foil].Name, Piece: p.piece.Name, Cause: boat.WindDrag, Load: total.load})
		}
	}
	return items
}

// push adds the wind's drag between two shares of a piece to a load, by how much it is
// dry, and returns the dry area there, m².
func (p *standing) push(b *boat.Boat, from, to float64, over *fluid.Stream, air fluid.Air, dry float64, total *gathered) float64 {
	whole := from == 0 && to == 1
	sum := 0.0
	var found localSection
	for g := range gaussPlace {
		l := &p.memory.dry[g]
		if !whole {
			l = &found
			p.memory.at(p.piece, from+(to-from)*gaussPlace[g], l)
		}
		area := l.chord * p.piece.Path.Length() * (to - from) * gaussWeight[g] * dry
		at := p.pose.Point(l.quarter)
		total.add(Push(area*b.Model.RaisedFoil*b.Model.Windage, at.Z, over, air), at)
		sum += area
	}
	return sum
}

// Push returns the force of the wind at a height, m, on a drag area, m²: along
// the air's velocity over the boat.
func Push(dragArea, height float64, over *fluid.Stream, air fluid.Air) frame.Vec[frame.Track] {
	v := over.At(height)
	return v.Times(air.Density / 2 * v.Norm() * dragArea)
}
