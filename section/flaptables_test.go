package section

import (
	"math"
	"testing"

	"foilwright/si"
)

// Both tables at once are the two by themselves.
func TestFlapTables(t *testing.T) {
	s, err := Parse("naca 64-412 at 11 %")
	if err != nil {
		t.Fatal(err)
	}
	peaks, err := s.PeakTable(0.3)
	if err != nil {
		t.Fatal(err)
	}
	hinge, err := s.HingeTable(0.3)
	if err != nil {
		t.Fatal(err)
	}
	bothPeaks, bothHinge, err := s.FlapTables(0.3)
	if err != nil {
		t.Fatal(err)
	}
	most := 0.0
	for lift := -1.0; lift < 2; lift += 0.11 {
		for _, flap := range []si.Angle{-13, -2.5, 0, 1, 7.5, 16} {
			flap *= si.Degree
			most = max(most, math.Abs(peaks.Peak(lift, flap)-bothPeaks.Peak(lift, flap))/(1+math.Abs(peaks.Peak(lift, flap))))
			if hinge.Moment(lift, flap) != bothHinge.Moment(lift, flap) {
				t.Fatalf("hinge moments differ at a lift of %g", lift)
			}
		}
	}
	if most > 2e-5 {
		t.Errorf("peaks differ by %g", most)
	}
	t.Logf("peaks differ by %g at most", most)
	if _, _, err := s.FlapTables(0); err == nil {
		t.Error("no flap has tables")
	}
}

// BenchmarkFlapTables finds both tables of one flap.
func BenchmarkFlapTables(b *testing.B) {
	s, err := Parse("naca 64-412 at 11 %")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, _, err := s.FlapTables(0.3); err != nil {
			b.Fatal(err)
		}
	}
}
