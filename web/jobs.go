package web

import (
	"encoding/json"
	"fmt"
	"runtime"

	"foilwright/job"
	"foilwright/study"
)

// JobAsked is what a page asks about a job.
type JobAsked struct {
	ID   string `json:"id"`
	Sure bool   `json:"sure"` // of "forget": the page has asked the person

	// Beside are other jobs, polars of other boats, that are drawn on the same charts.
	Beside []string `json:"beside"`
}

// jobWorkers is how many goroutines jobs have: one core is left for answers to dragging.
func jobWorkers() int { return max(1, runtime.GOMAXPROCS(0)-1) }

// jobs answers what concerns jobs; nil where a question does not.
//
//	run      a question {verb, question} of some boats: how its job stands
//	jobs     how all of them stand
//	job      {id}: how one stands, with what it has in the forms that are wanted
//	cancel, resume  {id}
//	forget   {id}: what that would remove; with sure, it is removed
func (d *Desk) jobs(a *Asked) *Told {
	switch a.Verb {
	case "run":
		var r job.Request
		if err := json.Unmarshal(a.Question, &r); err != nil {
			return &Told{Error: fmt.Sprintf("the job cannot be read: %v", err)}
		}
		r.Boats = a.Boats
		return jobTold(d.queue.Ask(r, d.drafted(a.Drafts)))
	case "jobs":
		return &Told{Jobs: d.queue.List(d.drafted(a.Drafts))}
	case "job", "cancel", "resume", "forget":
	default:
		return nil
	}
	var about JobAsked
	if err := json.Unmarshal(a.Question, &about); err != nil {
		return &Told{Error: fmt.Sprintf("the question about a job cannot be read: %v", err)}
	}
	if !job.Named(about.ID) {
		return &Told{Error: fmt.Sprintf("%q is no job", about.ID)}
	}
	switch a.Verb {
	case "cancel":
		return jobTold(d.queue.Cancel(about.ID))
	case "resume":
		return jobTold(d.queue.Resume(about.ID))
	case "forget":
		return d.forget(&about)
	}
	return d.job(a, &about)
}

// job tells how a job stands, with what it has.
func (d *Desk) job(a *Asked, about *JobAsked) *Told {
	id := about.ID
	state, err := d.queue.State(id, d.drafted(a.Drafts))
	if err != nil {
		return &Told{Error: err.Error()}
	}
	if len(a.Want) == 0 {
		return &Told{Job: &state}
	}
	r, text, err := d.queue.Result(id)
	if err != nil {
		return &Told{Job: &state, Error: err.Error()}
	}
	if r == nil {
		return &Told{Job: &state}
	}
	if len(about.Beside) > mostBoats {
		return &Told{Error: fmt.Sprintf("%d results beside each other are more than %d", len(about.Beside), mostBoats)}
	}
	var beside []*study.Result
	for _, other := range about.Beside {
		if !job.Named(other) {
			return &Told{Error: fmt.Sprintf("%q is no job", other)}
		}
		b, _, err := d.queue.Result(other)
		if err != nil {
			return &Told{Job: &state, Error: err.Error()}
		}
		if b != nil {
			beside = append(beside, b)
		}
	}
	t := told(r, a, beside...)
	t.Job = &state
	if text != "" && t.Text != "" {
		t.Text = text // as it was when all was at hand
	}
	return t
}

// forget removes a job once the page is sure, and else says what that would remove.
func (d *Desk) forget(about *JobAsked) *Told {
	if !about.Sure {
		words, err := d.queue.Size(about.ID)
		if err != nil {
			return &Told{Error: err.Error()}
		}
		return &Told{Text: words}
	}
	if err := d.queue.Forget(about.ID); err != nil {
		return &Told{Error: err.Error()}
	}
	d.cry("forgotten", about.ID, about.ID)
	return &Told{}
}

func jobTold(s job.State, err error) *Told {
	if err != nil {
		return &Told{Error: err.Error()}
	}
	return &Told{Job: &s}
}
