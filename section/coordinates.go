package section

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
)

const (
	fewestPoints = 12
	mostPoints   = 4000
	mostBytes    = 1 << 20
)

// FromCoordinates reads a section from plain text of x y pairs, a pair a line,
// in chords, per cent or any other one unit. Lines before the first pair are
// taken as a title. Both usual orders are read: round the section from the
// trailing edge, either way; or each side from the leading edge aft, with or
// without a line of the two counts before them. A trailing-edge point that one
// side lacks is taken from the other. The outline is brought to unit chord and
// its trailing edge closed. What was mended is said in [Section.Mended].
func FromCoordinates(name string, r io.Reader) (Section, error) {
	lines, err := readPairs(name, r)
	if err != nil {
		return Section{}, err
	}
	outline, mended, err := ordered(lines)
	if err == nil {
		var s *shape
		if s, err = fromOutline(outline); err == nil {
			thickness, _ := s.thickness()
			sec, err := build(name, s, nominal{thickness, s.meanLine()})
			sec.Mended = strings.Join(append(mended, closed(outline)...), "; ")
			return sec, err
		}
	}
	return Section{}, fmt.Errorf("section %q: %w", name, err)
}

func readPairs(name string, r io.Reader) ([]Point, error) {
	scan := bufio.NewScanner(io.LimitReader(r, mostBytes+1))
	var points []Point
	read := 0
	for line := 1; scan.Scan(); line++ {
		text := strings.TrimSpace(strings.TrimPrefix(scan.Text(), "\ufeff"))
		read += len(scan.Text()) + 1
		if read > mostBytes {
			return nil, fmt.Errorf("section %q: more than %d bytes of coordinates", name, mostBytes)
		}
		if text == "" || strings.HasPrefix(text, "#") {
			continue
		}
		fields := strings.FieldsFunc(text, func(c rune) bool { return c == ' ' || c == '\t' || c == ',' || c == ';' })
		p, err := pair(fields)
		if err != nil {
			if len(points) == 0 {
				continue // a title
			}
			return nil, fmt.Errorf("section %q: line %d: %q is not an x y pair: %w\nhint: write two numbers a line, as 0.25 0.0594", name, line, text, err)
		}
		if points = append(points, p); len(points) > mostPoints {
			return nil, fmt.Errorf("section %q: more than %d points", name, mostPoints)
		}
	}
	if err := scan.Err(); err != nil {
		return nil, fmt.Errorf("section %q: %w", name, err)
	}
	return points, nil
}

