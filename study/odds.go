package study

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"foilwright/odds"
	"foilwright/quantity"
	"foilwright/si"
	"foilwright/trim"
)

// Odds asks how sure the difference between boats is, in one wind: all that is
// uncertain is drawn, and every boat trimmed anew in each sample.
type Odds struct {
	Sailing
	WindSpread  string     `json:"true_wind_speed_says,omitempty"`   // "17 kn ± 1 kn"; empty for the one wind of Sailing
	WaterSpread string     `json:"water_temperature_says,omitempty"` // "15 °C ± 2 °C"
	AirSpread   string     `json:"air_temperature_says,omitempty"`
	Winds       []si.Speed `json:"winds_mps,omitempty"` // over which bands are drawn
	Samples     int        `json:"samples"`             // 0 for DefaultSamples; with Until, the most
	Seed        uint64     `json:"seed"`
	Until       float64    `json:"until,omitempty"`  // largest sampling error of a chance, share; 0: Samples count
	Confidence  float64    `json:"confidence"`       // below which a difference is too close to call; 0 for DefaultConfidence
	Anchor      string     `json:"anchor,omitempty"` // "Sorrel 25.1 kn ± 0.4 kn at 17 kn"
	Tornado     bool       `json:"tornado,omitempty"`
}

// What holds where a person does not say.
const (
	DefaultSamples    = 1024
	MostUntil         = 16384 // samples, where an error is asked for and no number
	DefaultConfidence = 0.80
)

// checkedStarts is how many samples are searched again from the usual starts: one
// in so many, up to a few.
const (
	oneChecked    = 64
	mostRechecked = 4
)

// Verb names the question.
func (*Odds) Verb() string { return "odds" }

func (q *Odds) ask(ctx context.Context, d *desk) (any, Verdict, error) {
	plan, fleet, err := q.plan(d)
	if err != nil {
		return nil, "", err
	}
	run, err := q.runners(d)
	if err != nil {
		return nil, "", err
	}
	if err := fleet.Prepare(ctx, d.boats, d.request.Workers); err != nil {
		return nil, "", err
	}
	res, err := odds.Of(ctx, plan, run, odds.Watch{Done: d.request.Progress, Running: soFar[*odds.Result](d, q)})
	if err != nil {
		return nil, "", err
	}
	rechecked := min(mostRechecked, (res.Samples+oneChecked-1)/oneChecked)
	if res.Starts, err = fleet.CheckStarts(ctx, res.Table, rechecked, len(d.boats)); err != nil {
		return nil, "", err
	}
	if d.request.Keep != nil {
		file, err := q.parquet(d, res)
		if err != nil {
			return nil, "", err
		}
		if err := d.request.Keep.Put(samplesFile, file); err != nil {
			return nil, "", err
		}
	}
	for _, b := range res.Boats {
		if b.Failed < res.Samples {
			return res, Answered, nil
		}
	}
	return res, HonestNo, nil
}

// plan puts the question to the boats.
func (q *Odds) plan(d *desk) (*odds.Plan, *odds.Fleet, error) {
	if err := q.settle(); err != nil {
		return nil, nil, err
	}
	conditions, err := q.conditions()
	if err != nil {
		return nil, nil, err
	}
	requests, err := q.requests()
	if err != nil {
		return nil, nil, err
	}
	if len(requests) != 1 {
		return nil, nil, fmt.Errorf("odds are of one wind at one angle, and there are %d\nhint: give one; a range of winds goes with --winds", len(requests))
	}
	plan := &odds.Plan{
		Boats: d.names(), Aim: requests[0].Aim.String(), Wind: requests[0].WindSpeed, Bands: q.Winds,
		Seed: q.Seed, Samples: q.Samples, Until: q.Until, Confidence: q.Confidence,
	}
	if q.Tornado {
		plan.Tornado = odds.WithTornado
	}
	if plan.Unknowns, err = odds.Pool(d.sheets, conditions); err != nil {
		return nil, nil, err
	}
	observed, err := q.anchor(d, requests[0])
	if err != nil {
		return nil, nil, err
	}
	if observed != nil {
		plan.Anchor = &observed.anchor
	}
	fleet := &odds.Fleet{Sheets: d.sheets, Unknowns: plan.Unknowns, Columns: plan.Columns()}
	for i, c := range fleet.Columns {
		r := requests[0]
		r.WindSpeed = c.Wind
		if observed != nil && i == len(fleet.Columns)-1 {
			r = observed.request
		}
		if r, err = q.forBoat(d.boats[c.Boat], r); err != nil {
			return nil, nil, err
		}
		fleet.Requests = append(fleet.Requests, r)
	}
	plan.Evaluate = fleet.Evaluate
	return plan, fleet, nil
}

// settle fills in what holds where nothing is said.
func (q *Odds) settle() error {
	switch {
	case q.Samples < 0:
		return fmt.Errorf("samples: %d is no number of them\nhint: 1024 are usual; powers of two are spread most evenly", q.Samples)
	case q.Samples == 0 && q.Until > 0:
		q.Samples = MostUntil
	case q.Samples == 0:
		q.Samples = DefaultSamples
	}
	if q.Confidence == 0 {
		q.Confidence = DefaultConfidence
	}
	for _, w := range q.Winds {
		if !(w > 0) {
			return errors.New("winds: a wind must be above 0\nhint: write a range such as 8 to 20 kn by 2 kn")
		}
	}
	return nil
}

