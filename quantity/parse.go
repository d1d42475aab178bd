package quantity

import (
	"fmt"
	"math"
	"strings"
)

// Parse reads a quantity of the wanted dimension; see the package comment for
// what may be written. A number or a share needs no unit.
//
// A spread in per cent is taken of the value, unless the value is itself in per
// cent: 30 % ± 2 % deviates by two points. A spread on a product must say whose
// it is, so 6 x 88 kg ± 4 kg is refused, and 6 x 88 kg ± 2 % is 2 % of the sum.
//
// Sign and size are the caller's to judge; Parse refuses what no quantity can
// be: no finite number, more than 1e30 or less than 1e-30 in SI, a temperature
// below absolute zero, a spread that is nought or negative, bounds out of order.
// The error is always an *Error.
func Parse(text string, want Dimension) (Quantity, error) {
	p, err := readOne(text, 0, "", want)
	if err != nil {
		return Quantity{}, err
	}
	q, err := p.quantity(want)
	if err != nil {
		return Quantity{}, err
	}
	return q, nil
}

// read cuts up a text that may be a list and gives every term its unit.
func read(text string, want Dimension) (*phrase, *Error) {
	if err := checkText(text, want); err != nil {
		return nil, err
	}
	p, err := scan(text, 0)
	if err != nil {
		return nil, err
	}
	return p, p.resolve(want)
}

// readOne does the same for a text in which a comma has no place. The terms
// begin at an offset, behind a lead such as "at least ".
func readOne(text string, at int, lead string, want Dimension) (*phrase, *Error) {
	if err := checkText(text, want); err != nil {
		return nil, err
	}
	p, err := scan(text, at)
	if err != nil {
		return nil, err
	}
	p.lead = lead
	if i := p.find(comma); i >= 0 {
		return nil, p.commaFault(i)
	}
	return p, p.resolve(want)
}

// find returns the index of the first such sign, or -1.
func (p *phrase) find(wanted sign) int {
	for i, s := range p.signs {
		if s == wanted {
			return i
		}
	}
	return -1
}

// relative reports whether term i is a spread in per cent of the term before it.
func (p *phrase) relative(i int) bool {
	return i > 0 && p.signs[i-1] == plusMinus && p.terms[i].written == "%" && p.terms[i-1].written != "%"
}

// resolve finds the unit of every term. A bare number takes the unit written
// next to its right; the step of a sweep takes that of the sweep.
func (p *phrase) resolve(want Dimension) *Error {
	anyWritten := false
	for i := range p.terms {
		t := &p.terms[i]
		if t.written == "" {
			continue
		}
		u, ok := unitNamed(t.written)
		if !ok {
			return p.unknownUnit(*t, want)
		}
		t.unit = u
		if p.relative(i) {
			if before := p.terms[i-1]; before.written == "" && want == Share {
				return p.twoReadings(i)
			}
			continue
		}
		anyWritten = true
		if !u.suits(want) {
			return p.wrongUnit(*t, want)
		}
	}
	var right *term
	for i := len(p.terms) - 1; i >= 0; i-- {
		t := &p.terms[i]
		switch {
		case p.relative(i):
		case t.written != "":
			right = t
		case i > 0 && p.signs[i-1] == by && p.terms[i-1].written != "" && right == nil:
			t.unit, t.written = p.terms[i-1].unit, p.terms[i-1].written
		case right != nil:
			t.unit, t.written = right.unit, right.written
		case anyWritten || !want.bare():
			return p.noUnit(i, want)
		default:
			t.unit = units[0]
		}
	}
	return nil
}

// closeComma reports whether digits touch comma i on both sides.
func (p *phrase) closeComma(i int) bool {
	end := p.terms[i].offset + len(p.terms[i].text)
	return p.terms[i+1].offset == end+1 && isDigit(p.text[end-1]) && isDigit(p.text[end+1])
}

