package figure

import (
	"math"
	"strings"

	"foilwright/frame"
	"foilwright/quantity"
	"foilwright/si"
	"foilwright/study"
	"foilwright/trim"
)

// carrier marks the three centres of what carries most, its line of action and its
// lever, as the front view does.
func (s *ScenePart) carrier(r *trim.Result, front *FrontPart, centre Place) {
	along := 0.0
	for _, p := range s.Forces {
		if p.Kind == "weight" {
			along = p.At[0]
		}
	}
	carried := along
	for i := range r.Centres {
		k := &r.Centres[i]
		if k.Foil != front.Detail {
			continue
		}
		for _, p := range []*frame.Point[frame.Track]{k.Loaded, k.Rule} {
			if p != nil {
				carried = p.X
				break
			}
		}
	}
	across := func(p Place, x float64) Spot { return Spot{rounded(x), rounded(-p[0]), rounded(p[1])} }
	for _, m := range front.Centres {
		s.Centres = append(s.Centres, SceneMark{m.Kind, across(m.At, carried), m.Name, m.Text})
	}
	if front.Line != nil {
		s.Line = &SceneAxis{At: across(front.Line.At, carried), Direction: across(front.Line.Direction, 0)}
	}
	if l := front.Lever; l != nil {
		s.Levers = append(s.Levers, SceneLever{From: across(l.From, along), To: across(l.To, carried), Text: l.Text, Between: l.Between})
	}
}

// circulation draws the circulation along every wet piece of foils, off it towards
// where its force points.
func (s *ScenePart) circulation(v *study.ViewResult) {
	largest := 0.0
	for _, span := range v.Spans {
		for i := range span.Strips {
			largest = math.Max(largest, math.Abs(span.Strips[i].Circulation))
		}
	}
	if largest == 0 {
		return
	}
	windFrom := side(v.Trim.WindFrom)
	for _, span := range v.Spans {
		curve := SceneCurve{Name: trim.ByWind(span.Part, windFrom) + " " + span.Piece}
		for i := range span.Strips {
			st := &span.Strips[i]
			curve.At = append(curve.At, spot(st.Place))
			curve.Off = append(curve.Off, arrow(offWing(st, largest)))
			if math.Abs(st.Circulation) > math.Abs(span.Strips[curve.Peak].Circulation) {
				curve.Peak = i
			}
		}
		if len(curve.At) > 0 {
			curve.Text = circulation(math.Abs(span.Strips[curve.Peak].Circulation))
			s.Curves = append(s.Curves, curve)
		}
	}
}

func (s *ScenePart) handles(v *study.ViewResult) {
	s.Handles = []SceneHandle{}
	for i := range v.Handles {
		k := &v.Handles[i]
		u := s.units.For(k.Unit)
		if k.Unit == "1" {
			u = quantity.Usual{Dimension: quantity.Share, Unit: "%"}
		}
		one := SceneHandle{
			Name: k.Name, Hold: k.Hold, Unit: k.Unit, Value: k.Value, Lower: k.Lower, Upper: k.Upper, Step: k.Step,
			State: k.State, Text: pointing(u, k), Range: u.Numeral(k.Lower) + " to " + u.Format(k.Upper),
		}
		one.Spoken = s.spoken(v.Trim, k, one.Text)
		if p := k.Place; p != nil {
			one.Place = &ScenePlace{At: spot(p.At), Rate: arrow(p.Rate), Axis: arrow(p.Axis), Pivot: spot(p.Pivot)}
		}
		s.Handles = append(s.Handles, one)
	}
}

// pointing says a handle's value, and the way that a figure of attitude points.
func pointing(u quantity.Usual, k *study.Handle) string {
	words := [2]string{" to leeward", " to windward"}
	switch k.Name {
	case "pitch":
		words = [2]string{" bow down", " bow up"}
	case "heel", "leeway":
	default:
		return u.Format(k.Value)
	}
	switch {
	case nearZero(u, k.Value):
		return u.Format(0)
	case k.Value > 0:
		return u.Format(k.Value) + words[0]
	}
	return u.Format(-k.Value) + words[1]
}

// spoken says a value with what the foil that it belongs to carries, else with how the
// boat stands.
func (s *ScenePart) spoken(r *trim.Result, k *study.Handle, text string) string {
	words := strings.Replace(text, " deg", " degrees", 1)
	for i := range r.Centres {
		if r.Centres[i].Foil == k.Part {
			return words + ", vertical force " + s.units.On(r.Weight, "N").Format(r.Centres[i].Force.Z)
		}
	}
	switch r.Answer {
	case trim.Found:
		return words + ", speed " + s.units.For("m/s").Format(r.Speed.MetresPerSecond())
	case trim.Stated:
		return words + ", righting moment " + s.units.On(r.Weight, "N·m").Format(r.RightingMoment)
	}
	return words + ", and she cannot sail so"
}

// wind says a wind's speed.
func (s *ScenePart) wind(v si.Speed) string {
	return s.units.For("m/s").To(1).Format(v.MetresPerSecond())
}

// figures lists what is read off a state.
func (s *ScenePart) figures(v *study.ViewResult, front *FrontPart) {
	r := v.Trim
	s.Figures = []SceneFigure{}
	tell := func(name, text string) { s.Figures = append(s.Figures, SceneFigure{Name: name, Text: text}) }
	on := func(unit string) quantity.Usual { return s.units.On(r.Weight, unit) }
	tell("speed", s.units.For("m/s").Format(r.Speed.MetresPerSecond()))
	switch {
	case r.VMG > 0:
		tell("progress to windward", s.units.For("m/s").Format(r.VMG.MetresPerSecond()))
	default:
		tell("progress to leeward", s.units.For("m/s").Format(-r.VMG.MetresPerSecond()))
	}
	tell("true wind", s.wind(r.TrueWindSpeed)+" at "+s.units.For("rad").Format(r.TrueWindAngle.Radians()))
	tell("apparent wind", s.wind(r.ApparentWindSpeed)+" at "+s.units.For("rad").Format(r.ApparentWindAngle.Radians()))
	if front.Lever != nil {
		tell("lever", front.Lever.Text)
	}
	tell("righting moment", on("N·m").Format(r.RightingMoment))
	tell("heeling moment", on("N·m").Format(r.HeelingMoment))
	const carried = "side force carried"
	switch {
	case v.Dragged:
		s.Figures = append(s.Figures, SceneFigure{Name: carried, Later: true})
	case r.SideForceCarried != nil:
		tell(carried, on("N").Format(r.SideForceCarried.Force)+" at "+s.units.For("m").Format(r.SideForceCarried.Height))
	default:
		tell(carried, "none closes")
	}
	tell("drag in the water", on("N").Format(r.Drag.Water()))
	tell("drag in the air", on("N").Format(r.Drag.Air()))
	wet := 0.0
	for _, w := range r.WettedArea {
		wet += w.Area
	}
	tell("wetted area of foils", s.units.For("m²").To(3).Format(wet))
	tell("carried", r.Carrying)
	if r.Mode != "" {
		tell("mode", r.Mode+", "+r.Set)
	}
}
