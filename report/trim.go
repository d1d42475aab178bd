package report

import (
	"fmt"
	"math"
	"strings"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/quantity"
	"foilwright/si"
	"foilwright/trim"
)

// trims tells best trims: one in full, several a line each.
func (p *page) trims(results []*trim.Result) {
	p.weight = results[0].Weight
	if len(results) == 1 {
		p.trim(results[0])
		return
	}
	first := results[0]
	p.say(fmt.Sprintf("%s at her best trim in each wind: %s.", first.Boat, first.Aim))
	columns := []column{
		figures("wind\nkn"), figures("angle\ndeg"), figures("speed\nkn"), figures("made good\nkn"), figures("seen\ndeg"), figures("leeway deg\n+ to leeward"),
		figures("heel deg\n+ to windward"), figures("ride\nm"), figures("carried\n" + p.kN()),
	}
	way := ways(results)
	if way == "" {
		columns = append(columns, narrow("mode, sails", 14))
	}
	var rows []row
	for _, r := range results {
		if r.Answer != trim.Found {
			rows = append(rows, row{windSpeed(r.TrueWindSpeed), angleAsked(r), "none"})
			continue
		}
		t := tack(r.WindFrom)
		rows = append(rows, row{
			windSpeed(r.TrueWindSpeed), number("rad", float64(r.TrueWindAngle)), number("m/s", float64(r.Speed)), number("m/s", math.Abs(float64(r.VMG))),
			number("rad", float64(r.ApparentWindAngle)), number("rad", float64(r.Leeway)*t), number("rad", 0-float64(r.Heel)*t),
			number("m", r.RideHeight), carriedCell(p, r), r.Mode + ", " + r.Set,
		})
	}
	p.table("", columns, rows)
	p.say("Made good is progress to windward, beyond 90 deg to leeward; seen is the apparent wind's angle off the track; " +
		"carried is side force at the sails' centre of effort." + way)
	p.seaOf(results)
	p.reasons(results)
}

// carriedCell is the side force carried in a cell, none where none closes.
func carriedCell(p *page, r *trim.Result) string {
	if r.SideForceCarried == nil {
		return "none"
	}
	return p.number("N", r.CarriedForce)
}

// ways says how all of them are sailed, where that is one and the same.
func ways(results []*trim.Result) string {
	said := ""
	for _, r := range results {
		if r.Answer != trim.Found {
			continue
		}
		way := fmt.Sprintf(" All in mode %s with %s sails.", r.Mode, r.Set)
		if said != "" && said != way {
			return ""
		}
		said = way
	}
	return said
}

// reasons tells why some have no answer.
func (p *page) reasons(results []*trim.Result) {
	for _, r := range results {
		if r.Answer != trim.Found {
			p.gap()
			p.WriteString(reason(r) + "\n")
		}
	}
}

func number(unit string, v float64) string { return as(unit).numeral(v) }

func windSpeed(v si.Speed) string {
	return quantity.Numeral(float64(v), quantity.Speed, "kn", quantity.Decimals(1))
}

func angleAsked(r *trim.Result) string {
	if r.Aim == trim.AtAngle.String() {
		return number("rad", float64(r.TrueWindAngle))
	}
	return "best"
}

// trim tells one best trim in full.
func (p *page) trim(r *trim.Result) {
	if r.Answer != trim.Found {
		p.noAnswer(r)
		return
	}
	p.say(p.headline(r).String())
	p.state(r)
	p.sea(r)
	p.controls(r.Controls, r.WindFrom)
	p.balance(r)
	p.budget(r)
	p.centres(r.Centres, r.WindFrom)
	p.carried(r)
	p.drag(r.Drag)
	p.sails(r)
	p.limits(r)
	p.prices(r)
	p.per(r.Per)
	p.margins(r.Margins, r.Hinges, r.WindFrom)
	p.wetted(r)
	p.search(r)
	p.list("Warnings", r.Warnings)
}

