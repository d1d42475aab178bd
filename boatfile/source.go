package boatfile

import (
	"bytes"
	"slices"
	"strings"
	"unicode/utf8"
)

// source is a file's text by lines, to find the bytes of what stands in it.
type source struct {
	text  []byte
	lines []int // where each begins
}

func sourceOf(text []byte) *source {
	s := &source{text: text, lines: []int{len(text) - len(bytes.TrimPrefix(text, []byte("\xef\xbb\xbf")))}}
	for i, c := range text {
		if c == '\n' || c == '\r' && (i+1 == len(text) || text[i+1] != '\n') {
			s.lines = append(s.lines, i+1)
		}
	}
	return s
}

// at returns the byte of a place; false where the text has none.
func (s *source) at(p Place) (int, bool) {
	if p.Line < 1 || p.Line > len(s.lines) {
		return 0, false
	}
	i := s.lines[p.Line-1]
	for range p.Column - 1 {
		if i >= len(s.text) || s.text[i] == '\n' || s.text[i] == '\r' {
			return 0, false
		}
		_, width := utf8.DecodeRune(s.text[i:])
		i += width
	}
	return i, i <= len(s.text)
}

// begins returns the byte where a line that holds a byte begins.
func (s *source) begins(at int) int {
	i, found := slices.BinarySearch(s.lines, at)
	if !found {
		i--
	}
	return s.lines[max(0, i)]
}

// lineEnd returns the byte behind the last of a line, before what ends it.
func (s *source) lineEnd(at int) int {
	if i := bytes.IndexAny(s.text[at:], "\r\n"); i >= 0 {
		return at + i
	}
	return len(s.text)
}

// breaks returns what ends the lines of the text.
func (s *source) breaks() string {
	if bytes.Contains(s.text, []byte("\r\n")) {
		return "\r\n"
	}
	return "\n"
}

// flow tells whether a mapping or a list stands in braces or brackets.
func (s *source) flow(n *node) bool {
	at, ok := s.at(n.place)
	return ok && at < len(s.text) && (n.kind == mapping && s.text[at] == '{' || n.kind == list && s.text[at] == '[')
}

// span returns the bytes of a value; false where they are not found for sure.
func (s *source) span(n *node) (from, to int, ok bool) {
	if from, ok = s.at(n.place); !ok || from >= len(s.text) {
		return 0, 0, false
	}
	if n.kind == scalar {
		to, ok = s.scalarEnd(n, from)
		return from, to, ok
	}
	inside := s.flow(n)
	to = from
	if inside {
		to++
	}
	for _, part := range n.parts() {
		if _, to, ok = s.span(part); !ok {
			return 0, 0, false
		}
	}
	if !inside {
		return from, to, to > from
	}
	to = s.skip(to)
	closing := byte('}')
	if n.kind == list {
		closing = ']'
	}
	if to >= len(s.text) || s.text[to] != closing {
		return 0, 0, false
	}
	return from, to + 1, true
}

// parts returns the values of a mapping or the items of a list.
func (n *node) parts() []*node {
	if n.kind == list {
		return n.items
	}
	out := make([]*node, len(n.entries))
	for i := range n.entries {
		out[i] = n.entries[i].value
	}
	return out
}

// skip passes over spaces, line ends, commas and comments.
func (s *source) skip(at int) int {
	for at < len(s.text) {
		switch s.text[at] {
		case ' ', '\t', '\n', '\r', ',':
			at++
		case '#':
			at = s.lineEnd(at)
		default:
			return at
		}
	}
	return at
}

// scalarEnd returns the byte behind a single value that begins at a byte. Plain text
// is found again letter by letter, whatever spaces are between.
func (s *source) scalarEnd(n *node, at int) (int, bool) {
	if n.quoted != "" {
		mark := n.quoted[0]
		if s.text[at] != mark {
			return 0, false
		}
		for i := at + 1; i < len(s.text); i++ {
			switch {
			case s.text[i] == '\\' && mark == '"':
				i++
			case s.text[i] == mark && mark == '\'' && i+1 < len(s.text) && s.text[i+1] == mark:
				i++
			case s.text[i] == mark:
				return i + 1, true
			}
		}
		return 0, false
	}
	for i, word := range strings.Fields(n.text) {
		if i > 0 {
			at += len(s.text[at:]) - len(bytes.TrimLeft(s.text[at:], " \t\r\n"))
		}
		if !bytes.HasPrefix(s.text[at:], []byte(word)) {
			return 0, false
		}
		at += len(word)
	}
	return at, n.text != ""
}

// comments returns the comments of a text that stand at the ends of lines or on
// lines of their own, outside of quotes, in order.
func (s *source) comments() []string {
	var all []string
	var mark byte
	for i := s.lines[0]; i < len(s.text); i++ {
		c := s.text[i]
		opens := i == s.lines[0] || strings.IndexByte(" \t\r\n{[,", s.text[i-1]) >= 0
		switch {
		case mark == '"' && c == '\\':
			i++
		case mark != 0:
			if c == mark {
				mark = 0
			}
		case (c == '"' || c == '\'') && opens:
			mark = c
		case c == '#' && opens:
			end := s.lineEnd(i)
			all = append(all, strings.TrimRight(string(s.text[i:end]), " \t"))
			i = end
		}
	}
	return all
}

// written returns a value on one line, with quotes where its texts need them.
func (n *node) written() string {
	var b strings.Builder
	switch n.kind {
	case scalar:
		return quoted(n.text, n.quoted)
	case mapping:
		for i, e := range n.entries {
			if i > 0 {
				b.WriteString(", ")
			}
			b.WriteString(quoted(e.key, "") + ": " + e.value.written())
		}
		return "{" + b.String() + "}"
	}
	for i, item := range n.items {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(item.written())
	}
	return "[" + b.String() + "]"
}

// quoted returns a text as YAML takes it within braces: plain where that is safe.
func quoted(text, mark string) string {
	first, _ := utf8.DecodeRuneInString(text)
	plain := mark == "" && text != "" && text == strings.Join(strings.Fields(text), " ") &&
		!strings.ContainsAny(text, "{}[],\"'\\|>`") && !strings.ContainsRune("#&*!%@", first) &&
		!strings.Contains(text, " #") && !strings.Contains(text, ": ") && !strings.HasSuffix(text, ":") &&
		!(strings.ContainsRune("-?:", first) && (len(text) == 1 || text[1] == ' ')) &&
		text != "null" && text != "~" && !strings.HasPrefix(text, "---") && !strings.HasPrefix(text, "<<")
	if plain {
		return text
	}
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(text) + `"`
}
