package report

import (
	"fmt"
	"math"
	"strings"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/frame"
	"foilwright/quantity"
	"foilwright/trim"
)

// apart is how far a centre must lie from the line of action for a sentence
// about it, m.
const apart = 0.02

// centres sets the three centres of every foil side by side, and says where
// paper and balance part.
func (p *page) centres(all []balance.Centre, windFrom string) {
	t := tack(windFrom)
	place := func(c *frame.Point[frame.Track]) (string, string) {
		if c == nil {
			return "none", ""
		}
		return number("m", -t*c.Y), number("m", -c.Z)
	}
	var rows []row
	for i := range all {
		c := &all[i]
		name := trim.ByWind(c.Foil, sideOf(windFrom))
		ry, rz := place(c.Rule)
		ly, lz := place(c.Loaded)
		cells := row{name, ry, rz, ly, lz, "none", "", p.lift(c.Force.Norm())}
		if c.Line != nil {
			cells[5], cells[6] = place(&c.Line.Point)
		}
		rows = append(rows, cells)
	}
	p.table("Centre of lift three ways: metres to leeward of the track, and depth", []column{
		words("foil"), figures("rule of thumb"), figures("depth"), figures("load-weighted"), figures("depth"),
		figures("on the line"), figures("depth"), figures("force " + p.kN()),
	}, rows)
	if said := p.partings(all, windFrom); said != "" {
		p.say(said)
	}
}

// partings says by how much the paper centres of the foil that carries most
// miss its line of action.
func (p *page) partings(all []balance.Centre, windFrom string) string {
	var c *balance.Centre
	for i := range all {
		if all[i].Line != nil && (c == nil || all[i].Force.Norm() > c.Force.Norm()) {
			c = &all[i]
		}
	}
	if c == nil {
		return ""
	}
	force := c.Force.Norm()
	var missed []string
	miss := func(what string, at *frame.Point[frame.Track]) {
		if at == nil {
			return
		}
		if d := c.Line.DistanceTo(*at); d >= apart {
			missed = append(missed, fmt.Sprintf("the %s centre lies %s off its line of action (a couple of %s)", what, metres(d), p.moment(d*force)))
		}
	}
	miss("rule-of-thumb", c.Rule)
	miss("load-weighted", c.Loaded)
	name := trim.ByWind(c.Foil, sideOf(windFrom))
	if len(missed) == 0 {
		return fmt.Sprintf("Paper and balance agree on the %s: both centres lie within %s of its line of action.", name, metres(apart))
	}
	return fmt.Sprintf("Here paper and balance part: of the %s, with %s %s, %s. Only the line is physics: a lever reckoned to a point off it is a lever on paper.",
		name, p.lift(force), p.kN(), strings.Join(missed, ", "))
}

func coefficient(v float64) string {
	return quantity.Numeral(v, quantity.Number, "", quantity.Decimals(2))
}

// limited is how a limit's figures are shown: hinge moments as flaps' are, in N·m.
func (p *page) limited(l *trim.LimitRow) shown {
	if strings.HasSuffix(l.Name, boat.LimitHingeMoment.String()) {
		return shown{quantity.Moment, "N·m", 0}
	}
	return p.as(l.Unit)
}

// limits tells every limit, its value and its margin.
func (p *page) limits(r *trim.Result) {
	var rows []row
	for i := range r.Limits {
		l := r.Limits[i]
		s := p.limited(&l)
		show := s.numeral
		switch l.Name {
		case "heel", "leeway":
			l = toLeeward(l, tack(r.WindFrom))
			show = s.either("to leeward", "to windward", 1)
		case "pitch":
			show = s.either("bow down", "bow up", 1)
		}
		mark := ""
		if l.Active {
			mark = "●"
		}
		margin := "no limit"
		if !math.IsInf(l.Margin, 0) {
			margin = s.numeral(l.Margin)
		}
		rows = append(rows, row{l.Name, show(l.Value), s.unit, bounds(show, l.Lower, l.Upper), margin, mark})
	}
	p.table("Limits; ● where she stands on one", []column{words("limit"), figures("value"), words("unit"), words("allowed"), figures("margin"), words("")}, rows)
}

// toLeeward turns a limit on heel or leeway so that it counts to leeward.
func toLeeward(l trim.LimitRow, t float64) trim.LimitRow {
	if t > 0 {
		return l
	}
	turned := func(v *float64) *float64 {
		if v == nil {
			return nil
		}
		n := -*v
		return &n
	}
	l.Value, l.Lower, l.Upper = -l.Value, turned(l.Upper), turned(l.Lower)
	return l
}

// unbounded is a bound so far off that it is none.
const unbounded = 1e8

func bounds(show func(float64) string, lower, upper *float64) string {
	low, high := lower != nil && *lower > -unbounded, upper != nil && *upper < unbounded
	switch {
	case low && high:
		return reaching(show, *lower, *upper)
	case low:
		return "at least " + show(*lower)
	case high:
		return "at most " + show(*upper)
	}
	return "any"
}

// reaching shows a range; one that reaches equally far either way, where figures
// are shown by the way that they point, without repeating itself.
func reaching(show func(float64) string, lower, upper float64) string {
	low, high := show(lower), show(upper)
	if number, way, pointed := strings.Cut(high, " "); pointed && way != "" && lower < 0 && strings.HasPrefix(low, number+" ") {
		return number + " either way"
	}
	return low + " to " + high
}

// wetted tells the wetted area by piece.
func (p *page) wetted(r *trim.Result) {
	var rows []row
	sum, last := 0.0, ""
	for i := range r.WettedArea {
		w := &r.WettedArea[i]
		name := trim.ByWind(w.Part, sideOf(r.WindFrom))
		if name == last {
			name = ""
		} else {
			last = name
		}
		sum += w.Area
		rows = append(rows, row{name, w.Piece, area(w.Area), area(w.Plan)})
	}
	rows = append(rows, nil, row{"all", "", area(sum), ""})
	p.table("Wetted area", []column{words("part"), words("piece"), figures("skin m²"), figures("plan m²")}, rows)
}

func area(v float64) string {
	return quantity.Numeral(v, quantity.Area, "m²", quantity.Decimals(3))
}

// search tells how the answer was reached and what else was met.
func (p *page) search(r *trim.Result) {
	called := make([]string, len(r.Closing))
	for i, name := range r.Closing {
		called[i] = trim.ByWind(name, sideOf(r.WindFrom))
	}
	said := fmt.Sprintf("%d of %d starts converged, %d of them on this trim.", r.Search.Converged, r.Search.Starts, r.Search.Agreeing)
	if len(called) > 0 {
		said += " The six equations close with " + strings.Join(called, ", ") + "."
	}
	p.say(said)
	var rows []row
	for _, o := range r.Others {
		tips := o.Tips
		if tips != "" {
			tips = "tips " + tips
		}
		starts := fmt.Sprint(o.Times)
		if o.LeftEarly {
			starts = "left early"
		}
		rows = append(rows, row{o.Mode, o.Set, tips, number("m/s", float64(o.Speed)), number("m/s", float64(o.VMG)),
			sideways(float64(o.Heel), as("rad"), tack(r.WindFrom)), starts})
	}
	p.table("Other optima that the search met", []column{
		words("mode"), words("sails"), words(""), figures("speed kn"), figures("to windward kn"), figures("heel"), figures("starts"),
	}, rows)
}
