package job

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"time"

	"foilwright/batch"
	"foilwright/report"
	"foilwright/study"
)

// Times between one telling of a job and the next, and between its states on disk.
const (
	tellTime = 100 * time.Millisecond
	saveTime = time.Second
	silence  = 5 * saveTime // after which a program that had a job in hand counts as gone
)

// mostBegun is how often a job is taken up that does not come on between.
const mostBegun = 3

// Work does jobs until the context ends. What runs then is taken up again by the next
// program that works on the folder.
func (q *Queue) Work(ctx context.Context) {
	q.read()
	told := make(chan struct{})
	go func() {
		defer close(told)
		q.telling(ctx)
	}()
	defer func() { <-told }()
	look := time.NewTicker(saveTime)
	defer look.Stop()
	for {
		for j := q.next(); j != nil && ctx.Err() == nil; j = q.next() {
			q.do(ctx, j)
		}
		select {
		case <-ctx.Done():
			return
		case <-q.work:
		case <-look.C:
		}
	}
}

// telling tells of jobs of which there is news.
func (q *Queue) telling(ctx context.Context) {
	for {
		select {
		case <-ctx.Done():
			return
		case <-q.news:
		}
		q.mu.Lock()
		var news []State
		for _, j := range q.jobs {
			if j.untold {
				j.untold = false
				news = append(news, j.state())
			}
		}
		q.mu.Unlock()
		for _, s := range news {
			q.tell(s)
		}
		select {
		case <-ctx.Done():
			return
		case <-time.After(tellTime):
		}
	}
}

// next returns the job that is to be done next; nil for none. A job that another program
// had in hand is left to that as long as it gives signs of life.
func (q *Queue) next() *job {
	q.mu.Lock()
	defer q.mu.Unlock()
	for _, j := range q.jobs {
		if j.Standing != Waiting {
			continue
		}
		if !j.not.IsZero() {
			if time.Now().Before(j.not) {
				continue
			}
			before := j.stood.At
			j.readStood(q)
			j.untold = true
			if j.Standing.ended() {
				continue
			}
			j.Standing = Waiting
			if j.stood.At.After(before) && j.By != "" {
				j.not = j.stood.At.Add(silence)
				continue
			}
			j.not = time.Time{}
		}
		return j
	}
	return nil
}

// change changes a job, and tells of it.
func (q *Queue) change(j *job, change func()) {
	q.mu.Lock()
	change()
	j.untold = true
	q.mu.Unlock()
	q.wake()
}

// keep writes how a job stands, unless it is forgotten.
func (q *Queue) keep(j *job) error {
	q.save.Lock()
	defer q.save.Unlock()
	q.mu.Lock()
	if !slices.Contains(q.jobs, j) {
		q.mu.Unlock()
		return nil
	}
	j.stood.At = time.Now().UTC()
	text, err := json.MarshalIndent(&j.stood, "", "  ")
	id := j.ID
	q.mu.Unlock()
	if err != nil {
		return fmt.Errorf("internal error: the state cannot be written: %w", err)
	}
	return q.kept(id).Put(stateFile, append(text, '\n'))
}

// do does one job, and writes what has become of it.
func (q *Queue) do(ctx context.Context, j *job) {
	own, cancel := context.WithCancel(ctx)
	defer cancel()
	began, before, often := time.Now(), 0.0, false
	q.change(j, func() {
		j.Standing, j.By, j.cancel, j.given = Running, q.own, cancel, false
		j.Begun++
		j.Problem, j.Verdict, j.pace = "", "", pace{}
		before, often = j.Took, j.Begun > mostBegun
	})
	var said *outcome
	err := errOften
	if !often {
		if err = q.keep(j); err == nil {
			beating := make(chan struct{})
			go func() {
				defer close(beating)
				q.beat(own, j, func() float64 { return before + time.Since(began).Seconds() })
			}()
			said, err = q.answer(own, j)
			cancel()
			<-beating
		}
	}
	q.change(j, func() {
		j.cancel, j.By, j.Took = nil, "", before+time.Since(began).Seconds()
		switch {
		case err == nil:
			j.Standing, j.Verdict, j.Done, j.SoFar, j.Begun = Done, said.verdict, j.Of, said.finding, 0
			j.partial++
			j.soFar = nil
		case j.given:
			j.Standing, j.Begun = Cancelled, 0
		case ctx.Err() != nil: // the program ends: the next one takes it up
			j.Begun--
		case errors.Is(err, errOften):
			j.Standing, j.Begun, j.Problem = Interrupted, 0, errOften.Error()
		default:
			j.Standing, j.Begun, j.Problem = Failed, 0, err.Error()
		}
	})
	if err := q.keep(j); err != nil {
		q.change(j, func() { j.Problem = err.Error() })
	}
}

var errOften = errors.New("the program ended several times while this was done\nhint: it may need more memory than there is: ask for less at a time, then resume")

// outcome is what a job's state tells of its answer.
type outcome struct {
	verdict study.Verdict
	finding string
}

// answer puts a job's question to study, and keeps what it says. A panic is the job's
// failure and not the program's end.
func (q *Queue) answer(ctx context.Context, j *job) (said *outcome, err error) {
	defer func() {
		if p := recover(); p != nil {
			said, err = nil, fmt.Errorf("internal error: %v\nhint: this is the program's own fault; please report it with the folder %s/%s", p, Folder, j.ID)
		}
	}()
	keeper := q.kept(j.ID)
	if build := study.Build(); j.Build != build {
		// Pieces of another build are of no use to this one.
		if err := keeper.remove(study.Pieces()...); err != nil {
			return nil, err
		}
		q.change(j, func() { j.Build, j.Done, j.SoFar = build, 0, "" })
	}
	question, err := study.Asked(j.Verb, j.Question)
	if err != nil {
		return nil, err
	}
	r, err := study.Run(batch.Behind(ctx, &q.gate), study.Request{
		Boats: j.Boats, Question: question, Workers: q.workers, Keep: keeper,
		Open: func(name string) ([]byte, error) {
			text, ok := j.Files[name]
			if !ok {
				return nil, fmt.Errorf("%s: was not kept with the job\nhint: ask anew", name)
			}
			return []byte(text), nil
		},
		Progress: func(done, of int) {
			q.change(j, func() {
				if done > j.Done {
					j.Begun = 1 // it comes on
				}
				j.Done, j.Of = done, of
				j.pace.at(time.Now(), done)
			})
		},
		Running: func(r *study.Result) {
			words := report.Running(r)
			q.change(j, func() {
				j.soFar, j.SoFar = r, words
				j.partial++
			})
		},
	})
	if err != nil {
		return nil, err
	}
	return &outcome{r.Verdict, finding(r)}, q.keepResult(j, r)
}

// beat writes a job's state now and then, until its work ends.
func (q *Queue) beat(ctx context.Context, j *job, took func() float64) {
	tick := time.NewTicker(saveTime)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		q.change(j, func() { j.Took = took() })
		// A state that cannot be written now is written at the next beat, or tells
		// at the end why not.
		_ = q.keep(j)
	}
}

// keepResult writes an answer, and removes the pieces that it was made of.
func (q *Queue) keepResult(j *job, r *study.Result) error {
	keeper := q.kept(j.ID)
	text, err := report.JSON(r)
	if err != nil {
		return err
	}
	if err := keeper.Put(textFile, []byte(report.Text(r))); err != nil {
		return err
	}
	if err := keeper.Put(resultFile, text); err != nil {
		return err
	}
	return keeper.remove(study.Pieces()...)
}
