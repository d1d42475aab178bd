package rule

import (
	"fmt"
	"strings"

	"foilwright/boatfile"
	"foilwright/quantity"
)

// Rule is a class rule: a file of limits. It never changes.
type Rule struct {
	file     string
	name     string
	invented bool
	limits   []limit
}

// File returns the name that the rule was read under, Name what it calls itself.
func (r *Rule) File() string { return r.file }

// Name returns what the rule calls itself.
func (r *Rule) Name() string { return r.name }

// Invented tells whether the file says that its figures are made up.
func (r *Rule) Invented() bool { return r.invented }

// limit is one limit of one measure; a box has one for each axis that it bounds.
type limit struct {
	called  string
	place   boatfile.Place // of its range
	ofPlace boatfile.Value // the part that it is about
	measure measure
	head    string // first key of the part: foils
	name    string // the rest, with stars: main
	axis    int    // of a box: 0 is x, 1 y, 2 z
	axes    string // its name
	bounds  quantity.Range
	at      []stated
	atWords string
}

// stated is a setting of one move at which something is measured.
type stated struct {
	move string
	rng  quantity.Range
	from boatfile.Value
}

// axisNames are a box's axes.
var axisNames = [3]string{"x", "y", "z"}

// mostLimits bounds the work on a file.
const mostLimits = 500

// mostRanged is how many moves of one limit may be ranges.
const mostRanged = 2

