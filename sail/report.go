package sail

import (
	"math"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/si"
)

// Report is one sail's part of [Loads] in full.
type Report struct {
	Name            string                  `json:"name"`
	Lift            float64                 `json:"lift_N"`                 // size of the lift's resultant, negative where it pulls to windward
	InducedDrag     float64                 `json:"induced_drag_N"`         // along the wakes
	SectionDrag     float64                 `json:"section_drag_N"`         // size of the resultant along the local winds
	LiftCoefficient float64                 `json:"lift_coefficient"`       // Lift on area and the wind at mid-height
	LargestLift     float64                 `json:"largest_lift"`           // coefficient at WindAngle, or at the incidence, of the strip with least in hand
	WindSpeed       si.Speed                `json:"wind_speed_mps"`         // apparent, at mid-height
	WindAngle       si.Angle                `json:"wind_angle_rad"`         // apparent, at mid-height, off the bow, unsigned
	Incidence       si.Angle                `json:"incidence_rad"`          // above zero lift at mid-height: the sheet's setting
	Twist           si.Angle                `json:"twist_rad"`              // the setting
	Flatten         float64                 `json:"flatten"`                // the setting: share of the camber that is taken out
	SheetingAngle   si.Angle                `json:"sheeting_angle_rad"`     // chord off the centreline at mid-height, positive to leeward: WindAngle − (Incidence − 2·camber), with 8 % of camber as cut (common practice)
	SheetLoad       float64                 `json:"sheet_load_N"`           // moment of the strips' lift, at 40 % of chord, less far aft where flattened, about the luff over the foot (common practice; leech tension is left out; no scantling)
	CentreOfEffort  frame.Point[frame.Boat] `json:"centre_of_effort_m"`     // the strips' places weighted by their share in the resultant of lift and drag
	MastFoot        float64                 `json:"mast_foot_side_N"`       // side force, positive to port in the boat frame, that a luff simply held at tack and head hands to its foot: to the mast's foot where it stands on the mast, else to its tack (common practice; what the sheet holds is not taken off, stays, halyard and leech tension are left out; no scantling)
	MastFootAhead   float64                 `json:"mast_foot_ahead_N"`      // the same forward
	MastHead        float64                 `json:"mast_head_side_N"`       // the rest of the side force, at the luff's head
	MastHeadAhead   float64                 `json:"mast_head_ahead_N"`      // the same forward
	Margin          float64                 `json:"largest_lift_margin"`    // see Margin.LargestLift
	Loading         float64                 `json:"least_loading"`          // see Margin.Loading
	Beyond          string                  `json:"beyond_table,omitempty"` // where the sail's own table does not reach: what is done there, in words
	Strips          []StripReport           `json:"strips"`                 // foot to head
}

// StripReport is one strip of a [Report].
type StripReport struct {
	Share           float64  `json:"share"`               // of the luff
	Height          float64  `json:"height_m"`            // above the water
	Chord           float64  `json:"chord_m"`             // normal to the luff
	WindSpeed       si.Speed `json:"wind_speed_mps"`      // apparent, normal to the luff
	Incidence       si.Angle `json:"incidence_rad"`       // above zero lift, without the wakes
	Induced         si.Angle `json:"induced_angle_rad"`   // what the wakes take off it
	Circulation     float64  `json:"circulation_m2ps"`    // positive with force to leeward
	LiftCoefficient float64  `json:"lift_coefficient"`    // as asked, before it yields past the largest
	Margin          float64  `json:"largest_lift_margin"` // largest less asked
}

// Explain returns a report on each sail of the set, in its order: the same
// computation as [Loads], under the same conditions, told in full.
func Explain(b *boat.Boat, set int, s boat.State, wind fluid.Wind, air fluid.Air, w *Workspace) []Report {
	w.shape(b, set)
	w.place(b, s, wind)
	w.pull(s.Settings, air.Density)
	reports := make([]Report, len(w.sails))
	boatFromTrack := s.Attitude.Pose().Inverse()
	for i := range w.sails {
		r, m := &w.sails[i], w.margins[i]
		speed := r.wind.Norm()
		reports[i] = Report{
			Name: r.sail.Name,
			Lift: r.lift.Force.Norm(), InducedDrag: r.induced.Force.Dot(w.wake.along), SectionDrag: r.section.Force.Norm(),
			LargestLift: w.sections[r.hardest].largest, WindSpeed: si.Speed(speed), WindAngle: r.angle,
			Incidence: si.Angle(r.sheet), Twist: si.Angle(r.twist), Flatten: r.flat,
			SheetingAngle: r.angle - si.Angle(r.sheet-2*fullCamber*(1-r.flat)),
			SheetLoad:     m.SheetLoad, Margin: m.LargestLift, Loading: m.Loading, Beyond: w.beyond(r),
			Strips: make([]StripReport, 0, r.last-r.first),
		}
		w.explain(r, &reports[i], boatFromTrack, air.Density)
		if q := air.DynamicPressure(si.Speed(speed)) * r.sail.Area; q > 0 {
			reports[i].LiftCoefficient = reports[i].Lift / q
		}
	}
	return reports
}

// explain fills in what takes a walk over a sail's strips.
func (w *Workspace) explain(r *rigged, p *Report, boatFromTrack frame.Pose[frame.Boat, frame.Track], density float64) {
	total := r.lift.Force.Plus(r.induced.Force).Plus(r.section.Force)
	var centre frame.Vec[frame.Boat]
	weights, sum := 0.0, 0.0
	for i := r.first; i < r.last; i++ {
		t := &w.strips[i]
		lift, induced, drag := w.forces(i, density)
		force := lift.Plus(induced).Plus(drag)
		share := force.Dot(total)
		centre = centre.Plus(frame.Vec[frame.Boat](t.middle).Times(share))
		weights += share
		sum += w.circulation[i] * t.normal * w.wake.segments[i].length
		onLuff := boatFromTrack.Vec(force)
		p.MastFoot += onLuff.Y * (1 - t.eta)
		p.MastFootAhead += onLuff.X * (1 - t.eta)
		p.MastHead += onLuff.Y * t.eta
		p.MastHeadAhead += onLuff.X * t.eta
		strip := StripReport{
			Share: t.eta, Height: t.at.Z, Chord: t.chord, WindSpeed: si.Speed(t.normal),
			Incidence: si.Angle(w.incidence[i]), Circulation: w.circulation[i], LiftCoefficient: w.sections[i].asked,
		}
		if t.normal > 0 {
			strip.Induced = si.Angle(w.downwash[i] / t.normal)
		}
		strip.Margin = w.sections[i].largest - math.Abs(strip.LiftCoefficient)
		p.Strips = append(p.Strips, strip)
	}
	p.Lift = math.Copysign(p.Lift, sum)
	p.CentreOfEffort = boatFromTrack.Point(r.about)
	if weights > 0 {
		p.CentreOfEffort = frame.Point[frame.Boat](centre.Times(1 / weights))
	}
}
