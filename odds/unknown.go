package odds

import (
	"cmp"
	"fmt"
	"path"
	"slices"
	"strings"

	"foilwright/boatfile"
	"foilwright/quantity"
)

// Kind tells what an unknown is of.
type Kind string

// The kinds.
const (
	OfFigure    Kind = "figure of a boat file"
	OfShared    Kind = "shared unknown"
	OfModel     Kind = "factor of the model"
	OfCondition Kind = "condition of the study"
)

// Unknown is one uncertain figure. It is drawn once a sample, for all boats that
// use it: errors in it cancel between them.
type Unknown struct {
	Identity boatfile.Identity
	Name     string // in words, and the key of its scramble: the file as seen from the first boat's folder
	Kind     Kind
	Quantity quantity.Quantity
	Basis    string
	Where    string // file:line:column; empty where it stands in no file
	Boats    []int  // indices of the boats that use it
}

// modelFile is the file that the model's own factors count as standing in.
const modelFile = "model"

// Pool gathers the unknowns of sheets, each once, in the order of their names;
// conditions, common to all boats, come with them. Two sheets that give one
// identity two spreads are an error.
func Pool(sheets []*boatfile.Sheet, conditions []Unknown) ([]Unknown, error) {
	var all []Unknown
	folder := ""
	if len(sheets) > 0 {
		folder = path.Dir(path.Clean(sheets[0].File()))
	}
	for boat, sheet := range sheets {
		for _, u := range sheet.Unknowns() {
			name := named(u.Identity, folder)
			at := slices.IndexFunc(all, func(have Unknown) bool { return have.Name == name })
			if at < 0 {
				all = append(all, Unknown{
					Identity: u.Identity, Name: name, Kind: kindOf(&u), Quantity: u.Quantity, Basis: u.Basis, Where: placed(u.Where),
				})
				at = len(all) - 1
			}
			if have := all[at].Quantity; have != u.Quantity {
				return nil, fmt.Errorf("%s: %s is %s in one boat and %s in another\nhint: name the boats' files in one way, and keep them as they are while the program reads",
					sheet.File(), name, have, u.Quantity)
			}
			all[at].Boats = append(all[at].Boats, boat)
		}
	}
	for _, c := range conditions {
		for boat := range sheets {
			c.Boats = append(c.Boats, boat)
		}
		all = append(all, c)
	}
	slices.SortStableFunc(all, func(a, b Unknown) int { return cmp.Compare(a.Name, b.Name) })
	return all, nil
}

// named returns an unknown's name. Files are named as seen from a folder, so that
// a study draws the same values wherever it is run from.
func named(id boatfile.Identity, folder string) string {
	if id.File == modelFile {
		return modelFile + ": " + id.Name
	}
	return seenFrom(folder, path.Clean(id.File)) + ": " + id.Name
}

// seenFrom returns a file's path from a folder, both clean and from one place.
func seenFrom(folder, file string) string {
	if folder == "." {
		return file
	}
	from, to := strings.Split(folder, "/"), strings.Split(file, "/")
	for len(from) > 0 && len(to) > 1 && from[0] == to[0] {
		from, to = from[1:], to[1:]
	}
	return strings.Repeat("../", len(from)) + strings.Join(to, "/")
}

func kindOf(u *boatfile.Unknown) Kind {
	switch {
	case u.File == modelFile:
		return OfModel
	case strings.Contains(u.Name, "."):
		return OfFigure
	}
	return OfShared
}

func placed(at boatfile.Place) string {
	if at == (boatfile.Place{}) {
		return ""
	}
	return at.String()
}
