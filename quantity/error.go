package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Error is a text that could not be read as what was wanted. Every error of
// Parse, ParseRange, ParseList and Cut is an *Error.
type Error struct {
	Text    string // all of the text that was read
	Problem string // what is wrong, with the value, and what is allowed
	Hint    string // what would do instead; may be empty
	Offset  int    // where in Text the fault begins, bytes from its start
}

// Error returns the problem and, where there is one, a second line with the hint.
func (e *Error) Error() string {
	if e.Hint == "" {
		return e.Problem
	}
	return e.Problem + "\nhint: " + e.Hint
}

// quoted returns what the user wrote on one line, with no control characters.
func quoted(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	printable := utf8.ValidString(text)
	for _, r := range text {
		printable = printable && unicode.IsPrint(r)
	}
	if !printable {
		return strconv.QuoteToGraphic(text)
	}
	return text
}

// offered lists units in words: "deg, rad or mrad".
func offered(names []string, conjunction string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " " + conjunction + " " + names[last]
}

// unitsHint says which units would do for a dimension.
func unitsHint(d Dimension) string {
	switch d {
	case Number:
		return "write a number with no unit, such as 1.02"
	case Share:
		return "write a share such as 0.30 or 30 %"
	}
	return "units that would do: " + offered(d.Units(), "or")
}

// noUnit is the error for a bare number where a unit belongs.
func (p *phrase) noUnit(i int, want Dimension) *Error {
	t := p.terms[i]
	words := want.words()
	neighbour := ""
	for j, other := range p.terms {
		if other.written != "" && !p.relative(j) {
			neighbour = other.written
		}
	}
	e := p.fault(t.offset, quoted(t.text)+" has no unit", "")
	switch {
	case neighbour != "":
		e.Hint = "write " + p.withUnit(neighbour)
	case len(p.terms) > 1:
		e.Offset = p.terms[0].offset
		e.Problem = quoted(p.text) + " has no unit"
		if p.find(plusMinus) >= 0 && p.relative(1) {
			e.Problem = quoted(p.terms[0].text) + " has no unit"
		}
		e.Hint = "write " + p.withUnit(words.first)
	case t.count > 0 || p.lead != "":
		e.Hint = "write " + p.withUnit(words.first)
	default:
		e.Hint = "write " + inTwoUnits(t, want)
	}
	return e
}

// inTwoUnits writes a bare number with the dimension's usual unit, and the same
// value in its other one: "5.2 deg or 0.09 rad".
func inTwoUnits(t term, want Dimension) string {
	first, second := want.words().first, want.words().second
	// Nobody sails in water of 288 °C.
	if want == Temperature && t.number > 150 {
		first, second = second, first
	}
	text := join(quoted(t.text), first)
	from, _ := unitNamed(first)
	into, ok := unitNamed(second)
	other := into.number(from.si(t.number))
	if !ok || math.IsInf(other, 0) {
		return text
	}
	return text + " or " + join(sketched(other), second)
}

// twoReadings is the error for a bare share with a spread in per cent.
func (p *phrase) twoReadings(i int) *Error {
	mean, spread := p.terms[i-1], p.terms[i]
	e := p.fault(mean.offset, fmt.Sprintf("%s ± %s can be read in two ways", quoted(mean.text), quoted(spread.text)),
		fmt.Sprintf("write %s %% ± %s", quoted(mean.text), quoted(spread.text)))
	if share := mean.total(); math.Abs(share) <= 1 {
		part := numeral(math.Abs(share)*spread.total()/100, Significant(2))
		e.Hint = fmt.Sprintf("write %s ± %s for %s of it, or %s %% ± %s for points", quoted(mean.text),
			trimZeros(part), quoted(spread.text), numeral(share*100, Shortest), quoted(spread.text))
	}
	return e
}

// sketched rounds to two decimals, or to one significant digit where two
// decimals would leave nothing: enough to tell which unit is meant.
func sketched(value float64) string {
	if math.Abs(value) < 0.01 {
		return numeral(value, Significant(1))
	}
	return trimZeros(numeral(value, Decimals(2)))
}

