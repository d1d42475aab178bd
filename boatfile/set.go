package boatfile

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Set returns a boat file's text with one value changed in place: comments, order and
// all other bytes stay. The path is that of a [Figure] or a [Fault]
// ("foils.main.pieces.arm.chord.0 %", "weights.crew.at.y"); the value is as one writes
// it ("240 kg ± 5 kg"), on one line. What the boat takes over by like: is written into
// this file, of a list all of it since lists are replaced whole; a quantity keeps the
// factor that it is multiplied by, and its basis. The value "none" removes what is
// taken over.
//
// An uncertain figure that is written here is this file's own from then on, as
// everywhere in the format. The error is [Faults], at places in the text as it would
// read, where the value would not do or cannot be put there.
func Set(name string, text []byte, open Opener, path, value string) ([]byte, error) {
	e, err := newEdit(name, text, open, path)
	if err != nil {
		return nil, err
	}
	if err := e.value(value); err != nil {
		return nil, err
	}
	if fault := e.set(); fault != nil {
		return nil, Faults{*fault}
	}
	changed, fault := e.made()
	if fault != nil {
		return nil, Faults{*fault}
	}
	if err := e.sound(changed, open); err != nil {
		return nil, err
	}
	return changed, nil
}

// edit is a change to a file's text that is being worked out.
type edit struct {
	name   string
	path   string
	source *source
	own    *node // what the file itself says
	merged *node // with what it is like
	form   spot
	keys   []string

	to      *node  // the new value
	written string // its text

	from, until int    // bytes that are replaced
	with        string // by this
	becomes     *node  // what the file itself then says
}

func newEdit(name string, text []byte, open Opener, path string) (*edit, error) {
	own, faults := parse(name, text)
	if len(faults) > 0 {
		return nil, faults.err()
	}
	l := loader{open: open}
	merged := l.load(name, text, nil)
	if l.torn || merged == nil {
		return nil, l.faults.err()
	}
	e := &edit{name: name, path: path, source: sourceOf(text), own: own, merged: merged, form: formOf(merged), keys: merged.keysTo(path)}
	if len(e.keys) == 0 {
		return nil, Faults{*e.fault(own, "no path is given", "give the path of a value, such as sails.main.area")}
	}
	return e, nil
}

// value reads the new value.
func (e *edit) value(text string) error {
	text = strings.Join(strings.Fields(text), " ")
	if !strings.HasPrefix(text, "{") && !strings.HasPrefix(text, "[") {
		e.to, e.written = &node{kind: scalar, text: text}, quoted(text, "")
		if text == "" {
			return Faults{{File: e.name, Path: e.path, Problem: "no value is given", Hint: "write a value with its unit"}}
		}
		return nil
	}
	root, faults := parse(e.name, []byte("to: "+text))
	if to := root.get("to"); to != nil && len(faults) == 0 && len(root.entries) == 1 {
		e.to, e.written = to, text
		return nil
	}
	return Faults{{File: e.name, Path: e.path, Problem: fmt.Sprintf("%q cannot be read", text), Hint: "write a value with its unit"}}
}

func (e *edit) fault(at *node, problem, hint string) *Fault {
	f := at.fault(e.path, problem, hint)
	return &f
}

// misplaced is the fault where the text is laid out in a way that is not followed.
func (e *edit) misplaced(at *node) *Fault {
	return e.fault(at, "cannot be changed in place here", "change it in the text")
}

// set finds what to replace.
func (e *edit) set() *Fault {
	e.keys = e.long(e.keys)
	depth, at := 0, e.own
	for depth < len(e.keys) {
		next := at.child(e.keys[depth])
		if next == nil {
			return e.insert(at, depth)
		}
		at = next
		depth++
	}
	if at.kind != scalar && e.to.kind == scalar && !e.to.isNone() && at.kind != list {
		return e.fault(at, "a mapping stands here, and "+e.to.text+" is a single value", "give the path of one of its values")
	}
	return e.replace(at, e.keys, e.to, e.written)
}

// long leads a single value for a mapping to the key that it stands for.
func (e *edit) long(keys []string) []string {
	for e.to.kind == scalar && !e.to.isNone() {
		here := e.own.within(keys)
		if here == nil {
			here = e.merged.within(keys)
		}
		key := e.form.at(keys).short()
		if here == nil || here.kind != mapping || key == "" || here.get(key) == nil && key == "is" {
			break
		}
		keys = extended(keys, key)
	}
	return keys
}