// headline is the answer in a sentence.
func (p *page) headline(r *trim.Result) sentence {
	where := sentenced("at %s off a true wind of %s", worked(degrees(r.TrueWindAngle), "true wind angle"), p.wind(r.TrueWindSpeed))
	boat, made, speed := Phrase{Text: r.Boat, Boat: 1}, worked(p.speed(r.Progress()), "progress"), worked(p.speed(r.Speed), "speed")
	if r.Aim == trim.AtAngle.String() {
		return sentenced("%s sails %s %s.", boat, speed, where)
	}
	return sentenced("%s makes %s %s: %s %s.", boat, made, aimed(r.Aim), speed, where)
}

// state tells attitude and wind, two figures to a line.
func (p *page) state(r *trim.Result) {
	t := tack(r.WindFrom)
	rad, m := as("rad"), as("m")
	p.table("State", []column{words(""), words(""), words(""), words("")}, []row{
		{"speed", knots(r.Speed), "true wind", windSpeed(r.TrueWindSpeed) + " kn from " + r.WindFrom},
		{"progress", progress(r.VMG), "true wind angle", degrees(r.TrueWindAngle)},
		{"leeway", sideways(float64(r.Leeway), rad, t), "apparent wind", knots(r.ApparentWindSpeed)},
		{"heel", sideways(float64(r.Heel), rad, t), "apparent wind angle", degrees(r.ApparentWindAngle)},
		{"pitch", bow(float64(r.Pitch)), "aerodynamic drag angle", degrees(r.AeroDragAngle)},
		{"ride height", m.with(r.RideHeight), "hydrodynamic drag angle", degrees(r.HydroDragAngle)},
		{"mode", r.Mode, "sails", r.Set},
	})
	p.onHulls(r)
}

func progress(vmg si.Speed) string {
	if vmg < 0 {
		return knots(-vmg) + " to leeward"
	}
	return knots(vmg) + " to windward"
}

// bow says which way the bow is pitched.
func bow(pitch float64) string {
	s := as("rad")
	switch {
	case s.numeral(pitch) == s.numeral(0):
		return s.with(0)
	case pitch > 0:
		return s.with(pitch) + " bow down"
	}
	return s.with(-pitch) + " bow up"
}

// controls tells every control that can move.
func (p *page) controls(all []trim.Setting, windFrom string) {
	var rows []row
	for _, c := range all {
		if c.State == "fixed" && c.Lower == c.Upper && c.Value == 0 || c.State == "not in use" {
			continue
		}
		s := controlUnit(c.Unit)
		state := c.State
		switch state {
		case "free":
			state = ""
		case "at its lower end", "at its upper end":
			state = "● " + state
		}
		show := s.numeral
		if isShift(&c) {
			show = s.either("to windward", "to leeward", tack(windFrom))
		}
		rows = append(rows, row{c.Called, show(c.Value), s.unit, reaching(show, c.Lower, c.Upper), state})
	}
	p.table("Controls", []column{words("control"), figures("setting"), words("unit"), figures("range"), words("")}, rows)
}

// isShift tells whether a control shifts a weight across the boat: its setting
// counts to port.
func isShift(c *trim.Setting) bool {
	return c.Unit == "m" && strings.HasSuffix(c.Called, " y")
}

func controlUnit(unit string) shown {
	switch unit {
	case "rad":
		return shown{quantity.Angle, "deg", 1}
	case "m":
		return shown{quantity.Length, "m", 2}
	}
	return shown{quantity.Share, "%", 0}
}

// balanceRow is one part and cause, its pieces added up.
type balanceRow struct {
	part, cause                    string
	forward, leeward, up, righting float64
}

