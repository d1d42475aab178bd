package odds

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"

	"foilwright/batch"
	"foilwright/boat"
	"foilwright/boatfile"
	"foilwright/fluid"
	"foilwright/si"
	"foilwright/trim"
)

// Names of the conditions that may be uncertain; they count as standing in a file
// of this name.
const (
	conditionsFile = "conditions"
	windName       = "true wind speed"
	waterName      = "water temperature"
	airName        = "air temperature"
)

// Condition returns the unknown of a condition common to all boats: its quantity
// is a wind speed, or a temperature of water or of air.
func Condition(c ConditionOf, u Unknown) Unknown {
	u.Identity = boatfile.Identity{File: conditionsFile, Name: string(c)}
	u.Name, u.Kind = u.Identity.String(), OfCondition
	return u
}

// ConditionOf names a condition.
type ConditionOf string

// The conditions.
const (
	TrueWind         ConditionOf = windName
	WaterTemperature ConditionOf = waterName
	AirTemperature   ConditionOf = airName
)

// Fleet is boats that are trimmed anew for every sample.
type Fleet struct {
	Sheets   []*boatfile.Sheet
	Unknowns []Unknown
	// Requests are the questions, by column of the plan; the wind of the first is
	// the likely one. All but a boat's own names is the same in them.
	Requests []trim.Request
	Columns  []Column
	base     []*trim.Result   // the likely boats' answers, by column
	tilted   [][]*trim.Result // by column and unknown: answers with that one moved; nil where it does not matter
	tilts    []float64        // by how much each unknown is moved there
	spaces   *sync.Pool
}

// Prepare trims the likely boats over a number of goroutines, each from the usual
// starts: their answers are what every sample's search starts from. boats are
// the sheets' likely boats.
func (f *Fleet) Prepare(ctx context.Context, boats []*boat.Boat, workers int) error {
	jobs := make([]trim.Job, len(f.Columns))
	for c := range jobs {
		jobs[c] = trim.Job{Boat: boats[f.Columns[c].Boat], Request: f.Requests[c]}
		jobs[c].Request.Why = trim.Shortfalls
	}
	f.spaces = &sync.Pool{New: func() any { return new(trim.Workspace) }}
	var err error
	if f.base, err = trim.Each(ctx, jobs, workers, nil); err != nil {
		return err
	}
	return f.tilt(ctx, workers)
}

// tiltedTo is the share at which an unknown is taken that is moved alone: a standard
// deviation up of a normal one.
const tiltedTo = 0.84

// tilt finds how the likely boats' best trims move with each unknown, for samples to start
// from where all their unknowns together would move them.
func (f *Fleet) tilt(ctx context.Context, workers int) error {
	n := len(f.Unknowns)
	f.tilted, f.tilts = make([][]*trim.Result, len(f.Columns)), make([]float64, n)
	for c := range f.tilted {
		f.tilted[c] = make([]*trim.Result, n)
	}
	for i, u := range f.Unknowns {
		f.tilts[i] = u.Quantity.At(tiltedTo) - u.Quantity.Likely
	}
	return trim.Steps(ctx, len(f.Columns)*n, workers, func(ctx context.Context, step int, w *trim.Workspace) error {
		c, i := step/n, step%n
		boat := f.Columns[c].Boat
		if f.base[c].Answer != trim.Found || f.tilts[i] == 0 || !slices.Contains(f.Unknowns[i].Boats, boat) {
			return nil
		}
		values := likelyValues(f.Unknowns)
		values[i] += f.tilts[i]
		b, err := f.Sheets[boat].Boat(f.draw(values))
		if err != nil {
			return nil // a boat that cannot be tells nothing of how others move
		}
		r, err := f.request(c, values)
		if err != nil {
			return nil // nor does a wind that cannot be
		}
		r.From, r.Starts, r.Tell = f.base[c], trim.OnlyFrom, trim.WithoutCarried
		res, err := trim.Best(ctx, b, r, w)
		if err == nil && res.Answer == trim.Found && res.Mode == f.base[c].Mode && res.Set == f.base[c].Set {
			f.tilted[c][i] = res
		}
		return ctx.Err()
	}, nil)
}

func (f *Fleet) draw(values []float64) boatfile.Draw {
	draw := make(boatfile.Draw, len(values))
	for i, u := range f.Unknowns {
		draw[u.Identity] = values[i]
	}
	return draw
}

// start returns what a sample of a column is searched from.
func (f *Fleet) start(column int, values []float64) *trim.Result {
	times := make([]float64, len(values))
	for i, v := range values {
		if f.tilted[column][i] != nil {
			times[i] = (v - f.Unknowns[i].Quantity.Likely) / f.tilts[i]
		}
	}
	return f.base[column].Moved(f.tilted[column], times)
}

