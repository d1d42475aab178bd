package boatfile

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"
)

// What is refused before it is parsed: the parser's time grows with the square
// of the depth, and of the number of marks and of faults among them (a megabyte
// of quotation marks takes minutes). A boat needs a few dozen kilobytes.
const (
	largestFile = 1 << 20 // bytes
	deepest     = 32      // levels
	mostMarks   = 20_000  // line ends, commas, colons, brackets and the like; a boat has about a thousand
)

// guard returns the text to parse (without byte-order mark, with plain line
// ends), or the fault for which it is refused unparsed.
func guard(name string, text []byte) ([]byte, *Fault) {
	refuse := func(line, column int, problem, hint string) ([]byte, *Fault) {
		return nil, &Fault{File: name, Line: line, Column: column, Problem: problem, Hint: hint}
	}
	if len(text) > largestFile {
		return refuse(0, 0, fmt.Sprintf("the file has %.1f MB, 1 MB is allowed", float64(len(text))/largestFile),
			"a boat file is a page or two of text: is this the right file?")
	}
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	if bytes.HasPrefix(text, []byte("\xff\xfe")) || bytes.HasPrefix(text, []byte("\xfe\xff")) {
		return refuse(0, 0, "the file is UTF-16 text", "save it as UTF-8")
	}
	text = bytes.ReplaceAll(bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n")), []byte("\r"), []byte("\n"))
	line := 0
	for row := range bytes.Lines(text) {
		line++
		column := 0
		for i := 0; i < len(row); column++ {
			r, width := utf8.DecodeRune(row[i:])
			switch {
			case r == utf8.RuneError && width == 1:
				return refuse(line, column+1, "the file is not UTF-8 text here", "save it as UTF-8; a boat file is plain text")
			case r < ' ' && r != '\n' && r != '\t', r == 0x7f, r == '\u2028', r == '\u2029', r == '\u0085', r == '\ufeff':
				return refuse(line, column+1, fmt.Sprintf("a control character (%U) stands here", r), "a boat file is plain text")
			}
			i += width
		}
	}
	if n := marks(text); n > mostMarks {
		return refuse(0, 0, fmt.Sprintf("the file has %d line ends and marks, %d are allowed", n, mostMarks),
			"put tables into files of their own")
	}
	if line, column := tooDeep(string(text)); line > 0 {
		return refuse(line, column, fmt.Sprintf("nested deeper than %d levels", deepest),
			"a boat needs about ten: is a bracket left open?")
	}
	return text, nil
}

// marks counts what may end or begin a value.
func marks(text []byte) int {
	n := 0
	for _, c := range text {
		letter := c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9'
		if !letter && c != ' ' && c != '.' && c < utf8.RuneSelf {
			n++
		}
	}
	return n
}

// tooDeep returns the line and column at which a text may be nested too deep,
// or zeros. It counts brackets, whether quoted or not, and indentation: too
// strict for odd text, never too lax.
func tooDeep(text string) (line, column int) {
	brackets := 0
	var indents []int
	for row := range strings.Lines(text) {
		line++
		rest := strings.TrimLeft(row, " ")
		at := len(row) - len(rest)
		for strings.TrimSpace(rest) != "" && !strings.HasPrefix(rest, "#") {
			for len(indents) > 0 && indents[len(indents)-1] >= at {
				indents = indents[:len(indents)-1]
			}
			indents = append(indents, at)
			// Each "- ", "? " or ": " that leads a line opens a level of its own.
			if !strings.ContainsRune("-?:", rune(rest[0])) || len(rest) < 2 || !strings.ContainsRune(" \t", rune(rest[1])) {
				break
			}
			next := strings.TrimLeft(rest[1:], " \t")
			at += len(rest) - len(next)
			rest = next
			if len(indents) > deepest {
				return line, at
			}
		}
		for i, r := range row {
			switch r {
			case '[', '{':
				brackets++
			case ']', '}':
				brackets = max(0, brackets-1)
			}
			if brackets+len(indents) > deepest+1 {
				return line, utf8.RuneCountInString(row[:i]) + 1
			}
		}
	}
	return 0, 0
}
