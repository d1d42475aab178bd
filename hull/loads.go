package hull

import (
	"fmt"
	"math"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/si"
)

// Loads appends what the water does to a boat's hulls, in the track frame: of each
// that touches the water its buoyancy at the centre of buoyancy, friction at the
// middle of the wetted surface and residuary resistance at the centre of buoyancy,
// both against the track. They and their slopes fade to nothing as a hull comes
// out.
func Loads(b *boat.Boat, s boat.State, water fluid.Water, w *Workspace, items []boat.Item) []boat.Item {
	w.wetAt(b, s.Attitude)
	for i := range w.wet {
		m := &w.wet[i]
		if m.Volume == 0 {
			continue
		}
		w.settle()
		friction, residuary := w.hulls[i].drag.parts(m, s.Speed, water, &b.Model)
		name := b.Hulls[i].Name
		up := frame.Vec[frame.Track]{Z: water.Density * si.Gravity * m.Volume}
		items = append(items,
			boat.Item{Part: name, Cause: boat.Buoyancy, Load: frame.ForceAt(up, m.Centre)},
			boat.Item{Part: name, Piece: "friction", Cause: boat.HullDrag, Load: frame.ForceAt(frame.Vec[frame.Track]{X: -friction}, m.SurfaceCentre)},
			boat.Item{Part: name, Piece: "residuary", Cause: boat.HullDrag, Load: frame.ForceAt(frame.Vec[frame.Track]{X: -residuary}, m.Centre)})
	}
	return items
}

// Report is one hull in one state.
type Report struct {
	Part      string  `json:"part"`
	Carried   float64 `json:"weight_carried_N"` // by its buoyancy
	Surface   float64 `json:"wetted_area_m2"`
	Length    float64 `json:"wetted_length_m"` // the waterline's at rest in proportion to the spread of the displaced volume
	Froude    float64 `json:"froude_number"`   // on that length
	Friction  float64 `json:"friction_N"`
	Residuary float64 `json:"residuary_N"`
	Source    string  `json:"residuary_from"`
}

// ReportOf returns every hull that touches the water in a state, and in words
// where its resistance is told beyond what is known.
func ReportOf(b *boat.Boat, s boat.State, water fluid.Water, w *Workspace) (all []Report, warnings []string) {
	all = []Report{}
	w.wetAt(b, s.Attitude)
	for i := range w.wet {
		m := &w.wet[i]
		if m.Volume == 0 {
			continue
		}
		w.settle()
		d := &w.hulls[i].drag
		r := Report{
			Part: b.Hulls[i].Name, Carried: water.Density * si.Gravity * m.Volume, Surface: m.Surface,
			Length: d.length(m), Source: "regression",
		}
		r.Friction, r.Residuary = d.parts(m, s.Speed, water, &b.Model)
		r.Froude = s.Speed.MetresPerSecond() / math.Sqrt(si.Gravity*r.Length)
		if d.own != nil {
			r.Source = "own curve"
		}
		all = append(all, r)
		warnings = append(warnings, d.beyond(&r, s.Speed)...)
	}
	return all, warnings
}

// beyond says in words where a hull's resistance is beyond what is known.
func (r *resistance) beyond(at *Report, speed si.Speed) []string {
	var all []string
	if r.own != nil {
		if speed.MetresPerSecond() > r.fastest {
			all = append(all, fmt.Sprintf("%s: the curve of resistance ends at %.1f kn; beyond it goes on with its last slope",
				at.Part, si.Speed(r.fastest).Knots()))
		}
		return all
	}
	if at.Froude > fastestTested {
		all = append(all, fmt.Sprintf("%s: Froude number %.2f is beyond the tested %.2f; residuary resistance goes over into %.0f %% of the weight carried",
			at.Part, at.Froude, fastestTested, 100*planing))
	}
	for _, o := range r.rest.outside() {
		all = append(all, at.Part+": beyond the tested hulls: "+o)
	}
	return all
}
