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
// practice). A figure outside its range has a why.
type measured struct {
	what      string
	read      func(*sailedBoat) float64
	found     float64
	tolerance float64
	low, high float64
	why       string
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
}

func first(read func(*trim.Result) float64) func(*sailedBoat) float64 {
	return func(s *sailedBoat) float64 { return read(s.first) }
}

func last(read func(*trim.Result) float64) func(*sailedBoat) float64 {
	return func(s *sailedBoat) float64 { return read(s.last) }
}

func speed(r *trim.Result) float64   { return r.Speed.Knots() }
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
	for _, s := range architectures() {
		s.sail(t)
		for i := range s.rows {
			m := &s.rows[i]
			got := m.read(s)
			t.Logf("%s: %s %.4g", s.boat.Name, m.what, got)
			if !(math.Abs(got-m.found) <= m.tolerance) {
				t.Errorf("%s: %s is %.4g, was found to be %.4g (docs/architectures.md)", s.boat.Name, m.what, got, m.found)
			}
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
				if m.why == "" {
					t.Errorf("%s: %s is outside its range and nothing says why", s.file, m.what)
				}
				outside = append(outside, fmt.Sprintf("- *%s*: %s\n", m.what, m.why))
			} else if m.why != "" {
				t.Errorf("%s: %s is inside its range and yet explained", s.file, m.what)
			}
			fmt.Fprintf(&b, "| %s | %.4g | %g to %g | %s |\n", m.what, m.found, m.low, m.high, mark)
		}
		if len(outside) > 0 {
			b.WriteString("\n" + strings.Join(outside, ""))
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
