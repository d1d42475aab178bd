package sail

import (
	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
)

// gauss returns nodes on 0 to 1 and weights of Gauss–Legendre quadrature with
// five points (Abramowitz & Stegun 1964, table 25.4).
func gauss() (nodes, weights [5]float64) {
	const (
		a, b = 0.4530899229693320, 0.2692346550528415
		p, q = 0.1184634425280945, 0.2393143352496832
		mid  = 0.2844444444444444
	)
	return [5]float64{0.5 - a, 0.5 - b, 0.5, 0.5 + b, 0.5 + a}, [5]float64{p, q, mid, q, p}
}

// windages appends the drag of every area in the wind. Where the boat stands as she did,
// areas that have not moved have the drag that they had.
func (w *Workspace) windages(b *boat.Boat, s *boat.State, wind fluid.Wind, density float64, items []boat.Item) []boat.Item {
	if len(w.driven) != len(b.Windages) {
		w.driven = grow(w.driven, len(b.Windages))
		clear(w.driven)
	}
	over, pose := wind.Over(s.Speed), s.Attitude.Pose()
	for i := range b.Windages {
		d, k := &b.Windages[i], &w.driven[i]
		bottom, top := b.WindageEnds(d, s.Settings)
		if k.bottom != bottom || k.top != top || k.density != density {
			*k = driven{bottom, top, density, windage(b, d, bottom, top, &pose, &over, density)}
		}
		items = append(items, boat.Item{Part: d.Name, Cause: boat.WindDrag, Load: k.load})
	}
	return items
}

// driven is the drag of an area in the wind as it was last found, with what it follows from
// besides the place; no density where none was found.
type driven struct {
	bottom, top frame.Point[frame.Boat]
	density     float64
	load        frame.Load[frame.Track]
}

// windage returns the drag of an area in the wind between two ends, about its own middle: at five
// Gauss points between its bottom and top, ½·ρ·W² times its coefficient, its
// share of the area and the model's windage factor, along the local apparent
// wind. It moves with the shift of the weight that it follows. Shelter, lift and
// the change of area with the angle of the wind are left out; what dips under
// water is not taken off.
func windage(b *boat.Boat, d *boat.Windage, bottom, top frame.Point[frame.Boat], pose *frame.Pose[frame.Track, frame.Boat], air *fluid.Stream, density float64) frame.Load[frame.Track] {
	load := frame.Load[frame.Track]{About: pose.Point(bottom.Toward(top, 0.5))}
	nodes, weights := gauss()
	for i, share := range nodes {
		at := pose.Point(bottom.Toward(top, share))
		v := air.At(at.Z)
		add(&load, v.Times(density/2*v.Norm()*d.Area*d.Coefficient*b.Model.Windage*weights[i]), at)
	}
	return load
}
