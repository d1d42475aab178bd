package boatfile

import (
	"fmt"
	"path"
	"strings"
)

// deepestLike is how many files may stand in one chain of like:.
const deepestLike = 8

// none is the value that removes what is inherited.
const none = "none"

// Opener supplies the text of a file that another one names.
type Opener func(name string) ([]byte, error)

// pulled is a file that was read besides the boat file itself.
type pulled struct {
	name string
	text []byte
}

// loader reads a boat file and all that it pulls in.
type loader struct {
	open   Opener
	faults Faults
	files  []pulled
	shares []*node // values of shares:, the boat file's own first
	torn   bool    // what a file is like cannot be had: most of the boat is missing
}

// load returns a boat file's tree with what it is like merged in. chain holds
// the files that led here.
func (l *loader) load(name string, text []byte, chain []string) *node {
	root, faults := parse(name, text)
	l.faults = append(l.faults, faults...)
	if root == nil {
		return nil
	}
	if s := root.get("shares"); s != nil {
		l.shares = append(l.shares, s)
	}
	like := root.get("like")
	if like == nil {
		return l.withoutNone(root, "")
	}
	parent := l.loadLike(like, append(chain, name))
	if parent == nil {
		l.torn = true
		return root
	}
	return l.merge(parent, root, "")
}

// loadLike returns the tree of the file that a like: names, nil where it cannot
// be had.
func (l *loader) loadLike(like *node, chain []string) *node {
	if like.kind != scalar || like.text == "" {
		l.faults = append(l.faults, like.fault("like", like.kind.String()+" stands here, the name of a boat file is wanted", "write  like: sorrel.yaml"))
		return nil
	}
	name, ok := l.resolve(like, "like")
	if !ok {
		return nil
	}
	for i, before := range chain {
		if before == name {
			l.faults = append(l.faults, like.fault("like", "goes round in a circle: "+strings.Join(append(chain[i:], name), " is like "),
				"take like: out of one of these files"))
			return nil
		}
	}
	if len(chain) > deepestLike {
		l.faults = append(l.faults, like.fault("like", fmt.Sprintf("a chain of more than %d files: %s",
			deepestLike, strings.Join(append(chain, name), " is like ")), "let the variants be like the first boat"))
		return nil
	}
	text, ok := l.fetch(like, "like", name)
	if !ok {
		return nil
	}
	return l.load(name, text, chain)
}

// resolve returns the name of a file relative to the file that names it.
func (l *loader) resolve(n *node, at string) (string, bool) {
	name := strings.TrimSpace(n.text)
	if name == "" || path.IsAbs(name) || strings.ContainsAny(name, "\\:\x00") {
		l.faults = append(l.faults, n.fault(at, fmt.Sprintf("%q is not a file's name beside this file", name),
			"write it relative to this file with forward strokes, such as ../sorrel.yaml"))
		return "", false
	}
	return path.Join(path.Dir(n.place.File), name), true
}

// fetch returns a file's text, and remembers that it was read.
func (l *loader) fetch(n *node, at, name string) ([]byte, bool) {
	for _, f := range l.files {
		if f.name == name {
			return f.text, true
		}
	}
	if l.open == nil {
		l.faults = append(l.faults, n.fault(at, name+" cannot be read: no other files are at hand here", "write all of the boat into this file"))
		return nil, false
	}
	text, err := l.open(name)
	if err != nil {
		problem, hint := split(err)
		if hint == "" {
			hint = "names are relative to the file that they stand in"
		}
		l.faults = append(l.faults, n.fault(at, name+" cannot be read: "+strings.TrimPrefix(problem, name+": "), hint))
		return nil, false
	}
	l.files = append(l.files, pulled{name, text})
	return text, true
}

// merge returns parent with child's values over it: mappings key by key, lists
// and single values whole, and `none` removes.
func (l *loader) merge(parent, child *node, at string) *node {
	if parent.kind != mapping || child.kind != mapping {
		return l.withoutNone(child, at)
	}
	out := *child
	out.entries = append([]entry(nil), parent.entries...)
	for _, e := range child.entries {
		i := 0
		for i < len(out.entries) && out.entries[i].key != e.key {
			i++
		}
		switch {
		case i < len(out.entries) && e.value.isNone():
			out.entries = append(out.entries[:i], out.entries[i+1:]...)
		case i < len(out.entries):
			e.value = l.merge(out.entries[i].value, e.value, below(at, e.key))
			out.entries[i] = e
		default:
			if e.value = l.withoutNone(e.value, below(at, e.key)); e.value != nil {
				out.entries = append(out.entries, e)
			}
		}
	}
	return &out
}

func (n *node) isNone() bool { return n.kind == scalar && n.quoted == "" && n.text == none }

// withoutNone returns the tree without its nones, each of which is a fault:
// nothing is there to remove.
func (l *loader) withoutNone(n *node, at string) *node {
	if n.isNone() {
		l.faults = append(l.faults, n.fault(at, "none removes what is inherited, and nothing is", "leave the key out"))
		return nil
	}
	if n.kind == list {
		items := n.items[:0:0]
		for i, item := range n.items {
			if item = l.withoutNone(item, fmt.Sprintf("%s[%d]", at, i+1)); item != nil {
				items = append(items, item)
			}
		}
		out := *n
		out.items = items
		return &out
	}
	out := *n
	out.entries = out.entries[:0:0]
	for _, e := range n.entries {
		if e.value = l.withoutNone(e.value, below(at, e.key)); e.value != nil {
			out.entries = append(out.entries, e)
		}
	}
	return &out
}

// scope returns the shared unknowns of a merged tree and tells every node of it.
func (l *loader) scope(root *node) *scope {
	s := &scope{}
	if u := root.get("unknowns"); u != nil {
		s.readUnknowns(u, "unknowns", &l.faults)
	}
	for _, shares := range l.shares {
		files := []*node{shares}
		if shares.kind == list {
			files = shares.items
		}
		for _, f := range files {
			if f.kind != scalar {
				l.faults = append(l.faults, f.fault("shares", f.kind.String()+" stands here, the name of a file of unknowns is wanted", "write  shares: harrow-unknowns.yaml"))
				continue
			}
			l.readShared(s, f)
		}
	}
	root.walk(func(n *node) { n.scope = s })
	return s
}

// readShared reads a file of unknowns into a scope.
func (l *loader) readShared(s *scope, n *node) {
	partial := s.partial
	s.partial = true
	name, ok := l.resolve(n, "shares")
	if !ok {
		return
	}
	text, ok := l.fetch(n, "shares", name)
	if !ok {
		return
	}
	root, faults := parse(name, text)
	l.faults = append(l.faults, faults...)
	if root == nil {
		return
	}
	s.partial = partial || len(faults) > 0
	var form unknownsForm
	d := decoder{}
	d.read(&form, root)
	l.faults = append(l.faults, d.faults...)
	if u := root.get("unknowns"); u != nil {
		s.readUnknowns(u, "unknowns", &l.faults)
		return
	}
	l.faults = append(l.faults, root.fault("unknowns", "the file defines no unknowns", "write  unknowns:  and below it  name: {is: 1.00 ± 0.02, basis: …}"))
}
