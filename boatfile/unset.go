package boatfile

import "strings"

// Unset returns a boat file's text without one value: what the file is like, or the
// format's default, then stands again. A part that would be left empty goes too.
// Comments stay, on lines of their own where theirs went. The error is [Faults], as of
// [Set]; a value that the file itself does not say is one.
func Unset(name string, text []byte, open Opener, path string) ([]byte, error) {
	e, err := newEdit(name, text, open, path)
	if err != nil {
		return nil, err
	}
	if fault := e.unset(); fault != nil {
		return nil, Faults{*fault}
	}
	changed, fault := e.made()
	if fault != nil {
		return nil, Faults{*fault}
	}
	if err := faultsOf(e.name, changed, open).except(faultsOf(e.name, text, open)).err(); err != nil {
		return nil, err
	}
	return changed, nil
}

// unset finds what to take out.
func (e *edit) unset() *Fault {
	if e.own.within(e.keys) == nil {
		return e.fault(e.own, "the file itself does not say this", "write a value, or  none  for what is taken over")
	}
	last := len(e.keys) - 1
	for last > 0 {
		if above := e.own.within(e.keys[:last]); above.kind != mapping || len(above.entries) > 1 {
			break
		}
		last--
	}
	keys := e.keys[:last+1]
	above := e.own.within(keys[:last])
	if above.kind != mapping || len(above.entries) < 2 {
		return e.misplaced(above)
	}
	i := 0
	for above.entries[i].key != keys[last] {
		i++
	}
	from, found := e.source.at(above.entries[i].place)
	_, until, spanned := e.source.span(above.entries[i].value)
	if !found || !spanned {
		return e.misplaced(above)
	}
	e.becomes = e.own.put(keys, nil)
	if e.source.flow(above) {
		return e.outOfFlow(above, i, from, until)
	}
	return e.outOfBlock(above, from, until)
}

// outOfFlow takes an entry out of braces, with the comma behind it or before it.
func (e *edit) outOfFlow(above *node, i, from, until int) *Fault {
	var ok bool
	if i+1 < len(above.entries) {
		until, ok = e.source.at(above.entries[i+1].place)
	} else {
		_, from, ok = e.source.span(above.entries[i-1].value)
	}
	if !ok || from > until || len(sourceOf(e.source.text[from:until]).comments()) > 0 {
		return e.misplaced(above)
	}
	e.from, e.until = from, until
	return nil
}

// outOfBlock takes an entry out that has lines of its own.
func (e *edit) outOfBlock(above *node, from, until int) *Fault {
	begins, ends := e.source.begins(from), e.source.lineEnd(until)
	if strings.TrimSpace(string(e.source.text[begins:from])) != "" {
		return e.misplaced(above)
	}
	var lines []string
	for _, c := range sourceOf(e.source.text[from:ends]).comments() {
		lines = append(lines, string(e.source.text[begins:from])+c)
	}
	e.from, e.until, e.with = begins, ends, strings.Join(lines, e.source.breaks())
	switch {
	case len(lines) > 0:
	case strings.HasPrefix(string(e.source.text[ends:]), "\r\n"):
		e.until += 2
	case ends < len(e.source.text):
		e.until++
	}
	return nil
}
