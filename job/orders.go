package job

import (
	"fmt"
	"io/fs"
	"path"
	"slices"

	"foilwright/quantity"
	"foilwright/study"
)

// Cancel gives a job up: at once, and what is done of it stays for Resume.
func (q *Queue) Cancel(id string) (State, error) {
	q.read()
	q.mu.Lock()
	j, err := q.find(id)
	if err != nil {
		q.mu.Unlock()
		return State{}, err
	}
	waits := false
	switch {
	case j.cancel != nil:
		j.given = true
		j.cancel()
	case j.Standing == Waiting:
		j.Standing, waits = Cancelled, true
	}
	j.untold = true
	s := j.state()
	q.mu.Unlock()
	q.wake()
	if waits {
		err = q.keep(j)
	}
	return s, err
}

// Resume has a job done that was cancelled, interrupted or failed: it goes on with what
// is done of it.
func (q *Queue) Resume(id string) (State, error) {
	q.read()
	q.mu.Lock()
	j, err := q.find(id)
	if err != nil {
		q.mu.Unlock()
		return State{}, err
	}
	if j.Standing.ended() && j.Standing != Done {
		j.stood.Standing, j.Problem, j.Begun, j.untold = Waiting, "", 0, true
	}
	s := j.state()
	q.mu.Unlock()
	err = q.keep(j)
	q.wake()
	return s, err
}

// Size says what Forget would remove.
func (q *Queue) Size(id string) (string, error) {
	q.read()
	q.mu.Lock()
	_, err := q.find(id)
	q.mu.Unlock()
	if err != nil {
		return "", err
	}
	files, bytes := 0, int64(0)
	// What cannot be walked is not counted.
	_ = fs.WalkDir(q.root.FS(), path.Join(Folder, id), func(_ string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return nil
		}
		if info, err := e.Info(); err == nil {
			files++
			bytes += info.Size()
		}
		return nil
	})
	size := quantity.Format(float64(bytes)/1e3, quantity.Number, "", quantity.Decimals(0))
	return fmt.Sprintf("This removes %s/%s for good: %d files, %s kB.", Folder, id, files, size), nil
}

// Forget removes a job that is not being done, with its folder.
func (q *Queue) Forget(id string) error {
	q.read()
	q.save.Lock() // what has just ended may still be writing how it stands
	defer q.save.Unlock()
	q.mu.Lock()
	defer q.mu.Unlock()
	j, err := q.find(id)
	if err != nil {
		return err
	}
	if j.cancel != nil {
		return fmt.Errorf("%s is being done\nhint: cancel it first", id)
	}
	if err := q.kept(id).remove("."); err != nil {
		return err
	}
	for i := range q.jobs {
		if q.jobs[i] == j {
			q.jobs = append(q.jobs[:i:i], q.jobs[i+1:]...)
			break
		}
	}
	q.cached = slices.DeleteFunc(q.cached, func(c *read) bool { return c.id == id })
	return nil
}

// Result returns a job's answer: as it is kept where the job is done, with its text, and
// else what there is so far. The result is nil where there is nothing yet.
func (q *Queue) Result(id string) (*study.Result, string, error) {
	q.read()
	q.mu.Lock()
	j, err := q.find(id)
	if err != nil {
		q.mu.Unlock()
		return nil, "", err
	}
	standing, soFar := j.Standing, j.soFar
	at := slices.IndexFunc(q.cached, func(c *read) bool { return c.id == id })
	if standing == Done && at >= 0 {
		c := q.cached[at]
		q.mu.Unlock()
		return c.result, c.text, nil
	}
	q.mu.Unlock()
	if standing != Done {
		return soFar, "", nil
	}
	keeper := q.kept(id)
	text, err := keeper.Get(resultFile)
	if err != nil {
		return nil, "", err
	}
	if text == nil {
		return nil, "", fmt.Errorf("%s/%s: its result.json is gone\nhint: forget the job and ask anew", Folder, id)
	}
	samples, err := keeper.Get(study.SamplesFile)
	if err != nil {
		return nil, "", err
	}
	r, err := study.ReadResult(text, samples)
	if err != nil {
		return nil, "", fmt.Errorf("%s/%s/%s: %w\nhint: forget the job and ask anew", Folder, id, resultFile, err)
	}
	words, err := keeper.Get(textFile)
	if err != nil {
		return nil, "", err
	}
	q.mu.Lock()
	q.cached = append(q.cached, &read{id, r, string(words)})
	if len(q.cached) > mostCached {
		q.cached = slices.Clone(q.cached[1:])
	}
	q.mu.Unlock()
	return r, string(words), nil
}
