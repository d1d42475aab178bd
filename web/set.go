package web

import (
	"encoding/json"
	"fmt"

	"foilwright/boatfile"
)

// Setting is a value that is to be changed in a boat file's text.
type Setting struct {
	File  string `json:"file"`
	Path  string `json:"path"`  // as figures and faults carry it
	Value string `json:"value"` // as one writes it; empty takes out what the file says
}

// set changes a value in the text of a file as the page has it, and tells the text as
// it then reads; comments, order and the rest stay as they are.
func (d *Desk) set(a *Asked) *Told {
	var s Setting
	if err := json.Unmarshal(a.Question, &s); err != nil {
		return &Told{Error: fmt.Sprintf("the value cannot be read: %v", err)}
	}
	open := d.drafted(a.Drafts)
	text, err := open(s.File)
	if err != nil {
		return &Told{Error: err.Error()}
	}
	var changed []byte
	if s.Value == "" {
		changed, err = boatfile.Unset(s.File, text, open, s.Path)
	} else {
		changed, err = boatfile.Set(s.File, text, open, s.Path, s.Value)
	}
	if err != nil {
		return &Told{Error: err.Error()}
	}
	return &Told{Text: string(changed)}
}
