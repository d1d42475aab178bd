package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// mostPoints is the longest sweep that is written out.
const mostPoints = 1000

// ParseList reads the points of a sweep, in the order written:
//
//	8, 10, 12 kn
//	8 kn, 10 kn ± 1 kn
//	8 to 20 kn by 2     8, 10, … 20: ends at the last step that is not past 20
//
// An element of a list may have a spread; the points of a sweep are exact, and
// there are at most 1000 of them. The error is always an *Error.
func ParseList(text string, want Dimension) ([]Quantity, error) {
	p, err := read(text, want)
	if err != nil {
		return nil, err
	}
	list, err := p.list(want)
	if err != nil {
		return nil, err
	}
	return list, nil
}

func (p *phrase) list(want Dimension) ([]Quantity, *Error) {
	if p.find(by) >= 0 {
		if len(p.signs) != 2 || p.signs[0] != to || p.signs[1] != by {
			return nil, p.fault(p.terms[0].offset, fmt.Sprintf("%s is not a sweep", quoted(p.text)),
				"write A to B by C, such as 8 to 20 kn by 2")
		}
		return p.sweep(want)
	}
	var list []Quantity
	first := 0
	for i := 0; i <= len(p.signs); i++ {
		if i < len(p.signs) && p.signs[i] != comma {
			continue
		}
		part := &phrase{text: p.text, terms: p.terms[first : i+1], signs: p.signs[first:i]}
		if len(part.signs) == 1 && part.signs[0] == to {
			whole := fmt.Sprintf("%s to %s", quoted(part.terms[0].text), part.shown(1))
			return nil, p.fault(part.terms[0].offset, whole+" is a range, and single values are wanted",
				"write a step too, such as "+whole+" by 2")
		}
		q, err := part.quantity(want)
		if err != nil {
			return nil, err
		}
		list = append(list, q)
		first = i + 1
	}
	return list, nil
}

// sweep writes out A to B by C in the unit of A, so that the points are the
// numbers that a person would have written.
func (p *phrase) sweep(want Dimension) ([]Quantity, *Error) {
	if err := p.checkProducts(); err != nil {
		return nil, err
	}
	low, high, err := p.bounds(0, 1)
	if err != nil {
		return nil, err
	}
	base := p.terms[0].unit
	step := p.terms[2]
	stride := base.numberSpan(step.unit.siSpan(step.number))
	if !(stride > 0) {
		return nil, p.fault(step.offset, fmt.Sprintf("a step of %s leads nowhere", quoted(step.text)),
			"write a step above 0")
	}
	from := p.terms[0].number
	length := base.numberSpan(high - low)
	// A step that divides the sweep must reach its end in spite of rounding.
	count := math.Floor(length/stride+1e-9) + 1
	if !(count <= mostPoints) {
		return nil, p.fault(step.offset, fmt.Sprintf("a step of %s makes more than %d points", quoted(step.text), mostPoints),
			"write a longer step")
	}
	decimals := -1
	if step.unit.same(base) {
		decimals = max(decimalsOf(p.terms[0].figures), decimalsOf(step.figures))
	}
	list := make([]Quantity, int(count))
	for i := range list {
		number := tidy(from+float64(i)*stride, decimals)
		value := base.si(number)
		if wrong := reckonable(value, step.text); wrong != "" {
			value = 0 // a step of the sweep that misses nought by rounding
		}
		list[i] = Quantity{Likely: value, Dimension: want, Unit: p.terms[0].written}
	}
	return list, nil
}

// decimalsOf counts the digits behind the point, or returns -1 for a number with
// an exponent.
func decimalsOf(figures string) int {
	if strings.ContainsAny(figures, "eE") {
		return -1
	}
	_, behind, _ := strings.Cut(figures, ".")
	return len(behind)
}

// tidy rounds off what a sum of binary fractions leaves behind: to the decimals
// given, or to twelve digits where they are not known.
func tidy(number float64, decimals int) float64 {
	text := strconv.FormatFloat(number, 'g', 12, 64)
	if decimals >= 0 {
		text = strconv.FormatFloat(number, 'f', decimals, 64)
	}
	rounded, err := strconv.ParseFloat(text, 64)
	if err != nil || rounded == 0 {
		return 0
	}
	return rounded
}
