package web

import (
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"path"
	"slices"
	"strings"

	"foilwright/study"
)

// Text is a file as it stands on disk.
type Text struct {
	File    string `json:"file"`
	Text    string `json:"text"`
	Version string `json:"version"` // SHA-256 of the text; empty where there is no such file
}

// Kept is a file of the folder that the editor opens.
type Kept struct {
	File string `json:"file"`
	Kind string `json:"kind"` // boat, unknowns, class rule or table
	Boat string `json:"boat"` // its name, of a boat
}

// Keep is the folder's name and the files that the editor opens.
type Keep struct {
	Folder string `json:"folder"`
	Files  []Kept `json:"files"`
}

// Saving is a text that is to be written in place of the version that was read.
type Saving struct {
	File string `json:"file"`
	Text string `json:"text"`
	Base string `json:"base"` // the version that was read; empty for a new file
}

// Moving is a file that is to get another name, or from which a variant is made.
type Moving struct {
	From string `json:"from"`
	To   string `json:"to"`
	Boat string `json:"boat"` // a variant's name
}

// Refused tells why a file was not written. Where it changed on disk meanwhile, it
// holds what stands there.
type Refused struct {
	Error string `json:"error"`
	Disk  *Text  `json:"disk"`
}

func version(text []byte) string { return fmt.Sprintf("%x", sha256.Sum256(text)) }

// editable are the endings of files that the editor opens.
func editable(name string) bool {
	return slices.Contains([]string{".yaml", ".yml", ".csv", ".dat", ".txt"}, path.Ext(name))
}

// readText answers with a file's text.
func (d *Desk) readText(w http.ResponseWriter, r *http.Request) {
	name := r.URL.Query().Get("file")
	text, err := d.open(name)
	switch {
	case err != nil:
		refuse(w, http.StatusNotFound, err, nil)
	case !editable(name):
		refuse(w, http.StatusForbidden, fmt.Errorf("%s: is no file of the editor\nhint: it opens .yaml, .csv, .dat and .txt", name), nil)
	default:
		answer(w, Text{path.Clean(name), string(text), version(text)})
	}
}

// listTexts answers with the files that the editor opens.
func (d *Desk) listTexts(w http.ResponseWriter, _ *http.Request) {
	all := []Kept{}
	d.walk(func(name string, _ fs.DirEntry) {
		k := Kept{File: name, Kind: "table"}
		if ext := path.Ext(name); ext == ".yaml" || ext == ".yml" {
			text, err := d.open(name)
			if err != nil {
				return
			}
			k.Kind, k.Boat = kindOf(string(text)), nameIn(text)
		}
		all = append(all, k)
	})
	answer(w, Keep{d.root.Name(), all})
}

// kindOf tells what a YAML file is by the keys at its left edge.
func kindOf(text string) string {
	kind := "boat"
	for line := range strings.Lines(text) {
		switch key, _, _ := strings.Cut(line, ":"); key {
		case "rule":
			return "class rule"
		case "name", "like":
			return "boat"
		case "unknowns":
			kind = "unknowns"
		}
	}
	return kind
}

// walk calls do for the files of the folder that the editor opens.
func (d *Desk) walk(do func(name string, e fs.DirEntry)) {
	count := 0
	// What cannot be walked is left out; the walk itself returns no error.
	_ = fs.WalkDir(d.root.FS(), ".", func(name string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return nil
		case e.IsDir() && name != "." && (strings.HasPrefix(e.Name(), ".") || strings.Count(name, "/") >= deepest || e.Name() == runsFolder):
			return fs.SkipDir
		case count == mostListed:
			return fs.SkipAll
		case e.IsDir() || !editable(name) || strings.HasPrefix(e.Name(), "."):
			return nil
		}
		count++
		do(name, e)
		return nil
	})
}

// mostPosted is the largest body of a call, bytes: a text in JSON may take twice its size.
const mostPosted = 2*largest + 4096

// posted reads a call's body.
func posted(w http.ResponseWriter, r *http.Request, into any) error {
	decoder := json.NewDecoder(http.MaxBytesReader(w, r.Body, mostPosted))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(into); err != nil {
		return fmt.Errorf("the call cannot be read: %w", err)
	}
	return nil
}

// refuse answers with an error.
func refuse(w http.ResponseWriter, status int, err error, disk *Text) {
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(Refused{err.Error(), disk})
}

// written answers with a file that was written, or with why it was not.
func (d *Desk) written(w http.ResponseWriter, name string, err error) {
	if err == nil {
		var text []byte
		if text, err = d.open(name); err == nil {
			answer(w, Text{path.Clean(name), string(text), version(text)})
			return
		}
	}
	var newer *newerError
	if errors.As(err, &newer) {
		refuse(w, http.StatusConflict, err, &newer.disk)
		return
	}
	refuse(w, http.StatusBadRequest, err, nil)
}

func (d *Desk) saveText(w http.ResponseWriter, r *http.Request) {
	var s Saving
	err := posted(w, r, &s)
	if err == nil {
		err = d.save(s)
	}
	d.written(w, s.File, err)
}

func (d *Desk) makeVariant(w http.ResponseWriter, r *http.Request) {
	var m Moving
	err := posted(w, r, &m)
	if err == nil {
		err = d.variant(m)
	}
	d.written(w, m.To, err)
}

func (d *Desk) renameText(w http.ResponseWriter, r *http.Request) {
	var m Moving
	err := posted(w, r, &m)
	if err == nil {
		err = d.rename(m)
	}
	d.written(w, m.To, err)
}

// schema answers with the JSON Schema of boat files.
func (d *Desk) schema(w http.ResponseWriter, _ *http.Request) {
	text, err := study.Schema()
	if err != nil {
		refuse(w, http.StatusInternalServerError, err, nil)
		return
	}
	w.Header().Set("Content-Type", "application/schema+json")
	w.Header().Set("Cache-Control", "no-store")
	_, _ = w.Write(text)
}
