package report

import (
	"fmt"
	"math"

	"foilwright/quantity"
	"foilwright/study"
	"foilwright/trim"
)

// onHulls tells what hulls that touch the water carry and cost.
func (p *page) onHulls(r *trim.Result) {
	if len(r.Hulls) == 0 {
		return
	}
	var all []row
	for i := range r.Hulls {
		h := &r.Hulls[i]
		all = append(all, row{
			h.Part, quantity.Numeral(100*h.Carried/r.Weight, quantity.Number, "", quantity.Decimals(1)), number("m²", h.Surface), number("m", h.Length),
			quantity.Numeral(h.Froude, quantity.Number, "", quantity.Decimals(2)), p.number("N", h.Friction), p.number("N", h.Residuary), h.Source,
		})
	}
	p.table("Hulls in the water: the boat is "+r.Carrying,
		[]column{words("hull"), figures("carries\n% of weight"), figures("wetted\nm²"), figures("length\nm"), figures("Froude\nnumber"), figures("friction\n" + p.kN()), figures("residuary\n" + p.kN()), words("residuary\nfrom")}, all)
}

// floating tells how a boat lies still on the water.
func (p *page) floating(f *study.Floating) {
	switch {
	case f == nil:
		return
	case f.AtRest == nil:
		p.say("Afloat: " + f.Missing + ".")
		return
	}
	hulls := "hull"
	if len(f.Hulls) > 1 {
		hulls = "hulls"
	}
	said := fmt.Sprintf("Afloat in no wind: draught of the %s %s, %s, with %.0f %% of the weight on the %s and the rest on foils and bodies; waterline %s, metacentric height %s",
		hulls, as("m").with(f.Draught), trimmed(f.Pitch.Degrees()), 100*f.OnHulls, hulls, as("m").with(f.Length), as("m").with(f.MetacentricHeight))
	if f.MetacentricHeight < 0 {
		said += ": she falls over unless somebody moves to hold her"
	}
	p.say(said + ".")
}

// trimmed says how the bow lies.
func trimmed(bowDown float64) string {
	switch {
	case math.Abs(bowDown) < 0.05:
		return "level fore and aft"
	case bowDown > 0:
		return fmt.Sprintf("%.1f deg bow down", bowDown)
	}
	return fmt.Sprintf("%.1f deg bow up", -bowDown)
}