// Read reads a class rule called name:
//
//	foilwright: 1
//	rule: Sound 40
//	invented: true
//	limits:
//	  all up:  {measure: mass, of: boat, is: 2400 to 2600 kg}
//	  raised:  {measure: box, of: foils.main, at: {cant: 110 deg}, y: 0 to 5.3 m}
//
// The error is boatfile.Faults with everything that is wrong.
func Read(name string, text []byte) (*Rule, error) {
	root, err := boatfile.ReadValue(name, text)
	if err != nil {
		return nil, err
	}
	if root.Of("name").Given() && !root.Of("rule").Given() {
		return nil, boatfile.Faults{*root.Of("name").Fault("this is a boat's file, and a class rule is wanted", "a class rule begins with  foilwright: 1  and  rule: Sound 40")}
	}
	r := &Rule{file: name}
	faults := root.Unknown("foilwright", "rule", "invented", "basis", "limits")
	fault := func(v boatfile.Value, problem, hint string) {
		f := v.Fault(problem, hint)
		if f.File == "" {
			f.File = name
		}
		faults = append(faults, *f)
	}
	if v, ok := root.Of("foilwright").Text(); !ok || v != "1" {
		fault(root.Of("foilwright"), "the version of the format is not given, or not known", "write  foilwright: 1")
	}
	var ok bool
	if r.name, ok = root.Of("rule").Text(); !ok {
		fault(root.Of("rule"), "the rule's name is not given", "write  rule: Sound 40")
	}
	if v := root.Of("invented"); v.Given() {
		text, _ := v.Text()
		if text != "true" && text != "false" {
			fault(v, text+" is neither true nor false", "write true where the figures are made up")
		}
		r.invented = text == "true"
	}
	limits := root.Of("limits")
	if len(limits.Keys()) == 0 {
		fault(limits, "no limit is given", "write  limits: {all up: {measure: mass, of: boat, is: at least 2400 kg}}")
	}
	if n := len(limits.Keys()); n > mostLimits {
		fault(limits, fmt.Sprintf("there are %d limits, and %d are the most", n, mostLimits), "part the rule into files")
		return nil, faults.Err()
	}
	for _, key := range limits.Keys() {
		read, bad := readLimit(key, limits.Of(key))
		r.limits, faults = append(r.limits, read...), append(faults, bad...)
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	return r, nil
}

// readLimit reads one limit.
func readLimit(called string, v boatfile.Value) ([]limit, boatfile.Faults) {
	if len(v.Keys()) == 0 {
		return nil, boatfile.Faults{*v.Fault("a mapping is wanted here", "write  {measure: mass, of: boat, is: at least 2400 kg}")}
	}
	faults := v.Unknown("measure", "of", "at", "is", "x", "y", "z", "basis")
	fault := func(f *boatfile.Fault) { faults = append(faults, *f) }
	base := limit{called: called, ofPlace: v.Of("of")}
	text, _ := v.Of("measure").Text()
	found := false
	for _, m := range measures() {
		if m.name == text {
			base.measure, found = m, true
		}
	}
	if !found {
		at := v.Of("measure")
		problem := fmt.Sprintf("%q cannot be measured", text)
		if !at.Given() {
			at, problem = v, "what is measured is not given"
		}
		fault(at.Fault(problem, boatfile.Nearest(text, measureNames())))
		return nil, faults
	}
	if bad := base.readPart(v); bad != nil {
		fault(bad)
	}
	faults = append(faults, base.readSettings(v.Of("at"))...)
	if base.measure.name != "box" {
		for _, axis := range axisNames {
			if v.Of(axis).Given() {
				fault(v.Of(axis).Fault("only a box has sides", "write  is: at most …"))
			}
		}
		bounds, bad := ranged(v, "is", base.measure.dimension)
		if bad != nil {
			fault(bad)
		}
		base.bounds, base.place = bounds, v.Of("is").Place()
		return []limit{base}, faults
	}
	if v.Of("is").Given() {
		fault(v.Of("is").Fault("a box has a range for each side", "write  x: … , y: … , z: …"))
	}
	var all []limit
	for i, axis := range axisNames {
		if !v.Of(axis).Given() {
			continue
		}
		l := base
		bounds, bad := ranged(v, axis, quantity.Length)
		if bad != nil {
			fault(bad)
		}
		l.axis, l.axes, l.bounds, l.place = i, axis, bounds, v.Of(axis).Place()
		all = append(all, l)
	}
	if len(all) == 0 {
		fault(v.Fault("a box without sides", "write  x: … , y: 0 to 5.3 m, z: at least -3.6 m"))
	}
	return all, faults
}

// ranged reads the range of a limit.
func ranged(v boatfile.Value, key string, want quantity.Dimension) (quantity.Range, *boatfile.Fault) {
	if !v.Of(key).Given() {
		return quantity.Range{}, v.Fault("no limit is given", "write  "+key+": at most "+strings.Split(want.Example(), " ±")[0])
	}
	return v.Of(key).Range(want)
}

// readPart reads what a limit is about.
func (l *limit) readPart(v boatfile.Value) *boatfile.Fault {
	example := l.measure.of[0]
	if example != "boat" {
		example += ".main"
	}
	if !l.ofPlace.Given() {
		return v.Fault("what it is measured of is not given", "write  of: "+example)
	}
	text, ok := l.ofPlace.Text()
	if !ok {
		return l.ofPlace.Fault("the path of a part is wanted here", "write  of: "+example)
	}
	head, name, below := strings.Cut(text, ".")
	if !below {
		name = "*"
	}
	for _, allowed := range l.measure.of {
		if allowed == head && (head != "boat" || !below) {
			l.head, l.name = head, name
			return nil
		}
	}
	return l.ofPlace.Fault(fmt.Sprintf("%s has no %s", text, l.measure.name),
		l.measure.name+" is "+l.measure.words+": of "+strings.Join(l.measure.of, ", ")+", by name as "+example)
}

// readSettings reads at which settings a limit holds.
func (l *limit) readSettings(v boatfile.Value) boatfile.Faults {
	if !v.Given() {
		return nil
	}
	if l.head != "foils" || l.measure.name == "mass" || l.measure.name == "movable parts" {
		return boatfile.Faults{*v.Fault(l.measure.name+" does not depend on settings", "leave  at  out")}
	}
	var faults boatfile.Faults
	if len(v.Keys()) == 0 {
		faults = append(faults, *v.Fault("settings of moves are wanted here", "write  at: {cant: 20 deg}"))
	}
	var words []string
	open := 0
	for _, key := range v.Keys() {
		s := stated{move: key, from: v.Of(key)}
		want := quantity.Angle
		text, _ := s.from.Text()
		if strings.HasSuffix(text, "%") {
			want = quantity.Share
		}
		rng, bad := s.from.Range(want)
		switch {
		case bad != nil:
			faults = append(faults, *bad)
			continue
		case strings.HasPrefix(text, "at "):
			faults = append(faults, *s.from.Fault(text+" has one end only", "write one setting, or A to B"))
			continue
		case !rng.Pinned():
			open++
		}
		s.rng = rng
		l.at = append(l.at, s)
		words = append(words, key+" "+rng.String())
	}
	if open > mostRanged {
		faults = append(faults, *v.Fault(fmt.Sprintf("%d settings are ranges, and %d may be", open, mostRanged), "state one setting for some of them"))
	}
	l.atWords = strings.Join(words, ", ")
	return faults
}