// balance tells the balance sheet by part and cause.
func (p *page) balance(r *trim.Result) {
	about := r.Budget.About
	var sums []balanceRow
	total := balanceRow{part: "sum"}
	for i := range r.Loads {
		l := &r.Loads[i]
		load := l.MovedTo(about)
		part := trim.ByWind(l.Part, sideOf(r.WindFrom))
		at := -1
		for k := range sums {
			if sums[k].part == part && sums[k].cause == l.Item {
				at = k
			}
		}
		if at < 0 {
			at = len(sums)
			sums = append(sums, balanceRow{part: part, cause: l.Item})
		}
		for _, s := range []*balanceRow{&sums[at], &total} {
			s.forward += load.Force.X
			s.leeward -= tack(r.WindFrom) * load.Force.Y
			s.up += load.Force.Z
			s.righting -= tack(r.WindFrom) * load.Moment.X
		}
	}
	var rows []row
	last := ""
	for _, s := range sums {
		name := s.part
		if name == last {
			name = ""
		}
		last = s.part
		rows = append(rows, row{name, s.cause, p.number("N", s.forward), p.lift(s.leeward), p.lift(s.up), p.number("N·m", s.righting)})
	}
	rows = append(rows, nil, row{total.part, "", p.number("N", total.forward), p.lift(total.leeward), p.lift(total.up), p.number("N·m", total.righting)})
	p.table("Balance, item by item; moments about "+pointWords(about.Y, about.Z, r.WindFrom), []column{
		words("part"), words("item"), figures("forward " + p.kN()), figures("to leeward " + p.kN()), figures("up " + p.kN()), figures("righting " + p.kNm()),
	}, rows)
}

// pointWords places a point of the transverse plane in words.
func pointWords(y, z float64, windFrom string) string {
	height := "above"
	if z < 0 {
		height, z = "below", -z
	}
	side := sideways(-y, as("m"), tack(windFrom))
	if as("m").numeral(y) == as("m").numeral(0) {
		side = "in the track's plane"
	}
	return fmt.Sprintf("a point %s, %s %s the water", side, metres(z), height)
}

// budget tells the righting-moment budget.
func (p *page) budget(r *trim.Result) {
	var righting, heeling []row
	for i := range r.Budget.Rows {
		b := &r.Budget.Rows[i]
		cells := row{trim.ByWind(b.Part, sideOf(r.WindFrom)), b.Kind, p.number("N·m", b.Moment), number("m", b.Arm), p.lift(b.Force)}
		if b.Heeling == balance.Heels {
			heeling = append(heeling, cells)
		} else {
			righting = append(righting, cells)
		}
	}
	rows := append(righting, nil, row{"righting moment", "", p.number("N·m", r.Budget.Righting)}, nil)
	rows = append(rows, heeling...)
	rows = append(rows, nil, row{"heeling moment", "", p.number("N·m", r.Budget.Heeling)})
	p.table("Righting-moment budget about "+pointWords(r.Budget.About.Y, r.Budget.About.Z, r.WindFrom), []column{
		words("part"), words("from"), figures("moment " + p.kNm()), figures("arm m"), figures("force " + p.kN()),
	}, rows)
	p.say("Weight, buoyancy and water count as righting, the air as heeling; each row depends on the point, and that the two totals are equal does not.")
}

// carried tells the side force carried.
func (p *page) carried(r *trim.Result) {
	switch c := r.SideForceCarried; {
	case c != nil:
		p.say(fmt.Sprintf("Side force carried: %s at %s above the water, %s of the boat's weight of %s.",
			p.force(c.Force), metres(c.Height), perCent(c.Share), p.force(r.Weight)))
	case r.CarriedMissing != "":
		p.say("Side force carried: none is told. " + strings.ReplaceAll(r.CarriedMissing, "\n", "; ") + ".")
	}
}

// drag tells drag by cause.
func (p *page) drag(d balance.DragByCause) {
	var rows []row
	for _, m := range [2]boat.Medium{boat.Water, boat.Air} {
		whole, name := d.Water(), "in the water"
		if m == boat.Air {
			whole, name = d.Air(), "in the air"
		}
		if whole == 0 {
			continue
		}
		if len(rows) > 0 {
			rows = append(rows, nil)
		}
		for c := range boat.Cause(boat.Causes) {
			if c.Medium() != m || d[c] == 0 {
				continue
			}
			rows = append(rows, row{name, c.String(), p.number("N", d[c]), perCent(d[c] / whole)})
			name = ""
		}
		rows = append(rows, row{"", "all", p.number("N", whole), ""})
	}
	p.table("Drag by cause", []column{words(""), words("cause"), figures("drag " + p.kN()), figures("share")}, rows)
}
