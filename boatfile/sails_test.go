package boatfile

import (
	"strings"
	"testing"

	"foilwright/boat"
	"foilwright/si"
)

// rigged reads the example with texts replaced and returns the likely boat.
func rigged(t *testing.T, replace ...string) *boat.Boat {
	t.Helper()
	text, err := open(folder + "sorrel.yaml")
	if err != nil {
		t.Fatal(err)
	}
	old := strings.NewReplacer(replace...).Replace(string(text))
	if old == string(text) {
		t.Fatalf("nothing to replace: %v", replace)
	}
	s, err := Read(folder+"sorrel.yaml", []byte(old), open)
	if err != nil {
		t.Fatal(err)
	}
	return likely(t, s, nil)
}

const jibTable = "coefficients: jib}"

// A sail's own table goes by the apparent wind angle or by incidence; its figures
// may be uncertain.
func TestOwnTables(t *testing.T) {
	for _, c := range []struct {
		against string
		want    boat.Abscissa
		says    string
	}{
		{"", boat.WindAngle, "own table by apparent wind angle, 3 lines, 0 to 60 deg"},
		{"against: apparent wind angle, ", boat.WindAngle, "own table by apparent wind angle, 3 lines, 0 to 60 deg"},
		{"against: incidence, ", boat.Incidence, "own table by incidence, 3 lines, 0 to 60 deg"},
	} {
		b := rigged(t, jibTable, "coefficients: {"+c.against+"0 deg: {lift: 1.3, drag: 0.02}, 12 deg: {lift: 1.4 ± 0.1, drag: 0.04 / 0.05 / 0.06}, 60 deg: {lift: 0.8, drag: 0.9}, basis: wind tunnel}}")
		got := b.Sails[1].Coefficients
		if got.Against != c.want || got.String() != c.says || len(got.Angle) != 3 {
			t.Fatalf("%q makes %+v, which says %q", c.against, got, got.String())
		}
		near(t, "angle", got.Angle[1], 12*float64(si.Degree), 1e-12)
		near(t, "lift", got.Lift[1], 1.4, 1e-12)
		near(t, "drag", got.Drag[1], 0.05, 1e-12)
	}
	b := rigged(t, jibTable, "coefficients: {0 deg: {lift: 1.5, drag: 0.03}}}")
	if got := b.Sails[1].Coefficients.String(); got != "own table by apparent wind angle, 1 line, 0 to 0 deg" {
		t.Errorf("one line says %q", got)
	}
}

// Faults of tables stand at their lines.
func TestFaultsOfOwnTables(t *testing.T) {
	for _, c := range []struct{ table, want string }{
		{"{}", "sails.jib.coefficients: the table has no line\nhint: write one a line, angles rising:"},
		{"{against: heel, 27 deg: {lift: 1, drag: 0.1}}", "sails.jib.coefficients.against: \"heel\" is no angle that coefficients go by\nhint: write apparent wind angle or incidence"},
		{"{27 deg: {lift: 1, drag: 0.1}, 20 deg: {lift: 1, drag: 0.1}}", "sails.jib.coefficients.20 deg: stands after an angle that is not below it\nhint: give the angles rising, each once"},
		{"{27: {lift: 1, drag: 0.1}}", "sails.jib.coefficients.27: 27 has no unit\nhint: write 27 deg or "},
		{"{190 deg: {lift: 1, drag: 0.1}}", "sails.jib.coefficients.190 deg: 190 deg lies outside 0 to 180 deg\nhint: angles are told without a side"},
		{"{against: incidence, 95 deg: {lift: 1, drag: 0.1}}", "sails.jib.coefficients.95 deg: 95 deg lies outside 0 to 90 deg"},
		{"{27 ± 2 deg: {lift: 1, drag: 0.1}}", "has a spread, and an angle here has none"},
		{"{27 deg: {lift: -1, drag: 0.1}}", "sails.jib.coefficients.27 deg.lift: -1 is no lift coefficient, 0 or more is wanted"},
		{"{27 deg: {lift: 15, drag: 0.1}}", "sails.jib.coefficients.27 deg.lift: 15 is too much for a lift coefficient\nhint: coefficients are on the sail's own area, below 10"},
		{"{27 deg: {lift: 1}}", "sails.jib.coefficients.27 deg: drag is missing\nhint: write  drag: 0.03"},
		{"{27 deg: {lift: 1, drag: 0.1, moment: 1}}", "sails.jib.coefficients.27 deg.moment: no such key here"},
		{"{apparent: incidence, 27 deg: {lift: 1, drag: 0.1}}", "sails.jib.coefficients.apparent"},
	} {
		if got := sorrel(t, jibTable, "coefficients: "+c.table+"}"); !strings.Contains(got, c.want) {
			t.Errorf("%s:\n%s\nwant\n%s", c.table, got, c.want)
		}
	}
}

