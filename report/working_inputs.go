package report

import (
	"fmt"
	"math"
	"slices"

	"foilwright/boat"
	"foilwright/compare"
	"foilwright/trim"
)

// goes is one input of one boat.
type goes struct{ name, value string }

// inputsBy gathers what each boat tells, by name, in the order in which names turn up.
func inputsBy(tell func(*page, *trim.Result) []goes) func(*page, []*trim.Result) []Input {
	return func(p *page, boats []*trim.Result) []Input {
		all := []Input{}
		for i, r := range boats {
			for _, t := range tell(p, r) {
				at := slices.IndexFunc(all, func(have Input) bool { return have.Name == t.name })
				if at < 0 {
					at = len(all)
					none := slices.Repeat([]string{"none"}, len(boats))
					all = append(all, Input{t.name, none})
				}
				all[at].Values[i] = t.value
			}
		}
		return all
	}
}

// both joins inputs.
func both(all ...func(*page, []*trim.Result) []Input) func(*page, []*trim.Result) []Input {
	return func(p *page, boats []*trim.Result) []Input {
		var joined []Input
		for _, inputs := range all {
			joined = append(joined, inputs(p, boats)...)
		}
		return joined
	}
}

// figuresOf are other figures of the table.
func figuresOf(names ...string) func(*page, []*trim.Result) []Input {
	return inputsBy(func(p *page, r *trim.Result) []goes {
		var all []goes
		for _, name := range names {
			f, _ := compare.FigureOf(name)
			if v, ok := f.Read(r); ok {
				all = append(all, goes{name, p.as(f.Unit).with(v)})
			}
		}
		return all
	})
}

// triangle is the wind triangle.
func triangle(p *page, boats []*trim.Result) []Input {
	return inputsBy(func(p *page, r *trim.Result) []goes {
		return []goes{{"true wind speed w", p.wind(r.TrueWindSpeed)}, {"speed V", p.speed(r.Speed)}, {"true wind angle γ", degrees(r.TrueWindAngle)}}
	})(p, boats)
}

// along is what drives and what holds back along the track.
func along(p *page, boats []*trim.Result) []Input {
	return inputsBy(func(p *page, r *trim.Result) []goes {
		air, water := 0.0, 0.0
		for i := range r.Loads {
			switch mediumOf(r.Loads[i].Item) {
			case boat.Air:
				air += r.Loads[i].Force.X
			case boat.Water:
				water += r.Loads[i].Force.X
			}
		}
		return []goes{{"the air's force along the track", p.force(air)}, {"the water's force along the track", p.force(water)}}
	})(p, boats)
}

func mediumOf(item string) boat.Medium {
	for c := range boat.Cause(boat.Causes) {
		if c.String() == item {
			return c.Medium()
		}
	}
	return boat.Static
}

func searchInputs(p *page, boats []*trim.Result) []Input {
	return inputsBy(func(_ *page, r *trim.Result) []goes {
		return []goes{{"starts that converged", fmt.Sprintf("%d of %d", r.Search.Converged, r.Search.Starts)}, {"of them on this trim", fmt.Sprint(r.Search.Agreeing)}}
	})(p, boats)
}

// limitInputs tell where a figure of attitude stands in its limit.
func limitInputs(name string) func(*page, []*trim.Result) []Input {
	return inputsBy(func(p *page, r *trim.Result) []goes {
		var all []goes
		for _, l := range r.Limits {
			if l.Name != name {
				continue
			}
			s := p.as(l.Unit)
			show := s.numeral
			switch name {
			case "heel", "leeway":
				l, show = toLeeward(l, tack(r.WindFrom)), s.either("to leeward", "to windward", 1)
			case "pitch":
				show = s.either("bow down", "bow up", 1)
			}
			all = append(all, goes{"allowed, " + s.unit, bounds(show, l.Lower, l.Upper)})
			stands := "inside"
			if l.Active {
				stands = "on its limit"
			}
			all = append(all, goes{"stands", stands})
		}
		if len(all) == 0 {
			all = append(all, goes{"allowed", "any"})
		}
		return all
	})
}

// controlInputs tell a control's range, state and price.
func controlInputs(name string) func(*page, []*trim.Result) []Input {
	return inputsBy(func(p *page, r *trim.Result) []goes {
		for _, c := range r.Controls {
			if c.Called != name {
				continue
			}
			s := controlUnit(c.Unit)
			show := s.numeral
			if isShift(&c) {
				show = s.either("to windward", "to leeward", tack(r.WindFrom))
			}
			all := []goes{{"range, " + s.unit, reaching(show, c.Lower, c.Upper)}, {"state", c.State}}
			return all
		}
		return nil
	})
}

