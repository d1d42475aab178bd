package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"foilwright/odds"
	"foilwright/quantity"
)

// mostInputs is how many inputs a table tells.
const mostInputs = 10

// inputs tells where the spread of each figure comes from: the first pair's
// difference, or the one boat's progress, and a line each for the others.
func (p *page) inputs(r *odds.Result) {
	if len(r.Surrogates) == 0 {
		return
	}
	order := slices.Clone(r.Inputs)
	slices.SortStableFunc(order, func(a, b odds.Input) int { return cmp.Compare(b.Total, a.Total) })
	var rows []row
	for _, in := range order[:min(mostInputs, len(order))] {
		if small(in.Total) {
			continue
		}
		rows = append(rows, row{
			in.Name, in.Says, round(in.FirstOrder), round(in.FirstLow) + " to " + round(in.FirstHigh),
			round(in.Total), as("m/s").change(in.Effect),
		})
	}
	fit := r.Surrogates[0]
	p.table(fmt.Sprintf("Where the spread of %s comes from, as shares of its variance", fit.Of), []column{
		narrow("input", 36), narrow("spread", 17), figures("alone"), figures("90 % interval"), figures("in all"), figures("kn per sd"),
	}, rows)
	words := ""
	switch rest := len(order) - len(rows); {
	case rest == 1:
		words = "One other input does less. "
	case rest > 1:
		words = fmt.Sprintf("%s other inputs do less. ", count(rest))
	}
	p.say(words + fmt.Sprintf("Shares are those of a polynomial of %s terms fitted to %s samples; it misses %s of the variance in samples that it was not fitted to. "+
		"Inputs are independent: what two figures share is an input of its own.", count(fit.Terms), count(fit.Samples), perCent(fit.Unexplained)))
	p.others(r)
}

// others tells the inputs that matter most for every other figure.
func (p *page) others(r *odds.Result) {
	var points []string
	for k, fit := range r.Surrogates[1:] {
		type lead struct {
			name string
			of   odds.Share
		}
		var leads []lead
		for _, in := range r.Inputs {
			if k < len(in.Others) {
				leads = append(leads, lead{in.Name, in.Others[k]})
			}
		}
		slices.SortStableFunc(leads, func(a, b lead) int { return cmp.Compare(b.of.Total, a.of.Total) })
		words := fit.Of + ": "
		for i, l := range leads[:min(3, len(leads))] {
			if i > 0 && small(l.of.Total) {
				break
			}
			if i > 0 {
				words += ", "
			}
			words += l.name + " " + round(l.of.Total)
		}
		points = append(points, words+fmt.Sprintf(" (the polynomial misses %s)", perCent(fit.Unexplained)))
	}
	p.list("What matters most, in all, for each of the others", points)
}

// tornado tells the bars of the first figure.
func (p *page) tornado(r *odds.Result) {
	if len(r.Tornado) == 0 {
		return
	}
	of := r.Tornado[0].Of
	var rows []row
	for _, bar := range r.Tornado {
		if bar.Of != of || len(rows) == mostInputs {
			break
		}
		if bar.Low != nil && bar.High != nil && math.Abs(*bar.Low) < 5e-4 && math.Abs(*bar.High) < 5e-4 {
			continue
		}
		rows = append(rows, row{bar.Input, orNone(bar.Low, as("m/s").change), orNone(bar.High, as("m/s").change)})
	}
	p.table(fmt.Sprintf("Each input alone at either end of its 80 %% band: change of %s, kn", of),
		[]column{narrow("input", 50), figures("at its 10 %"), figures("at its 90 %")}, rows)
}

// anchored tells what an observed speed did.
func (p *page) anchored(r *odds.Result) {
	a := r.Anchor
	if a == nil {
		return
	}
	said := fmt.Sprintf("Anchor: %s. ", a.Words)
	if a.Score == nil {
		p.say(said + a.Boat + " sails there in no sample, so that nothing can be learnt from it.")
		return
	}
	said += fmt.Sprintf("Before, the model had %s there, give or take %s: the observation lies %s standard deviations %s, both uncertainties counted. ",
		plain(*a.Before.Mean), plain(deref(a.Before.Deviation)), round(math.Abs(*a.Score)), aboveOrBelow(*a.Score))
	if a.Used == odds.TooFar {
		p.say(said + "Too few samples come near it, and it is not used.")
		return
	}
	said += fmt.Sprintf("After, she has %s, give or take %s. The samples, weighted by it, are worth %s independent ones.",
		plain(*a.After.Mean), plain(deref(a.After.Deviation)), count(int(a.Effective)))
	p.say(said)
	var rows []row
	for _, m := range a.Factors {
		show := func(v float64) string {
			return quantity.Format(v, quantity.Number, "", quantity.Decimals(4))
		}
		rows = append(rows, row{m.Input, m.Unit, show(m.Mean), show(m.Deviation), show(m.Then), show(m.Left)})
	}
	p.table("Inputs that the anchor moves", []column{narrow("input", 44), words("unit"), figures("mean before"), figures("sd"), figures("mean after"), figures("sd")}, rows)
	p.distributions("Without the anchor, kn", a.Boats, a.Pairs)
	for _, pair := range a.Pairs {
		p.say(fmt.Sprintf("Without the anchor the chance that %s is faster than %s is %s.", pair.First, pair.Second, perCent(pair.FirstFaster)))
	}
}

func aboveOrBelow(score float64) string {
	if score < 0 {
		return "below that"
	}
	return "above that"
}

func deref(v *float64) float64 {
	if v == nil {
		return 0
	}
	return *v
}
