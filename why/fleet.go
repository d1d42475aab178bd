package why

import (
	"context"
	"strings"

	"foilwright/boat"
	"foilwright/boatfile"
	"foilwright/trim"
)

// Merged is causes that are told as one, since some boat with one and without
// another cannot be built.
type Merged struct {
	Name   string   `json:"name"`
	Causes []string `json:"causes"`
	Why    string   `json:"why"` // what was wrong with the first such boat
}

// fleet is every mixed boat that a split needs. Coalitions count over causes as
// they are merged; members over those at the outset.
type fleet struct {
	outset  []Cause
	causes  []Cause
	members []Coalition // of each cause, over outset
	merged  []Merged
	orders  [][]int     // sampled; nil where every coalition is needed
	needed  []Coalition // in rising order, none and all among them
	boats   map[Coalition]*boat.Boat
	alone   func(*voyage) // called once every cause was tried alone; may be nil
}

// builder builds the boat of a coalition over the causes at the outset.
type builder func(Coalition) (*boat.Boat, error)

// mixing returns what builds boats from the first sheet and causes of the second.
func mixing(first *boatfile.Sheet, causes []Cause) builder {
	return func(c Coalition) (*boat.Boat, error) {
		var changes []boatfile.Change
		for i := range causes {
			if c.Has(i) {
				changes = append(changes, causes[i].Changes...)
			}
		}
		s, err := first.With(changes)
		if err != nil {
			return nil, err
		}
		return s.Boat(nil)
	}
}

// sampling is how many orders are drawn, and from what, where causes are many.
type sampling struct {
	count int
	seed  uint64
}

// assemble builds the fleet, merging causes until every boat of it can be built.
func assemble(ctx context.Context, causes []Cause, build builder, draw sampling, workers int) (*fleet, error) {
	f := &fleet{outset: causes, causes: causes, merged: []Merged{}}
	for i := range causes {
		f.members = append(f.members, Coalition(0).With(i))
	}
	type made struct {
		boat *boat.Boat
		err  error
	}
	known := map[Coalition]made{}
	// Each turn but the last merges two causes.
	for range max(1, len(causes)) {
		f.enlist(draw)
		var missing []Coalition
		for _, c := range f.needed {
			if _, ok := known[f.over(c)]; !ok {
				missing = append(missing, f.over(c))
			}
		}
		fresh := make([]made, len(missing))
		err := trim.Steps(ctx, len(missing), workers, func(_ context.Context, i int, _ *trim.Workspace) error {
			fresh[i].boat, fresh[i].err = build(missing[i])
			return nil
		}, nil)
		if err != nil {
			return nil, err
		}
		for i, c := range missing {
			known[c] = fresh[i]
		}
		var broken []Coalition
		for _, c := range f.needed {
			if known[f.over(c)].err != nil {
				broken = append(broken, c)
			}
		}
		if len(broken) == 0 {
			break
		}
		if len(f.causes) < 2 || f.allBroken(broken) {
			// The whole boats do not come from one another: the first fault tells why.
			return nil, known[f.over(broken[0])].err
		}
		f.merge(broken, known[f.over(broken[0])].err)
	}
	f.boats = make(map[Coalition]*boat.Boat, len(f.needed))
	for _, c := range f.needed {
		f.boats[c] = known[f.over(c)].boat
	}
	return f, nil
}

// allBroken tells whether the boat with no cause or that with all of them is among
// the broken: no merging mends that.
func (f *fleet) allBroken(broken []Coalition) bool {
	return broken[0] == 0 || broken[len(broken)-1] == All(len(f.causes))
}

// enlist sets which coalitions are needed.
func (f *fleet) enlist(draw sampling) {
	n := len(f.causes)
	f.orders, f.needed = nil, nil
	if n > ExactCauses {
		f.orders = Orders(n, draw.count, draw.seed)
		f.needed = needed(n, f.orders)
		return
	}
	for c := range All(n) + 1 {
		f.needed = append(f.needed, c)
	}
}

// over returns a coalition over the causes at the outset.
func (f *fleet) over(c Coalition) Coalition {
	var all Coalition
	for i, m := range f.members {
		if c.Has(i) {
			all |= m
		}
	}
	return all
}

// merge makes one of the two causes that most of the broken boats part, the first
// of equals.
func (f *fleet) merge(broken []Coalition, reason error) {
	one, other, most := 0, 1, -1
	for i := range f.causes {
		for j := i + 1; j < len(f.causes); j++ {
			parted := 0
			for _, c := range broken {
				if c.Has(i) != c.Has(j) {
					parted++
				}
			}
			if parted > most {
				one, other, most = i, j, parted
			}
		}
	}
	names := []string{f.causes[one].Name, f.causes[other].Name}
	joined := Merged{Name: strings.Join(names, " + "), Why: strings.ReplaceAll(reason.Error(), "\n", "; ")}
	var rest []Merged
	for _, m := range f.merged {
		if m.Name == names[0] || m.Name == names[1] {
			joined.Causes = append(joined.Causes, m.Causes...)
			continue
		}
		rest = append(rest, m)
	}
	for _, name := range names {
		plain := true
		for _, m := range f.merged {
			plain = plain && m.Name != name
		}
		if plain {
			joined.Causes = append(joined.Causes, name)
		}
	}
	f.merged = append(rest, joined)
	causes, members := []Cause{}, []Coalition{}
	for i := range f.causes {
		switch i {
		case one:
			both := append(append([]boatfile.Change(nil), f.causes[one].Changes...), f.causes[other].Changes...)
			causes, members = append(causes, Cause{joined.Name, both}), append(members, f.members[one]|f.members[other])
		case other:
		default:
			causes, members = append(causes, f.causes[i]), append(members, f.members[i])
		}
	}
	f.causes, f.members = causes, members
}

// names returns the names of a coalition's causes.
func (f *fleet) names(c Coalition) []string {
	names := []string{}
	for i := range f.causes {
		if c.Has(i) {
			names = append(names, f.causes[i].Name)
		}
	}
	return names
}

// split returns the parts of a worth that is known for every needed coalition,
// with the errors of sampling (0 where nothing was sampled).
func (f *fleet) split(worth func(Coalition) float64) (parts, errors []float64) {
	n := len(f.causes)
	if f.orders != nil {
		return Sampled(n, f.orders, worth)
	}
	all := make([]float64, len(f.needed))
	for i, c := range f.needed {
		all[i] = worth(c)
	}
	return Shapley(n, all), make([]float64, n)
}
