package sail

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"

	"foilwright/accuracy"
)

// leastDrag returns the load of a wing over its strips with the least induced
// drag where Σ Γ·l·weight has given values for each of some weights, and that
// drag on ρ; strips of which only may be loaded, the others carry nothing.
func leastDrag(t *testing.T, k *wake, weights [][]float64, wanted []float64, loaded []bool) (circulation []float64, drag float64) {
	t.Helper()
	n, m := len(k.segments), len(weights)
	equations := mat.NewDense(n+m, n+m, nil)
	right := mat.NewVecDense(n+m, nil)
	at := func(i, j int) float64 {
		return k.segments[i].length*k.influence(i, j) + k.segments[j].length*k.influence(j, i)
	}
	for i := range n {
		if !loaded[i] {
			equations.Set(i, i, 1)
			continue
		}
		for j := range n {
			if loaded[j] {
				equations.Set(i, j, at(i, j))
			}
		}
		for c := range m {
			equations.Set(i, n+c, weights[c][i]*k.segments[i].length)
			equations.Set(n+c, i, weights[c][i]*k.segments[i].length)
		}
	}
	for c := range m {
		right.SetVec(n+c, wanted[c])
	}
	var x mat.VecDense
	if err := x.SolveVec(equations, right); err != nil {
		t.Fatal(err)
	}
	circulation = x.RawVector().Data[:n]
	for i := range n {
		for j := range n {
			drag += circulation[i] * at(i, j) * circulation[j] / 2
		}
	}
	return circulation, drag
}

// restrained is a wing that carries the lift of an elliptic load of unit span,
// and the same weighted sum of it, at span r and with the least induced drag.
type restrained struct {
	weight func(y float64) float64 // over the distance from the middle, in half spans of the elliptic wing
	strips int
}

// every tells that all strips may be loaded.
func every(n int) []bool {
	all := make([]bool, n)
	for i := range all {
		all[i] = true
	}
	return all
}

// at returns the wing of span r, its load and its drag over the elliptic one's.
func (p restrained) at(t *testing.T, r float64, loaded []bool) (k *wake, circulation []float64, ratio float64) {
	t.Helper()
	// Both wings, and both sums, come from the same rule over strips.
	build := func(span float64) (*wake, [][]float64) {
		k := wing(p.strips, far, far+span, even)
		if !k.factor() {
			t.Fatal("singular")
		}
		weights := [][]float64{make([]float64, p.strips), make([]float64, p.strips)}
		for i, s := range k.segments {
			weights[0][i], weights[1][i] = 1, p.weight(math.Abs(s.z-far-span/2)*2)
		}
		return k, weights
	}
	k0, weights0 := build(1)
	var wanted [2]float64
	drag0 := 0.0
	elliptic := make([]float64, p.strips)
	for i, s := range k0.segments {
		elliptic[i] = math.Sqrt(max(0, 1-math.Pow(2*(s.z-far)-1, 2)))
		for c := range wanted {
			wanted[c] += elliptic[i] * s.length * weights0[c][i]
		}
	}
	for i, s := range k0.segments {
		for j := range k0.segments {
			drag0 += elliptic[i] * s.length * k0.influence(i, j) * elliptic[j]
		}
	}
	k, weights := build(r)
	circulation, drag := leastDrag(t, k, weights, wanted[:], loaded)
	return k, circulation, drag / drag0
}

// rootMoment and inertia are what R. T. Jones and Prandtl held: the bending
// moment at the middle, and the load's sum over the square of the distance.
func rootMoment(strips int) restrained {
	return restrained{func(y float64) float64 { return y }, strips}
}

func inertia(strips int) restrained {
	return restrained{func(y float64) float64 { return y * y }, strips}
}

// extrapolated returns the limit of many strips of what two numbers of them give:
// sums over strips close on it with the square of their number.
func extrapolated(coarse, fine float64) float64 { return (4*fine - coarse) / 3 }

