package report

import (
	"fmt"

	"foilwright/polar"
	"foilwright/quantity"
	"foilwright/trim"
)

// takeOff tells how a boat takes off.
func (p *page) takeOff(t *polar.TakeOff) {
	p.weight = 0
	for _, r := range t.Rungs {
		p.weight = max(p.weight, r.Drag)
	}
	at := func(r *polar.Rung) string {
		return fmt.Sprintf("%s of wind, at %s", windSpeed(r.Wind)+" kn", knots(r.Speed))
	}
	switch f := t.Flying; {
	case f != nil:
		p.say(fmt.Sprintf("%s flies from %s, %s off the true wind.", t.Boat, at(f), degrees(t.Angle)))
	case t.KeptIn:
		p.say(fmt.Sprintf("%s does not fly clear of the water: her limits of ride height keep a hull in it. Looked at %s off the true wind.", t.Boat, degrees(t.Angle)))
	default:
		p.say(fmt.Sprintf("%s does not fly clear of the water: no wind was found that lifts her out. Looked at %s off the true wind.", t.Boat, degrees(t.Angle)))
	}
	if h := t.Hump; h != nil {
		said := fmt.Sprintf("In a rising wind she sails afloat up to %s: there the wind needed has its hump, with %.0f %% of the weight on the hulls.", at(h), 100*h.OnHulls)
		if t.Lifts != nil {
			said += fmt.Sprintf(" Past it she speeds up by herself, and the hull leaves the water at %s.", knots(t.Lifts.Speed))
		}
		p.say(said)
	} else {
		said := "The wind needed rises with speed all the way: there is one branch, in a rising wind as in a falling one."
		if t.Lifts != nil {
			said = fmt.Sprintf("In a rising wind the hull leaves the water in %s. ", at(t.Lifts)) + said
		}
		p.say(said)
	}
	if from, to, both := t.Hysteresis(); both {
		p.say(fmt.Sprintf("Between %s and %s of wind she can do both: on the lower branch she stays afloat, on the upper she stays up until the wind falls below the first.",
			windSpeed(from)+" kn", windSpeed(to)+" kn"))
	}
	if d := t.MostDrag; d != nil {
		p.say(fmt.Sprintf("Drag in the water is largest at %s: %s, %.0f %% of it the hulls'.", knots(d.Speed), p.force(d.Drag), 100*d.OfHulls/d.Drag))
	}
	var rows []row
	var without []string
	for i := range t.Rungs {
		r := &t.Rungs[i]
		if r.Answer != trim.Found {
			rows = append(rows, row{number("m/s", float64(r.Speed)), "none"})
			without = append(without, knots(r.Speed)+": "+r.Reason)
			continue
		}
		rows = append(rows, row{
			number("m/s", float64(r.Speed)), windSpeed(r.Wind), number("m", r.RideHeight),
			quantity.Numeral(100*r.OnHulls, quantity.Number, "", quantity.Decimals(0)), p.number("N", r.Drag), p.number("N", r.OfHulls),
			number("rad", float64(r.Heel)*tack(t.WindFrom)), number("rad", float64(r.Leeway)*tack(t.WindFrom)), r.Carrying,
		})
	}
	p.table(fmt.Sprintf("The least true wind for each steady speed at %s off it, in mode %s with %s sails", degrees(t.Angle), t.Mode, t.Set), []column{
		figures("speed\nkn"), figures("wind\nkn"), figures("ride\nm"), figures("on hulls\n% of weight"), figures("drag\n" + p.kN()), figures("of hulls\n" + p.kN()),
		figures("heel deg\n+ to leeward"), figures("leeway deg\n+ to leeward"), words("the boat is"),
	}, rows)
	p.list("Speeds that no wind was found to hold", without)
}
