package odds

import (
	"fmt"
	"math"
)

// view is one wind's columns of the samples.
type view struct {
	plan    *Plan
	from    int // the first of its columns
	rows    [][]Outcome
	likely  []Outcome
	weights []float64 // nil for equal ones
}

func (v *view) weight(sample int) float64 {
	if v.weights == nil {
		return 1
	}
	return v.weights[sample]
}

// size is how many independent samples would say as much (Kish 1965).
func (v *view) size() float64 {
	if v.weights == nil {
		return float64(len(v.rows))
	}
	return effective(v.weights)
}

func effective(weights []float64) float64 {
	sum, squares := 0.0, 0.0
	for _, w := range weights {
		sum += w
		squares += w * w
	}
	if !(squares > 0) {
		return 0
	}
	return sum * sum / squares
}

// failed counts the samples in which one boat or more cannot sail.
func (v *view) failed() int {
	count := 0
	for _, row := range v.rows {
		for boat := range v.plan.Boats {
			if row[v.from+boat].State != Sails {
				count++
				break
			}
		}
	}
	return count
}

// figures returns every boat's progress.
func (v *view) figures() []Figure {
	all := make([]Figure, len(v.plan.Boats))
	for boat, name := range v.plan.Boats {
		f := Figure{Name: name}
		if o := v.likely[v.from+boat]; o.State == Sails {
			f.Likely = &o.Progress
		}
		values := make([]weighed, len(v.rows))
		sails, total := 0.0, 0.0
		for s, row := range v.rows {
			o, w := row[v.from+boat], v.weight(s)
			values[s] = weighed{o.Progress, w}
			total += w
			switch o.State {
			case Sails:
				sails += w
				continue
			case CannotBe:
				f.Unbuilt++
			}
			f.Failed++
			values[s].value = math.Inf(-1)
		}
		f.Flies = sails / total
		f.Progress = spread(values)
		all[boat] = f
	}
	return all
}

// pairs returns every boat with every one after it.
func (v *view) pairs() []Pair {
	all := []Pair{}
	for first := range v.plan.Boats {
		for second := first + 1; second < len(v.plan.Boats); second++ {
			all = append(all, v.pair(first, second))
		}
	}
	return all
}

// differenceName names a pair's difference.
func differenceName(first, second string) string { return fmt.Sprintf("%s less %s", first, second) }

// pair sets two boats against each other, sample by sample.
func (v *view) pair(first, second int) Pair {
	p := Pair{First: v.plan.Boats[first], Second: v.plan.Boats[second]}
	if a, b := v.likely[v.from+first], v.likely[v.from+second]; a.State == Sails && b.State == Sails {
		d := a.Progress - b.Progress
		p.Likely = &d
	}
	var differences, firsts, seconds []weighed
	won, lost, neither := 0.0, 0.0, 0.0
	for s, row := range v.rows {
		a, b, w := row[v.from+first], row[v.from+second], v.weight(s)
		switch {
		case a.State == Sails && b.State == Sails:
			p.Compared++
			differences = append(differences, weighed{a.Progress - b.Progress, w})
			firsts, seconds = append(firsts, weighed{a.Progress, w}), append(seconds, weighed{b.Progress, w})
			switch {
			case a.Progress > b.Progress:
				won += w
			case a.Progress < b.Progress:
				lost += w
			default:
				won, lost = won+w/2, lost+w/2
			}
		case a.State == Sails:
			differences, won = append(differences, weighed{math.Inf(1), w}), won+w
		case b.State == Sails:
			differences, lost = append(differences, weighed{math.Inf(-1), w}), lost+w
		default:
			neither += w
		}
	}
	total := won + lost + neither
	p.FirstFaster, p.SecondFaster, p.Neither = won/total, lost/total, neither/total
	p.ChanceError = ChanceError(max(p.FirstFaster, p.SecondFaster), v.size())
	p.Difference = spread(differences)
	if a, b := spread(firsts).Deviation, spread(seconds).Deviation; a != nil && b != nil {
		p.Apart = math.Hypot(*a, *b)
	}
	p.Call = p.called(v.plan.Confidence)
	return p
}

// ChanceError returns the standard error of a chance found as a share of so many
// independent samples: √(p(1 − p)/n), the binomial's. No chance counts as nearer
// to 0 or 1 than half a sample, so that the error is never 0.
func ChanceError(chance, samples float64) float64 {
	if !(samples > 0) {
		return 1
	}
	p := min(max(chance, 0.5/samples), 1-0.5/samples)
	return math.Sqrt(max(p*(1-p), 0) / samples)
}

// called tells what a pair comes to.
func (p *Pair) called(confidence float64) Call {
	switch {
	case p.FirstFaster >= confidence:
		return CallFirst
	case p.SecondFaster >= confidence:
		return CallSecond
	case p.Neither >= confidence:
		return CallNeither
	}
	return TooClose
}
