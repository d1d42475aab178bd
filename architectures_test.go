package foilwright_test

import (
	"context"
	"flag"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/polar"
	"foilwright/si"
	"foilwright/trim"
)

// writeArchitectures renews the tables of docs/architectures.md from the figures
// below:
//
//	go test -run TestArchitecturesAsTold -write-architectures .
var writeArchitectures = flag.Bool("write-architectures", false, "renew the tables of docs/architectures.md")

// measured is one figure of one boat against the range of the trade (common
// practice). A figure outside its range has a why, and what it becomes where the
// input that puts it there is another.
type measured struct {
	what      string
	read      func(*sailedBoat) float64
	found     float64
	tolerance float64
	low, high float64
	why       string
	whatIfs   []whatIf
}

// whatIf is a figure of a boat whose file reads otherwise, or who is sailed otherwise.
type whatIf struct {
	change    string   // as the page says it: "with … "
	edits     []string // of the file: what it says and what it is to say, in turn
	sailing   trim.Request
	says      string // of the figure, with a verb for it
	read      func(*trim.Result) float64
	found     float64
	tolerance float64
}

// figure reads the what-if's figure off the boat as it has her, whom the what-ifs of one
// page sail once.
func (w *whatIf) figure(t *testing.T, file string, sailed map[string]*trim.Result) float64 {
	t.Helper()
	key := w.key(file)
	if sailed[key] == nil {
		sailed[key] = w.sail(t, file)
	}
	return w.read(sailed[key])
}

func (w *whatIf) key(file string) string {
	return fmt.Sprint(file, w.edits, w.sailing.Aim, w.sailing.WindAngle, w.sailing.WindSpeed)
}

func (w *whatIf) sail(t *testing.T, file string) *trim.Result {
	t.Helper()
	r := best(t, w.boat(t, file), w.sailing)
	if r.Answer != trim.Found {
		t.Fatalf("%s %s: no answer: %s", file, w.change, r.Reason.Words)
	}
	return r
}

