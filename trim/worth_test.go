package trim

import (
	"math"
	"testing"

	"foilwright/boat"
)

// What a change is worth agrees with solving again, for changes of weights, places,
// foils, sails, windage, the model's factors, and limits.
func TestWorthAgreesWithSolvingAgain(t *testing.T) {
	b := monohull(t)
	r := usual(17)
	r.Starts = 1
	res := found(t, b, r)
	changes := map[string]func(m *boat.Boat, by float64){
		"10 kg in the hull":         func(m *boat.Boat, by float64) { m.Weights[0].Mass += 10 * by },
		"10 kg in the rig":          func(m *boat.Boat, by float64) { m.Weights[1].Mass += 10 * by },
		"50 mm of the hull's place": func(m *boat.Boat, by float64) { m.Weights[0].At.X += 0.05 * by },
		"1 % of the mainsail":       func(m *boat.Boat, by float64) { m.Sails[0].Area *= 1 + 0.01*by },
		"5 % of hull windage":       func(m *boat.Boat, by float64) { m.Windages[0].Area *= 1 + 0.05*by },
		"2 % of friction":           func(m *boat.Boat, by float64) { m.Model.Friction += 0.02 * by },
		"2 % of the wings' chords": func(m *boat.Boat, by float64) {
			for i := range 2 {
				for j := 1; j < 3; j++ {
					c := &m.Foils[i].Pieces[j].Chord
					c.Value = append([]float64(nil), c.Value...)
					for k := range c.Value {
						c.Value[k] *= 1 + 0.02*by
					}
				}
			}
		},
		"0.1 deg of heel": func(m *boat.Boat, by float64) { m.Limits[0].Lower -= 0.1 * math.Pi / 180 * by },
	}
	for name, change := range changes {
		moved := func(by float64) *boat.Boat {
			m := *b
			m.Weights = append([]boat.Weight(nil), b.Weights...)
			m.Windages = append([]boat.Windage(nil), b.Windages...)
			m.Sails = append([]boat.Sail(nil), b.Sails...)
			m.Limits = append([]boat.Limit(nil), b.Limits...)
			m.Foils = append([]boat.Foil(nil), b.Foils...)
			for i := range m.Foils {
				m.Foils[i].Pieces = append([]boat.Piece(nil), b.Foils[i].Pieces...)
			}
			change(&m, by)
			return &m
		}
		more, less := found(t, moved(1), r), found(t, moved(-1), r)
		solved := (more.progressInItsAim() - less.progressInItsAim()) / 2
		up, err := res.Worth(moved(1))
		if err != nil {
			t.Fatal(err)
		}
		down, err := res.Worth(moved(-1))
		if err != nil {
			t.Fatal(err)
		}
		told := (up - down) / 2
		t.Logf("%-26s %+.6f m/s, by solving again %+.6f", name, told, solved)
		if math.Abs(told-solved) > 0.02*math.Abs(solved)+1e-5 {
			t.Errorf("%s: worth %+.6f m/s, by solving again %+.6f", name, told, solved)
		}
	}
}
