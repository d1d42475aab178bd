package quantity

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// longest is the longest text that is read, in characters.
const longest = 200

// A sign stands between two terms.
type sign int

const (
	plusMinus sign = iota
	slash
	comma
	to
	by
	within
)

var signText = [...]string{plusMinus: "±", slash: "/", comma: ",", to: "to", by: "by", within: "within"}

// A term is a number with the unit that was written after it, if any.
type term struct {
	text               string // as written, count and unit included
	figures            string // the number as written
	number             float64
	count              int    // 0 where none is written
	written            string // the unit as written, spaces taken out; empty where none is
	unit               unit   // set by resolve
	offset, unitOffset int
}

// total is the number of the term's unit that the term stands for.
func (t term) total() float64 {
	if t.count > 0 {
		return float64(t.count) * t.number
	}
	return t.number
}

// A phrase is a text cut into terms and the signs between them.
type phrase struct {
	text  string // the whole text
	lead  string // "at least " or "at most " where it was read before the terms
	terms []term
	signs []sign // one fewer than terms
}

func (p *phrase) fault(offset int, problem, hint string) *Error {
	return &Error{Text: p.text, Problem: problem, Hint: hint, Offset: min(offset, len(p.text))}
}

// withUnit writes the phrase again with a unit for every bare number: once at
// the end where all are bare bounds or points, otherwise at each of them.
func (p *phrase) withUnit(name string) string {
	each := p.find(plusMinus) >= 0 || p.find(by) >= 0
	for _, t := range p.terms {
		each = each || t.written != ""
	}
	var b strings.Builder
	b.WriteString(p.lead)
	for i, t := range p.terms {
		if i > 0 {
			if p.signs[i-1] != comma {
				b.WriteByte(' ')
			}
			b.WriteString(signText[p.signs[i-1]])
			b.WriteByte(' ')
		}
		text := quoted(t.text)
		if t.written == "" && (each || i == len(p.terms)-1) {
			text = join(text, name)
		}
		b.WriteString(text)
	}
	return b.String()
}

type scanner struct {
	text string
	at   int
}

func (s *scanner) fault(offset int, problem, hint string) *Error {
	return &Error{Text: s.text, Problem: problem, Hint: hint, Offset: min(offset, len(s.text))}
}

// scan cuts a text into terms and signs, beginning at an offset.
func scan(text string, at int) (*phrase, *Error) {
	s := &scanner{text, at}
	p := &phrase{text: text}
	for {
		t, err := s.term()
		if err != nil {
			return nil, err
		}
		p.terms = append(p.terms, t)
		s.skipSpace()
		if s.done() {
			return p, nil
		}
		next, width := s.signHere()
		if width == 0 {
			return nil, s.misplaced(t)
		}
		s.at += width
		p.signs = append(p.signs, next)
	}
}

// checkText refuses what is not worth cutting up.
func checkText(text string, want Dimension) *Error {
	fault := func(problem, hint string) *Error { return &Error{Text: text, Problem: problem, Hint: hint} }
	switch {
	case !want.known():
		return fault("the dimension wanted here is not one that is known", "")
	case !utf8.ValidString(text):
		return fault(quoted(text)+" is not UTF-8 text", "save the file as UTF-8")
	case utf8.RuneCountInString(text) > longest:
		return fault(fmt.Sprintf("a quantity of %d characters is too long, %d are allowed",
			utf8.RuneCountInString(text), longest), "")
	}
	return nil
}

func (s *scanner) done() bool { return s.at >= len(s.text) }

func (s *scanner) peek() (rune, int) { return utf8.DecodeRuneInString(s.text[s.at:]) }

