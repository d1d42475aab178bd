package section

import (
	"fmt"
	"math"

	"foilwright/si"
)

// Constants of the laminar layer and its end.
const (
	// Thwaites' (1949) fit θ² = 0.45ν/U⁶·∫U⁵ds, and his parameter
	// λ = (θ²/ν)·dU/ds where the layer leaves the wall.
	thwaites   = 0.45
	separation = -0.09
	// Michel's (1951) curve of transition, Re_θ = 1.535·Re_s^0.444, in the form
	// that boundary-layer texts give it.
	michelFactor = 1.535
	michelPower  = 0.444
)

// station is a place on one side of a section, from the stagnation point aft.
type station struct {
	x     float64 // chords aft of the leading edge
	run   float64 // along the surface from the stagnation point, chords
	speed float64 // over the stream's
}

// laminarStation is the laminar layer at a station.
type laminarStation struct {
	station
	// thickness is (θ/c)²·Re, θ the momentum thickness and Re the Reynolds number
	// on the chord: it does not depend on Re.
	thickness float64
	lambda    float64
}

// laminarLayer is the laminar layer along one side up to where it separates, or
// to the trailing edge.
type laminarLayer []laminarStation

// Transition2D returns where the boundary layer turns turbulent on a smooth
// section in a quiet stream, on the upper and the lower side, as shares of the
// chord aft of the leading edge, 1 where it stays laminar: [Potential.Transition]
// at a lift coefficient, a Reynolds number on the chord and with a flap as it
// stands. Each call solves the flow anew; a [LaminarTable] is cheap to read.
func (s Section) Transition2D(lift, reynolds float64, flap Flap) (upper, lower float64, err error) {
	if !finite(lift) || !(reynolds > 0) || !finite(reynolds) {
		return 0, 0, fmt.Errorf("section %q: transition at lift %g and reynolds %g, needed are finite numbers, the second above 0", s.Name, lift, reynolds)
	}
	flow, err := s.Potential(flap, PanelCount)
	if err != nil {
		return 0, 0, fmt.Errorf("transition: %w", err)
	}
	upper, lower = flow.Transition(flow.AngleFor(lift), reynolds)
	return upper, lower, nil
}

// Transition returns where the boundary layer turns turbulent on the upper and
// the lower side, as shares of the chord aft of the leading edge, 1 where it
// stays laminar, at an angle of attack and a Reynolds number on the chord.
//
// The laminar layer is that of Thwaites (1949, Aeronautical Quarterly 1,
// 245–280) under the ideal flow's speed U, from the stagnation point, s along the
// surface: θ² = 0.45ν/U⁶·∫U⁵ds. It ends where Michel's (1951, ONERA) criterion is
// met, Re_θ = 1.535·Re_s^0.444, or where it would separate, (θ²/ν)·dU/ds = −0.09:
// the bubble that then forms, and whether it closes, is not followed. The gap or
// step at the hinge of a flap ends it at the latest (common practice).
//
// On a flat plate this puts transition at Re_s = 2.6e6 (3.2e6 with Blasius' own
// momentum thickness), beside 2.8e6 in a quiet tunnel (Schubauer and Skramstad
// 1948, from memory). It is a fit to smooth models in air of little turbulence,
// and knows neither waviness, roughness, slime, bubbles, noise, sweep nor the
// turbulence of the sea, all of which shorten the laminar run: read it as the
// most that could be had.
func (f Potential) Transition(angle si.Angle, reynolds float64) (upper, lower float64) {
	up, down := f.laminar(angle)
	return f.shareOf(up, reynolds), f.shareOf(down, reynolds)
}

// shareOf returns where a layer of this flow ends, at the latest at the hinge.
func (f Potential) shareOf(layer laminarLayer, reynolds float64) float64 {
	x := layer.transition(reynolds)
	if f.hinge.share > 0 {
		x = min(x, f.hinge.at.X)
	}
	return x
}

// laminar returns the laminar layers of both sides.
func (f Potential) laminar(angle si.Angle) (upper, lower laminarLayer) {
	up, down := f.sides(angle)
	return thwaitesLayer(up), thwaitesLayer(down)
}

