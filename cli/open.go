package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// largest is the largest file that is read, bytes.
const largest = 1 << 20

// open reads a file, or says what about it is wrong: nothing is read of what is
// no plain file or too large.
func open(name string) ([]byte, error) {
	if name == "" {
		return nil, errors.New("the name of a boat file is empty\nhint: name one, such as examples/which-foil/sorrel.yaml")
	}
	path := filepath.FromSlash(name)
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("%s: there is no such file%s", name, resembling(path))
	case errors.Is(err, fs.ErrPermission):
		return nil, fmt.Errorf("%s: may not be read\nhint: see who may read it with ls -l", name)
	case err != nil:
		return nil, fmt.Errorf("%s: cannot be read: %w", name, errors.Unwrap(err))
	case info.IsDir():
		return nil, fmt.Errorf("%s: is a folder, and a boat file is wanted%s", name, inside(name, path))
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%s: is not a plain file\nhint: name a boat file", name)
	case info.Size() > largest:
		return nil, tooLarge(name, info.Size())
	}
	f, err := os.Open(path)
	if err != nil {
		if errors.Is(err, fs.ErrPermission) {
			return nil, fmt.Errorf("%s: may not be read\nhint: see who may read it with ls -l", name)
		}
		return nil, fmt.Errorf("%s: cannot be read: %w", name, errors.Unwrap(err))
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, largest+1))
	if err != nil {
		return nil, fmt.Errorf("%s: cannot be read: %w", name, err)
	}
	if len(text) > largest {
		return nil, tooLarge(name, int64(len(text)))
	}
	return text, nil
}

func tooLarge(name string, size int64) error {
	return fmt.Errorf("%s: the file has %.1f MB, 1 MB is allowed\nhint: a boat file is a page or two of text: is this the right file?",
		name, float64(size)/largest)
}

// resembling hints at files beside a name that is not there.
func resembling(path string) string {
	names := boatNames(filepath.Dir(path))
	wanted := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	for _, n := range names {
		stem := strings.TrimSuffix(n, filepath.Ext(n))
		if stem != "" && wanted != "" && (strings.HasPrefix(stem, wanted[:min(3, len(wanted))]) || strings.EqualFold(stem, wanted)) {
			return "\nhint: did you mean " + filepath.ToSlash(filepath.Join(filepath.Dir(path), n)) + "?"
		}
	}
	if len(names) > 0 {
		return "\nhint: beside it there are: " + strings.Join(names, ", ")
	}
	return "\nhint: names of files are relative to the folder that you are in"
}

// inside hints at the boat files in a folder.
func inside(name, path string) string {
	if names := boatNames(path); len(names) > 0 {
		return "\nhint: name a file in it, such as " + strings.TrimSuffix(name, "/") + "/" + names[0]
	}
	return "\nhint: name a file"
}

// boatNames are the names of a folder's first few files that look like boats':
// YAML that gives a name.
func boatNames(folder string) []string {
	const most = 6
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil
	}
	var names []string
	for _, e := range entries {
		if ext := filepath.Ext(e.Name()); len(names) < most && !e.IsDir() && (ext == ".yaml" || ext == ".yml") && hasName(filepath.Join(folder, e.Name())) {
			names = append(names, e.Name())
		}
	}
	return names
}

// hasName tells whether a file's first lines give a boat's name.
func hasName(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	const firstLines = 2000
	text, err := io.ReadAll(io.LimitReader(f, firstLines))
	return err == nil && strings.Contains("\n"+string(text), "\nname:")
}