// boat is the boat of a file as the what-if has her.
func (w *whatIf) boat(t *testing.T, file string) *boat.Boat {
	t.Helper()
	b, err := fetched(t, file, func(_ string, text []byte) []byte {
		for i := 0; i+1 < len(w.edits); i += 2 {
			if !strings.Contains(string(text), w.edits[i]) {
				t.Fatalf("%s has no %q", file, w.edits[i])
			}
			text = []byte(strings.ReplaceAll(string(text), w.edits[i], w.edits[i+1]))
		}
		return text
	})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func (w *whatIf) String() string {
	return strings.ToUpper(w.change[:1]) + w.change[1:] + " " + fmt.Sprintf(w.says, w.found) + "."
}

func (m *measured) usual() bool { return m.found >= m.low && m.found <= m.high }

// sailedBoat is one example with the answers that its figures are read off.
type sailedBoat struct {
	title, file string
	boat        *boat.Boat
	one, other  trim.Request // its two points of sailing
	first, last *trim.Result
	off         *polar.TakeOff // nil where it is not asked for
	rows        []measured
	redrawn     []whatIf // what the file first said, and the first row's figure with it
}

func first(read func(*trim.Result) float64) func(*sailedBoat) float64 {
	return func(s *sailedBoat) float64 { return read(s.first) }
}

func last(read func(*trim.Result) float64) func(*sailedBoat) float64 {
	return func(s *sailedBoat) float64 { return read(s.last) }
}

func speed(r *trim.Result) float64   { return r.Speed.Knots() }
func gain(r *trim.Result) float64    { return math.Abs(float64(r.VMG.Knots())) }
func wind(r *trim.Result) float64    { return r.TrueWindAngle.Degrees() }
func toLee(r *trim.Result) float64   { return r.Heel.Degrees() }
func toWind(r *trim.Result) float64  { return -r.Heel.Degrees() }
func slipped(r *trim.Result) float64 { return r.Leeway.Degrees() }

// lifted returns a foil's vertical force over the weight, %, of pieces called so.
func lifted(part, piece string) func(*trim.Result) float64 {
	return func(r *trim.Result) float64 {
		sum := 0.0
		for _, l := range r.Loads {
			if l.Part == part && strings.Contains(l.Piece, piece) && l.Item == boat.Potential.String() {
				sum += l.Force.Z
			}
		}
		return 100 * sum / r.Weight
	}
}

// sideForce is the wind's side force over the weight.
func sideForce(r *trim.Result) float64 {
	side := 0.0
	for _, l := range r.Loads {
		if medium(l.Item) == boat.Air {
			side += l.Force.Y
		}
	}
	return math.Abs(side) / r.Weight
}

func (s *sailedBoat) sail(t *testing.T) {
	t.Helper()
	s.boat = example(t, s.file)
	s.first, s.last = best(t, s.boat, s.one), best(t, s.boat, s.other)
	for _, r := range []*trim.Result{s.first, s.last} {
		if r.Answer != trim.Found {
			t.Fatalf("%s: no answer: %s", s.file, r.Reason.Words)
		}
		checkLaws(t, s.boat, r)
	}
	for i := range s.rows {
		if strings.HasPrefix(s.rows[i].what, "flies") || strings.HasPrefix(s.rows[i].what, "hull leaves") {
			off, err := polar.TakeOffOf(context.Background(), s.boat, trim.Request{Profile: fluid.OpenSea(), Water: fluid.StandardSea(), Air: fluid.StandardAir()}, nil)
			if err != nil {
				t.Fatal(err)
			}
			s.off = off
			return
		}
	}
}

// Every architecture sails, and its figures are what docs/architectures.md tells.
func TestArchitectures(t *testing.T) {
	if testing.Short() {
		t.Skip("sails and takes off with three boats: left out in short runs")
	}
	ifs := map[string]*trim.Result{}
	for _, s := range architectures() {
		s.sail(t)
		ifs[(&whatIf{sailing: s.one}).key(s.file)], ifs[(&whatIf{sailing: s.other}).key(s.file)] = s.first, s.last
		for i := range s.rows {
			m := &s.rows[i]
			got := m.read(s)
			t.Logf("%s: %s %.4g", s.boat.Name, m.what, got)
			if !(math.Abs(got-m.found) <= m.tolerance) {
				t.Errorf("%s: %s is %.4g, was found to be %.4g (docs/architectures.md)", s.boat.Name, m.what, got, m.found)
			}
			holdWhatIfs(t, s.file, m.what, m.whatIfs, ifs)
		}
		holdWhatIfs(t, s.file, "drawn again", s.redrawn, ifs)
	}
}

// explained is the page's line on a figure outside its range.
func (m *measured) explained() string {
	line := fmt.Sprintf("- *%s*: %s", m.what, m.why)
	for k := range m.whatIfs {
		line += " " + m.whatIfs[k].String()
	}
	return line + "\n"
}

func holdWhatIfs(t *testing.T, file, what string, all []whatIf, sailed map[string]*trim.Result) {
	t.Helper()
	for k := range all {
		w := &all[k]
		got := w.figure(t, file, sailed)
		t.Logf("%s: %s, %s %.4g", file, what, w.change, got)
		if !(math.Abs(got-w.found) <= w.tolerance) {
			t.Errorf("%s: %s, %s: %.4g, was found to be %.4g (docs/architectures.md)", file, what, w.change, got, w.found)
		}
	}
}

const (
	architecturesDoc = "docs/architectures.md"
	tablesBegin      = "<!-- tables -->\n"
	tablesEnd        = "<!-- end of tables -->\n"
)

// docs/architectures.md shows the figures and why some are outside.
func TestArchitecturesAsTold(t *testing.T) {
	var b strings.Builder
	for _, s := range architectures() {
		fmt.Fprintf(&b, "\n## %s\n\nBoat file [%s](../%s).\n\n| figure | found | usual | |\n|---|---|---|---|\n", s.title, s.file, s.file)
		var outside []string
		for i := range s.rows {
			m := &s.rows[i]
			mark := "inside"
			if !m.usual() {
				mark = "outside"
				if m.why == "" || len(m.whatIfs) == 0 {
					t.Errorf("%s: %s is outside its range and nothing says why, in words and measured", s.file, m.what)
				}
				outside = append(outside, m.explained())
			} else if m.why != "" {
				t.Errorf("%s: %s is inside its range and yet explained", s.file, m.what)
			}
			fmt.Fprintf(&b, "| %s | %.4g | %g to %g | %s |\n", m.what, m.found, m.low, m.high, mark)
		}
		if len(outside) > 0 {
			b.WriteString("\n" + strings.Join(outside, ""))
		}
		if len(s.redrawn) > 0 {
			fmt.Fprintf(&b, "\nDrawn again. With what her file first said put back, one at a time, %s is:\n\n", s.rows[0].what)
			for k := range s.redrawn {
				w := &s.redrawn[k]
				fmt.Fprintf(&b, "- "+w.says+" with %s.\n", w.found, w.change)
			}
		}
	}
	b.WriteString("\n")
	before, rest, _ := strings.Cut(readDoc(t, architecturesDoc), tablesBegin)
	shown, after, found := strings.Cut(rest, tablesEnd)
	if !found {
		t.Fatalf("%s has no place for the tables", architecturesDoc)
	}
	if *writeArchitectures {
		if err := os.WriteFile(architecturesDoc, []byte(before+tablesBegin+b.String()+tablesEnd+after), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if shown != b.String() {
		t.Errorf("%s shows other figures; renew it with -write-architectures", architecturesDoc)
	}
}

func sailing(knots float64, aim trim.Aim, degrees float64) trim.Request {
	r := request(knots)
	r.Aim, r.WindAngle = aim, si.Angle(degrees)*si.Degree
	return r
}

// flightWind is the least wind of the upper branch: that within her limits, or less
// where she stays up lower than they allow.
func flightWind(s *sailedBoat) float64 {
	if from, _, both := s.off.Hysteresis(); both && from < s.off.Flying.Wind {
		return from.Knots()
	}
	return s.off.Flying.Wind.Knots()
}

func humpWind(s *sailedBoat) float64  { return s.off.Hump.Wind.Knots() }
func liftSpeed(s *sailedBoat) float64 { return s.off.Lifts.Speed.Knots() }
