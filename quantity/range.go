package quantity

import (
	"fmt"
	"math"
	"strings"
)

// Range is a limit or the travel of a control, SI. Low and High are infinite
// where the range is open and equal where it is pinned to one value.
type Range struct {
	Low, High float64
	Dimension Dimension
	Unit      string // as the user wrote it
}

// Pinned reports whether the range is a single value.
func (r Range) Pinned() bool { return r.Low == r.High }

// Contains reports whether a value lies in the range, ends included.
func (r Range) Contains(value float64) bool { return r.Low <= value && value <= r.High }

// ParseRange reads a range of the wanted dimension:
//
//	12 to 32 deg
//	-1.35 m to 1.35 m
//	at least 0.15 m
//	at most 24 kN
//	110 deg          pinned
//
// A range has no spread; reversed bounds are an error, equal ones are pinned.
// The error is always an *Error.
func ParseRange(text string, want Dimension) (Range, error) {
	start := len(text) - len(strings.TrimLeft(text, " \t"))
	lead := ""
	for _, words := range []string{"at least ", "at most "} {
		if strings.HasPrefix(text[start:], words) {
			lead = words
			start += len(words)
		}
	}
	p, err := readOne(text, start, lead, want)
	if err != nil {
		return Range{}, rangeHint(err, text[start:])
	}
	r, err := p.limits(want)
	if err != nil {
		return Range{}, err
	}
	return r, nil
}

// rangeHint adds what would do instead of the signs that other trades use.
func rangeHint(e *Error, text string) *Error {
	for _, bound := range []struct{ marks, words string }{{"≥>", "at least"}, {"≤<", "at most"}} {
		if mark := strings.TrimLeft(text, bound.marks+"="); mark != text && strings.ContainsAny(text, bound.marks) {
			e.Hint = "write " + bound.words + " " + quoted(mark)
		}
	}
	return e
}

func (p *phrase) limits(want Dimension) (Range, *Error) {
	r := Range{Dimension: want, Unit: p.terms[0].written}
	var err *Error
	switch {
	case len(p.signs) == 0:
		if r.Low, err = p.value(0); err != nil {
			return Range{}, err
		}
		r.High = r.Low
		switch p.lead {
		case "at least ":
			r.High = math.Inf(1)
		case "at most ":
			r.Low = math.Inf(-1)
		}
		return r, nil
	case len(p.signs) == 1 && p.signs[0] == to && p.lead == "":
		if err := p.checkProducts(); err != nil {
			return Range{}, err
		}
		if r.Low, err = p.value(0); err != nil {
			return Range{}, err
		}
		if r.High, err = p.value(1); err != nil {
			return Range{}, err
		}
		if r.Low > r.High {
			_, _, err = p.bounds(0, 1)
			return Range{}, err
		}
		return r, nil
	}
	e := p.fault(p.terms[0].offset, fmt.Sprintf("%s is not a range", quoted(p.text)),
		"write A to B, at least A, at most B, or one value")
	if p.find(plusMinus) >= 0 {
		e.Problem = fmt.Sprintf("%s has a spread, and a range has none", quoted(p.text))
	}
	return Range{}, e
}

// String returns the range in its own unit; ParseRange reads it back as the same
// Range. A range open on both sides is "any", which stands in no file.
func (r Range) String() string {
	u, name := unitFor(r.Unit, r.Dimension)
	figures := func(v float64) string { return digitsFor(v, u.number(v), u.si) }
	switch {
	case math.IsInf(r.Low, -1) && math.IsInf(r.High, 1):
		return "any"
	case math.IsInf(r.High, 1):
		return "at least " + join(figures(r.Low), name)
	case math.IsInf(r.Low, -1):
		return "at most " + join(figures(r.High), name)
	case r.Pinned():
		return join(figures(r.Low), name)
	}
	return figures(r.Low) + " to " + join(figures(r.High), name)
}
