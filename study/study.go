package study

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"

	"foilwright/batch"
	"foilwright/boat"
	"foilwright/boatfile"
)

// Request is one question about some boats.
type Request struct {
	Boats    []string // names of boat files
	Question Question
	Open     func(name string) ([]byte, error) // supplies boat files and what they name
	Shelf    *Shelf                            `json:"-"` // keeps boats that were read; nil for none
	Workers  int                               // goroutines; 0 counts as 1
	Progress func(done, of int)                `json:"-"` // called as parts of long work end, from any goroutine; may be nil
	Running  func(*Result)                     `json:"-"` // called now and then with the answer so far, from any goroutine; may be nil
	Keep     batch.Keeper                      `json:"-"` // keeps the parts of long work, so that killed work can be taken up; nil for none
}

// Question is what is asked: [Check], [Levers], [Tow], [Held], [View], [Sweep], [Sensitivity], [Trim], [Polar], [Compare], [Why] or [Odds].
type Question interface {
	// Verb names the question in one word.
	Verb() string
	ask(context.Context, *desk) (any, Verdict, error)
}

// Verdict tells what kind of answer a result holds.
type Verdict string

// The verdicts.
const (
	Answered Verdict = "answered"
	HonestNo Verdict = "no"     // no answer exists, and the result says why
	Faulty   Verdict = "faults" // the boat files have faults, and the result lists them
)

// Result is the answer with its provenance.
type Result struct {
	Version     string   `json:"version"`
	Kernel      string   `json:"kernel"`
	Fingerprint string   `json:"fingerprint"` // SHA-256 over the boats and the question
	Verb        string   `json:"verb"`
	Boats       []Source `json:"boats"`
	Question    Question `json:"question"`
	Verdict     Verdict  `json:"verdict"`
	Results     any      `json:"results"` // *CheckResult, *LeversResult, *TowResult, []*HeldResult, []*ViewResult, *SweepResult, *SensitivityResult, []*trim.Result, *polar.Result, []*compare.Result, []*why.Result or *odds.Result
	Caution     string   `json:"caution"`
}

// Source is one boat of a study and where it came from.
type Source struct {
	File        string `json:"file"`
	Name        string `json:"name"`
	Fingerprint string `json:"fingerprint"`
	Figures     string `json:"figures"` // invented, or as stated by the file

	Unknowns    []Unknown    `json:"-"` // uncertain figures of the file and of the model
	Assumptions []Assumption `json:"-"` // what the file does not say and the reader filled in
}

// Caution is shown with every prediction.
const Caution = "Predictions are for comparing designs; loads are not scantlings; sailing on foils at these speeds can " +
	"injure or kill; structure, stability and safety stay with the class rule, local codes and licensed engineers."

// desk is what a question works with.
type desk struct {
	request *Request
	sheets  []*boatfile.Sheet
	boats   []*boat.Boat
	faults  [][]boatfile.Fault    // of each file
	prints  map[*boat.Boat]string // of the texts that made a boat
}

// Run answers a request. Errors tell what about the request or its files is
// wrong, one to a line; no answer is not an error but a [Verdict].
func Run(ctx context.Context, r Request) (*Result, error) {
	d := &desk{request: &r}
	if len(r.Boats) == 0 {
		return nil, errors.New("no boat file is named\nhint: name one, such as examples/which-foil/sorrel.yaml")
	}
	if err := d.read(); err != nil {
		return nil, err
	}
	results, verdict, err := r.Question.ask(ctx, d)
	if err != nil {
		return nil, err
	}
	return d.result(r.Question, verdict, results)
}

// result puts an answer beside what it rests on.
func (d *desk) result(q Question, verdict Verdict, results any) (*Result, error) {
	res := &Result{
		Version: Version, Kernel: Kernel, Verb: q.Verb(), Boats: d.sources(), Question: q,
		Verdict: verdict, Results: results, Caution: Caution,
	}
	prints := make([]string, len(res.Boats))
	for i, b := range res.Boats {
		prints[i] = b.Fingerprint
	}
	question, err := json.Marshal(q)
	if err != nil {
		return nil, fmt.Errorf("internal error: the question cannot be written: %w", err)
	}
	res.Fingerprint = fingerprint("", prints, res.Verb, question)
	return res, nil
}

// sources tells the boats and where they came from.
func (d *desk) sources() []Source {
	all := []Source{}
	for i, s := range d.sheets {
		source := Source{File: d.request.Boats[i]}
		if s != nil {
			source.Name, source.Fingerprint, source.Figures = s.Name(), s.Fingerprint(), "as stated by the file"
			if s.Invented() {
				source.Figures = "invented"
			}
			source.Unknowns, source.Assumptions = unknownsOf(s), assumptionsOf(s)
		}
		all = append(all, source)
	}
	return all
}

// read reads every boat file. Faults of all of them are gathered; they are an
// error unless the question is what is wrong with the files. One in a file that several
// boats are like is told once.
func (d *desk) read() error {
	d.sheets = make([]*boatfile.Sheet, len(d.request.Boats))
	d.boats = make([]*boat.Boat, len(d.request.Boats))
	d.faults = make([][]boatfile.Fault, len(d.request.Boats))
	d.prints = map[*boat.Boat]string{}
	var all []error
	told := map[boatfile.Fault]bool{}
	for i, name := range d.request.Boats {
		k := d.request.Shelf.read(name, d.request.Open)
		d.sheets[i], d.boats[i], d.faults[i], d.prints[k.boat] = k.sheet, k.boat, k.faults, k.print
		switch _, asked := d.request.Question.(*Check); {
		case k.err == nil || asked && k.faults != nil:
		case k.faults == nil:
			all = append(all, k.err)
		default:
			for _, f := range k.faults {
				if !told[f] {
					told[f], all = true, append(all, f)
				}
			}
		}
	}
	return errors.Join(all...)
}

// one returns the only boat of a question that is about one.
func (d *desk) one(verb string) (*boat.Boat, error) {
	if len(d.boats) != 1 {
		return nil, fmt.Errorf("%s takes one boat file, and %d are named\nhint: set boats side by side with foilwright compare", verb, len(d.boats))
	}
	return d.boats[0], nil
}
