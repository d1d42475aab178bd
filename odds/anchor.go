package odds

import (
	"math"

	"foilwright/si"
)

// Anchor is one observed speed of one boat, that the model's factors, and all
// else that bears on it, are conditioned on.
type Anchor struct {
	Boat      int // index of Plan.Boats
	Wind      si.Speed
	Observed  float64 // speed through the water, m/s
	Deviation float64 // its standard deviation, m/s, above 0
	Words     string  // as it was written
}

// Anchored is what an anchor did.
type Anchored struct {
	Boat      string       `json:"boat"`
	Words     string       `json:"words"`
	Wind      si.Speed     `json:"true_wind_speed_mps"`
	Observed  float64      `json:"observed_speed_mps"`
	Deviation float64      `json:"observed_deviation_mps"`
	Before    Distribution `json:"speed_before_mps"` // of the model, before it knew
	After     Distribution `json:"speed_after_mps"`
	// Score is how far the observation lay from the model's mean before, in
	// standard deviations of both together; nil where the boat sails in no sample.
	Score     *float64 `json:"score"`
	Effective float64  `json:"effective_samples"` // how many independent samples the weighted ones are worth
	Used      Used     `json:"used"`
	Factors   []Moved  `json:"factors"`      // inputs that the observation moves
	Boats     []Figure `json:"boats_before"` // the answer without it
	Pairs     []Pair   `json:"pairs_before"`
}

// Used tells whether an anchor could be used.
type Used string

// The uses.
const (
	Weighted Used = "samples are weighted by it"
	TooFar   Used = "too few samples come near it"
)

// Moved is one input before and after an anchor.
type Moved struct {
	Input     string  `json:"input"`
	Kind      Kind    `json:"kind"`
	Unit      string  `json:"unit"` // of the four figures: SI
	Mean      float64 `json:"mean_before"`
	Deviation float64 `json:"deviation_before"`
	Then      float64 `json:"mean_after"`
	Left      float64 `json:"deviation_after"`
}

// leastEffective is how many independent samples an anchor has to leave: with
// fewer, quantiles are a matter of luck.
const leastEffective = 32

// weights returns the weight of every sample given the anchor: the likelihood of
// the observation, normal about the speed of the sampled boat (importance
// weighting from the prior: Bayes' rule on a sample). Samples in which she cannot
// sail have none. They sum to 1; all are 0 where she sails in none.
func (a *Anchor) weights(rows [][]Outcome) []float64 {
	column := len(rows[0]) - 1
	logs := make([]float64, len(rows))
	most := math.Inf(-1)
	for s, row := range rows {
		logs[s] = math.Inf(-1)
		if o := row[column]; o.State == Sails {
			z := (o.Speed - a.Observed) / a.Deviation
			logs[s] = -z * z / 2
			most = max(most, logs[s])
		}
	}
	weights := make([]float64, len(rows))
	if math.IsInf(most, -1) {
		return weights
	}
	sum := 0.0
	for s := range weights {
		weights[s] = math.Exp(logs[s] - most)
		sum += weights[s]
	}
	for s := range weights {
		weights[s] /= sum
	}
	return weights
}

// condition tells what the anchor does to samples, and returns the weights that
// the answer takes: nil where the anchor cannot be used.
func (p *Plan) condition(table *Table, before *view) (*Anchored, []float64) {
	a := p.Anchor
	weights := a.weights(table.Outcomes)
	out := &Anchored{
		Boat: p.Boats[a.Boat], Words: a.Words, Wind: a.Wind, Observed: a.Observed, Deviation: a.Deviation,
		Effective: effective(weights), Used: Weighted, Factors: []Moved{}, Boats: before.figures(), Pairs: before.pairs(),
	}
	column := len(table.Columns) - 1
	speeds := func(weight func(int) float64) []weighed {
		all := make([]weighed, len(table.Outcomes))
		for s, row := range table.Outcomes {
			all[s] = weighed{row[column].Speed, weight(s)}
			if row[column].State != Sails {
				all[s].value = math.Inf(-1)
			}
		}
		return all
	}
	out.Before = spread(speeds(func(int) float64 { return 1 }))
	if m, d := out.Before.Mean, out.Before.Deviation; m != nil && d != nil {
		z := (a.Observed - *m) / math.Hypot(*d, a.Deviation)
		out.Score = &z
	}
	if out.Effective < leastEffective {
		out.Used, out.After = TooFar, out.Before
		return out, nil
	}
	out.After = spread(speeds(func(s int) float64 { return weights[s] }))
	out.Factors = moved(table, weights)
	return out, weights
}

// noticed is the shift of an input's mean, in its standard deviations, or the
// narrowing of its spread, above which it counts as moved; chance is how many
// standard errors of either, with the samples that the weighted ones are worth, it
// has to be besides.
const noticed, chance = 0.1, 2.5

// moved returns the inputs whose mean or spread the weights change.
func moved(table *Table, weights []float64) []Moved {
	all := []Moved{}
	size := effective(weights)
	shift, narrowing := max(noticed, chance/math.Sqrt(size)), max(noticed, chance/math.Sqrt(2*size))
	for i := range table.Unknowns {
		u := &table.Unknowns[i]
		mean, square := 0.0, 0.0
		for s, v := range table.Values {
			mean += weights[s] * v[i]
		}
		for s, v := range table.Values {
			square += weights[s] * (v[i] - mean) * (v[i] - mean)
		}
		m := Moved{
			Input: u.Name, Kind: u.Kind, Unit: u.Quantity.Dimension.SI(), Mean: u.Quantity.Mean(), Deviation: u.Quantity.StandardDeviation(),
			Then: mean, Left: math.Sqrt(square),
		}
		if math.Abs(m.Then-m.Mean) > shift*m.Deviation || m.Left < (1-narrowing)*m.Deviation {
			all = append(all, m)
		}
	}
	return all
}
