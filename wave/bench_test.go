package wave

import (
	"fmt"
	"testing"
)

// BenchmarkIncrement times the increment with its shares.
func BenchmarkIncrement(b *testing.B) {
	for _, n := range []int{72, 96} {
		for _, speed := range []float64{4, 12} {
			b.Run(fmt.Sprintf("%d strips at %g m/s", n, speed), func(b *testing.B) {
				_, s := craft(n / 6)
				share := make([]float64, n)
				var w Workspace
				b.ReportAllocs()
				for b.Loop() {
					if _, err := w.Increment(s, speedOf(speed), gravity, share); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
