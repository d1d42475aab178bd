package lattice

import (
	"fmt"
	"testing"
	"time"
)

func least(f func()) float64 {
	best := 1e18
	for range 3000 {
		t := time.Now()
		f()
		if d := float64(time.Since(t).Nanoseconds()); d < best {
			best = d
		}
	}
	return best / 1000
}

func TestLeast(t *testing.T) {
	for _, panels := range []int{48, 72, 96} {
		var p Panels
		var w Workspace
		bladed(&p, panels/4)
		wash := make([]float64, panels)
		circulation := make([]float64, panels)
		force := make([][3]float64, panels)
		for i := range wash {
			wash[i] = -0.05 * p.Normal[i][2]
		}
		fill := least(func() { bladed(&p, panels/4) })
		check := least(func() { p.check(FreeSurface) })
		take := least(func() { w.take(&p, FreeSurface) })
		all := least(func() { w.Assemble(&p, FreeSurface, Options{}) })
		keep := append([]float64(nil), w.influence...)
		see := least(func() { w.chains.see(&w.controls, w.boundary, everything, w.influence, padded(w.n)) })
		lu := least(func() { copy(w.influence, keep); w.factors.factorise(w.influence, w.n) })
		w.Assemble(&p, FreeSurface, Options{})
		solve := least(func() { w.Solve(wash, circulation) })
		near := least(func() { w.near.known = nothing; w.need(others) })
		far := least(func() { w.wake.known = nothing; w.wake.see(w.boundary) })
		forces := least(func() { w.Forces(circulation, force) })
		total := least(func() {
			w.Assemble(&p, FreeSurface, Options{})
			w.Solve(wash, circulation)
			w.Forces(circulation, force)
		})
		fmt.Printf("%d: fill %.1f check %.1f take %.1f see %.1f lu %.1f assemble %.1f solve %.1f near %.1f far %.1f forces %.1f total %.1f\n",
			panels, fill, check, take, see, lu, all, solve, near, far, forces, total)
	}
}

func TestLeastLU(t *testing.T) {
	n := 96
	var f factors
	stride := padded(n)
	a := make([]float64, n*stride)
	for i := range n {
		for j := range n {
			a[i*stride+j] = 0.1 / float64(1+i+j)
		}
		a[i*stride+i] = 3
	}
	b := make([]float64, n*stride)
	fmt.Printf("all: %.1f\n", least(func() { copy(b, a); f.factorise(b, n) }))
	fmt.Printf("copy: %.1f\n", least(func() { copy(b, a) }))
	fmt.Printf("exchange: %.1f\n", least(func() {
		for k := range n {
			f.exchange(k)
		}
	}))
	var right [rank]float64
	fmt.Printf("eliminate: %.1f\n", least(func() {
		for k := range n {
			eliminate(f.a[(k+1)*f.stride:], f.stride, k/8*8, k%8, 0.1, &right)
		}
	}))
	fmt.Printf("update: %.1f\n", least(func() {
		copy(b, a)
		for k := 0; k+8 < n; k += 8 {
			f.update(k, k+8)
		}
	}))
	fmt.Printf("products: %.1f\n", least(func() {
		copy(b, a)
		for k := 8; k < n; k += 8 {
			takeProducts(f.a[k*stride:f.n*stride], stride, k-8, f.above[:(stride-k)*rank])
		}
	}))
}
