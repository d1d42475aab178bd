package report

import (
	"sort"

	"foilwright/quantity"
	"foilwright/si"
	"foilwright/trim"
)

// priceStep is what prices are told for: a step of a size that the trade speaks of.
func priceStep(s shown) (words string, size float64) {
	switch s.unit {
	case "deg":
		return "1 deg", si.Degree.Radians()
	case "m":
		return "10 mm", 0.01
	case "%":
		return "1 %", 0.01
	case "N·m":
		return "10 N·m", 10
	case "":
		return "0.1", 0.1
	}
	return "1 " + s.unit, 1 / quantity.InUnit(1, s.dimension, s.unit)
}

// leastPrice is what a step must gain to be told, m/s.
const leastPrice = 0.0005

// prices tells what one step more room would gain in progress where a limit or the
// end of a control's range holds the trim, the dearest first.
func (p *page) prices(r *trim.Result) {
	type price struct {
		name, step string
		gain       float64
	}
	var all []price
	note := func(name string, s shown, perUnit float64) {
		words, size := priceStep(s)
		if gain := perUnit * size; gain >= leastPrice {
			all = append(all, price{name, words, gain})
		}
	}
	for i := range r.Limits {
		note(r.Limits[i].Name, p.limited(&r.Limits[i]), r.Limits[i].Price)
	}
	for i := range r.Controls {
		note(r.Controls[i].Called+", "+r.Controls[i].State, controlUnit(r.Controls[i].Unit), r.Controls[i].Price)
	}
	if len(all) == 0 {
		return
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].gain > all[j].gain })
	var rows []row
	for _, a := range all {
		rows = append(rows, row{a.name, a.step, quantity.FormatChange(a.gain, quantity.Speed, "kn", quantity.Decimals(3))})
	}
	p.table("What more room would gain: progress for one step, at the trim that is then best",
		[]column{words("limit or range"), words("step"), figures("progress")}, rows)
}

// per tells what each figure of the file is worth, the largest first.
func (p *page) per(rows []trim.PerRow) {
	if len(rows) == 0 {
		return
	}
	var told []row
	for _, r := range rows {
		told = append(told, row{r.Figure, r.Says, r.Step, quantity.FormatChange(r.Gain, quantity.Speed, "kn", quantity.Decimals(4))})
	}
	p.table("What figures of the file are worth: progress for one step more, at the trim that is then best",
		[]column{words("figure"), words("as it stands"), words("step"), figures("progress")}, told)
}