// unknownUnit is the error for a unit that is not in the table.
func (p *phrase) unknownUnit(t term, want Dimension) *Error {
	name := quoted(t.written)
	e := p.fault(t.unitOffset, fmt.Sprintf("%s in %s is not a known unit", name, quoted(t.text)), "")
	if head, rest, split := strings.Cut(t.written, "·"); split {
		if _, ok := unitNamed(head); ok {
			rest = quoted(strings.ReplaceAll(rest, "·", " "))
			e.Problem = fmt.Sprintf("%s after %s is not understood", rest, join(quoted(t.figures), head))
			e.Hint = "write the quantity alone, such as " + want.Example()
			return e
		}
	}
	if t.written == "nm" {
		e.Hint = "write nmi for nautical miles or Nm for newton metres"
		return e
	}
	if sign, ok := spelledOut[strings.ToLower(t.written)]; ok {
		e.Hint = "write " + join(quoted(t.figures), sign)
		return e
	}
	if near := sameLetters(t.written, want); near != "" {
		e.Hint = "did you mean " + near + "?"
		return e
	}
	e.Hint = unitsHint(want)
	return e
}

// sameLetters finds units of the wanted dimension that differ from the name only
// in case, and after them what else it could be: "kN (force) or kn (speed)".
func sameLetters(name string, want Dimension) string {
	name = spelling.Replace(name)
	var near, far []string
	for _, u := range units {
		for _, candidate := range u.names {
			if candidate == "" || !strings.EqualFold(candidate, name) {
				continue
			}
			text := fmt.Sprintf("%s (%s)", candidate, u.dimension)
			if u.suits(want) {
				near = append(near, text)
			} else {
				far = append(far, text)
			}
		}
	}
	if len(near) == 0 {
		return ""
	}
	return offered(append(near, far...), "or")
}

// wrongUnit is the error for a unit of another dimension.
func (p *phrase) wrongUnit(t term, want Dimension) *Error {
	return p.fault(t.unitOffset,
		fmt.Sprintf("%s is %s, and %s is wanted", quoted(t.text), t.unit.dimension.withArticle(), want.withArticle()),
		unitsHint(want))
}

// misplaced is the error for something that stands where a word such as "to" or
// nothing at all belongs.
func (s *scanner) misplaced(previous term) *Error {
	rest := quoted(s.text[s.at:])
	e := s.fault(s.at, "", "")
	r, width := s.peek()
	after := strings.TrimSpace(s.text[s.at+width:])
	switch {
	case isDash(r) && startsNumber(after), strings.ContainsRune("-+−", r) && startsNumber(s.text[s.at:]):
		e.Problem = fmt.Sprintf("%s and %s have nothing between them that is understood",
			quoted(previous.text), rest)
		if r == '+' {
			e.Hint = "write " + quoted(previous.text) + " +/- " + quoted(after) + " for a spread"
		} else {
			e.Hint = "write " + quoted(previous.text) + " to " + quoted(after) + " for a range"
		}
	case startsNumber(s.text[s.at:]):
		e.Problem = fmt.Sprintf("%s and %s have nothing between them", quoted(previous.text), rest)
		if thousands(previous.figures, s.text[s.at:]) && previous.written == "" {
			e.Hint = "write " + quoted(previous.figures+s.text[s.at:]) + ": thousands are not set apart"
		} else {
			e.Hint = "write A to B for a range, A ± B for a spread, A / B / C for low, likely and high"
		}
	case r == 'x' || r == '×':
		e.Problem = fmt.Sprintf("%s after %s is not understood", rest, quoted(previous.text))
		e.Hint = "only a whole count may be multiplied, as in 6 x 88 kg"
	default:
		e.Problem = fmt.Sprintf("%s after %s is not understood", rest, quoted(previous.text))
		e.Hint = "write the quantity alone, such as 5.20 m ± 0.05 m"
	}
	return e
}

// thousands reports whether two runs of digits look like one number whose
// thousands are set apart: 1 180.
func thousands(head, tail string) bool {
	digits := 0
	for digits < len(tail) && isDigit(tail[digits]) {
		digits++
	}
	return digits == 3 && len(head) <= 3 && !strings.ContainsAny(head, ".eE+-")
}

// notNumber is the error for a text that has no number where one belongs.
func (s *scanner) notNumber() *Error {
	rest := quoted(s.text[s.at:])
	const example = "write a number and its unit, such as 5.20 m"
	lower := strings.ToLower(strings.TrimLeft(rest, "+-−"))
	switch {
	case rest == "" && s.at == 0 || strings.TrimSpace(s.text) == "":
		return s.fault(0, "no value is given", example)
	case rest == "":
		return s.fault(s.at, fmt.Sprintf("%s ends where a number is missing", quoted(s.text)), example)
	case strings.HasPrefix(lower, "nan"), strings.HasPrefix(lower, "inf"), strings.HasPrefix(rest, "∞"):
		return s.fault(s.at, fmt.Sprintf("%s is not a finite number", rest), example)
	}
	return s.fault(s.at, fmt.Sprintf("%s does not begin with a number", rest), example)
}
