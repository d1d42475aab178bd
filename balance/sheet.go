package balance

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"

	"foilwright/boat"
	"foilwright/frame"
	"foilwright/si"
)

// DragByCause is drag, N, by cause, indexed with boat.Cause. The water's causes
// count along the track, the air's along the apparent wind at the reference
// height; lift has none in the water by construction, and in the air what shear
// and heel turn out of it.
type DragByCause [boat.Causes]float64

// MarshalJSON writes the causes that make drag, by name.
func (d DragByCause) MarshalJSON() ([]byte, error) {
	var text strings.Builder
	text.WriteByte('{')
	for c := range boat.Cause(boat.Causes) {
		if c.Medium() == boat.Static || d[c] == 0 {
			continue
		}
		if text.Len() > 1 {
			text.WriteByte(',')
		}
		name, err := json.Marshal(strings.ReplaceAll(c.String(), " ", "_"))
		if err != nil {
			return nil, err
		}
		value, err := json.Marshal(d[c])
		if err != nil {
			return nil, err
		}
		text.Write(name)
		text.WriteByte(':')
		text.Write(value)
	}
	text.WriteByte('}')
	return []byte(text.String()), nil
}

// UnmarshalJSON reads what MarshalJSON writes.
func (d *DragByCause) UnmarshalJSON(text []byte) error {
	var named map[string]float64
	if err := json.Unmarshal(text, &named); err != nil {
		return err
	}
	*d = DragByCause{}
	for c := range boat.Cause(boat.Causes) {
		name := strings.ReplaceAll(c.String(), " ", "_")
		d[c] = named[name]
		delete(named, name)
	}
	for name := range named {
		return fmt.Errorf("drag: %q is no cause", name)
	}
	return nil
}

// Water returns the drag of all the water's causes, N.
func (d DragByCause) Water() float64 { return d.of(boat.Water) }

// Air returns the drag of all the air's causes, N.
func (d DragByCause) Air() float64 { return d.of(boat.Air) }

func (d DragByCause) of(m boat.Medium) float64 {
	sum := 0.0
	for c := range boat.Cause(boat.Causes) {
		if c.Medium() == m {
			sum += d[c]
		}
	}
	return sum
}

// Sheet is what an analyst reads off the loads of one state. Angles are
// positive; forces are in the track frame.
type Sheet struct {
	ApparentWindSpeed si.Speed                // at the wind's reference height
	ApparentWindAngle si.Angle                // off the track, positive from either side
	AeroDragAngle     si.Angle                // atan of the air's drag over its side force, in the horizontal plane
	HydroDragAngle    si.Angle                // the same of the water
	Air               frame.Load[frame.Track] // all of the air's loads, about the datum
	Water             frame.Load[frame.Track]
	Static            frame.Load[frame.Track] // weight and buoyancy
	Drag              DragByCause
	ThrustPower       float64 // speed times the air's force along the track, W
	DragPower         float64 // speed times the water's drag, W
}

// SheetOf reads the sheet off a state's loads.
func SheetOf(s boat.State, l Loads, c Conditions) Sheet {
	var sheet Sheet
	about := s.Attitude.Pose().Origin
	sheet.Air.About, sheet.Water.About, sheet.Static.About = about, about, about
	speed, angle := c.Wind.Apparent(s.Speed)
	sheet.ApparentWindSpeed, sheet.ApparentWindAngle = speed, si.Angle(math.Abs(angle.Radians()))
	downwind := frame.Vec[frame.Track]{X: -angle.Cos(), Y: -angle.Sin()}
	for i := range l.Items {
		it := &l.Items[i]
		switch it.Cause.Medium() {
		case boat.Static:
			sheet.Static = sheet.Static.Plus(it.Load)
		case boat.Water:
			sheet.Water = sheet.Water.Plus(it.Load)
			sheet.Drag[it.Cause] -= it.Load.Force.X
		case boat.Air:
			sheet.Air = sheet.Air.Plus(it.Load)
			sheet.Drag[it.Cause] += it.Load.Force.Dot(downwind)
		}
	}
	air, water := sheet.Air.Force, sheet.Water.Force
	sheet.AeroDragAngle = si.Angle(math.Atan2(air.Dot(downwind), math.Abs(air.X*downwind.Y-air.Y*downwind.X)))
	sheet.HydroDragAngle = si.Angle(math.Atan2(-water.X, math.Abs(water.Y)))
	v := s.Speed.MetresPerSecond()
	sheet.ThrustPower, sheet.DragPower = v*air.X, -v*water.X
	return sheet
}
