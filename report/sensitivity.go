package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"foilwright/quantity"
	"foilwright/study"
	"foilwright/trim"
)

// sensitivity tells what each of the model's factors does to the loads.
func (p *page) sensitivity(r *study.SensitivityResult) {
	p.weight = r.Weight
	what := r.Boat
	if r.Only != "" {
		what = fmt.Sprintf("%s's %s alone", r.Boat, trim.ByWind(r.Only, sideOf(r.WindFrom)))
	}
	p.say(fmt.Sprintf("%s towed at %s: %s, %s, %s of drag with every one of the model's factors at its likely value.", what, knots(r.Speed),
		p.toward(r.Up, "up", "down"), p.toward(r.Windward, "to windward", "to leeward"), p.force(r.Drag)))
	p.say(standing(&r.Standing))
	p.list("Notes", r.Notes)
	var idle []string
	var moving []*study.FactorEffect
	for i := range r.Factors {
		f := &r.Factors[i]
		if p.moves(f) {
			moving = append(moving, f)
		} else {
			idle = append(idle, f.Name+" ("+f.Spread+")")
		}
	}
	slices.SortStableFunc(moving, func(a, b *study.FactorEffect) int {
		switch x, y := reach(a), reach(b); {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	var rows []row
	for _, f := range moving {
		for i, end := range [2]*study.FactorEnd{&f.Low, &f.High} {
			cells := row{"", "", quantity.Numeral(end.Value, quantity.Number, "", quantity.Decimals(2)),
				p.finer().change(end.Up), p.finer().change(end.Windward), p.finer().change(end.Drag), changed(end.Drag / r.Drag), ""}
			if i == 0 {
				cells[0], cells[1] = f.Name, f.Spread
			}
			if end.Ventilation != nil {
				cells[7] = as("rad").change(end.Ventilation.Radians())
			}
			rows = append(rows, cells)
		}
	}
	unit := "\n" + p.kN()
	p.table("What changes with each factor alone at either end of its spread, one standard deviation of a normal or the whole range; "+
		"the largest first. Side force counts to windward", []column{
		words("factor"), words("spread"), figures("at"), figures("up" + unit), figures("windward" + unit), figures("drag" + unit),
		figures("of the\ndrag"), figures("ventilation\nmargin deg"),
	}, rows)
	if len(idle) > 0 {
		p.say("No effect here: " + strings.Join(idle, ", ") + ".")
	}
	p.say("The factors and their spreads are judgement unless a boat file gives its own (foilwright check lists them with their basis); " +
		"the state is held, and a boat that is trimmed again answers otherwise.")
}

// finer shows changes of force with one decimal more than forces.
func (p *page) finer() shown {
	s := p.as("N")
	s.decimals++
	return s
}

// moves tells whether a factor changes anything that is shown.
func (p *page) moves(f *study.FactorEffect) bool {
	s := p.finer()
	for _, e := range [2]*study.FactorEnd{&f.Low, &f.High} {
		for _, v := range [3]float64{e.Up, e.Windward, e.Drag} {
			if s.numeral(math.Abs(v)) != s.numeral(0) {
				return true
			}
		}
		if e.Ventilation != nil && as("rad").numeral(math.Abs(e.Ventilation.Radians())) != as("rad").numeral(0) {
			return true
		}
	}
	return false
}

// reach is the largest force that a factor moves, N.
func reach(f *study.FactorEffect) float64 {
	most := 0.0
	for _, e := range [2]*study.FactorEnd{&f.Low, &f.High} {
		most = math.Max(most, math.Hypot(e.Drag, math.Hypot(e.Up, e.Windward)))
	}
	return most
}
