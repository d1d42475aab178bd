package study

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/boatfile"
	"foilwright/fluid"
	"foilwright/quantity"
	"foilwright/rule"
)

// Check asks what is in boat files: faults, assumptions, what is uncertain, and
// what differs between them; and, where a rule is named, whether the boats keep it.
type Check struct {
	Rule            string `json:"rule,omitempty"`             // name of a file
	RuleFingerprint string `json:"rule_fingerprint,omitempty"` // filled in: SHA-256 of its text
}

// Verb names the question.
func (*Check) Verb() string { return "check" }

// CheckResult is what is in boat files.
type CheckResult struct {
	Files       []FileCheck      `json:"files"`
	Differences []FileDifference `json:"differences"`    // of each file from the first
	Rule        []*rule.Result   `json:"rule,omitempty"` // of each file, where a rule was named and no file has faults
}

// FileCheck is what is in one boat file. With faults, the rest is empty.
type FileCheck struct {
	File        string       `json:"file"`
	Boat        string       `json:"boat"`
	Class       string       `json:"class"`
	Figures     string       `json:"figures"` // invented, or as stated by the file
	Mass        float64      `json:"mass_kg"`
	Length      float64      `json:"length_m"`
	Foils       []string     `json:"foils"`
	Modes       []string     `json:"modes"`
	Sails       []string     `json:"sails"` // with area and coefficients
	Sets        []string     `json:"sets"`
	Controls    []string     `json:"controls"`
	Pulled      []string     `json:"pulled"` // other files that it took in
	Faults      []Fault      `json:"faults"`
	Afloat      *Floating    `json:"afloat"` // nil where no hull has sections
	Assumptions []Assumption `json:"assumptions"`
	Unknowns    []Unknown    `json:"unknowns"`
}

// Floating is how a boat lies still in no wind, weights amidships, controls where
// they start.
type Floating struct {
	*balance.AtRest
	Missing string `json:"missing,omitempty"` // why there is no rest afloat
}

// Fault is one thing wrong with a file.
type Fault struct {
	Where   string `json:"where"` // file:line:column
	Path    string `json:"path"`
	Problem string `json:"problem"`
	Hint    string `json:"hint,omitempty"`
}

// Assumption is a value that the file does not give.
type Assumption struct {
	Path  string `json:"path"`
	Value string `json:"value"` // with its unit
	Basis string `json:"basis"`
}

// Unknown is an uncertain figure.
type Unknown struct {
	File  string `json:"file"` // that defines it
	Name  string `json:"name"`
	Value string `json:"value"` // with its spread and unit
	Basis string `json:"basis"`
	Where string `json:"where"` // file:line:column; empty for the model's own
}

// FileDifference is what must change for the first file to become another.
type FileDifference struct {
	From    string       `json:"from"`
	To      string       `json:"to"`
	Changes []FileChange `json:"changes"`
}

// FileChange is one difference between two files, in their own words.
type FileChange struct {
	Path string `json:"path"`
	From string `json:"from"`
	To   string `json:"to"`
}

func (q *Check) ask(_ context.Context, d *desk) (any, Verdict, error) {
	r := &CheckResult{Files: []FileCheck{}, Differences: []FileDifference{}}
	verdict := Answered
	for i, name := range d.request.Boats {
		c := FileCheck{
			File: name, Foils: []string{}, Modes: []string{}, Sails: []string{}, Sets: []string{}, Controls: []string{}, Pulled: []string{},
			Faults: []Fault{}, Assumptions: []Assumption{}, Unknowns: []Unknown{},
		}
		for _, f := range d.faults[i] {
			verdict = Faulty
			where := boatfile.Place{File: f.File, Line: f.Line, Column: f.Column}
			c.Faults = append(c.Faults, Fault{Where: where.String(), Path: f.Path, Problem: f.Problem, Hint: f.Hint})
		}
		if len(c.Faults) == 0 {
			c.describe(d.sheets[i], d.boats[i])
		}
		r.Files = append(r.Files, c)
	}
	r.Differences = differing(d.sheets)
	if q.Rule == "" {
		return r, verdict, nil
	}
	err := q.hold(d, r)
	for _, held := range r.Rule {
		if held.Broken > 0 && verdict == Answered {
			verdict = HonestNo
		}
	}
	return r, verdict, err
}

