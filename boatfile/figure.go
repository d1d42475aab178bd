package boatfile

import (
	"errors"
	"slices"

	"foilwright/quantity"
)

// figure is a quantity as it stands in a boat file.
type figure struct {
	site
	quantity quantity.Quantity
	own      Unknown  // the figure itself, where it is uncertain
	times    *Unknown // shared unknown that it is multiplied by
	plus     *Unknown // shared unknown that is added to it
}

// readAs reads a node as a figure of a dimension.
func (f *figure) readAs(d *decoder, n *node, path string, want quantity.Dimension) {
	f.stand(n, path)
	is, basis := n, ""
	if len(d.basis) > 0 {
		basis = d.basis[len(d.basis)-1]
	}
	if n.kind == mapping {
		is = nil
		for _, e := range n.entries {
			switch e.key {
			case "is":
				is = e.value
			case "basis":
				basis = e.value.text
			case "times":
				f.times = f.shared(d, e.value, below(path, e.key), quantity.Number, "a factor")
			case "plus":
				f.plus = f.shared(d, e.value, below(path, e.key), want, "an offset")
			default:
				d.faults = append(d.faults, Fault{File: e.place.File, Line: e.place.Line, Column: e.place.Column,
					Path: below(path, e.key), Problem: "a quantity has no such key",
					Hint: nearest(e.key, []string{"is", "basis", "times", "plus"})})
			}
		}
	}
	if is == nil || is.kind != scalar {
		what := n.kind.String() + " stands here, a quantity is wanted"
		if n.kind == mapping {
			what = "no quantity is given"
		}
		d.fault(n, path, what, "write "+want.Example()+", or  {is: "+want.Example()+", basis: …}")
		return
	}
	q, err := quantity.Parse(is.text, want)
	if err != nil {
		d.faults = append(d.faults, quantityFault(is, path, err))
		return
	}
	f.quantity = q
	if !q.Exact() {
		f.own = Unknown{Identity: Identity{is.place.File, ownName(is)}, Quantity: q, Basis: basis, Where: is.place}
	}
}

// ownName returns the path where a figure stands in its own file.
func ownName(is *node) string {
	if n := len(is.path) - len(".is"); n > 0 && is.path[n:] == ".is" {
		return is.path[:n]
	}
	return is.path
}

// shared finds a shared unknown by name.
func (f *figure) shared(d *decoder, n *node, path string, want quantity.Dimension, as string) *Unknown {
	if n.kind != scalar {
		d.fault(n, path, n.kind.String()+" stands here, the name of a shared unknown is wanted", "")
		return nil
	}
	u, problem, hint := n.scope.find(n.text)
	if u == nil {
		if problem != "" {
			d.fault(n, path, problem, hint)
		}
		return nil
	}
	if u.Quantity.Dimension != want {
		d.fault(n, path, n.text+" is "+u.Quantity.String()+" at "+u.Where.String()+", and as "+as+" "+article(want)+" is wanted",
			"use times: for a factor, plus: for an offset")
		return nil
	}
	return u
}

// quantityFault turns an error of package quantity into a fault at a node.
func quantityFault(n *node, path string, err error) Fault {
	var e *quantity.Error
	if errors.As(err, &e) {
		return n.faultAt(path, e.Offset, e.Problem, e.Hint)
	}
	problem := "this is no quantity"
	if err != nil {
		problem = err.Error()
	}
	return n.fault(path, problem, "")
}

// at returns the figure's value in a draw, SI.
func (f *figure) at(d Draw) float64 {
	v := f.quantity.Likely
	if !f.quantity.Exact() {
		v = d.of(&f.own)
	}
	if f.times != nil {
		v *= d.of(f.times)
	}
	if f.plus != nil {
		v += d.of(f.plus)
	}
	return v
}

