package report

import (
	"strings"

	"foilwright/study"
	"foilwright/trim"
)

// Working tells how a figure comes about.
type Working struct {
	Formula string   `json:"formula"`
	Says    string   `json:"says"`    // what the symbols mean, and what is left out
	Sources []string `json:"sources"` // author and year, as docs/references.md lists them; none for a definition
	Inputs  []Input  `json:"inputs"`  // what it is worked out from, of every boat
	Rests   []Rest   `json:"rests"`   // uncertain and assumed figures that it rests on
}

// Input is one figure that goes into another, of every boat, with its unit.
type Input struct {
	Name   string   `json:"name"`
	Values []string `json:"values"`
}

// Rest is an uncertain or an assumed figure that a working rests on.
type Rest struct {
	Name   string   `json:"name"`
	Basis  Basis    `json:"basis"`
	Values []string `json:"values"` // of every boat; empty where hers has none such
	Source string   `json:"source"` // where it comes from, in words
}

// Basis tells what a figure stands on.
type Basis string

// The bases.
const (
	Stated   Basis = "stated by the file, with a spread"
	OfUnits  Basis = "shared by figures that were read off one picture or one instrument"
	OfModel  Basis = "judgement: the model's own factor"
	AsUsual  Basis = "assumed: the file does not say"
	modelKey       = "model"
)

// working is how the figures of one name, or of one beginning, come about.
type working struct {
	figure  string // its name, or with a star at the end the beginning of it
	formula string
	says    string
	sources []string
	inputs  func(*page, []*trim.Result) []Input
	rests   []string // beginnings of paths in the file, and names of the model's factors
}

// workingOf returns the working of a figure, nil where there is none.
func (p *page) workingOf(figure string, boats []*trim.Result, sources []study.Source) *Working {
	for _, w := range workings() {
		beginning, open := strings.CutSuffix(w.figure, "*")
		if figure != w.figure && !(open && strings.HasPrefix(figure, beginning)) {
			continue
		}
		told := &Working{Formula: w.formula, Says: w.says, Sources: append([]string{}, w.sources...), Rests: restsOf(w.rests, sources)}
		if w.inputs != nil {
			told.Inputs = w.inputs(p, boats)
		} else {
			told.Inputs = causeInputs(strings.TrimPrefix(figure, "drag: "))(p, boats)
		}
		if strings.HasPrefix(figure, controlKey) {
			told.Inputs = controlInputs(strings.TrimPrefix(figure, controlKey))(p, boats)
		}
		return told
	}
	return nil
}

const controlKey = "control: "

// restsOf gathers what a working rests on in the boats' files.
func restsOf(on []string, sources []study.Source) []Rest {
	rests := []Rest{}
	add := func(boat int, name, value, source string, basis Basis) {
		for i := range rests {
			if rests[i].Name == name && rests[i].Basis == basis {
				rests[i].Values[boat] = value
				return
			}
		}
		r := Rest{Name: name, Basis: basis, Values: make([]string, len(sources)), Source: source}
		r.Values[boat] = value
		rests = append(rests, r)
	}
	for i := range sources {
		for _, u := range sources[i].Unknowns {
			switch name := strings.TrimPrefix(u.Name, modelKey+"."); {
			case u.File == modelKey || name != u.Name:
				if restsOn(on, modelKey+"."+name) {
					add(i, name, u.Value, u.Basis, OfModel)
				}
			case !strings.Contains(name, "."):
				if restsOn(on, "shared") {
					add(i, name, u.Value, u.Basis, OfUnits)
				}
			case restsOn(on, name):
				add(i, name, u.Value, u.Basis, Stated)
			}
		}
		for _, a := range sources[i].Assumptions {
			if !strings.HasPrefix(a.Path, modelKey+".") && restsOn(on, a.Path) {
				add(i, a.Path, a.Value, a.Basis, AsUsual)
			}
		}
	}
	return rests
}

// restsOn tells whether a path begins as one of those that are rested on.
func restsOn(on []string, path string) bool {
	for _, beginning := range on {
		if path == beginning || strings.HasPrefix(path, beginning+".") {
			return true
		}
	}
	return false
}
