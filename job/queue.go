package job

import (
	"cmp"
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"slices"
	"sync"
	"time"

	"foilwright/batch"
	"foilwright/report"
	"foilwright/study"
)

// Queue does jobs one after the other. Its methods may be called from any goroutine.
type Queue struct {
	root    *os.Root
	workers int
	tell    func(State)
	own     string // tells this program apart from another on the same folder

	load   sync.Once
	mu     sync.Mutex
	jobs   []*job  // in the order in which they were asked for
	cached []*read // the results that were read last, the latest last
	work   chan struct{}
	news   chan struct{}
	save   sync.Mutex
	gate   batch.Gate
}

// job is one of them, guarded by the queue.
type job struct {
	asked
	stood
	cancel  context.CancelFunc // of the work; nil while there is none
	given   bool               // it was cancelled by somebody
	pace    pace
	soFar   *study.Result
	partial int
	changed []string
	untold  bool
	not     time.Time // before which it is left to another program that had it in hand
}

// read is a result as it is kept.
type read struct {
	id     string
	result *study.Result
	text   string
}

// What a queue takes at most.
const (
	mostJobs    = 300     // that are listed: the latest
	mostWaiting = 16      // jobs
	mostBoats   = 8       // of one job
	mostCached  = 6       // results that were read
	mostText    = 8 << 20 // of all its files, bytes
	mostTrims   = 500     // winds times angles
)

// New returns the queue of a folder of boats. It has so many workers, at least one, and
// calls tell, from a goroutine of its own, when something has come of a job: at most ten
// times a second for each.
func New(root *os.Root, workers int, tell func(State)) *Queue {
	return &Queue{
		root: root, workers: max(1, workers), tell: tell, own: rand.Text(),
		work: make(chan struct{}, 1), news: make(chan struct{}, 1),
	}
}

// Hold holds jobs up, between one trim and the next, until the function that it returns
// is called: somebody waits for an answer that is there at once.
func (q *Queue) Hold() (goOn func()) { return q.gate.Enter() }

// kept returns what keeps files of a job.
func (q *Queue) kept(id string) kept { return kept{q.root, path.Join(Folder, id)} }

// read reads the run folders, once.
func (q *Queue) read() {
	q.load.Do(func() {
		entries, err := fs.ReadDir(q.root.FS(), Folder)
		if err != nil {
			return // there are none yet, or they may not be read: then nothing is listed
		}
		slices.SortFunc(entries, func(a, b fs.DirEntry) int { return cmp.Compare(b.Name(), a.Name()) })
		for _, e := range entries {
			if len(q.jobs) == mostJobs {
				break
			}
			if e.IsDir() && Named(e.Name()) {
				if j := q.readJob(e.Name()); j != nil {
					q.jobs = append(q.jobs, j)
				}
			}
		}
		slices.SortStableFunc(q.jobs, func(a, b *job) int { return a.asked.At.Compare(b.asked.At) })
	})
}

// readJob reads one run folder; nil where it is none.
func (q *Queue) readJob(id string) *job {
	text, err := q.kept(id).Get(requestFile)
	if err != nil || text == nil {
		return nil
	}
	j := &job{}
	if json.Unmarshal(text, &j.asked) != nil || j.ID != id || len(j.Boats) == 0 || len(j.Sources) != len(j.Boats) {
		return nil
	}
	j.readStood(q)
	if !j.Standing.ended() {
		j.Standing = Waiting
		if j.By != "" && j.By != q.own {
			j.not = j.stood.At.Add(silence)
		}
	}
	return j
}

// readStood reads how a job stood. One of which nothing can be read waits.
func (j *job) readStood(q *Queue) {
	j.stood = stood{Standing: Waiting}
	if text, err := q.kept(j.ID).Get(stateFile); err == nil && text != nil && json.Unmarshal(text, &j.stood) != nil {
		j.stood = stood{Standing: Waiting}
	}
	switch j.Standing {
	case Waiting, Running, Done, Cancelled, Interrupted, Failed:
	default:
		j.Standing = Waiting
	}
}

// Ask asks a question in the background. The same question about the same files joins
// the job that is there, done or not; one that was given up goes on. The error tells
// what is wrong with the request or the boats' files.
func (q *Queue) Ask(r Request, open func(name string) ([]byte, error)) (State, error) {
	q.read()
	a, err := gathered(r, open)
	if err != nil {
		return State{}, err
	}
	q.mu.Lock()
	at := slices.IndexFunc(q.jobs, func(j *job) bool { return j.Print == a.Print })
	if at >= 0 {
		j := q.jobs[at]
		j.changed = j.changes(open)
		again := j.Standing.ended() && j.Standing != Done
		id := j.ID
		q.mu.Unlock()
		if again {
			return q.Resume(id)
		}
		return q.State(id, open)
	}
	defer q.mu.Unlock()
	if q.waiting() >= mostWaiting {
		return State{}, fmt.Errorf("%d jobs are waiting, and no more are taken\nhint: cancel some, or wait", mostWaiting)
	}
	text, err := json.MarshalIndent(a, "", "  ")
	if err != nil {
		return State{}, fmt.Errorf("internal error: the request cannot be written: %w", err)
	}
	if err := q.kept(a.ID).Put(requestFile, append(text, '\n')); err != nil {
		return State{}, err
	}
	j := &job{asked: *a, stood: stood{Standing: Waiting}}
	q.jobs = append(q.jobs, j)
	if len(q.jobs) > mostJobs && q.jobs[0].Standing.ended() {
		q.jobs = q.jobs[1:]
	}
	j.untold = true
	q.wake()
	return j.state(), nil
}

