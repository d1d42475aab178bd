package report

import (
	"slices"
	"strings"

	"foilwright/compare"
	"foilwright/odds"
	"foilwright/quantity"
	"foilwright/study"
	"foilwright/trim"
	"foilwright/why"
)

// Answer is a result for a panel: the sentence in parts, a table of figures side by
// side, and how each figure comes about. Its words and digits are those of [Text].
type Answer struct {
	Sentence []Clause `json:"sentence"`
	Boats    []string `json:"boats"`
	Base     int      `json:"base_index"` // of Boats: what changes are taken from
	Groups   []Group  `json:"groups"`     // none where nothing is set side by side
	Refusals []No     `json:"refusals"`   // of boats that cannot sail as asked
}

// Clause is one part of the sentence.
type Clause struct {
	Part    Part     `json:"part"`
	Phrases []Phrase `json:"phrases"`
}

// Part tells what a clause answers.
type Part string

// The parts.
const (
	Who     Part = "who"      // and by how much
	Because Part = "why"      // causes that were split
	Differ  Part = "differ"   // in place of causes: the largest differences of the balance sheet
	HowSure Part = "how sure" // chances
)

// Group is rows of the table that belong together.
type Group struct {
	Name string       `json:"name"`
	Rows []SideBySide `json:"rows"`
}

// SideBySide is one figure of every boat.
type SideBySide struct {
	Figure  string   `json:"figure"` // its key
	Name    string   `json:"name"`   // as the table calls it
	Unit    string   `json:"unit"`
	Values  []string `json:"values"`
	Changes []string `json:"changes"` // from the base, with sign; empty for the base
	Shares  []string `json:"shares"`  // the same in per cent of the base's; empty where that means nothing
	Working *Working `json:"working"`
}

// No is why a boat cannot sail as asked.
type No struct {
	Boat    int      `json:"boat"` // counted from 1
	Words   string   `json:"words"`
	Attempt string   `json:"attempt"`
	Open    []string `json:"open"` // what the best attempt leaves open
	Hint    string   `json:"hint"`
}

// AnswerOf returns a result for a panel, with its figures in a choice of units, in the first wind that it tells of; nil where
// it is no answer that panels show.
func AnswerOf(units quantity.Units, r *study.Result) *Answer {
	a := &Answer{Sentence: []Clause{}, Boats: []string{}, Groups: []Group{}, Refusals: []No{}}
	switch results := r.Results.(type) {
	case []*trim.Result:
		a.alone(&page{units: units, weight: results[0].Weight}, results[0], r.Boats)
	case []*compare.Result:
		a.together(&page{units: units}, results[0], r.Boats)
	case []*why.Result:
		p := page{units: units, weight: results[0].Boats[0].Weight}
		a.say(Because, p.reasonAlone(results[0]))
		a.Boats = []string{results[0].First.Boat, results[0].Second.Boat}
	case *odds.Result:
		a.sure(&page{units: units}, results)
	default:
		return nil
	}
	return a
}

func (a *Answer) say(part Part, s sentence) {
	if len(s) > 0 {
		a.Sentence = append(a.Sentence, Clause{part, s})
	}
}

// alone answers for one boat.
func (a *Answer) alone(p *page, r *trim.Result, sources []study.Source) {
	a.Boats = []string{r.Boat}
	a.refuse(p, []*trim.Result{r})
	if r.Answer == trim.Found {
		a.say(Who, p.headline(r))
	}
	a.table(p, pointed(compare.Alone(r), r.WindFrom), compare.Alone(r), []*trim.Result{r}, sources)
}

// together answers for several boats.
func (a *Answer) together(p *page, c *compare.Result, sources []study.Source) {
	base := c.Boats[c.BaseIndex]
	p.weight = base.Weight
	a.Boats, a.Base = boatNames(c), c.BaseIndex
	a.refuse(p, c.Boats)
	a.say(Who, p.verdict(c))
	if len(c.Boats) > 1 {
		a.say(Differ, p.largest(c))
	}
	a.table(p, pointed(c.Differences, base.WindFrom), c.Differences, c.Boats, sources)
}

// sure answers how sure a difference is.
func (a *Answer) sure(p *page, r *odds.Result) {
	for _, b := range r.Boats {
		a.Boats = append(a.Boats, b.Name)
	}
	if len(r.Pairs) == 0 {
		a.say(HowSure, p.spreadOf(r))
		return
	}
	for _, pair := range r.Pairs {
		a.say(HowSure, p.calledPair(r, pair))
	}
}

// refuse tells which boats cannot sail, and why.
func (a *Answer) refuse(p *page, boats []*trim.Result) {
	for i, r := range boats {
		if r.Answer == trim.Found {
			continue
		}
		no := No{Boat: i + 1, Words: "no steady flight", Attempt: attempt(r), Hint: wayOut(r), Open: []string{}}
		if r.Reason != nil {
			no.Words = strings.ReplaceAll(r.Reason.Words, "\n", "; ")
			for _, s := range r.Reason.Shortfalls {
				if unit := p.as(s.Unit); unit.numeral(s.Amount) != unit.numeral(0) {
					no.Open = append(no.Open, trim.ByWind(s.Name, sideOf(r.WindFrom))+" "+unit.with(s.Amount))
				}
			}
		}
		a.Refusals = append(a.Refusals, no)
	}
}

// groups name the groups of the table and the figures in each; what they do not name
// is told by its prefix.
var groups = [...]struct {
	name    string
	figures []string
	prefix  string
}{
	{"speed", []string{"progress", "speed", "true wind angle"}, ""},
	{"wind", []string{"apparent wind speed", "apparent wind angle", "aerodynamic drag angle", "hydrodynamic drag angle"}, ""},
	{"attitude", []string{"heel to leeward", "pitch bow down", "leeway", "ride height", "room the sea asks for"}, ""},
	{"foils and controls", []string{"wetted area"}, "control: "},
	{"righting moment", []string{"righting moment", "weight", "side force carried", "sail side force"}, ""},
	{"drag", []string{"drag in the water", "drag in the air"}, "drag: "},
}

// table sets figures side by side. shown are the figures as the table points them,
// raw as they are known by.
func (a *Answer) table(p *page, shown, raw []compare.Difference, boats []*trim.Result, sources []study.Source) {
	for _, g := range groups {
		group := Group{Name: g.name, Rows: []SideBySide{}}
		for i := range raw {
			name := raw[i].Figure
			if slices.Contains(g.figures, name) || g.prefix != "" && strings.HasPrefix(name, g.prefix) {
				row := p.sideBySide(&shown[i], a.Base)
				row.Figure, row.Working = name, p.workingOf(name, boats, sources)
				group.Rows = append(group.Rows, row)
			}
		}
		if len(group.Rows) > 0 {
			a.Groups = append(a.Groups, group)
		}
	}
}

func (p *page) sideBySide(d *compare.Difference, base int) SideBySide {
	s := p.shownOf(d)
	row := SideBySide{Name: strings.TrimPrefix(strings.TrimPrefix(d.Figure, "control: "), "drag: "), Unit: s.unit}
	for i, v := range d.Values {
		change, per := "", ""
		if i != base {
			change, per = known(d.Changes[i], s.change), known(d.Shares[i], share)
		}
		row.Values, row.Changes, row.Shares = append(row.Values, cell(v, s.numeral)), append(row.Changes, change), append(row.Shares, per)
	}
	return row
}
