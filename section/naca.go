package section

import (
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// Parse returns the section that a text names:
//
//   - "naca 0012", "naca 2412": four digits (Jacobs, Ward, Pinkerton 1933,
//     NACA Report 460), the trailing edge closed (last coefficient −0.1036);
//   - "naca 23012", "naca 23112": five digits, plain and reflexed (Jacobs,
//     Pinkerton 1935, NACA Report 537);
//   - "naca 63-412", "naca 64-209", "naca 65-410 a=0.8", "naca 66-018": 6-series
//     on the mean line a = 1 unless another is named. Their thickness forms are
//     this package's own fit, within 0.0003 chords of the ordinates of the open
//     section data base for the 63-, 64- and 65-families from 9 to 15 % thick
//     (0.0005 at the tail of 63-412), and 0.0016 for 66-018 and 66-021;
//   - any of them followed by "at 11 %": scaled to that thickness about its mean line.
//
// The error of a text that names none says what would do.
func Parse(text string) (Section, error) {
	return ParseWith(text, func(string) (io.ReadCloser, error) { return nil, errNoFiles })
}

var errNoFiles = errors.New("no files of coordinates are at hand")

// ParseWith is [Parse] that asks open for a file of coordinates where a text
// names no NACA section; open is given the text without "at 11 %".
func ParseWith(text string, open func(name string) (io.ReadCloser, error)) (Section, error) {
	name, thickness, err := splitThickness(text)
	if err != nil {
		return Section{}, err
	}
	sec, err := naca(name)
	if errors.Is(err, errNotNACA) {
		sec, err = fromFile(name, open)
	}
	if err != nil || thickness == 0 {
		return sec, err
	}
	return sec.Scaled(thickness)
}

func fromFile(name string, open func(name string) (io.ReadCloser, error)) (sec Section, err error) {
	r, err := open(name)
	if err != nil {
		return Section{}, fmt.Errorf("section %q: neither a NACA section nor a file of coordinates: %w\nhint: write naca 0012, naca 2412, naca 23012, naca 63-412 or naca 65-410 a=0.8, each perhaps with at 11 %%, or name a file of x y pairs",
			name, err)
	}
	defer func() { err = errors.Join(err, r.Close()) }()
	return FromCoordinates(name, r)
}

var (
	atThickness = regexp.MustCompile(`^(.*\S)\s+at\s+(\S+?)\s*%$`)
	fourDigits  = regexp.MustCompile(`^([0-9])([0-9])([0-9]{2})$`)
	fiveDigits  = regexp.MustCompile(`^([1-6])([1-5])([01])([0-9]{2})$`)
	sixDigits   = regexp.MustCompile(`^6([3-6])(?:\([0-9]+\)|[_,]?[0-9])?-([0-9])([0-9]{2})(?:\s*,?\s*a\s*=\s*([0-9.]+))?$`)
	errNotNACA  = errors.New("not a NACA section")
)

// splitThickness takes "e817 at 11 %" apart; a text without a thickness has 0.
func splitThickness(text string) (name string, thickness float64, err error) {
	name = strings.Join(strings.Fields(text), " ")
	m := atThickness.FindStringSubmatch(name)
	if m == nil {
		return name, 0, nil
	}
	percent, err := strconv.ParseFloat(m[2], 64)
	if err != nil || !(percent > 0) {
		return "", 0, fmt.Errorf("section %q: thickness %q is not a number of per cent\nhint: write %s at 11 %%", name, m[2], m[1])
	}
	return m[1], percent / 100, nil
}

// naca returns the NACA section of a name, or errNotNACA.
func naca(name string) (Section, error) {
	rest, ok := strings.CutPrefix(strings.ToLower(name), "naca")
	if !ok {
		return Section{}, errNotNACA
	}
	code := strings.TrimSpace(rest)
	thick := func(digits string) float64 { return number(digits) / 100 }
	full := "naca " + code
	if m := fourDigits.FindStringSubmatch(code); m != nil {
		return fourDigit(full, number(m[1])/100, number(m[2])/10, thick(m[3]))
	}
	if m := fiveDigits.FindStringSubmatch(code); m != nil {
		return fiveDigit(full, 0.15*number(m[1]), int(number(m[2])), m[3] == "1", thick(m[4]))
	}
	if m := sixDigits.FindStringSubmatch(code); m != nil {
		a := 1.0
		if m[4] != "" {
			v, err := strconv.ParseFloat(m[4], 64)
			if err != nil || !(v >= 0 && v <= 1) {
				return Section{}, fmt.Errorf("section %q: mean line a=%s, allowed is a=0 to a=1", full, m[4])
			}
			a = v
		}
		return sixSeries(full, int(number(m[1])), number(m[2])/10, thick(m[3]), a)
	}
	return Section{}, fmt.Errorf("section %q: not a NACA section that is known here\nhint: known are four digits (naca 2412), five (naca 23012) and the 6-series 63- to 66- (naca 64-209); others as a file of coordinates", full)
}

// number reads digits that a pattern has already matched.
func number(digits string) float64 {
	v, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		panic("internal error: digits that are no number: " + digits)
	}
	return v
}

// Last coefficient of the four-digit thickness: the trailing edge closed, and
// as published, open by 0.21 % of the chord a side at 20 % thickness.
const (
	closedEdge = -0.1036
	openEdge   = -0.1015
)