// Least induced drag at fixed lift and root bending moment over the span (Jones
// 1950): D/D₀ = (1/r²)(1 + 8(1 − 1/r)²), with its stationary point at r = 4/3
// (row 6.07). That is an inflection: beyond it drag goes on falling, since tips
// pull down; where no strip may, the load keeps the span of 4/3 and the drag of
// 27/32 whatever span there is.
func TestFixedRootMoment(t *testing.T) {
	const file, coarse = "jones-1950.csv", 64
	want := published(t, file)["6.07"]
	ratio := func(r float64) float64 {
		_, _, a := rootMoment(coarse).at(t, r, every(coarse))
		_, _, b := rootMoment(2*coarse).at(t, r, every(2*coarse))
		return extrapolated(a, b)
	}
	note := func(quantity, conditions string, published, computed, tolerance float64) {
		accuracy.Check(t, accuracy.Row{File: file, ID: "6.07", Quantity: quantity, Conditions: conditions, Published: published, Computed: computed, Tolerance: tolerance})
	}
	for _, r := range []float64{1, 1.1, 1.2, 4.0 / 3, 1.5} {
		note("least drag at fixed lift and root moment, over the elliptic wing's", fmt.Sprintf("span ratio %.4g, 64 and 128 strips", r),
			(1+8*math.Pow(1-1/r, 2))/(r*r), ratio(r), 2e-6)
	}
	// The stationary point is where the slope, never positive, is greatest.
	slope := func(r float64) float64 { const h = 0.005; return (ratio(r+h) - ratio(r-h)) / (2 * h) }
	const h = 0.01
	middle := 4.0/3 + 0.004
	a, b, c := slope(middle-h), slope(middle), slope(middle+h)
	stationary := middle + h/2*(a-c)/(a-2*b+c)
	note("stationary point of least drag at fixed lift and root moment, span ratio", "where the slope over the span is greatest", want[0]/want[1], stationary, 3e-4)
	note("least drag at the stationary point", "over the elliptic wing's", want[2]/want[3], ratio(stationary), 2e-6)
	if s := slope(stationary); math.Abs(s) > 1e-4 {
		t.Errorf("slope of drag over span is %.4g at the stationary point", s)
	}
	_, beyond, _ := rootMoment(coarse).at(t, 1.6, every(coarse))
	if tip := beyond[0]; tip >= 0 {
		t.Errorf("at 1.6 of the span the tip carries %.3g, want less than nothing", tip)
	}
	if free := ratio(1.6); free >= 27.0/32-1e-3 {
		t.Errorf("at 1.6 of the span drag is %.5f of the elliptic wing's, want less than 27/32", free)
	}
	k, held, drag := leewardOnly(t, rootMoment(2*coarse), 1.6)
	note("least drag where no strip may pull the other way", "span ratio 1.6, 128 strips", 27.0/32, drag, 2e-4)
	reach := 0.0
	for i, s := range k.segments {
		if held[i] < 0 {
			t.Errorf("strip %d carries %g", i, held[i])
		}
		if held[i] > 1e-3 {
			reach = max(reach, math.Abs(s.z-far-0.8)+s.length/2)
		}
	}
	note("span of the load where no strip may pull the other way", "span ratio 1.6, 128 strips", 4.0/3, 2*reach, 0.02)
}

// leewardOnly returns the least drag of a wing at a span without a negative
// strip: strips are emptied until none is, and none that is empty would help.
func leewardOnly(t *testing.T, p restrained, r float64) (k *wake, circulation []float64, ratio float64) {
	t.Helper()
	loaded := every(p.strips)
	for range p.strips {
		k, circulation, ratio = p.at(t, r, loaded)
		worst := -1
		for i, c := range circulation {
			if c < -1e-12 && (worst < 0 || c < circulation[worst]) {
				worst = i
			}
		}
		if worst < 0 {
			return k, circulation, ratio
		}
		loaded[worst], loaded[p.strips-1-worst] = false, false
	}
	t.Fatal("no load without a negative strip was found")
	return nil, nil, 0
}

