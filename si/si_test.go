package si

import (
	"math"
	"testing"
)

// ISO 80000-3: one knot is 1852 m an hour (check row 7.12).
func TestKnot(t *testing.T) {
	if got := Knot.MetresPerSecond(); math.Abs(got-0.5144444) > 5e-8 {
		t.Errorf("one knot is %.8f m/s, want 0.5144444", got)
	}
	if got := (17 * Knot).Knots(); math.Abs(got-17) > 1e-12 {
		t.Errorf("17 kn comes back as %v", got)
	}
}

func TestAngle(t *testing.T) {
	if got := (180 * Degree).Radians(); got != math.Pi {
		t.Errorf("180 deg is %v rad", got)
	}
	if got := (30 * Degree).Sin(); math.Abs(got-0.5) > 1e-15 {
		t.Errorf("sin 30 deg = %v", got)
	}
	if got := (60 * Degree).Cos(); math.Abs(got-0.5) > 1e-15 {
		t.Errorf("cos 60 deg = %v", got)
	}
	if got := Angle(math.Pi).Degrees(); got != 180 {
		t.Errorf("pi rad is %v deg", got)
	}
}