func pair(fields []string) (Point, error) {
	if len(fields) != 2 {
		return Point{}, fmt.Errorf("it has %d fields", len(fields))
	}
	x, errX := strconv.ParseFloat(fields[0], 64)
	y, errY := strconv.ParseFloat(fields[1], 64)
	if errX != nil || errY != nil || !finite(x) || !finite(y) || math.Abs(x) > 1e6 || math.Abs(y) > 1e6 {
		return Point{}, errors.New("a field is not a usable number")
	}
	return Point{x, y}, nil
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// ordered brings points, in either usual order, to run from the trailing edge
// over the upper side to the leading edge and back along the lower side, and says
// what it mended.
func ordered(points []Point) (outline []Point, mended []string, err error) {
	if len(points) > 0 && counts(points[0]) {
		points = points[1:]
	}
	if len(points) < fewestPoints {
		return nil, nil, fmt.Errorf("%d points, needed are at least %d\nhint: give both sides, a pair of x and y a line", len(points), fewestPoints)
	}
	if first := secondSide(points); first > 0 {
		one, other := points[:first], points[first:]
		if len(one) < fewestPoints/3 || len(other) < fewestPoints/3 {
			return nil, nil, fmt.Errorf("one side has only %d points", min(len(one), len(other)))
		}
		round := slices.Clone(one)
		slices.Reverse(round)
		points = append(round, other...)
	}
	all := len(points)
	if points = apart(points); len(points) < fewestPoints {
		return nil, nil, fmt.Errorf("only %d points differ, needed are at least %d", len(points), fewestPoints)
	}
	if twice := all - len(points); twice > 1 { // the leading edge stands in both sides
		mended = append(mended, fmt.Sprintf("%d points that stood twice were dropped", twice))
	}
	whole := len(points)
	if points = edged(points); len(points) > whole {
		mended = append(mended, "the trailing-edge point that one side lacks was taken from the other")
	}
	if area(points) < 0 {
		slices.Reverse(points)
		mended = append(mended, "the order was turned round: the lower side came first")
	}
	return points, mended, nil
}

// closed says by how much an outline's trailing edge was open, where that is more
// than a hair.
func closed(outline []Point) []string {
	lo, hi := span(outline)
	a, b := outline[0], outline[len(outline)-1]
	gap := math.Hypot(a.X-b.X, a.Y-b.Y) / (hi - lo)
	if gap < 1e-4 {
		return nil
	}
	return []string{fmt.Sprintf("the trailing edge was closed, which was open by %.2g %% of the chord", 100*gap)}
}

// counts tells whether a first pair is the two sides' numbers of points.
func counts(p Point) bool {
	return p.X == math.Trunc(p.X) && p.Y == math.Trunc(p.Y) && p.X >= 2 && p.Y >= 2
}

// secondSide returns where a second side starts again at the leading edge, or 0
// for points that run round the section: the sides are apart where x, having
// risen from the first point, falls in one step by half the chord.
func secondSide(points []Point) int {
	lo, hi := span(points)
	for i := 1; i < len(points); i++ {
		if points[i-1].X-points[i].X > 0.5*(hi-lo) {
			return i
		}
	}
	return 0
}

func span(points []Point) (lo, hi float64) {
	lo, hi = points[0].X, points[0].X
	for _, p := range points {
		lo, hi = min(lo, p.X), max(hi, p.X)
	}
	return lo, hi
}

// apart drops points that stand on the one before them.
func apart(points []Point) []Point {
	lo, hi := span(points)
	return slices.CompactFunc(points, func(a, b Point) bool {
		return math.Hypot(a.X-b.X, a.Y-b.Y) <= 1e-7*(hi-lo)
	})
}

// edged gives the end that stops short of the trailing edge the other one's
// last point: short is an end that is further forward than it is above or below,
// as that of a blunt edge is not.
func edged(points []Point) []Point {
	lo, hi := span(points)
	a, b := points[0], points[len(points)-1]
	dx, dy := a.X-b.X, math.Abs(a.Y-b.Y)
	switch least := 1e-6 * (hi - lo); {
	case dx > max(dy, least):
		return append(points, a)
	case -dx > max(dy, least):
		return append([]Point{b}, points...)
	}
	return points
}

// area returns twice the signed area, positive where the upper side comes first.
func area(points []Point) float64 {
	sum := 0.0
	for i, p := range points {
		q := points[(i+1)%len(points)]
		sum += p.X*q.Y - q.X*p.Y
	}
	return sum
}

// normalised moves points aft and scales them so that their foremost is at x = 0
// and the middle of the trailing edge at x = 1. It neither turns them nor moves
// them up or down, unless they are far off the x axis.
func normalised(points []Point) ([]Point, error) {
	foremost := 0
	for i, p := range points {
		if p.X < points[foremost].X {
			foremost = i
		}
	}
	if side := min(foremost, len(points)-1-foremost); side < fewestPoints/3 {
		return nil, fmt.Errorf("one side has only %d points besides the leading edge, needed are at least %d\nhint: give both sides", side, fewestPoints/3)
	}
	nose := points[foremost]
	a, b := points[0], points[len(points)-1]
	chord := (a.X+b.X)/2 - nose.X
	if !(chord > 0) {
		return nil, errors.New("the trailing edge is not aft of the leading edge\nhint: x runs aft, and the points start and end at the trailing edge")
	}
	if gap := math.Hypot(a.X-b.X, a.Y-b.Y); gap > 0.05*chord {
		return nil, fmt.Errorf("the outline is open by %.1f %% of the chord at the trailing edge, allowed is 5 %%", 100*gap/chord)
	}
	lift := 0.0
	if math.Abs(nose.Y) > 0.02*chord {
		lift = nose.Y
	}
	out := make([]Point, len(points))
	for i, p := range points {
		out[i] = Point{(p.X - nose.X) / chord, (p.Y - lift) / chord}
	}
	return out, nil
}
