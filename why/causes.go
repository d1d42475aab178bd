package why

import (
	"fmt"
	"slices"
	"strings"

	"foilwright/boatfile"
)

// Cause is differences between two boat files that are told as one.
type Cause struct {
	Name    string
	Changes []boatfile.Change
}

// Rule gathers what stands at some paths of a boat file into one cause.
type Rule struct {
	Cause string
	Path  string // see Matches
}

// Rules returns the table by which differences are gathered: the first rule whose
// path matches one tells its cause. What no rule knows is a cause of its own, by
// the first key of its path.
func Rules() []Rule {
	return []Rule{
		{"weight and its place", "weights.*.mass"},
		{"weight and its place", "foils.*.mass"},
		{"weight and its place", "bodies.*.mass"},
		{"windage", "weights.*.windage"},
		{"windage", "hulls.*.windage"},
		{"windage", "rig"},
		{"weight and its place", "weights"},
		{"rudder and its wing", "foils.*rudder*"},
		{"section", "foils.*.pieces.*.section"},
		{"section", "foils.*.pieces.*.laminar"},
		{"section", "foils.*.pieces.*.upper side"},
		{"flap", "foils.*.pieces.*.flap"},
		{"flap", "foils.*.controls"},
		{"dihedral", "foils.*.pieces.*wing*.path.*.z"},
		{"dihedral", "foils.*.pieces.*tip*.path.*.z"},
		{"foil plan", "foils.*.pieces.*wing*"},
		{"foil plan", "foils.*.pieces.*tip*"},
		{"foil plan", "foils.*.pieces.*.chord"},
		{"foil plan", "foils.*.pieces.*.twist"},
		{"arm and cant", "foils.*.pieces"},
		{"arm and cant", "foils.*.root"},
		{"arm and cant", "foils.*.moves"},
		{"foil plan", "foils"},
		{"bulb", "bodies"},
		{"sail plan", "sails"},
		{"sail plan", "sets"},
		{"hull", "hulls"},
		{"limits", "limits"},
		{"limits", "modes.*.limits"},
		{"arm and cant", "modes.*.*.cant"},
		{"modes", "modes"},
		{"modes", "controls"},
		{"model factors", "model"},
	}
}

// Matches tells whether a path with stars matches a change: key by key, each star
// standing for any run of letters within one key, and all that stands below. So
// foils.*.pieces.*wing*.path matches foils.main.pieces.inner wing.path[2].z.
func Matches(path string, c boatfile.Change) bool {
	wanted, keys := strings.Split(strings.ReplaceAll(path, "[", ".["), "."), c.Keys()
	if len(wanted) > len(keys) {
		return false
	}
	for i, w := range wanted {
		if !boatfile.Starred(strings.TrimSpace(w), keys[i]) {
			return false
		}
	}
	return true
}

// Group is a cause that a person wants to see: a name, and what it holds, as paths
// with stars (see [Matches]) or as names of causes of the table.
type Group struct {
	Name  string   `json:"name"`
	Holds []string `json:"holds"`
}

// GroupError is a grouping that cannot be made.
type GroupError struct{ Group, Problem, Hint string }

// Error words it in the house's style.
func (e *GroupError) Error() string {
	return "cause " + e.Group + ": " + e.Problem + "\nhint: " + e.Hint
}

// Causes gathers changes into causes: those that groups name first, the others by
// the table. The causes are in the order of their first changes. The error is a
// [GroupError]: a group holds nothing, or two hold the same.
func Causes(changes []boatfile.Change, groups []Group) ([]Cause, error) {
	names := make([]string, len(changes))
	for i, c := range changes {
		names[i] = ruled(c)
	}
	byTable := slices.Clone(names)
	taken := make([]string, len(changes))
	for k, g := range groups {
		if slices.ContainsFunc(groups[:k], func(o Group) bool { return o.Name == g.Name }) {
			return nil, &GroupError{g.Name, "is named twice", "give all that it holds at once, after commas"}
		}
		for _, held := range g.Holds {
			found := false
			for i, c := range changes {
				if byTable[i] != held && (slices.Contains(byTable, held) || !Matches(held, c)) {
					continue
				}
				if taken[i] != "" && taken[i] != g.Name {
					return nil, &GroupError{g.Name, c.Path + " is in " + taken[i] + " already", "each difference belongs to one cause"}
				}
				found, taken[i], names[i] = true, g.Name, g.Name
			}
			if !found {
				return nil, &GroupError{g.Name, fmt.Sprintf("%q matches none of the differences", held), differences(changes, byTable)}
			}
		}
	}
	// A name of the table for something else would put two things under one name.
	for i := range changes {
		if taken[i] == "" && slices.Contains(taken, names[i]) {
			return nil, &GroupError{names[i], "is the name of a cause that holds " + changes[i].Path + " too", "take another name, or hold all of it"}
		}
	}
	var all []Cause
	for i, c := range changes {
		at := slices.IndexFunc(all, func(k Cause) bool { return k.Name == names[i] })
		if at < 0 {
			at = len(all)
			all = append(all, Cause{Name: names[i]})
		}
		all[at].Changes = append(all[at].Changes, c)
	}
	if len(all) > MostCauses {
		return nil, &GroupError{all[MostCauses].Name, fmt.Sprintf("there are %d causes, and %d are the most", len(all), MostCauses), "gather some of them"}
	}
	return all, nil
}

// ruled returns the cause of a change by the table.
func ruled(c boatfile.Change) string {
	for _, r := range Rules() {
		if Matches(r.Path, c) {
			return r.Cause
		}
	}
	return c.Keys()[0]
}

// shownPaths is how many paths a hint lists.
const shownPaths = 8

// differences lists what a group could hold.
func differences(changes []boatfile.Change, causes []string) string {
	if len(changes) == 0 {
		return "the two boats do not differ"
	}
	var paths []string
	for i, c := range changes {
		if i == shownPaths {
			paths = append(paths, fmt.Sprintf("and %d more", len(changes)-shownPaths))
			break
		}
		paths = append(paths, c.Path)
	}
	return "the differences are " + strings.Join(paths, ", ") + "; the causes " + strings.Join(slices.Compact(slices.Sorted(slices.Values(causes))), ", ")
}