// commaFault is the error for a comma where one value is wanted.
func (p *phrase) commaFault(i int) *Error {
	left, right := p.terms[i], p.terms[i+1]
	at := left.offset + len(left.text)
	if !p.closeComma(i) {
		return p.fault(at, fmt.Sprintf("%s is a list, and one value is wanted", quoted(p.text)),
			"give one of them")
	}
	written := p.text[at+1:]
	hint := "write " + quoted(p.text[:at]+"."+written)
	if thousands(left.figures, right.figures) {
		hint += " or " + quoted(p.text[:at]+written)
	}
	return p.fault(at, fmt.Sprintf("%s,%s has a comma, the decimal sign is a point",
		quoted(left.text), quoted(right.figures)), hint)
}

// quantity turns a phrase of one quantity into it.
func (p *phrase) quantity(want Dimension) (Quantity, *Error) {
	shape := make([]string, len(p.signs))
	for i, s := range p.signs {
		shape[i] = signText[s]
	}
	if len(p.signs) > 0 {
		if err := p.checkProducts(); err != nil {
			return Quantity{}, err
		}
	}
	switch strings.Join(shape, " ") {
	case "":
		return p.exact(want)
	case "±":
		return p.normal(want)
	case "± within to":
		return p.cutNormal(want)
	case "to":
		return p.uniform(want)
	case "/ /":
		return p.triangular(want)
	}
	e := p.fault(p.terms[0].offset, fmt.Sprintf("%s is not a shape of quantity that is known", quoted(p.text)),
		"write A, A ± B, A to B, or A / B / C for low, likely and high")
	if len(p.signs) == 1 && p.signs[0] == slash {
		e.Problem = fmt.Sprintf("%s has two values, low / likely / high has three", quoted(p.text))
		e.Hint = fmt.Sprintf("write %s to %s for a range", quoted(p.terms[0].text), quoted(p.terms[1].text))
	}
	return Quantity{}, e
}

// checkProducts refuses counts where it would be unclear what they count.
func (p *phrase) checkProducts() *Error {
	for i, t := range p.terms {
		if t.count == 0 || i == 0 && len(p.terms) == 2 && p.relative(1) {
			continue
		}
		e := p.fault(t.offset, fmt.Sprintf("%s has a spread or range that may belong to one or to all of them",
			quoted(p.text)), "write the sum and its own spread")
		if i == 0 && len(p.terms) == 2 && p.signs[0] == plusMinus {
			one, n, unit := p.terms[1].total(), float64(t.count), t.written
			e.Hint = fmt.Sprintf("write %s ± %s if each varies by itself, or ± %s if all vary together",
				join(numeral(t.total(), Shortest), unit), join(numeral(one*math.Sqrt(n), Significant(2)), unit),
				join(numeral(one*n, Significant(2)), unit))
		}
		return e
	}
	return nil
}

// value returns term i in SI, held to what a value of its dimension can be. The
// number first becomes one of the phrase's own unit, so that text made from the
// result in that unit reads back as the same bits.
func (p *phrase) value(i int) (float64, *Error) {
	t, base := p.terms[i], p.terms[0].unit
	total := t.total()
	if wrong := reckonable(t.unit.si(total), t.text); wrong != "" {
		return 0, p.fault(t.offset, wrong, "")
	}
	if t.count > 0 && t.unit.zero != 0 {
		return 0, p.fault(t.offset, fmt.Sprintf("%s multiplies a reading on a scale with its own zero", quoted(t.text)),
			"write the temperature alone, such as 15 °C")
	}
	if !t.unit.same(base) {
		total = base.number(t.unit.si(total))
	}
	value := base.si(total)
	if t.unit.dimension == Temperature && value < 0 {
		return 0, p.fault(t.offset, fmt.Sprintf("%s is below absolute zero", quoted(t.text)), "")
	}
	return value, nil
}

