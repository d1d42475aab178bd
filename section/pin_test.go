package section

import (
	"testing"

	"foilwright/si"
)

// Pins: these move only with the models, and then on purpose.
func TestPins(t *testing.T) {
	s := mustParse(t, "naca 64-209")
	d := s.DragParts(0.45, 3e6, 0.15, Flap{0.3, 6 * si.Degree}, 1)
	f := mustFlow(t, s, Flap{0.3, 6 * si.Degree}, PanelCount)
	table := mustTable(t, s, 0.3)
	up, down := f.Transition(f.AngleFor(0.45), 2e7)
	laminar := mustLaminar(t, s, 0.3)
	hinge := mustHinge(t, s, 0.3)
	for _, pin := range []struct {
		what      string
		got, want float64
	}{
		{"friction", d.Friction, 0.0072132151},
		{"lift drag", d.Lift, 1.2328364e-05},
		{"largest lift", s.LargestLift, 1.2188338},
		{"lift slope", f.LiftSlope(), 6.6951106},
		{"angle of no lift", f.ZeroLift().Radians(), -0.10067968},
		{"peak", f.Peak(f.AngleFor(0.45)), -0.90123915},
		{"peak by table", table.Peak(0.45, 6*si.Degree), -0.90132006},
		{"hinge moment", f.HingeMoment(f.AngleFor(0.45)), -0.15821638},
		{"hinge moment by table", hinge.Moment(0.45, 6*si.Degree), -0.15821687},
		{"peak at hinge", table.PeakAtHinge(0.45, 6*si.Degree), -0.90132006},
		{"transition above", up, 0.42273485},
		{"transition below", down, 0.29217868},
		{"laminar share by table", laminar.Share(0.45, 2e7, 6*si.Degree), 0.37546195},
	} {
		near(t, pin.what, pin.got, pin.want, 1e-6)
	}
}