// conditions returns the conditions that are uncertain, and sets the likely ones.
func (q *Odds) conditions() ([]odds.Unknown, error) {
	var all []odds.Unknown
	for _, c := range []struct {
		of   odds.ConditionOf
		text string
		want quantity.Dimension
		set  func(float64)
	}{
		{odds.TrueWind, q.WindSpread, quantity.Speed, func(v float64) { q.WindSpeeds = []si.Speed{si.Speed(v)} }},
		{odds.WaterTemperature, q.WaterSpread, quantity.Temperature, func(v float64) { q.WaterTemperature = v }},
		{odds.AirTemperature, q.AirSpread, quantity.Temperature, func(v float64) { q.AirTemperature = v }},
	} {
		if c.text == "" {
			continue
		}
		value, err := quantity.Parse(c.text, c.want)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.of, err)
		}
		c.set(value.Likely)
		if !value.Exact() {
			all = append(all, odds.Condition(c.of, odds.Unknown{Quantity: value, Basis: "as asked"}))
		}
	}
	return all, nil
}

// names returns the boats' names, with their files where two have one name.
func (d *desk) names() []string {
	var names []string
	for i, b := range d.boats {
		name := b.Name
		for j, other := range d.boats {
			if j != i && other.Name == b.Name {
				name = fmt.Sprintf("%s (%s)", b.Name, d.request.Boats[i])
			}
		}
		for k := 2; slices.Contains(names, name); k++ {
			name = fmt.Sprintf("%s (%s, %d)", b.Name, d.request.Boats[i], k)
		}
		names = append(names, name)
	}
	return names
}

// observation is an anchor with the question that it answers.
type observation struct {
	anchor  odds.Anchor
	request trim.Request
}

// anchorExample is how an anchor is written.
const anchorExample = `"Sorrel 25.1 kn ± 0.4 kn at 17 kn", with ", 45 deg" after it for a wind angle`

// anchor reads an observed speed; nil where there is none.
func (q *Odds) anchor(d *desk, r trim.Request) (*observation, error) {
	if q.Anchor == "" {
		return nil, nil
	}
	fault := func(format string, args ...any) error {
		return fmt.Errorf("anchor: %s\nhint: write %s", fmt.Sprintf(format, args...), anchorExample)
	}
	boat, rest := -1, ""
	for i, name := range d.names() {
		for _, called := range []string{name, d.request.Boats[i]} {
			if after, ok := strings.CutPrefix(q.Anchor, called+" "); ok {
				boat, rest = i, after
			}
		}
	}
	if boat < 0 {
		return nil, fault("%q begins with the name of none of the boats, which are %s", q.Anchor, strings.Join(d.names(), ", "))
	}
	speed, wind, found := strings.Cut(rest, " at ")
	if !found {
		return nil, fault("%q does not say in which wind", q.Anchor)
	}
	wind, angle, angled := strings.Cut(wind, ",")
	observed, err := quantity.Parse(strings.TrimSpace(speed), quantity.Speed)
	if err != nil {
		return nil, fmt.Errorf("anchor: %w", err)
	}
	if observed.Spread != quantity.Normal {
		return nil, fault("the observed speed %s has no standard deviation", observed)
	}
	blew, err := quantity.Parse(strings.TrimSpace(wind), quantity.Speed)
	if err != nil {
		return nil, fmt.Errorf("anchor: %w", err)
	}
	if !blew.Exact() || !(blew.Likely > 0) {
		return nil, fault("the wind of the observation is one value above 0, and is %s; what it leaves uncertain goes into the speed's own", blew)
	}
	o := &observation{
		anchor:  odds.Anchor{Boat: boat, Wind: si.Speed(blew.Likely), Observed: observed.Likely, Deviation: observed.Deviation, Words: q.Anchor},
		request: r,
	}
	o.request.WindSpeed = o.anchor.Wind
	if angled {
		at, err := quantity.Parse(strings.TrimSpace(angle), quantity.Angle)
		if err != nil {
			return nil, fmt.Errorf("anchor: %w", err)
		}
		o.request.Aim, o.request.WindAngle = trim.AtAngle, si.Angle(at.Likely)
	}
	return o, nil
}

// identity tells all that one sample's outcomes depend on: how many there are,
// and what is made of them, does not count.
func (q *Odds) identity(d *desk) (string, error) {
	own := *q
	own.Samples, own.Until, own.Confidence, own.Tornado = 0, 0, 0, false
	question, err := json.Marshal(&own)
	if err != nil {
		return "", fmt.Errorf("internal error: the question cannot be written: %w", err)
	}
	prints := make([]string, len(d.sheets))
	for i, s := range d.sheets {
		prints[i] = s.Fingerprint()
	}
	return fingerprint(Build(), prints, own.Verb(), question), nil
}
