package compare

import (
	"context"
	"fmt"
	"math"

	"foilwright/trim"
)

// Result is boats side by side in the same wind.
type Result struct {
	BaseIndex   int               `json:"base_index"` // of Boats: what changes are taken from
	Base        string            `json:"base"`
	CarriedAt   float64           `json:"carried_at_m"` // height above the water of every side force carried
	SameModel   Agreement         `json:"model_factors"`
	Boats       []*trim.Result    `json:"boats"`
	Differences []Difference      `json:"differences"`
	Sheet       []SheetDifference `json:"balance_sheet"`
	Shifts      []*Shift          `json:"lift_shifts"`   // of every boat from the base; nil for the base and where one has none
	Fastest     int               `json:"fastest_index"` // −1 where none has an answer
}

// Agreement tells whether something is the same for all boats.
type Agreement string

// The agreements.
const (
	Same    Agreement = "the same for all"
	Differs Agreement = "not the same for all"
)

// Difference is one figure of every boat with its changes from the base. An
// entry is nil where that boat has no answer or no such figure.
type Difference struct {
	Figure  string     `json:"figure"`
	Unit    string     `json:"unit"` // m/s, rad, m, m², N, N·m or 1
	Values  []*float64 `json:"values"`
	Changes []*float64 `json:"changes"`
	Shares  []*float64 `json:"changes_share"` // of the base's value; nil where a share means nothing
}

// SheetDifference is one row of the balance sheet, a part and a cause, of every
// boat, with the changes from the base. Parts are named by the wind.
type SheetDifference struct {
	Part    string      `json:"part"`
	Cause   string      `json:"cause"`
	Forces  []*Resolved `json:"forces"`
	Changes []*Resolved `json:"changes"`
}

// Resolved is a force by direction.
type Resolved struct {
	Forward float64 `json:"forward_N"` // along the track
	Leeward float64 `json:"leeward_N"` // across the track
	Up      float64 `json:"up_N"`
}

// Run finds the best trim of every boat over a number of goroutines and
// compares them, see Of. The same jobs give the same bits on any number of
// goroutines. done is passed to trim.Each, as are errors from it.
func Run(ctx context.Context, jobs []trim.Job, base, workers int, done func(job int)) (*Result, error) {
	if err := alike(jobs, base); err != nil {
		return nil, err
	}
	answers, err := trim.Each(ctx, jobs, workers, done)
	if err != nil {
		return nil, err
	}
	return Of(jobs, base, answers)
}

// Of compares boats, each at the best trim that answers her job, with the boat of
// the job at the index base. The jobs hold one request, but for what each boat calls
// its own controls: wind, water, air and aim must be the same, and an error says so
// where they are not. Every side force carried is at the requests' CarriedAt; where
// that is 0, at the mean of the heights of the boats' sail centres of effort: it is
// told in the answers.
func Of(jobs []trim.Job, base int, answers []*trim.Result) (*Result, error) {
	if err := alike(jobs, base); err != nil {
		return nil, err
	}
	r := &Result{BaseIndex: base, Base: jobs[base].Boat.Name, Boats: answers, Fastest: -1, SameModel: Same}
	r.CarriedAt = carriedAt(jobs[base].Request.CarriedAt, answers)
	var w trim.Workspace
	for i, a := range answers {
		a.TellCarried(jobs[i].Boat, r.CarriedAt, &w)
		if jobs[i].Boat.Model != jobs[base].Boat.Model {
			r.SameModel = Differs
		}
		if a.Answer == trim.Found && (r.Fastest < 0 || r.Progress(i) > r.Progress(r.Fastest)) {
			r.Fastest = i
		}
	}
	r.Differences = differences(r)
	r.Sheet = sheet(r)
	r.Shifts = shifts(r)
	return r, nil
}

// alike returns why jobs cannot be compared; nil where they can.
func alike(jobs []trim.Job, base int) error {
	if base < 0 || base >= len(jobs) {
		return fmt.Errorf("internal error: base %d of %d boats", base, len(jobs))
	}
	for i := range jobs {
		if !sameConditions(&jobs[base].Request, &jobs[i].Request) {
			return fmt.Errorf("%s and %s are not asked about in the same conditions", jobs[base].Boat.Name, jobs[i].Boat.Name)
		}
	}
	return nil
}

func sameConditions(a, b *trim.Request) bool {
	return a.WindSpeed == b.WindSpeed && a.WindAngle == b.WindAngle && a.WindFrom == b.WindFrom && a.Profile == b.Profile &&
		a.Water == b.Water && a.Air == b.Air && a.Sea == b.Sea && a.Aim == b.Aim && a.CarriedAt == b.CarriedAt && a.Foil == b.Foil
}

// Progress returns what the request's aim makes most of, of boat i, m/s.
func (r *Result) Progress(i int) float64 { return r.Boats[i].Progress().MetresPerSecond() }

// carriedAt returns the height at which side force is stated for all, m.
func carriedAt(asked float64, answers []*trim.Result) float64 {
	if asked != 0 {
		return asked
	}
	sum, n := 0.0, 0
	for _, a := range answers {
		if h, ok := a.EffortHeight(); ok && a.Answer == trim.Found {
			sum += h
			n++
		}
	}
	if n == 0 {
		return 0
	}
	return sum / float64(n)
}

// from returns the changes of values from the base's, and their shares of it.
func from(base int, values []*float64) (changes, shares []*float64) {
	changes, shares = make([]*float64, len(values)), make([]*float64, len(values))
	b := values[base]
	for i, v := range values {
		if b == nil || v == nil {
			continue
		}
		change := *v - *b
		changes[i] = &change
		if *b != 0 {
			share := change / math.Abs(*b)
			shares[i] = &share
		}
	}
	return changes, shares
}
