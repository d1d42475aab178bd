package foilwright_test

import (
	"math"
	"testing"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
)

// Every example floats in no wind: the sums close to 1e-8 of weight and of weight
// times length, and she lies upright with her weights amidships.
func TestExamplesFloat(t *testing.T) {
	for _, name := range []string{"which-foil/sorrel", "which-foil/tansy", "dinghy/sloe", "catamaran/bramble", "keelboat/guelder", "keelboat/dogwood", "twenty-metre/hawthorn"} {
		b := example(t, "examples/"+name+".yaml")
		var w balance.Workspace
		r, err := balance.Afloat(b, balance.Level(b), fluid.StandardSea(), &w)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if !(r.Residual <= 1e-8) {
			t.Errorf("%s: sums miss by %.1e", name, r.Residual)
		}
		if math.Abs(r.Heel.Degrees()) > 1e-6 {
			t.Errorf("%s lies at %.3g deg of heel", name, r.Heel.Degrees())
		}
		t.Logf("%-22s draught %.3f m, pitch %.2f deg, GM %.2f m, %.1f %% on hulls, LWL %.2f m, form %+v",
			name, r.Draught, r.Pitch.Degrees(), r.MetacentricHeight, 100*r.OnHulls, r.Length, r.Hulls[0].Form)
	}
}

// A box with a weight off her centreplane: closed form. The metacentric height is
// KB + B²/12T − KG, and wall-sided GZ holds her at the heel that it says.
func TestBoxWithWeightOff(t *testing.T) {
	const beam, draught, length, kg, off = 3.0, 0.5, 8.0, 1.2, 0.05
	water := fluid.StandardSea()
	points := [][2]float64{{beam / 2, 0}, {beam / 2, 2}}
	b := &boat.Boat{Name: "Box", Length: length, Model: boat.Defaults(),
		Hulls: []boat.Hull{{Name: "box", Sections: []boat.HullSection{{X: length / 2, Points: points}, {X: -length / 2, Points: points}}}},
		Weights: []boat.Weight{{Name: "all", Mass: water.Density * beam * draught * length, At: frame.Point[frame.Boat]{Y: off, Z: kg},
			Shift: [3]int{-1, -1, -1}, Swing: boat.Move{Control: -1}}}}
	var w balance.Workspace
	r, err := balance.Afloat(b, nil, water, &w)
	if err != nil {
		t.Fatal(err)
	}
	// φ solves sin φ (GM + ½ BM tan² φ) = off·cos φ, to port: negative.
	const bm = beam * beam / 12 / draught
	gm := draught/2 + bm - kg
	phi := 0.0
	for range 100 {
		phi = math.Atan(off / (gm + bm/2*math.Pow(math.Tan(phi), 2)))
	}
	if d := -r.Heel.Radians() - phi; math.Abs(d) > 1e-9 {
		t.Errorf("heel %.9f rad to port, closed form %.9f", -r.Heel.Radians(), phi)
	}
	b.Weights[0].At.Y = 0
	c := *b // a boat of its own: the workspace keeps the last
	if r, err = balance.Afloat(&c, nil, water, &w); err != nil {
		t.Fatal(err)
	}
	if math.Abs(r.MetacentricHeight-gm) > 1e-9 || math.Abs(r.Draught-draught) > 1e-9 || math.Abs(r.Heel.Radians()) > 1e-9 {
		t.Errorf("GM %.9f and draught %.9f m, closed form %.9f and %.9f", r.MetacentricHeight, r.Draught, gm, draught)
	}
}
