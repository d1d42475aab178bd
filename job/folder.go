package job

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"regexp"
	"strings"
)

// Folder is where run folders are kept, below the folder of the boats.
const Folder = "runs"

// Names of what a run folder holds, beside what package study keeps there.
const (
	requestFile = "request.json"
	stateFile   = "state.json"
	resultFile  = "result.json"
	textFile    = "answer.txt"
)

// largestFile is the largest file of a run folder that is read, bytes.
const largestFile = 256 << 20

// part is the end of the name of a file that is being written.
const part = ".part"

// named is what names of run folders look like: nothing in them leads anywhere else.
var named = regexp.MustCompile(`^[0-9]{4}-[0-9]{2}-[0-9]{2}-[a-z]{2,12}-[a-z0-9-]{0,60}-[0-9a-f]{8}$`)

// Named tells whether a text may be the name of a run folder.
func Named(id string) bool { return len(id) < 128 && named.MatchString(id) }

// nameOf returns the name of a run folder.
func nameOf(date, verb string, boats []string, print string) string {
	var words []string
	for _, b := range boats {
		words = append(words, strings.Trim(notPlain.ReplaceAllString(strings.ToLower(b), "-"), "-"))
	}
	about := strings.Join(words, "-")
	if len(about) > longestAbout {
		about = strings.Trim(about[:longestAbout], "-")
	}
	return fmt.Sprintf("%s-%s-%s-%.8s", date, verb, about, print)
}

// longestAbout is how much of boats' names a folder's name holds.
const longestAbout = 48

var notPlain = regexp.MustCompile(`[^a-z0-9]+`)

// kept keeps files of one run folder. It satisfies [batch.Keeper]. Names are paths below
// the folder, which they do not leave, by links either.
type kept struct {
	root *os.Root // of the boats
	at   string   // the folder, below root
}

// remove removes files and folders.
func (k kept) remove(names ...string) error {
	for _, name := range names {
		if err := k.root.RemoveAll(path.Join(k.at, name)); err != nil {
			return k.fault(name, "removed", err)
		}
	}
	return nil
}

// Get returns a file's bytes; nil where there is none.
func (k kept) Get(name string) ([]byte, error) {
	// A pipe would not be opened before somebody writes into it.
	if info, err := k.root.Stat(path.Join(k.at, name)); err == nil && !info.Mode().IsRegular() {
		return nil, k.fault(name, "read", errors.New("it is not a plain file"))
	}
	f, err := k.root.Open(path.Join(k.at, name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, k.fault(name, "read", err)
	}
	defer f.Close()
	info, err := f.Stat()
	switch {
	case err != nil:
		return nil, k.fault(name, "read", err)
	case !info.Mode().IsRegular():
		return nil, k.fault(name, "read", errors.New("it is not a plain file"))
	case info.Size() > largestFile:
		return nil, k.fault(name, "read", errors.New("it is larger than what this program writes"))
	}
	text, err := io.ReadAll(f)
	if err != nil {
		return nil, k.fault(name, "read", err)
	}
	return text, nil
}

// Put writes a file beside its place and then renames it, so that it is whole or as it
// was before.
func (k kept) Put(name string, text []byte) error {
	at := path.Join(k.at, name)
	if err := k.root.MkdirAll(path.Dir(at), 0o755); err != nil {
		return k.fault(name, "written", err)
	}
	beside := at + "." + rand.Text()[:8] + part
	f, err := k.root.OpenFile(beside, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return k.fault(name, "written", err)
	}
	_, err = f.Write(text)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err == nil {
		err = k.root.Rename(beside, at)
	}
	if err != nil {
		_ = k.root.Remove(beside) // of no use to anybody, and that it stays adds nothing
		return k.fault(name, "written", err)
	}
	return nil
}

func (k kept) fault(name, done string, err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		err = at.Err
	}
	return fmt.Errorf("%s: cannot be %s: %w\nhint: look at the folder's rights, and whether the disk is full", path.Join(k.at, name), done, err)
}
