package report

import (
	"slices"

	"foilwright/sail"
	"foilwright/trim"
)

// sails tells what each sail does, and what it hands to the rig.
func (p *page) sails(r *trim.Result) {
	angle := func(v float64) string { return number("rad", v) }
	flattened := slices.ContainsFunc(r.Sails, func(s sail.Report) bool { return s.Flatten > 0 })
	var rows []row
	for i := range r.Sails {
		s := &r.Sails[i]
		place := r.State.Attitude.Pose().Point(s.CentreOfEffort)
		cells := row{
			s.Name, p.lift(s.Lift), coefficient(s.LiftCoefficient), coefficient(s.LargestLift), angle(float64(s.WindAngle)),
			angle(float64(s.SheetingAngle)), angle(float64(s.Twist)),
		}
		if flattened {
			cells = append(cells, percent(s.Flatten))
		}
		rows = append(rows, append(cells, number("m", place.Z), number("m", s.CentreOfEffort.X)))
	}
	columns := []column{
		words("sail"), figures("lift\n" + p.kN()), figures("lift\ncoefficient"), figures("largest\ncoefficient"), figures("wind\ndeg"),
		figures("sheeted\ndeg"), figures("twist\ndeg"),
	}
	if flattened {
		columns = append(columns, figures("flatten\n%"))
	}
	p.table("Sails; height of the centre of effort above the water, and how far it lies ahead of the datum",
		append(columns, figures("centre\nm"), figures("ahead\nm")), rows)
	p.rig(r)
}

// rig tells what sails hand to sheets and to the ends of their luffs.
func (p *page) rig(r *trim.Result) {
	t := tack(r.WindFrom)
	var rows []row
	var sum sail.Report
	for i := range r.Sails {
		s := &r.Sails[i]
		rows = append(rows, row{
			s.Name, p.lift(s.SheetLoad), p.lift(-t * s.MastFoot), p.lift(s.MastFootAhead), p.lift(-t * s.MastHead), p.lift(s.MastHeadAhead),
			coefficient(s.Margin), coefficient(s.Loading),
		})
		sum.MastFoot, sum.MastFootAhead = sum.MastFoot+s.MastFoot, sum.MastFootAhead+s.MastFootAhead
		sum.MastHead, sum.MastHeadAhead = sum.MastHead+s.MastHead, sum.MastHeadAhead+s.MastHeadAhead
	}
	if len(r.Sails) > 1 {
		rows = append(rows, nil, row{"all", "", p.lift(-t * sum.MastFoot), p.lift(sum.MastFootAhead), p.lift(-t * sum.MastHead), p.lift(sum.MastHeadAhead), "", ""})
	}
	p.table("What sails hand to the boat: the sheet's load, and side force to leeward and force ahead at the foot of the luff (the mast's foot, or "+
		"the tack) and at its head (common practice; no scantlings). Lift coefficient in hand, and the least loading over the mean", []column{
		words("sail"), figures("sheet\n" + p.kN()), figures("foot to\nleeward"), figures("foot\nahead"), figures("head to\nleeward"), figures("head\nahead"),
		figures("lift\nin hand"), figures("least\nloading"),
	}, rows)
}