// replace writes a value in the place of another.
func (e *edit) replace(at *node, keys []string, to *node, written string) *Fault {
	from, until, ok := e.source.span(at)
	if !ok || at.kind != scalar && !e.source.flow(at) || len(sourceOf(e.source.text[from:until]).comments()) > 0 && at.kind != scalar {
		return e.misplaced(at)
	}
	e.from, e.until, e.with, e.becomes = from, until, written, e.own.put(keys, to)
	return nil
}

// insert writes a value that the file itself does not say, into the part of it that
// is nearest: at has the first depth keys of the path.
func (e *edit) insert(at *node, depth int) *Fault {
	rest, to, written := e.keys[depth:], e.to, e.written
	// Lists are replaced whole: one that is taken over comes along.
	for i := depth; i < len(e.keys); i++ {
		whole := e.merged.within(e.keys[:i])
		if whole == nil || whole.kind != list {
			continue
		}
		if whole.within(e.keys[i:i+1]) == nil {
			return e.fault(whole, "there is no item "+e.keys[i], fmt.Sprintf("the list has %d items", len(whole.items)))
		}
		to = whole.put(e.keys[i:], e.to)
		rest, written = e.keys[depth:i], to.written()
		break
	}
	if len(rest) == 0 || strings.HasPrefix(rest[0], "[") {
		return e.misplaced(at)
	}
	here := e.keys[:depth]
	switch at.kind {
	case list:
		return e.misplaced(at)
	case scalar:
		all := &node{kind: mapping}
		if !at.isNone() {
			key := e.form.at(here).short()
			if key == "" {
				return e.fault(at, at.text+" stands here, and has no "+rest[0], "")
			}
			old := *at
			all.entries = []entry{{key: key, value: &old}}
		}
		all = all.put(rest, to)
		return e.replace(at, here, all, all.written())
	}
	e.becomes = e.own.put(e.keys[:depth+len(rest)], to)
	after := e.before(at, here, rest[0])
	if e.source.flow(at) {
		return e.intoFlow(at, after, quoted(rest[0], "")+": "+nested(rest[1:], written))
	}
	return e.intoBlock(at, after, rest, depth, to, written)
}

// nested writes keys in braces around a value.
func nested(keys []string, written string) string {
	for _, key := range slices.Backward(keys) {
		written = "{" + quoted(key, "") + ": " + written + "}"
	}
	return written
}

// before returns the entry of a mapping after which a new key goes, by the order of
// the format, of what it is like, or of rising figures; −1 for the front.
func (e *edit) before(at *node, here []string, key string) int {
	form, like := e.form.at(here), e.merged.within(here)
	last := -1
	for i := range at.entries {
		if precedes(form, like, at.entries[i].key, key) {
			last = i
		}
	}
	return last
}

// precedes tells whether one key of a mapping goes before another.
func precedes(form spot, like *node, a, b string) bool {
	if i, j := form.rank(a), form.rank(b); i >= 0 && j >= 0 {
		return i < j
	}
	x, errA := leadingNumber(a)
	y, errB := leadingNumber(b)
	if errA == nil && errB == nil {
		return x < y
	}
	if like != nil {
		i := slices.IndexFunc(like.entries, func(e entry) bool { return e.key == a })
		j := slices.IndexFunc(like.entries, func(e entry) bool { return e.key == b })
		return i < 0 || j < 0 || i < j
	}
	return true
}

func leadingNumber(text string) (float64, error) {
	return strconv.ParseFloat(strings.TrimRight(text, "% °abcdefghijklmnopqrstuvwxyz/²"), 64)
}

// intoFlow writes an entry into a mapping in braces.
func (e *edit) intoFlow(at *node, after int, written string) *Fault {
	from, _, ok := e.source.span(at)
	if !ok {
		return e.misplaced(at)
	}
	switch {
	case len(at.entries) == 0:
		e.from, e.with = from+1, written
	case after < 0:
		if e.from, ok = e.source.at(at.entries[0].place); !ok {
			return e.misplaced(at)
		}
		e.with = written + ", "
	default:
		if _, e.from, ok = e.source.span(at.entries[after].value); !ok {
			return e.misplaced(at)
		}
		e.with = ", " + written
	}
	e.until = e.from
	return nil
}

// intoBlock writes an entry into a mapping whose keys stand below each other.
func (e *edit) intoBlock(at *node, after int, rest []string, depth int, to *node, written string) *Fault {
	if len(at.entries) == 0 {
		return e.misplaced(at)
	}
	column := at.entries[0].place.Column - 1
	lines := blockLines(rest, depth, column, to, written)
	if after < 0 {
		from, ok := e.source.at(at.entries[0].place)
		if !ok {
			return e.misplaced(at)
		}
		lines = append(lines, strings.Repeat(" ", column))
		e.from, e.with = from, strings.TrimLeft(strings.Join(lines, e.source.breaks()), " ")
		e.until = e.from
		return nil
	}
	_, end, ok := e.source.span(at.entries[after].value)
	if !ok {
		return e.misplaced(at)
	}
	e.from = e.source.lineEnd(end)
	e.until = e.from
	e.with = e.source.breaks() + strings.Join(lines, e.source.breaks())
	return nil
}