// Likely returns the likely boats' answers, by column of the plan.
func (f *Fleet) Likely() []*trim.Result { return slices.Clone(f.base) }

// Evaluate is the fleet's [Evaluate]. Every search starts from the answer of the
// likely boat in the likely wind alone, so that what comes out is a function of
// the values; where that finds none, and where the likely boat has none, it is
// made from the usual starts.
func (f *Fleet) Evaluate(ctx context.Context, values []float64, columns int) ([]Outcome, error) {
	return f.evaluate(ctx, values, columns, f.near)
}

// near searches from the likely answer first.
func (f *Fleet) near(ctx context.Context, b *boat.Boat, r trim.Request, base *trim.Result, w *trim.Workspace) (*trim.Result, error) {
	if base.Answer == trim.Found {
		r.From, r.Starts = base, trim.OnlyFrom
		res, err := best(ctx, b, r, w)
		if err != nil || res.Answer == trim.Found {
			return res, err
		}
		r.From, r.Starts = nil, 0
	}
	return best(ctx, b, r, w)
}

// cold searches from the usual starts alone.
func (f *Fleet) cold(ctx context.Context, b *boat.Boat, r trim.Request, _ *trim.Result, w *trim.Workspace) (*trim.Result, error) {
	return best(ctx, b, r, w)
}

// best finds a best trim, once nobody waits for anything more urgent.
func best(ctx context.Context, b *boat.Boat, r trim.Request, w *trim.Workspace) (*trim.Result, error) {
	batch.GiveWay(ctx)
	return trim.Best(ctx, b, r, w)
}

type searcher func(ctx context.Context, b *boat.Boat, r trim.Request, base *trim.Result, w *trim.Workspace) (*trim.Result, error)

func (f *Fleet) evaluate(ctx context.Context, values []float64, columns int, search searcher) ([]Outcome, error) {
	draw := f.draw(values)
	w := f.spaces.Get().(*trim.Workspace)
	defer f.spaces.Put(w)
	boats := make([]*boat.Boat, len(f.Sheets))
	unbuilt := make([]error, len(f.Sheets))
	for i, s := range f.Sheets {
		boats[i], unbuilt[i] = s.Boat(draw)
	}
	out := make([]Outcome, columns)
	for c := range out {
		k := f.Columns[c].Boat
		if unbuilt[k] != nil {
			out[c].State = CannotBe
			continue
		}
		r, err := f.request(c, values)
		if err != nil {
			return nil, err
		}
		res, err := search(ctx, boats[k], r, f.start(c, values), w)
		if err != nil {
			return nil, fmt.Errorf("a sample of %s: %w", f.Sheets[k].File(), err)
		}
		if res.Answer != trim.Found {
			out[c].State = CannotSail
			continue
		}
		out[c] = Outcome{Sails, res.Progress().MetresPerSecond(), res.Speed.MetresPerSecond(), res.TrueWindAngle.Radians()}
	}
	return out, nil
}

// request is a column's question in the conditions of a sample: the wind is moved
// by as much as the wind that is asked about.
func (f *Fleet) request(column int, values []float64) (trim.Request, error) {
	r := f.Requests[column]
	r.Why, r.Tell = trim.Shortfalls, trim.StateAlone
	var err error
	for i := range f.Unknowns {
		u, value := &f.Unknowns[i], values[i]
		if u.Kind != OfCondition {
			continue
		}
		switch u.Identity.Name {
		case windName:
			r.WindSpeed += si.Speed(value - u.Quantity.Likely)
			if !(r.WindSpeed > 0) {
				err = errors.New("the wind's spread reaches down to a calm\nhint: give the wind bounds above 0, such as 8 to 12 kn")
			}
		case waterName:
			r.Water, err = fluid.SeaWater(value, r.Water.Salinity)
		case airName:
			r.Air, err = fluid.MoistAir(value, r.Air.Pressure, r.Air.Humidity)
		}
		if err != nil {
			return r, err
		}
	}
	return r, nil
}

// CheckStarts searches the first samples again from the usual starts, and returns
// by how much those are better.
func (f *Fleet) CheckStarts(ctx context.Context, t *Table, samples, columns int) (*Starts, error) {
	check := &Starts{}
	for s := range min(samples, len(t.Values)) {
		again, err := f.evaluate(ctx, t.Values[s], columns, f.cold)
		if err != nil {
			return nil, err
		}
		for c, o := range again {
			was := t.Outcomes[s][c]
			if o.State != Sails && was.State != Sails {
				continue
			}
			loss := 1.0 // she sails after all
			switch {
			case o.State != Sails:
				loss = -1
			case was.State == Sails:
				loss = (o.Progress - was.Progress) / was.Progress
			}
			check.Checked++
			check.Loss = max(check.Loss, loss)
			check.Mean += (loss - check.Mean) / float64(check.Checked)
		}
	}
	return check, nil
}
