package foil

import (
	"math"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/section"
	"foilwright/si"
)

// NoMargin is the margin of what cannot break its limit: a strip out of the
// water, a section whose pressure peak is not known.
const NoMargin = 1e3

// cavitation returns a strip's margin against cavitation at a speed with the
// lattice force it carries there: cavitation number less the section's pressure
// peak, both positive. The flow along the chord is taken at the boat's speed. near is
// a workspace that holds a state a tiny step away; nil for none.
func (w *Workspace) cavitation(p *wetPiece, strip int, near *Workspace, settings []float64, lift float64, speed si.Speed, water *fluid.Water, airPressure float64) (margin, number, peak float64) {
	st := &w.strips[strip]
	line, deflection := &p.placed.memory.peaks[0], si.Angle(0)
	if st.covered >= 0.5 {
		line, deflection = &p.placed.memory.peaks[1], flapAt(p.placed.piece, settings).Deflection
	}
	peak = peakOn(p, strip, near, line, deflection, lift)
	number = water.CavitationNumber(speed, -st.quarter[2], airPressure)
	return number - peak, number, peak
}

// peakSlope is the pressure peak on a strip of a state that is held, positive, and its
// slope by lift; known once it was asked for.
type peakSlope struct {
	known             bool
	flap              si.Angle
	lift, peak, slope float64
}

// peakOn returns the pressure peak on a strip, positive; near a state that is held, to
// first order in how lift differs.
func peakOn(p *wetPiece, strip int, near *Workspace, line *section.PeakLine, flap si.Angle, lift float64) float64 {
	if near == nil {
		line.Set(p.placed.piece.Peaks, flap)
		return -line.Peak(lift)
	}
	k := &near.peakSlopes[strip]
	if !k.known || k.flap != flap || !(math.Abs(lift-k.lift) <= tiny) {
		line.Set(p.placed.piece.Peaks, flap)
		peak, slope := line.Tangent(lift)
		*k = peakSlope{true, flap, lift, -peak, -slope}
	}
	return k.peak + k.slope*(lift-k.lift)
}

// Cavitate fills in how strips, as Strips gave them for the state that Loads saw
// last, stand against cavitation under an air pressure, Pa.
func Cavitate(s boat.State, water fluid.Water, airPressure float64, w *Workspace, strips []Strip) {
	n := 0
	for i := range w.pieces {
		p := &w.pieces[i]
		piece := p.placed.piece
		for k := p.first; k < p.first+p.n; k++ {
			c := &strips[n].Cavitation
			n++
			if piece.Peaks == nil || s.Speed == 0 {
				continue
			}
			lift, _ := w.lift(&w.strips[k])
			c.Known = true
			c.Margin, c.Number, c.Peak = w.cavitation(p, k, nil, s.Settings, lift, s.Speed, &water, airPressure)
			c.First = w.firstCavitation(p, k, s.Settings, lift, s.Speed, water, airPressure)
		}
	}
}

// CavitationMargins writes the cavitation margins of the strips of one piece in
// the state that Loads saw last, and NoMargin where fewer strips are wet than
// margins asked for: a margin below 0 means that the pressure peak is under the
// vapour pressure.
func CavitationMargins(b *boat.Boat, s boat.State, water fluid.Water, airPressure float64, foil, piece int, w *Workspace, margins []float64) {
	for i := range margins {
		margins[i] = NoMargin
	}
	p := &b.Foils[foil].Pieces[piece]
	if p.Peaks == nil {
		return
	}
	n, near := 0, w.neighbour()
	for i := range w.pieces {
		wp := &w.pieces[i]
		if wp.foil != foil || wp.piece != piece {
			continue
		}
		for k := wp.first; k < wp.first+wp.n && n < len(margins); k++ {
			lift, _ := w.lift(&w.strips[k])
			margins[n], _, _ = w.cavitation(wp, k, near, s.Settings, lift, s.Speed, &water, airPressure)
			margins[n] = math.Min(margins[n], NoMargin)
			n++
		}
	}
}

// HingeMoment returns the moment of the water about the hinge of a foil's flaps in
// the state that Loads saw last, N·m, positive pushing trailing edges towards the
// lower sides, as a positive flap angle does. Ideal flow: a real flap's is a fifth
// to a third less (common practice). It is 0 where the foil has no flap, or its
// sections' hinge moments are not known.
func HingeMoment(s boat.State, water fluid.Water, foil int, w *Workspace) float64 {
	q, sum := water.DynamicPressure(s.Speed), 0.0
	for i := range w.pieces {
		p := &w.pieces[i]
		piece := p.placed.piece
		if p.foil != foil || piece.Hinge == nil {
			continue
		}
		for k := p.first; k < p.first+p.n; k++ {
			st := &w.strips[k]
			covered := st.covered
			if covered == 0 {
				continue
			}
			lift, _ := w.lift(st)
			chord := piece.Flap.Share * st.chord
			sum += q * chord * chord * st.width * covered * piece.Hinge.Moment(lift, flapAt(piece, s.Settings).Deflection)
		}
	}
	return sum
}

// firstCavitation returns the speed at which a strip would first cavitate if it
// went on carrying its present force: its lift coefficient falls as speed
// squared rises. It is 0 where the strip cavitates however slow, and the fastest
// that is looked at, 60 m/s, where it does not.
func (w *Workspace) firstCavitation(p *wetPiece, strip int, settings []float64, lift float64, at si.Speed, water fluid.Water, airPressure float64) si.Speed {
	const slow, fast = 1.0, 60.0
	margin := func(v float64) float64 {
		ratio := at.MetresPerSecond() / v
		m, _, _ := w.cavitation(p, strip, nil, settings, lift*ratio*ratio, si.Speed(v), &water, airPressure)
		return m
	}
	// Slow speeds ask for much lift and fast ones leave little number: the strip
	// is clear in between, if anywhere. Look upward from its present speed, or
	// from where it is clearest.
	clear := at.MetresPerSecond()
	for v := slow; v <= fast && margin(clear) < 0; v *= 1.05 {
		if margin(v) > margin(clear) {
			clear = v
		}
	}
	if margin(clear) < 0 {
		return 0
	}
	low, high := clear, clear
	for margin(high) >= 0 {
		if high >= fast {
			return fast
		}
		low, high = high, math.Min(fast, 1.05*high)
	}
	for range 40 {
		mid := (low + high) / 2
		if margin(mid) >= 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return si.Speed(low)
}