// longestLine is how long a line may be before what stands on it is laid out below
// each other.
const longestLine = 110

// blockLines lays out keys below each other; the last goes into braces, where it is not
// a part by name.
func blockLines(rest []string, depth, column int, to *node, written string) []string {
	braces := 0 // keys in braces
	if n := len(rest); n > 1 && depth+n > 2 && to.kind == scalar {
		braces = 1
		if n > 2 && (rest[n-1] == "is" || rest[n-1] == "basis") && depth+n > 3 {
			braces = 2
		}
	}
	open := rest[:len(rest)-braces]
	var lines []string
	for i, key := range open {
		lines = append(lines, strings.Repeat(" ", column+2*i)+quoted(key, "")+":")
	}
	last := len(lines) - 1
	inline := lines[last] + " " + nested(rest[len(rest)-braces:], written)
	if to.kind != list || len(inline) <= longestLine {
		lines[last] = inline
		return lines
	}
	for _, item := range to.items {
		lines = append(lines, strings.Repeat(" ", column+2*last+2)+"- "+item.written())
	}
	return lines
}

// made returns the changed text, if it says what was wanted and the rest is the same.
func (e *edit) made() ([]byte, *Fault) {
	text := slices.Concat(e.source.text[:e.from], []byte(e.with), e.source.text[e.until:])
	says, faults := parse(e.name, text)
	if len(faults) > 0 || !says.equal(e.becomes) {
		return nil, e.misplaced(e.own)
	}
	return text, nil
}

// sound returns the faults that the changed text has and the text before had not. What
// a plain quantity does to the boat as a whole is left to whoever builds the boat: to
// read the quantity takes a tenth of the time.
func (e *edit) sound(changed []byte, open Opener) error {
	faultsOf := faultsOf
	if s := e.form.at(e.keys); (s.kind == aFigure || s.kind == byShare) && s.of != 0 {
		faultsOf = faultsOfForm
	}
	after := faultsOf(e.name, changed, open)
	if len(after) == 0 {
		return nil
	}
	return after.except(faultsOf(e.name, e.source.text, open)).err()
}

// except returns the faults that were not there before.
func (f Faults) except(before Faults) Faults {
	return slices.DeleteFunc(f, func(f Fault) bool {
		return slices.ContainsFunc(before, func(o Fault) bool { return o.File == f.File && o.Path == f.Path && o.Problem == f.Problem })
	})
}

// faultsOf returns what is wrong with a boat file.
func faultsOf(name string, text []byte, open Opener) Faults {
	_, err := Read(name, text, open)
	var faults Faults
	errors.As(err, &faults)
	return faults
}

// faultsOfForm returns what is wrong with the values of a boat file, each on its own.
func faultsOfForm(name string, text []byte, open Opener) Faults {
	l := loader{open: open}
	root := l.load(name, text, nil)
	if root == nil || l.torn {
		return l.faults
	}
	l.scope(root)
	d := decoder{}
	d.read(&boatForm{}, root)
	return append(l.faults, d.faults...)
}

// put is set, which also replaces items of lists.
func (n *node) put(keys []string, value *node) *node {
	if len(keys) == 0 {
		return value
	}
	if n == nil || n.kind == scalar {
		n = &node{kind: mapping}
	}
	if n.kind == mapping {
		return n.with(keys[0], n.get(keys[0]).put(keys[1:], value))
	}
	m := *n
	m.items = slices.Clone(n.items)
	for i := range m.items {
		if indexKey(i) == keys[0] {
			m.items[i] = m.items[i].put(keys[1:], value)
		}
	}
	return &m
}

// equal tells whether two values say the same, the order of keys aside.
func (n *node) equal(other *node) bool {
	if n == nil || other == nil || n.kind != other.kind || len(n.items) != len(other.items) || len(n.entries) != len(other.entries) {
		return n == other
	}
	for i := range n.items {
		if !n.items[i].equal(other.items[i]) {
			return false
		}
	}
	for i := range n.entries {
		if !n.entries[i].value.equal(other.get(n.entries[i].key)) {
			return false
		}
	}
	return n.kind != scalar || n.text == other.text && n.isNone() == other.isNone()
}