// hold reads the rule and holds every boat against it, where none has faults.
func (q *Check) hold(d *desk, r *CheckResult) error {
	text, err := d.request.Open(q.Rule)
	if err != nil {
		return err
	}
	q.RuleFingerprint = fmt.Sprintf("%x", sha256.Sum256(text))
	limits, err := rule.Read(q.Rule, text)
	if err != nil {
		return err
	}
	for i := range r.Files {
		if len(r.Files[i].Faults) > 0 {
			return nil
		}
	}
	var all []error
	for i, s := range d.sheets {
		held, err := limits.Check(s, d.boats[i])
		if err != nil {
			all = append(all, err)
			continue
		}
		r.Rule = append(r.Rule, held)
	}
	return errors.Join(all...)
}

// describe tells what a file without faults holds.
func (c *FileCheck) describe(s *boatfile.Sheet, b *boat.Boat) {
	c.Boat, c.Class, c.Mass, c.Length, c.Figures = b.Name, b.Class, b.Mass(), b.Length, "as stated by the file"
	if s.Invented() {
		c.Figures = "invented"
	}
	for i := range b.Foils {
		c.Foils = append(c.Foils, b.Foils[i].Name)
	}
	for i := range b.Modes {
		c.Modes = append(c.Modes, b.Modes[i].Name)
	}
	for i := range b.Sails {
		c.Sails = append(c.Sails, b.Sails[i].Name+" "+quantity.Format(b.Sails[i].Area, quantity.Area, "m²", quantity.Significant(4))+
			" ("+b.Sails[i].Coefficients.String()+")")
	}
	for i := range b.Sets {
		c.Sets = append(c.Sets, b.Sets[i].Name)
	}
	for i := range b.Controls {
		c.Controls = append(c.Controls, b.Controls[i].Name)
	}
	c.float(b)
	c.Pulled = append(c.Pulled, s.Pulled()...)
	c.Assumptions, c.Unknowns = assumptionsOf(s), unknownsOf(s)
}

func assumptionsOf(s *boatfile.Sheet) []Assumption {
	all := []Assumption{}
	for _, a := range s.Assumptions() {
		all = append(all, Assumption{Path: a.Path, Value: a.Value, Basis: a.Basis})
	}
	return all
}

func unknownsOf(s *boatfile.Sheet) []Unknown {
	all := []Unknown{}
	for _, u := range s.Unknowns() {
		row := Unknown{File: u.File, Name: u.Name, Value: u.Quantity.String(), Basis: u.Basis}
		if u.Where != (boatfile.Place{}) {
			row.Where = u.Where.String()
		}
		all = append(all, row)
	}
	return all
}

// float tells how a boat lies afloat.
func (c *FileCheck) float(b *boat.Boat) {
	for i := range b.Hulls {
		if len(b.Hulls[i].Sections) == 0 {
			continue
		}
		var w balance.Workspace
		rest, err := balance.Afloat(b, balance.Level(b), fluid.StandardSea(), &w)
		c.Afloat = &Floating{AtRest: rest}
		if err != nil {
			c.Afloat.Missing = err.Error()
		}
		return
	}
}

// differing lists what differs between the first sheet that could be read and
// each after it.
func differing(sheets []*boatfile.Sheet) []FileDifference {
	all := []FileDifference{}
	var first *boatfile.Sheet
	for _, s := range sheets {
		switch {
		case s == nil:
		case first == nil:
			first = s
		default:
			d := FileDifference{From: first.File(), To: s.File(), Changes: []FileChange{}}
			for _, c := range boatfile.Diff(first, s) {
				d.Changes = append(d.Changes, FileChange{Path: c.Path, From: c.From, To: c.To})
			}
			all = append(all, d)
		}
	}
	return all
}

// Schema returns the JSON Schema of boat files.
func Schema() ([]byte, error) {
	text, err := boatfile.Schema()
	if err != nil {
		return nil, fmt.Errorf("internal error: the schema cannot be written: %w", err)
	}
	return text, nil
}