// fourDigitThickness returns the half-thickness at x of a section of thickness
// t (Jacobs, Ward, Pinkerton 1933, p. 4), with the last coefficient as given.
func fourDigitThickness(x, t, last float64) float64 {
	return 5 * t * (0.2969*math.Sqrt(x) + x*(-0.1260+x*(-0.3516+x*(0.2843+x*last))))
}

// camber is a mean line: its ordinate and slope at x.
type camber func(x float64) (y, slope float64)

// around builds the shape of a half-thickness laid off square to a mean line.
func around(mean camber, half func(x float64) float64) (*shape, error) {
	const n = 240
	side := func(i int, up float64) Point {
		x := (1 - math.Cos(math.Pi*float64(i)/n)) / 2
		y, slope := mean(x)
		s, c := math.Sincos(math.Atan(slope))
		return Point{x - up*half(x)*s, y + up*half(x)*c}
	}
	var points []Point
	for i := n; i >= 0; i-- {
		points = append(points, side(i, 1))
	}
	for i := 1; i <= n; i++ {
		points = append(points, side(i, -1))
	}
	return fromOutline(points)
}

// thinAerofoil returns the integrals of a mean line's slope (Glauert 1926,
// ch. VII) by the midpoint rule between the angles where the slope breaks.
func thinAerofoil(mean camber, breaks ...float64) meanLine {
	const n = 4000
	var m meanLine
	from := 0.0
	for _, at := range append(breaks, 1) {
		to := stationAngle(at)
		step := (to - from) / n
		for i := range n {
			theta := from + (float64(i)+0.5)*step
			_, slope := mean((1 - math.Cos(theta)) / 2)
			c := math.Cos(theta)
			m.zeroLift -= slope * (c - 1) * step / math.Pi
			m.idealLift += 2 * slope * c * step
			m.moment += 0.5 * slope * (math.Cos(2*theta) - c) * step
		}
		from = to
	}
	return m
}

func fourDigit(name string, height, at, t float64) (Section, error) {
	half := func(x float64) float64 { return fourDigitThickness(x, t, closedEdge) }
	if height == 0 || at == 0 {
		if height != at {
			return Section{}, fmt.Errorf("section %q: the first two digits are camber and its place: both or neither are 0", name)
		}
		s, err := symmetric(half)
		if err != nil {
			return Section{}, fmt.Errorf("section %q: %w", name, err)
		}
		return build(name, s, nominal{thickness: t})
	}
	mean := func(x float64) (y, slope float64) {
		if x < at {
			return height / (at * at) * (2*at*x - x*x), 2 * height / (at * at) * (at - x)
		}
		b := (1 - at) * (1 - at)
		return height / b * (1 - 2*at + 2*at*x - x*x), 2 * height / b * (at - x)
	}
	return cambered(name, t, mean, half, thinAerofoil(mean, at))
}

func symmetric(half func(x float64) float64) (*shape, error) {
	return fromSides(func(theta float64) (upper, lower float64) {
		if theta == math.Pi {
			return 0, 0
		}
		y := half((1 - math.Cos(theta)) / 2)
		return y, -y
	})
}

func cambered(name string, t float64, mean camber, half func(x float64) float64, m meanLine) (Section, error) {
	s, err := around(mean, half)
	if err != nil {
		return Section{}, fmt.Errorf("section %q: %w", name, err)
	}
	return build(name, s, nominal{t, m})
}

// fiveDigitLine is a row of Jacobs, Pinkerton 1935, tables: the mean lines of
// design lift 0.3; the ratio is that of the reflexed ones.
type fiveDigitLine struct{ m, k1, ratio float64 }

func fiveDigitLines(reflexed bool) [6]fiveDigitLine {
	if reflexed {
		return [6]fiveDigitLine{2: {0.1300, 51.990, 0.000764}, 3: {0.2170, 15.793, 0.00677}, 4: {0.3180, 6.520, 0.0303}, 5: {0.4410, 3.191, 0.1355}}
	}
	return [6]fiveDigitLine{1: {0.0580, 361.4, 0}, 2: {0.1260, 51.64, 0}, 3: {0.2025, 15.957, 0}, 4: {0.2900, 6.643, 0}, 5: {0.3910, 3.230, 0}}
}

func fiveDigit(name string, designLift float64, place int, reflexed bool, t float64) (Section, error) {
	line := fiveDigitLines(reflexed)[place]
	if line.m == 0 {
		return Section{}, fmt.Errorf("section %q: there is no such reflexed mean line\nhint: the second digit is 2 to 5", name)
	}
	m, k, r := line.m, line.k1/6*designLift/0.3, line.ratio
	rear := (1 - m) * (1 - m) * (1 - m)
	mean := func(x float64) (y, slope float64) {
		d := x - m
		fore, foreSlope := 0.0, 0.0
		if x < m {
			fore, foreSlope = d*d*d, 3*d*d
		}
		if reflexed {
			if x >= m {
				fore, foreSlope = r*d*d*d, 3*r*d*d
			}
			return k * (fore - r*rear*x - m*m*m*x + m*m*m), k * (foreSlope - r*rear - m*m*m)
		}
		if x < m {
			return k * (x*x*x - 3*m*x*x + m*m*(3-m)*x), k * (3*x*x - 6*m*x + m*m*(3-m))
		}
		return k * m * m * m * (1 - x), -k * m * m * m
	}
	half := func(x float64) float64 { return fourDigitThickness(x, t, closedEdge) }
	return cambered(name, t, mean, half, thinAerofoil(mean, m))
}
