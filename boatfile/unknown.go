package boatfile

import (
	"cmp"
	"slices"

	"foilwright/quantity"
)

// Identity tells unknowns apart: two boats whose unknowns have the same identity
// share them. A shared unknown is the file that defines it and its name; a
// figure that is itself uncertain is the file and the path where it stands, so
// that a variant which inherits it shares it. The model's own factors belong to
// the file "model".
type Identity struct {
	File string
	Name string
}

// String returns "harrow-unknowns.yaml: bow-on photo scale".
func (id Identity) String() string { return id.File + ": " + id.Name }

// compare orders identities by file and name.
func (id Identity) compare(other Identity) int {
	return cmp.Or(cmp.Compare(id.File, other.File), cmp.Compare(id.Name, other.Name))
}

// Unknown is an uncertain figure of a sheet.
type Unknown struct {
	Identity
	Quantity quantity.Quantity // its spread, SI; its Likely is what a nil Draw takes
	Basis    string            // where it comes from, in words; may be empty
	Where    Place             // where it stands; the zero Place for the model's own
}

// Draw is one draw of unknowns: a value, SI, for each identity. What it does not
// hold has its likely value; a nil Draw is the likely boat.
type Draw map[Identity]float64

// of returns an unknown's value.
func (d Draw) of(u *Unknown) float64 {
	if v, ok := d[u.Identity]; ok {
		return v
	}
	return u.Quantity.Likely
}

// scope holds the shared unknowns that names in a boat file may mean.
type scope struct {
	unknowns []*Unknown
	clashes  []clash
	partial  bool // a file of unknowns could not be read
}

// clash is a name that two files give to different unknowns.
type clash struct {
	name          string
	first, second Place
}

// add puts an unknown into the scope; the first of a name stays.
func (s *scope) add(u *Unknown) {
	for _, have := range s.unknowns {
		if have.Name != u.Name {
			continue
		}
		if have.Identity != u.Identity {
			s.clashes = append(s.clashes, clash{u.Name, have.Where, u.Where})
		}
		return
	}
	s.unknowns = append(s.unknowns, u)
}

// find returns the unknown of a name, or a fault's problem and hint; neither
// where the name may stand in a file that is a fault already.
func (s *scope) find(name string) (u *Unknown, problem, hint string) {
	if s == nil {
		s = &scope{}
	}
	for _, c := range s.clashes {
		if c.name == name {
			return nil, "two shared unknowns have this name, at " + c.first.String() + " and " + c.second.String(),
				"rename one of them, or share one of the files only"
		}
	}
	var names []string
	for _, u := range s.unknowns {
		if u.Name == name {
			return u, "", ""
		}
		names = append(names, u.Name)
	}
	slices.Sort(names)
	if s.partial {
		return nil, "", ""
	}
	if len(names) == 0 {
		return nil, "no shared unknown is called " + name,
			"define it under  unknowns:  or name its file, as in  shares: harrow-unknowns.yaml"
	}
	return nil, "no shared unknown is called " + name, nearest(name, names)
}

// readUnknowns reads an `unknowns:` mapping into the scope.
func (s *scope) readUnknowns(n *node, path string, faults *Faults) {
	if n.kind != mapping {
		*faults = append(*faults, n.fault(path, n.kind.String()+" stands here, names with quantities are wanted",
			"write  name: {is: 1.00 ± 0.02, basis: …}"))
		return
	}
	for _, e := range n.entries {
		at := below(path, e.key)
		is, basis := e.value, ""
		if e.value.kind == mapping {
			is = e.value.get("is")
			if b := e.value.get("basis"); b != nil {
				basis = b.text
			}
			for _, f := range e.value.entries {
				if f.key != "is" && f.key != "basis" {
					*faults = append(*faults, Fault{File: f.place.File, Line: f.place.Line, Column: f.place.Column,
						Path: below(at, f.key), Problem: "a shared unknown has no such key",
						Hint: "write  {is: 1.00 ± 0.02, basis: …}"})
				}
			}
		}
		if is == nil || is.kind != scalar {
			*faults = append(*faults, e.value.fault(at, "no quantity is given", "write  {is: 1.00 ± 0.02, basis: …}"))
			continue
		}
		q, fault := anyQuantity(is, at)
		if fault != nil {
			*faults = append(*faults, *fault)
			continue
		}
		s.add(&Unknown{Identity: Identity{is.place.File, e.key}, Quantity: q, Basis: basis, Where: is.place})
	}
}

// anyQuantity reads a quantity whose dimension its unit tells.
func anyQuantity(n *node, path string) (quantity.Quantity, *Fault) {
	first := quantityFault(n, path, nil)
	for d := quantity.Number; d <= quantity.MomentPerAngle; d++ {
		q, err := quantity.Parse(n.text, d)
		if err == nil {
			return q, nil
		}
		if d == quantity.Number {
			first = quantityFault(n, path, err)
		}
	}
	return quantity.Quantity{}, &first
}