// sides parts the surface at the stagnation point nearest to the nose; without
// one there are no sides.
func (f Potential) sides(angle si.Angle) (upper, lower []station) {
	sin, cos := angle.Sin(), angle.Cos()
	n := len(f.nodes)
	speed := func(i int) float64 { return f.along[i]*cos + f.across[i]*sin }
	nose, split := 0, -1
	for i, p := range f.nodes {
		if p.X < f.nodes[nose].X {
			nose = i
		}
	}
	for i := range n - 1 {
		if speed(i) > 0 && speed(i+1) <= 0 && (split < 0 || abs(i-nose) < abs(split-nose)) {
			split = i
		}
	}
	if split < 0 {
		return nil, nil
	}
	a, b := f.nodes[split], f.nodes[split+1]
	u := speed(split) / (speed(split) - speed(split+1))
	stop := Point{a.X + u*(b.X-a.X), a.Y + u*(b.Y-a.Y)}
	walk := func(from, to, step int) []station {
		side := []station{{x: stop.X}}
		last := stop
		for i := from; i != to; i += step {
			p := f.nodes[i]
			before := side[len(side)-1].run
			run := before + math.Hypot(p.X-last.X, p.Y-last.Y)
			last = p
			if run > before { // the stagnation point may be a node
				side = append(side, station{p.X, run, -float64(step) * speed(i)})
			}
		}
		return side
	}
	return walk(split, -1, -1), walk(split+1, n, 1)
}

func abs(n int) int { return max(n, -n) }

// thwaitesLayer follows the layer along a side until it separates, with the
// speed in a straight line between stations, over which ∫U⁵ds is exact.
func thwaitesLayer(side []station) laminarLayer {
	var layer laminarLayer
	integral := 0.0
	for i := 1; i < len(side); i++ {
		a, b := side[i-1], side[i]
		if b.speed <= 0 {
			return layer.endedAt(b)
		}
		sum := 0.0 // Σ Uₐᵏ·U_b⁵⁻ᵏ
		for k, power := 0, 1.0; k <= 5; k++ {
			sum = sum*b.speed + power
			power *= a.speed
		}
		integral += (b.run - a.run) * sum / 6
		now := laminarStation{station: b, thickness: thwaites * integral / math.Pow(b.speed, 6)}
		now.lambda = now.thickness * slopeOfSpeed(side, i)
		if now.lambda <= separation {
			return layer.separatedBefore(now)
		}
		layer = append(layer, now)
	}
	return layer
}

// slopeOfSpeed is dU/ds by the parabola through a station and its neighbours.
func slopeOfSpeed(side []station, i int) float64 {
	secant := func(k int) float64 {
		return (side[k+1].speed - side[k].speed) / (side[k+1].run - side[k].run)
	}
	if i == len(side)-1 {
		return secant(i - 1)
	}
	before, after := side[i].run-side[i-1].run, side[i+1].run-side[i].run
	return (secant(i-1)*after + secant(i)*before) / (before + after)
}

// separatedBefore ends a layer between its last station and one past separation.
func (l laminarLayer) separatedBefore(next laminarStation) laminarLayer {
	if len(l) == 0 {
		return laminarLayer{next}
	}
	last := l[len(l)-1]
	u := (last.lambda - separation) / (last.lambda - next.lambda)
	between := func(a, b float64) float64 { return a + u*(b-a) }
	return append(l, laminarStation{
		station{between(last.x, next.x), between(last.run, next.run), between(last.speed, next.speed)},
		between(last.thickness, next.thickness), separation,
	})
}

// endedAt ends a layer where the flow stops.
func (l laminarLayer) endedAt(s station) laminarLayer {
	if len(l) == 0 {
		return laminarLayer{{station: s}}
	}
	return l
}

// transition returns where a layer ends by Michel's criterion, at the latest
// where the layer itself does, as a share of the chord.
func (l laminarLayer) transition(reynolds float64) float64 {
	if len(l) == 0 {
		return 0
	}
	previous := 0.0
	for i, at := range l {
		now := at.beyondMichel(reynolds)
		if now >= 0 {
			x := at.x
			if i > 0 {
				u := previous / (previous - now)
				x = l[i-1].x + u*(at.x-l[i-1].x)
			}
			return min(max(x, 0), 1)
		}
		previous = now
	}
	return min(max(l[len(l)-1].x, 0), 1)
}

// beyondMichel is ln Re_θ less the logarithm of where transition begins.
func (l laminarStation) beyondMichel(reynolds float64) float64 {
	thick := l.speed * math.Sqrt(l.thickness*reynolds)
	run := l.speed * l.run * reynolds
	return math.Log(thick) - math.Log(michelFactor) - michelPower*math.Log(run)
}
