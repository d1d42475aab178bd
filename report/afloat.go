package report

import (
	"fmt"
	"math"

	"foilwright/study"
)

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