func seaInputs(p *page, boats []*trim.Result) []Input {
	return inputsBy(func(_ *page, r *trim.Result) []goes {
		if r.Sea == nil {
			return nil
		}
		return []goes{{"amplitude, exceeded by one wave in twenty", metres(r.Sea.Amplitude)}, {"share not followed", perCent(r.Sea.NotFollowed)},
			{"significant wave height", metres(r.Sea.Height)}}
	})(p, boats)
}

// Ways to tell a row of the budget.
type budgetTelling int

const (
	aloneForce   budgetTelling = iota // its force
	momentAndArm                      // moment = force × arm
)

// budgetInputs tell rows of the righting-moment budget: of one kind, or all that right.
func budgetInputs(kind string, how budgetTelling) func(*page, []*trim.Result) []Input {
	return inputsBy(func(p *page, r *trim.Result) []goes {
		var all []goes
		for i := range r.Budget.Rows {
			b := &r.Budget.Rows[i]
			if kind != "" && b.Kind != kind || kind == "" && (b.Kind == "sails" || b.Kind == "windage") {
				continue
			}
			name := trim.ByWind(b.Part, sideOf(r.WindFrom)) + ", " + b.Kind
			value := p.force(math.Abs(b.Force))
			if how == momentAndArm {
				value = fmt.Sprintf("%s = %s × %s", p.moment(b.Moment), p.force(b.Force), metres(b.Arm))
			}
			all = append(all, goes{name, value})
		}
		return all
	})
}

func carriedInputs(p *page, boats []*trim.Result) []Input {
	return inputsBy(func(p *page, r *trim.Result) []goes {
		c := r.SideForceCarried
		if c == nil {
			return []goes{{"none is told", r.CarriedMissing}}
		}
		return []goes{{"height above the water", metres(c.Height)}, {"share of the weight", perCent(c.Share)}, {"weight", p.force(r.Weight)}}
	})(p, boats)
}

func sailInputs(p *page, boats []*trim.Result) []Input {
	return inputsBy(func(p *page, r *trim.Result) []goes {
		var all []goes
		for i := range r.Sails {
			s := &r.Sails[i]
			all = append(all, goes{s.Name + ": lift", p.force(s.Lift)}, goes{s.Name + ": lift coefficient, of the largest", coefficient(s.LiftCoefficient) + " of " + coefficient(s.LargestLift)},
				goes{s.Name + ": apparent wind at mid-height", p.speed(s.WindSpeed) + " at " + degrees(s.WindAngle)})
		}
		return all
	})(p, boats)
}

func wettedInputs(p *page, boats []*trim.Result) []Input {
	return inputsBy(func(_ *page, r *trim.Result) []goes {
		var all []goes
		sums := map[string]float64{}
		for i := range r.WettedArea {
			name := trim.ByWind(r.WettedArea[i].Part, sideOf(r.WindFrom))
			if _, known := sums[name]; !known {
				all = append(all, goes{name: name})
			}
			sums[name] += r.WettedArea[i].Area
		}
		for i := range all {
			all[i].value = area(sums[all[i].name]) + " m²"
		}
		return all
	})(p, boats)
}

// dragInputs tell drags by cause, of a medium.
func dragInputs(medium boat.Medium) func(*page, []*trim.Result) []Input {
	return inputsBy(func(p *page, r *trim.Result) []goes {
		var all []goes
		for c := range boat.Cause(boat.Causes) {
			if c.Medium() == medium && r.Drag[c] != 0 {
				all = append(all, goes{c.String(), p.force(r.Drag[c])})
			}
		}
		return all
	})
}

// causeInputs tell by part what a cause pulls along the track.
func causeInputs(cause string) func(*page, []*trim.Result) []Input {
	return inputsBy(func(p *page, r *trim.Result) []goes {
		var all []goes
		sums := map[string]float64{}
		for i := range r.Loads {
			l := &r.Loads[i]
			if l.Item != cause {
				continue
			}
			name := trim.ByWind(l.Part, sideOf(r.WindFrom)) + ", aft along the track"
			if _, known := sums[name]; !known {
				all = append(all, goes{name: name})
			}
			sums[name] -= l.Force.X
		}
		for i := range all {
			all[i].value = p.force(sums[all[i].name])
		}
		return all
	})
}
