package web

import (
	"encoding/json"
	"fmt"

	"foilwright/boatfile"
)

// Field is one value of a boat file in the form.
type Field struct {
	Path    string   `json:"path"`
	Part    string   `json:"part"`
	Row     string   `json:"row"`
	Label   string   `json:"label"`
	Help    string   `json:"help"`
	Kind    string   `json:"kind"` // quantity, setting, words, yes or no, names
	Example string   `json:"example"`
	Options []string `json:"options"`
	Text    string   `json:"text"` // empty where it is not written
	Basis   string   `json:"basis"`
	Times   string   `json:"times"`
	Plus    string   `json:"plus"`
	File    string   `json:"file"` // where it is written; empty where it is not
	Line    int      `json:"line"`
	Column  int      `json:"column"`
}

// fields tells the values of a boat file as the page has it.
func (d *Desk) fields(a *Asked) *Told {
	var q struct {
		File string `json:"file"`
	}
	if err := json.Unmarshal(a.Question, &q); err != nil {
		return &Told{Error: fmt.Sprintf("the question cannot be read: %v", err)}
	}
	open := d.drafted(a.Drafts)
	text, err := open(q.File)
	if err != nil {
		return &Told{Error: err.Error()}
	}
	all, err := boatfile.Fields(q.File, text, open)
	if err != nil {
		return &Told{Error: err.Error()}
	}
	t := &Told{Fields: make([]Field, len(all))}
	for i, f := range all {
		t.Fields[i] = Field{
			f.Path, f.Part, f.Row, f.Label, f.Help, string(f.Kind), f.Example, f.Options,
			f.Text, f.Basis, f.Times, f.Plus, f.Where.File, f.Where.Line, f.Where.Column,
		}
	}
	return t
}
