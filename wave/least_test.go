package wave

import (
	"fmt"
	"testing"
	"time"
)

func least(f func()) float64 {
	best := 1e18
	for range 2000 {
		t := time.Now()
		f()
		if d := float64(time.Since(t).Nanoseconds()); d < best {
			best = d
		}
	}
	return best / 1000
}

func TestLeast(t *testing.T) {
	for _, n := range []int{72, 96} {
		for _, speed := range []float64{4, 12} {
			_, s := craft(n / 6)
			sh := make([]float64, n)
			var w Workspace
			all := least(func() { w.Increment(s, speedOf(speed), gravity, sh) })
			im := least(func() { w.image(s, 1, sh) })
			lo := least(func() { w.look(s, gravity/speed/speed) })
			ch := least(func() { s.check(speed, gravity) })
			fmt.Printf("%d %g: all %.1f image %.1f look %.1f check %.1f\n", n, speed, all, im, lo, ch)
		}
	}
}
