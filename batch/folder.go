package batch

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Folder is a [Keeper] in files: names are paths below it, with forward strokes.
// A file is written beside its place and then renamed, so that a reader, or a
// run after one that was killed, meets whole files only.
type Folder string

// part is the end of the name of a file that is being written.
const part = ".part"

// Get returns a file's bytes.
func (f Folder) Get(name string) ([]byte, error) {
	data, err := os.ReadFile(f.path(name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("%s: cannot be read: %w", f.path(name), cause(err))
	}
	return data, nil
}

// Put writes a file, and the folders above it where they are missing. What an
// earlier run left half-written of it is removed.
func (f Folder) Put(name string, data []byte) error {
	at := f.path(name)
	fault := func(err error) error { return fmt.Errorf("%s: cannot be written: %w", at, cause(err)) }
	if err := os.MkdirAll(filepath.Dir(at), 0o777); err != nil {
		return fault(err)
	}
	left, err := filepath.Glob(at + ".*" + part)
	if err != nil {
		return fault(err)
	}
	for _, old := range left {
		if err := os.Remove(old); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fault(err)
		}
	}
	file, err := os.CreateTemp(filepath.Dir(at), filepath.Base(at)+".*"+part)
	if err != nil {
		return fault(err)
	}
	_, err = file.Write(data)
	err = errors.Join(err, file.Chmod(0o666&^umask), file.Close())
	if err == nil {
		err = os.Rename(file.Name(), at)
	}
	if err != nil {
		// The half-written file is of no use to anybody; that it cannot be
		// removed adds nothing.
		_ = os.Remove(file.Name())
		return fault(err)
	}
	return nil
}

// umask is what kept files do not allow: writing by others.
const umask = 0o022

func (f Folder) path(name string) string { return filepath.Join(string(f), filepath.FromSlash(name)) }

// cause leaves the path out of a file's error, which names it a second time.
func cause(err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		return at.Err
	}
	return err
}