func (q *Queue) waiting() int {
	n := 0
	for _, j := range q.jobs {
		if j.Standing == Waiting {
			n++
		}
	}
	return n
}

// gathered reads a request with all that it rests on.
func gathered(r Request, open func(name string) ([]byte, error)) (*asked, error) {
	switch r.Verb {
	case "odds", "why", "polar", "trim", "view", "compare":
	default:
		return nil, fmt.Errorf("%q is not done in the background\nhint: odds, why, polar, trim, view and compare are; all else is answered at once", r.Verb)
	}
	if len(r.Boats) > mostBoats {
		return nil, fmt.Errorf("%d boats are more than %d\nhint: ask about fewer", len(r.Boats), mostBoats)
	}
	question, err := study.Asked(r.Verb, r.Question)
	if err != nil {
		return nil, err
	}
	if o, ok := question.(*study.Odds); ok && o.Samples > mostSamples {
		return nil, fmt.Errorf("samples: %d are more than %d, which the desk takes\nhint: foilwright odds takes more", o.Samples, mostSamples)
	}
	if s, ok := question.(interface{ Trims() int }); ok && s.Trims() > mostTrims {
		return nil, fmt.Errorf("these are %d winds and angles, and %d are the most\nhint: take longer steps", s.Trims(), mostTrims)
	}
	a := &asked{Request: r, At: time.Now().UTC().Truncate(time.Millisecond)}
	if a.Files, a.Sources, err = study.Gather(r.Boats, open); err != nil {
		return nil, err
	}
	if a.Question, err = json.Marshal(question); err != nil {
		return nil, fmt.Errorf("internal error: the question cannot be written: %w", err)
	}
	hash, size := sha256.New(), 0
	fmt.Fprintf(hash, "%s\n%s %s\n%q\n", study.Version, a.Verb, a.Question, a.Boats)
	for _, name := range slices.Sorted(maps.Keys(a.Files)) {
		size += len(a.Files[name])
		fmt.Fprintf(hash, "%q %d\n%s\n", name, len(a.Files[name]), a.Files[name])
	}
	if size > mostText {
		return nil, errors.New("the boats' files together have more than 8 MB\nhint: ask about fewer boats")
	}
	a.Print = fmt.Sprintf("%x", hash.Sum(nil))
	var names []string
	for _, s := range a.Sources {
		names = append(names, s.Name)
	}
	a.ID = nameOf(time.Now().Format(time.DateOnly), a.Verb, names, a.Print)
	a.Words = report.Asked(question)
	return a, nil
}

// mostSamples is the most that odds may take here: their table is held as a whole.
const mostSamples = 1 << 17

// changes returns the files that are not as they were when a job was asked for.
func (j *job) changes(open func(name string) ([]byte, error)) []string {
	var all []string
	for _, name := range slices.Sorted(maps.Keys(j.Files)) {
		if text, err := open(name); err != nil || string(text) != j.Files[name] {
			all = append(all, name)
		}
	}
	return all
}

// List returns how every job stands, in the order in which they were asked for. open
// gives files as they are now.
func (q *Queue) List(open func(name string) ([]byte, error)) []State {
	q.read()
	q.mu.Lock()
	defer q.mu.Unlock()
	all := []State{}
	for _, j := range q.jobs {
		j.changed = j.changes(open)
		all = append(all, j.state())
	}
	return all
}

// State returns how a job stands.
func (q *Queue) State(id string, open func(name string) ([]byte, error)) (State, error) {
	q.read()
	q.mu.Lock()
	defer q.mu.Unlock()
	j, err := q.find(id)
	if err != nil {
		return State{}, err
	}
	j.changed = j.changes(open)
	return j.state(), nil
}

func (q *Queue) find(id string) (*job, error) {
	for _, j := range q.jobs {
		if j.ID == id {
			return j, nil
		}
	}
	return nil, fmt.Errorf("there is no job %q\nhint: it may have been removed; reload the list", id)
}

// state tells how a job stands.
func (j *job) state() State {
	s := State{
		ID: j.ID, Verb: j.Verb, Boats: j.Sources, Words: j.Words, Asked: j.asked.At.Format(time.RFC3339), Standing: j.Standing, Done: j.Done, Of: j.Of,
		Left: j.pace.left(j.Of), SoFar: j.SoFar, Partial: j.partial, Verdict: j.Verdict, Problem: j.Problem, Took: j.Took,
		Changed: j.changed, Question: j.Question,
	}
	if s.Changed == nil {
		s.Changed = []string{}
	}
	s.Says = s.words()
	return s
}

// wake tells the worker and the teller that there may be something for them.
func (q *Queue) wake() {
	for _, c := range []chan struct{}{q.work, q.news} {
		select {
		case c <- struct{}{}:
		default:
		}
	}
}
