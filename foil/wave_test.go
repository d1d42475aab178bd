package foil

import (
	"math"
	"testing"

	"foilwright/boat"
	"foilwright/frame"
	"foilwright/si"
	"foilwright/wave"
)

// Waves through the loads of a foil: at flying speed they add a little drag and
// hardly change lift; near take-off they add a good deal and change lift too.
func TestWavesOfAFoil(t *testing.T) {
	b, s := carrying(0, 0.6, 2*si.Degree, inverted(t, frame.Point[frame.Boat]{}, 1.2, 1.2, 0.2, tapered(0.3, 0.12)))
	kernel := wave.NewKernel()
	load := func(speed si.Speed, waves Waves) (lift, drag float64) {
		s.Speed = speed
		w := &Workspace{Options: DefaultOptions(), Kernel: kernel}
		w.Options.Waves = waves
		return loadsOf(t, b, s, w, boat.Potential).Force.Z, -loadsOf(t, b, s, w, boat.Induced, boat.Wave).Force.X
	}
	for _, c := range []struct {
		speed              si.Speed
		mostDrag, mostLift float64 // shares
	}{{15, 0.10, 0.02}, {4, 1.5, 0.25}} {
		lift0, drag0 := load(c.speed, NoWaves)
		lift1, drag1 := load(c.speed, WaveDrag)
		lift2, drag2 := load(c.speed, WaveWash)
		t.Logf("%2.0f m/s: lift %.1f N, with the waves' wash %+.2f %%; induced drag %.2f N, with waves %+.1f %%, with their wash %+.1f %%",
			c.speed, lift0, 100*(lift2/lift0-1), drag0, 100*(drag1/drag0-1), 100*(drag2/drag0-1))
		if lift1 != lift0 {
			t.Errorf("%g m/s: drag alone changes lift", c.speed)
		}
		if g := drag1/drag0 - 1; !(g > 0 && g < c.mostDrag) {
			t.Errorf("%g m/s: waves change induced drag by %+.1f %%", c.speed, 100*g)
		}
		if g := math.Abs(lift2/lift0 - 1); g > c.mostLift || g == 0 {
			t.Errorf("%g m/s: the waves' wash changes lift by %.1f %%", c.speed, 100*g)
		}
	}
}

// Several rows know the same waves.
func TestWavesOnSeveralRows(t *testing.T) {
	b, s := carrying(5, 0.6, 2*si.Degree, inverted(t, frame.Point[frame.Boat]{}, 1.2, 1.2, 0, straight(0.2)))
	kernel := wave.NewKernel()
	change := func(rows int) float64 {
		with := &Workspace{Options: DefaultOptions(), Kernel: kernel}
		with.Options.Rows, with.Options.Waves = rows, WaveWash
		without := &Workspace{Options: with.Options}
		without.Options.Waves = NoWaves
		return loadsOf(t, b, s, with, boat.Potential).Force.Z/loadsOf(t, b, s, without, boat.Potential).Force.Z - 1
	}
	one, four := change(1), change(4)
	t.Logf("waves change lift by %+.2f %% on one row, %+.2f %% on four", 100*one, 100*four)
	if math.Abs(one-four) > 0.01 {
		t.Errorf("waves change lift by %+.2f %% on one row, %+.2f %% on four", 100*one, 100*four)
	}
}