// span returns the spread in term 1 in SI.
func (p *phrase) span() (float64, *Error) {
	mean, t, base := p.terms[0], p.terms[1], p.terms[0].unit
	number := t.total()
	switch {
	case number < 0:
		return 0, p.fault(t.offset, fmt.Sprintf("a spread of %s is negative", quoted(t.text)),
			"write the size of one standard deviation")
	case number == 0:
		return 0, p.fault(t.offset, fmt.Sprintf("a spread of %s is none", quoted(t.text)),
			"write "+join(quoted(mean.text), missing(mean))+" where the value is exact")
	case p.relative(1):
		if base.zero != 0 {
			return 0, p.fault(t.offset, fmt.Sprintf("%s of %s has no meaning on a scale with its own zero",
				quoted(t.text), quoted(mean.text)), "write a spread in "+mean.written)
		}
		if mean.number == 0 {
			return 0, p.fault(t.offset, fmt.Sprintf("%s of %s is none", quoted(t.text), quoted(mean.text)),
				"write a spread with its unit")
		}
		number = math.Abs(mean.total()) * number / 100
	case !t.unit.same(base):
		number = base.numberSpan(t.unit.siSpan(number))
	}
	span := base.siSpan(number)
	if wrong := reckonable(span, t.text); wrong != "" {
		return 0, p.fault(t.offset, wrong, "")
	}
	return span, nil
}

// missing returns the unit that a term took from elsewhere, to be shown with it.
func missing(t term) string {
	if strings.HasSuffix(t.text, t.written) {
		return ""
	}
	return t.written
}

func (p *phrase) shown(i int) string { return join(quoted(p.terms[i].text), missing(p.terms[i])) }

func (p *phrase) exact(want Dimension) (Quantity, *Error) {
	value, err := p.value(0)
	return Quantity{Likely: value, Dimension: want, Unit: p.terms[0].written}, err
}

func (p *phrase) normal(want Dimension) (Quantity, *Error) {
	q, err := p.exact(want)
	if err != nil {
		return q, err
	}
	q.Spread = Normal
	q.Deviation, err = p.span()
	return q, err
}

func (p *phrase) cutNormal(want Dimension) (Quantity, *Error) {
	q, err := p.normal(want)
	if err != nil {
		return q, err
	}
	low, high, err := p.bounds(2, 3)
	if err != nil {
		return q, err
	}
	if q.Likely < low || q.Likely > high {
		return q, p.fault(p.terms[0].offset, fmt.Sprintf("%s lies outside %s to %s", p.shown(0), p.shown(2), p.shown(3)),
			"cut tails only, the value itself must stay inside")
	}
	q.Low, q.High = low, high
	return q, nil
}

func (p *phrase) uniform(want Dimension) (Quantity, *Error) {
	low, high, err := p.bounds(0, 1)
	return Quantity{
		Likely: low + (high-low)/2, Spread: Uniform, Low: low, High: high,
		Dimension: want, Unit: p.terms[0].written,
	}, err
}

func (p *phrase) triangular(want Dimension) (Quantity, *Error) {
	low, high, err := p.bounds(0, 2)
	if err != nil {
		return Quantity{}, err
	}
	likely, err := p.value(1)
	if err != nil {
		return Quantity{}, err
	}
	if likely < low || likely > high {
		order := fmt.Sprintf("%s / %s / %s", p.shown(0), p.shown(2), p.shown(1))
		if likely < low {
			order = fmt.Sprintf("%s / %s / %s", p.shown(1), p.shown(0), p.shown(2))
		}
		return Quantity{}, p.fault(p.terms[1].offset, fmt.Sprintf("the likely value %s lies outside %s to %s",
			p.shown(1), p.shown(0), p.shown(2)), "write low / likely / high, such as "+order)
	}
	return Quantity{
		Likely: likely, Spread: Triangular, Low: low, High: high,
		Dimension: want, Unit: p.terms[0].written,
	}, nil
}

// bounds returns two terms as bounds in order.
func (p *phrase) bounds(i, j int) (low, high float64, err *Error) {
	if low, err = p.value(i); err != nil {
		return 0, 0, err
	}
	if high, err = p.value(j); err != nil {
		return 0, 0, err
	}
	switch {
	case low > high:
		return 0, 0, p.fault(p.terms[i].offset, fmt.Sprintf("%s to %s runs backwards", p.shown(i), p.shown(j)),
			fmt.Sprintf("write %s to %s", p.shown(j), p.shown(i)))
	case low == high:
		return 0, 0, p.fault(p.terms[i].offset, fmt.Sprintf("%s to %s has a spread of none", p.shown(i), p.shown(j)),
			fmt.Sprintf("write %s where the value is exact", p.shown(i)))
	}
	return low, high, nil
}