func (s *scanner) skipSpace() {
	for !s.done() {
		r, width := s.peek()
		if !unicode.IsSpace(r) {
			return
		}
		s.at += width
	}
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

func isDash(r rune) bool { return strings.ContainsRune("-−–—‒", r) }

// startsNumber reports whether a number begins right here.
func startsNumber(text string) bool {
	for _, mark := range []string{"+", "-", "−"} {
		if rest, ok := strings.CutPrefix(text, mark); ok {
			text = rest
			break
		}
	}
	text = strings.TrimPrefix(text, ".")
	return text != "" && isDigit(text[0])
}

// signHere returns the sign at the scanner's place and its width in bytes, or a
// width of nought.
func (s *scanner) signHere() (sign, int) {
	rest := s.text[s.at:]
	for _, mark := range []string{"±", "+/-", "+/−", "+-", "+−"} {
		if strings.HasPrefix(rest, mark) {
			return plusMinus, len(mark)
		}
	}
	if strings.HasPrefix(rest, ",") {
		return comma, 1
	}
	if after, ok := strings.CutPrefix(rest, "/"); ok {
		// A slash before a letter belongs to a unit such as m/s.
		after = strings.TrimSpace(after)
		if after == "" || startsNumber(after) {
			return slash, 1
		}
		return 0, 0
	}
	for _, word := range []sign{to, by, within} {
		after, ok := strings.CutPrefix(rest, signText[word])
		if r, _ := utf8.DecodeRuneInString(after); ok && !unicode.IsLetter(r) {
			return word, len(signText[word])
		}
	}
	return 0, 0
}

// term reads a number, a count before it, and a unit after it.
func (s *scanner) term() (term, *Error) {
	s.skipSpace()
	t := term{offset: s.at}
	var err *Error
	if t.figures, t.number, err = s.number(); err != nil {
		return t, err
	}
	if times := s.timesHere(); times > 0 {
		count, bad := strconv.Atoi(t.figures)
		if bad != nil || count < 1 || count > 10000 {
			return t, s.fault(t.offset, fmt.Sprintf("%s is not a count, a whole number from 1 to 10000 is wanted before x",
				quoted(t.figures)), "write a count and a quantity, such as 6 x 88 kg")
		}
		t.count = count
		s.at += times
		s.skipSpace()
		if t.figures, t.number, err = s.number(); err != nil {
			return t, err
		}
	}
	end := s.at
	s.skipSpace()
	t.unitOffset = s.at
	if t.written = s.unitName(); t.written != "" {
		end = s.at
	} else {
		t.unitOffset = end
	}
	t.text = strings.TrimSpace(s.text[t.offset:end])
	return t, nil
}

// timesHere returns the width of a multiplication sign with a number behind it,
// spaces before the sign included.
func (s *scanner) timesHere() int {
	rest := strings.TrimLeftFunc(s.text[s.at:], unicode.IsSpace)
	for _, mark := range []string{"x", "×", "*"} {
		after, ok := strings.CutPrefix(rest, mark)
		if ok && startsNumber(strings.TrimSpace(after)) {
			return len(s.text) - s.at - len(after)
		}
	}
	return 0
}

// number reads a decimal number: sign, digits, point, exponent.
func (s *scanner) number() (string, float64, *Error) {
	if s.done() || !startsNumber(s.text[s.at:]) {
		return "", 0, s.notNumber()
	}
	start := s.at
	if r, width := s.peek(); strings.ContainsRune("+-−", r) {
		s.at += width
	}
	s.digits()
	if strings.HasPrefix(s.text[s.at:], ".") {
		s.at++
		s.digits()
	}
	mantissa := s.text[start:s.at]
	s.exponent()
	written := s.text[start:s.at]
	value, err := strconv.ParseFloat(strings.Replace(written, "−", "-", 1), 64)
	switch {
	case errors.Is(err, strconv.ErrRange):
		return "", 0, s.fault(start, tooLarge(written), "")
	case err != nil:
		return "", 0, s.fault(start, fmt.Sprintf("%s is not a number", quoted(written)), "")
	case value == 0 && strings.ContainsAny(mantissa, "123456789"):
		return "", 0, s.fault(start, tooSmall(written), "write 0 where nothing is meant")
	case value == 0:
		value = 0 // -0 is of no use to anybody
	}
	return written, value, nil
}

func (s *scanner) digits() {
	for !s.done() && isDigit(s.text[s.at]) {
		s.at++
	}
}

// exponent reads e-6 where a whole exponent stands, and nothing otherwise.
func (s *scanner) exponent() {
	start := s.at
	if s.done() || s.text[s.at] != 'e' && s.text[s.at] != 'E' {
		return
	}
	s.at++
	if !s.done() && (s.text[s.at] == '+' || s.text[s.at] == '-') {
		s.at++
	}
	first := s.at
	s.digits()
	if s.at == first {
		s.at = start
	}
}

// unitName reads the words that make up a unit: spaces beside a slash vanish
// and a space between words means a product.
func (s *scanner) unitName() string {
	var b strings.Builder
	gap := ""
	for {
		before := s.at
		s.skipSpace()
		if s.done() || s.unitEnds() {
			s.at = before
			return b.String()
		}
		if s.at > before && b.Len() > 0 && !strings.HasSuffix(b.String(), "/") {
			gap = "·"
		}
		if s.text[s.at] == '/' {
			gap = ""
			b.WriteByte('/')
			s.at++
			continue
		}
		b.WriteString(gap)
		gap = ""
		start := s.at
		for !s.done() {
			r, width := s.peek()
			if unicode.IsSpace(r) || strings.ContainsRune("/,±+×", r) || isDash(r) {
				break
			}
			s.at += width
		}
		if s.at == start {
			return b.String()
		}
		b.WriteString(s.text[start:s.at])
	}
}

// unitEnds reports whether a sign, a number or a dash stands here, none of which
// can begin a word of a unit.
func (s *scanner) unitEnds() bool {
	if _, width := s.signHere(); width > 0 {
		return true
	}
	r, _ := s.peek()
	return startsNumber(s.text[s.at:]) || isDash(r) || strings.ContainsRune("+×", r) || s.timesHere() > 0
}

// The values that can be reckoned with, in SI: wide enough for any quantity of
// the trade, narrow enough that no sum or product of a few of them overflows.
const (
	largest  = 1e30
	smallest = 1e-30
)

func tooLarge(written string) string {
	return quoted(written) + " is too large to reckon with, 1e30 in SI units is the limit"
}

func tooSmall(written string) string {
	return quoted(written) + " is too small to reckon with, 1e-30 in SI units is the limit"
}

// reckonable returns what is wrong with the size of a value, or nothing.
func reckonable(value float64, written string) string {
	size := math.Abs(value)
	switch {
	case !(size <= largest):
		return tooLarge(written)
	case size > 0 && size < smallest:
		return tooSmall(written)
	}
	return ""
}