// unknowns returns what makes the figure uncertain.
func (f *figure) unknowns() []*Unknown {
	var us []*Unknown
	if !f.quantity.Exact() {
		us = append(us, &f.own)
	}
	for _, u := range []*Unknown{f.times, f.plus} {
		if u != nil && !u.Quantity.Exact() {
			us = append(us, u)
		}
	}
	return us
}

// Figures of one dimension each: the types of the format's quantities.
type (
	number struct{ figure }
	share  struct{ figure }
	length struct{ figure }
	area   struct{ figure }
	mass   struct{ figure }
	angle  struct{ figure }
)

func (f *number) readNode(d *decoder, n *node, path string) { f.readAs(d, n, path, quantity.Number) }
func (f *share) readNode(d *decoder, n *node, path string)  { f.readAs(d, n, path, quantity.Share) }
func (f *length) readNode(d *decoder, n *node, path string) { f.readAs(d, n, path, quantity.Length) }
func (f *area) readNode(d *decoder, n *node, path string)   { f.readAs(d, n, path, quantity.Area) }
func (f *mass) readNode(d *decoder, n *node, path string)   { f.readAs(d, n, path, quantity.Mass) }
func (f *angle) readNode(d *decoder, n *node, path string)  { f.readAs(d, n, path, quantity.Angle) }

// setting is a quantity or a range whose dimension follows from what it sets:
// it is read when that is known.
type setting struct{ site }

func (s *setting) readNode(d *decoder, n *node, path string) {
	s.stand(n, path)
	if n.kind == list {
		d.fault(n, path, "a list stands here, a quantity or a range is wanted", "write  A to B  with a unit")
		s.node = nil
	}
}

// station is a figure at a share of a path.
type station struct {
	share float64
	key   entry
	value figure
}

// stations is a figure that changes along a piece: one figure for all of it, or
// figures by the share of its length.
type stations struct {
	site
	at []station
}

func (s *stations) readAs(d *decoder, n *node, path string, want quantity.Dimension) {
	s.stand(n, path)
	if n.kind != mapping || n.get("is") != nil {
		var f figure
		f.readAs(d, n, path, want)
		s.at = []station{{value: f}}
		return
	}
	for _, e := range n.entries {
		q, err := quantity.Parse(e.key, quantity.Share)
		if err == nil && (!q.Exact() || q.Likely < 0 || q.Likely > 1) {
			err = &quantity.Error{Text: e.key, Problem: e.key + " is not between 0 and 100 %", Hint: "write shares of the piece's length, such as  0 %: … , 100 %: …"}
		}
		if err != nil {
			key := &node{text: e.key, place: e.place}
			d.faults = append(d.faults, quantityFault(key, below(path, e.key), err))
			continue
		}
		st := station{share: q.Likely, key: e}
		st.value.readAs(d, e.value, below(path, e.key), want)
		s.at = append(s.at, st)
	}
	s.order(d, path)
}

// order faults stations out of order, and brings those of several files into it.
func (s *stations) order(d *decoder, path string) {
	for i := range s.at {
		for j := range i {
			a, b := s.at[j], s.at[i]
			sameFile := a.key.place.File == b.key.place.File
			if a.share == b.share || sameFile && a.share > b.share {
				d.faults = append(d.faults, Fault{File: b.key.place.File, Line: b.key.place.Line, Column: b.key.place.Column,
					Path: below(path, b.key.key), Problem: "stands after " + a.key.key + ", and stations rise",
					Hint: "give the stations from 0 % at the start to 100 % at the tip, each once"})
				break
			}
		}
	}
	slices.SortStableFunc(s.at, func(a, b station) int {
		switch {
		case a.share < b.share:
			return -1
		case a.share > b.share:
			return 1
		}
		return 0
	})
}

type (
	chords struct{ stations }
	twists struct{ stations }
)

func (s *chords) readNode(d *decoder, n *node, path string) { s.readAs(d, n, path, quantity.Length) }
func (s *twists) readNode(d *decoder, n *node, path string) { s.readAs(d, n, path, quantity.Angle) }