// Least induced drag at fixed lift and ∫Γy²dy (Prandtl 1933): Γ = A₁ sin θ +
// A₃ sin 3θ with A₁ = 1/r, A₁ + A₃ = 1/r³ and D/D₀ = A₁² + 3A₃². At r = √(3/2)
// it is stationary, 8/9, and the load is the bell (1−η²)^{3/2}, whose half has
// its centroid at 16/(15π) (row 6.09).
func TestBellIsTheOptimum(t *testing.T) {
	const file, coarse = "lifting-line.csv", 64
	for _, r := range []float64{1, 1.1, math.Sqrt(1.5), 1.4} {
		_, _, a := inertia(coarse).at(t, r, every(coarse))
		_, _, b := inertia(2*coarse).at(t, r, every(2*coarse))
		a1 := 1 / r
		a3 := 1/(r*r*r) - a1
		accuracy.Check(t, accuracy.Row{
			File: file, ID: "6.09", Quantity: "least drag at fixed lift and ∫Γy², over the elliptic wing's", Unit: "-", Source: "Prandtl 1933",
			Conditions: fmt.Sprintf("span ratio %.4f, 64 and 128 strips", r), Published: a1*a1 + 3*a3*a3, Computed: extrapolated(a, b), Tolerance: 2e-5,
		})
	}
	var centre [2]float64
	for i, strips := range []int{256, 512} {
		k, circulation, _ := inertia(strips).at(t, math.Sqrt(1.5), every(strips))
		centre[i] = centroid(k, circulation)
		top := circulation[strips/2]
		for j, s := range k.segments {
			eta := (2*(s.z-far) - math.Sqrt(1.5)) / math.Sqrt(1.5)
			near(t, "bell load", circulation[j]/top, math.Pow(1-eta*eta, 1.5), 2e-3)
		}
	}
	accuracy.Check(t, accuracy.Row{
		File: file, ID: "6.09", Conditions: "the load of least drag, from 256 and 512 strips",
		Published: published(t, file)["6.09"][0], Computed: extrapolated(centre[0], centre[1]), Tolerance: 1e-6,
	})
}

// An elliptic wing with linear twist from end to end, −τ(η−½), has a second term
// alone besides the untwisted load: with μ = c₀a₀/(4b), A₁ = μα/(1+μ) and
// A₂ = μτ/(4(1+2μ)) (Glauert 1926, ch. XI): its load's centre stands A₂/(2A₁) of
// the half span below the middle, and drag is 1 + 2(A₂/A₁)² times that without
// twist at the same lift.
func TestTwistedEllipticWing(t *testing.T) {
	const root, alpha = 0.25, 0.1
	mu := root * liftSlope / 4
	for _, tau := range []float64{0.05, 0.1, 0.2} {
		var centre, drag [2]float64
		for i, strips := range []int{128, 256} {
			k := wing(strips, far, far+1, func(s float64) float64 { return 2 * root * math.Sqrt(s*(1-s)) })
			_, straight, _ := flown(t, k, func(float64) float64 { return alpha })
			_, e, circulation := flown(t, k, func(share float64) float64 { return alpha - tau*(share-0.5) })
			moment, lift := 0.0, 0.0
			for j, s := range k.segments {
				moment += circulation[j] * s.length * (0.5 - (s.z - far)) * 2
				lift += circulation[j] * s.length
			}
			centre[i], drag[i] = moment/lift, straight/e
		}
		ratio := mu * tau / (4 * (1 + 2*mu)) / (mu * alpha / (1 + mu))
		row := accuracy.Row{
			File: "glauert-1926.csv", ID: "twist", Quantity: "centre of the load below the middle, share of the half span",
			Conditions: fmt.Sprintf("twist %g, incidence %g, from 128 and 256 strips", tau, alpha), Topic: 6,
			Published: ratio / 2, Computed: extrapolated(centre[0], centre[1]), Tolerance: 1e-5,
		}
		accuracy.Check(t, row)
		row.Quantity, row.Published, row.Computed = "induced drag over that without twist at the same lift", 1+2*ratio*ratio, extrapolated(drag[0], drag[1])
		accuracy.Check(t, row)
	}
}
