package study

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"maps"
	"slices"
	"sync"

	"foilwright/batch"
	"foilwright/boat"
	"foilwright/boatfile"
	"foilwright/trim"
)

// Shelf keeps boats that were read, so that a face that asks again and again does not
// read them anew. A boat is taken from it only while every file that made it still
// says the same. The zero value is ready, and goroutines may share it.
type Shelf struct {
	mu    sync.Mutex
	boats map[string]*shelved     // by name of file
	order []string                // of names, the oldest first
	last  map[string]*trim.Result // the last answer for the boat of a file that View found

	benches benches
	trims   trims
}

// shelved is what became of one boat file.
type shelved struct {
	files  map[string][sha256.Size]byte // every file that was opened for it
	print  string                       // SHA-256 of the file's name and of those; empty where one was missing
	sheet  *boatfile.Sheet
	boat   *boat.Boat
	faults boatfile.Faults
	err    error
}

// fullShelf is how many boats are kept: more than anyone looks at together.
const fullShelf = 64

// read returns the boat of a file, from the shelf where that still holds.
func (s *Shelf) read(name string, open func(string) ([]byte, error)) *shelved {
	if s == nil {
		return read(name, open)
	}
	s.mu.Lock()
	kept := s.boats[name]
	s.mu.Unlock()
	if kept.stands(open) {
		return kept
	}
	kept = read(name, open)
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.boats == nil {
		s.boats = map[string]*shelved{}
	}
	if s.boats[name] == nil {
		s.order = append(s.order, name)
	}
	s.boats[name] = kept
	if len(s.order) > fullShelf {
		delete(s.boats, s.order[0])
		delete(s.last, s.order[0])
		s.order = s.order[1:]
	}
	return kept
}

// stands tells whether every file still says what it said. What could not be opened
// is asked for again.
func (k *shelved) stands(open func(string) ([]byte, error)) bool {
	if k == nil || len(k.files) == 0 {
		return false
	}
	for name, sum := range k.files {
		text, err := open(name)
		if err != nil || sha256.Sum256(text) != sum {
			return false
		}
	}
	return true
}

// read reads a boat file, and notes all that was opened for it.
func read(name string, open func(string) ([]byte, error)) *shelved {
	k := &shelved{files: map[string][sha256.Size]byte{}}
	missing := false
	noted := func(name string) ([]byte, error) {
		text, err := open(name)
		if err != nil {
			missing = true
			return nil, err
		}
		k.files[name] = sha256.Sum256(text)
		return text, nil
	}
	text, err := noted(name)
	if err != nil {
		k.files, k.err = nil, err
		return k
	}
	if k.sheet, k.err = boatfile.Read(name, text, noted); k.err == nil {
		k.boat, k.err = k.sheet.Boat(nil)
	}
	errors.As(k.err, &k.faults)
	if missing {
		k.files = nil
		return k
	}
	hash := sha256.New()
	fmt.Fprintf(hash, "%q\n", name)
	for _, name := range slices.Sorted(maps.Keys(k.files)) {
		fmt.Fprintf(hash, "%q %x\n", name, k.files[name])
	}
	k.print = fmt.Sprintf("%x", hash.Sum(nil))
	return k
}

// best finds a boat's best trim, or has it from the shelf.
func (d *desk) best(ctx context.Context, j trim.Job, w *trim.Workspace) (*trim.Result, error) {
	batch.GiveWay(ctx)
	return d.request.Shelf.best(ctx, d.prints[j.Boat], j, w)
}

// each finds best trims over a number of goroutines, as trim.Each does, or has them from
// the shelf.
func (d *desk) each(ctx context.Context, jobs []trim.Job, done func(job int)) ([]*trim.Result, error) {
	results := make([]*trim.Result, len(jobs))
	err := trim.Steps(ctx, len(jobs), d.request.Workers, func(ctx context.Context, i int, w *trim.Workspace) (err error) {
		results[i], err = d.best(ctx, jobs[i], w)
		return err
	}, done)
	return results, err
}
