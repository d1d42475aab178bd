package wave

import (
	"fmt"
	"testing"
	"time"
)

// BenchmarkIncrement times the increment with its shares, and tells the least
// time of one, which other work does not disturb.
func BenchmarkIncrement(b *testing.B) {
	for _, n := range []int{24, 48, 72, 96, 144} {
		for _, speed := range []float64{4, 12} {
			b.Run(fmt.Sprintf("%d strips at %g m/s", n, speed), func(b *testing.B) {
				_, s := craft(n / 6)
				share := make([]float64, n)
				var w Workspace
				increment := func() {
					if _, err := w.Increment(s, speedOf(speed), gravity, share); err != nil {
						b.Fatal(err)
					}
				}
				increment()
				least := time.Hour
				b.ReportAllocs()
				for b.Loop() {
					start := time.Now()
					increment()
					least = min(least, time.Since(start))
				}
				b.ReportMetric(float64(least.Nanoseconds()), "least-ns")
			})
		}
	}
}

// BenchmarkKernel times the making of the table.
func BenchmarkKernel(b *testing.B) {
	for b.Loop() {
		NewKernel()
	}
}

// BenchmarkWash times the matrix of strips on themselves.
func BenchmarkWash(b *testing.B) {
	k := NewKernel()
	for _, n := range []int{24, 48, 72, 96, 144} {
		b.Run(fmt.Sprintf("%d strips", n), func(b *testing.B) {
			_, s := craft(n / 6)
			normals, matrix := loads(s), make([]float64, n*n)
			var w Workspace
			b.ReportAllocs()
			for b.Loop() {
				if err := w.Wash(k, s, s.Mid, normals, 6, gravity, matrix); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
