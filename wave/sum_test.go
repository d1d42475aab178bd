package wave

import (
	"flag"
	"math"
	"os"
	"regexp"
	"strings"
	"testing"
)

// writeKernels renews the kernel of four numbers from that of eight:
//
//	go test ./wave -run TestKernelsAreOneText -write-kernels
var writeKernels = flag.Bool("write-kernels", false, "renew sum_avx2.go from sum_avx512.go")

// The kernel of four numbers at a time is that of eight but for the width.
func TestKernelsAreOneText(t *testing.T) {
	eight, err := os.ReadFile("sum_avx512.go")
	if err != nil {
		t.Fatal(err)
	}
	head, rest, found := strings.Cut(string(eight), "// This file holds")
	_, rest, cut := strings.Cut(rest, "// lanes8 are")
	if !found || !cut {
		t.Fatal("sum_avx512.go does not say how its like is made")
	}
	want := head + "// This file is made from sum_avx512.go: see there.\n\n// lanes8 are" + rest
	want = strings.ReplaceAll(want, "const width8 = 8", "const width8 = 4")
	want = strings.ReplaceAll(want, "64x8", "64x4")
	want = regexp.MustCompile(`([a-zA-Z])8\b`).ReplaceAllString(want, "${1}4")
	if *writeKernels {
		if err := os.WriteFile("sum_avx2.go", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	four, err := os.ReadFile("sum_avx2.go")
	if err != nil {
		t.Fatal(err)
	}
	if string(four) != want {
		t.Error("sum_avx2.go is not sum_avx512.go at four numbers\nrenew it with -write-kernels")
	}
}

// sincos and exp are one each of what is done for several numbers.
func sincos(phase float64) (sin, cos float64) {
	var sines, cosines [several]float64
	sincosScalar(&[several]float64{3: phase}, &sines, &cosines)
	return sines[3], cosines[3]
}

func exp(x float64) float64 {
	all := [several]float64{5: x}
	expsScalar(&all)
	return all[5]
}

// Sine, cosine and exponential against the standard library's.
func TestOwnFunctions(t *testing.T) {
	worst := 0.0
	for k := range 200001 {
		x := float64(k-100000) * 0.037
		switch {
		case k%3 == 1:
			x *= 250
		case k%3 == 2:
			x /= 2500
		}
		sin, cos := sincos(x)
		wantSin, wantCos := math.Sincos(x)
		worst = max(worst, math.Abs(sin-wantSin), math.Abs(cos-wantCos))
	}
	t.Logf("sine and cosine are off by up to %.1e", worst)
	if worst > 1e-15 {
		t.Errorf("sine and cosine are off by up to %g", worst)
	}
	for _, x := range []float64{furthestPhase, -furthestPhase} {
		sin, cos := sincos(x)
		wantSin, wantCos := math.Sincos(x)
		if math.Abs(sin-wantSin) > 1e-14 || math.Abs(cos-wantCos) > 1e-14 {
			t.Errorf("of %g: sine %g, cosine %g, want %g and %g", x, sin, cos, wantSin, wantCos)
		}
	}
	worst = 0
	for k := range 70001 {
		x := -float64(k) * 0.01
		worst = max(worst, math.Abs(exp(x)/math.Exp(x)-1))
	}
	t.Logf("the exponential is off by up to %.1e", worst)
	if worst > 2e-15 || exp(0) != 1 {
		t.Errorf("the exponential is off by up to %g, of 0 it is %g", worst, exp(0))
	}
}