// Flatten is a control where the file opens it: free, fixed, set with another
// sail's, under a law, narrowed by a mode.
func TestFlattenIsAControl(t *testing.T) {
	b := rigged(t, "length: 12.0 m", "length: 12.0 m ")
	for i := range b.Sails {
		if b.Sails[i].Flatten != -1 {
			t.Errorf("%s can be flattened, and the file does not say so", b.Sails[i].Name)
		}
	}
	open := "coefficients: fully battened main, flatten: "
	b = rigged(t, "coefficients: fully battened main", open+"0 to 60 %", jibTable, "coefficients: jib, flatten: {with: main flatten}}",
		"{sets: [working, reaching],", "{sets: [working, reaching], main: {flatten: 0 to 30 %},")
	c := b.Controls[b.Sails[0].Flatten]
	if c.Name != "main flatten" || c.Kind != boat.ShareControl || c.Lower != 0 || c.Upper != 0.6 || c.Start != 0 || b.Sails[1].Flatten != b.Sails[0].Flatten || b.Sails[2].Flatten != -1 {
		t.Errorf("control %+v; sails %+v", c, b.Sails)
	}
	if _, upper := b.Bounds(&b.Modes[0], boat.Port); upper[b.Sails[0].Flatten] != 0.3 {
		t.Errorf("the mode leaves %g", upper[b.Sails[0].Flatten])
	}
	b = rigged(t, "coefficients: fully battened main", open+"{fixed: 20 %}")
	if c := b.Controls[b.Sails[0].Flatten]; !c.Fixed() || c.Start != 0.2 {
		t.Errorf("fixed: %+v", c)
	}
	b = rigged(t, "coefficients: fully battened main", open+"{range: 0 to 50 %, law: {ride height: {0.3 m: 10 %, 0.9 m: 40 %}}}")
	if c := b.Controls[b.Sails[0].Flatten]; c.Law == nil || c.Law.At(0.6) != 0.25 {
		t.Errorf("under a law: %+v", c)
	}
	for _, f := range []struct{ flatten, want string }{
		{"0 to 120 %", "sails.main.flatten: 0 to 120 % reaches outside 0 to 100 %\nhint: 0 % is the sail as it is cut"},
		{"0 to 5 deg", "a share is wanted"},
		{"{with: jib flatten}", "sails.main.flatten.with: no other sail's flatten is called \"jib flatten\"\nhint: there is none to choose from"},
		{"{with: jib sheet}", "no other sail's flatten is called \"jib sheet\""},
		{"{with: jib flatten, range: 0 to 50 %}", "range and law are the other control's"},
		{"{start: 20 %}", "sails.main.flatten.range: is missing"},
	} {
		if got := sorrel(t, "coefficients: fully battened main", open+f.flatten); !strings.Contains(got, f.want) {
			t.Errorf("%s:\n%s\nwant\n%s", f.flatten, got, f.want)
		}
	}
	b = rigged(t, jibTable, "coefficients: jib, twist: {with: main twist}}")
	if b.Sails[1].Twist != b.Sails[0].Twist || b.Sails[1].Sheet == b.Sails[0].Sheet {
		t.Errorf("twist set with the main's: %+v", b.Sails[:2])
	}
}

// The least load to leeward is a limit, for all sails or one.
func TestLoadToLeewardIsALimit(t *testing.T) {
	b := rigged(t, "  sheet load: at most 24 kN", "  load to leeward: at least -0.1\n  jib load to leeward: at least -0.3")
	n := 0
	for _, l := range b.Limits {
		if l.Kind == boat.LimitSailLoad && (l.Name() == "load to leeward" && l.Lower == -0.1 || l.Name() == "jib load to leeward" && l.Lower == -0.3) {
			n++
		}
	}
	if n != 2 {
		t.Errorf("limits are %+v", b.Limits)
	}
}
