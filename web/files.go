package web

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"path"
	"path/filepath"
	"strings"
)

// largest is the largest file that is read, and the largest message, bytes.
const largest = 1 << 20

// open reads a file of the folder for study. Names with .. or links that lead out of
// the folder are refused.
func (d *Desk) open(name string) ([]byte, error) {
	if err := allowed(name); err != nil {
		return nil, err
	}
	// A pipe would not be opened before somebody writes into it.
	if info, err := d.root.Stat(path.Clean(name)); err == nil && !info.Mode().IsRegular() {
		return nil, notPlain(name)
	}
	f, err := d.root.Open(path.Clean(name))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("%s: there is no such file\nhint: names are relative to the folder of the desk", name)
	case err != nil:
		return nil, fmt.Errorf("%s: cannot be read: it is outside of the desk's folder, or may not be read\nhint: open the desk on a folder that holds it", name)
	}
	defer f.Close()
	info, err := f.Stat()
	switch {
	case err != nil:
		return nil, fmt.Errorf("%s: cannot be read: %w", name, err)
	case !info.Mode().IsRegular():
		return nil, notPlain(name)
	}
	text, err := io.ReadAll(io.LimitReader(f, largest+1))
	switch {
	case err != nil:
		return nil, fmt.Errorf("%s: cannot be read: %w", name, err)
	case len(text) > largest:
		return nil, fmt.Errorf("%s: the file has more than 1 MB\nhint: a boat file is a page or two of text: is this the right file?", name)
	}
	return text, nil
}

func notPlain(name string) error {
	return fmt.Errorf("%s: is not a plain file\nhint: name a boat file", name)
}

// allowed refuses names of files that are none of a boat's: outside of the folder,
// hidden, or neither boat nor table. Names of devices, where a system has them, and links
// that lead out are refused when they are opened.
func allowed(name string) error {
	clean := path.Clean(name)
	outside := !filepath.IsLocal(filepath.FromSlash(clean)) || strings.ContainsAny(name, "\x00\\")
	switch {
	case len(name) > longestName:
		return fmt.Errorf("a file's name has more than %d letters", longestName)
	case outside:
		return fmt.Errorf("%q: is outside of the desk's folder\nhint: open the desk on a folder that holds it", name)
	}
	for part := range strings.SplitSeq(clean, "/") {
		if strings.HasPrefix(part, ".") {
			return fmt.Errorf("%s: hidden files are not read", name)
		}
	}
	switch strings.ToLower(path.Ext(clean)) {
	case ".yaml", ".yml", ".csv", ".dat", ".txt":
		return nil
	}
	return fmt.Errorf("%s: is no boat file and no table: those end in .yaml, .yml, .csv, .dat or .txt", name)
}

// drafted opens files as a page has them: its drafts before what is saved.
func (d *Desk) drafted(drafts map[string]string) func(string) ([]byte, error) {
	return func(name string) ([]byte, error) {
		if text, drafted := drafts[path.Clean(name)]; drafted {
			return []byte(text), nil
		}
		return d.open(name)
	}
}

// Listed is a boat file of the folder.
type Listed struct {
	File string `json:"file"`
	Boat string `json:"boat"` // its name, as the file gives it
}

// deepest is how many folders down boat files are looked for, mostListed how many.
const (
	deepest    = 4
	mostListed = 200
)

// boats lists the boat files of the folder: YAML that gives a name.
func (d *Desk) boats() []Listed {
	all := []Listed{}
	// What cannot be walked is not listed; the walk itself returns no error.
	_ = fs.WalkDir(d.root.FS(), ".", func(name string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return nil
		case e.IsDir() && name != "." && (strings.HasPrefix(e.Name(), ".") || strings.Count(name, "/") >= deepest || e.Name() == runsFolder):
			return fs.SkipDir
		case len(all) == mostListed:
			return fs.SkipAll
		case path.Ext(name) != ".yaml" && path.Ext(name) != ".yml":
			return nil
		}
		text, err := d.open(name)
		if boat := nameIn(text); err == nil && boat != "" {
			all = append(all, Listed{name, boat})
		}
		return nil
	})
	return all
}

// runsFolder is where jobs are kept.
const runsFolder = "runs"

// nameIn returns the name that a boat file's text gives at its left edge.
func nameIn(text []byte) string {
	for line := range strings.Lines(string(text)) {
		if rest, ok := strings.CutPrefix(line, "name:"); ok {
			rest, _, _ = strings.Cut(rest, " #")
			return strings.Trim(strings.TrimSpace(rest), `"'`)
		}
	}
	return ""
}

func (d *Desk) list(w http.ResponseWriter, _ *http.Request) { answer(w, d.boats()) }

// answer writes a value as JSON. Where the browser has gone there is nobody to tell.
func answer(w http.ResponseWriter, value any) {
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	_ = json.NewEncoder(w).Encode(value)
}
