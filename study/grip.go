package study

import (
	"math"

	"foilwright/boat"
	"foilwright/frame"
	"foilwright/si"
)

// leastLever is how far from its pivot a handle is at least, over the boat's length: a
// handle nearer would turn with every tremble of a hand. It then sits on a line drawn
// out from the pivot, as on a tiller. Judgement.
const leastLever = 0.08

// nudge is the change of a setting that rates are taken over, in rad, m or 1: central
// differences of smooth geometry are good to some 1e-9 there.
const nudge = 1e-5

// grip returns where a control is taken hold of; nil where nothing of the boat that is
// drawn moves with it.
func (h *handles) grip(control, carrier int) *Place {
	for i := range h.b.Weights {
		w := &h.b.Weights[i]
		for axis, c := range w.Shift {
			if c == control {
				along := [3]frame.Vec[frame.Boat]{{X: 1}, {Y: 1}, {Z: 1}}[axis]
				at := h.pose().Point(w.Place(h.r.State.Settings))
				return &Place{At: at, Rate: h.pose().Vec(along), Pivot: at}
			}
		}
		if w.Swing.Control == control && w.Swing.Length == 0 {
			axis := h.pose().Vec(frame.Vec[frame.Boat](w.Swing.Axis))
			return h.turning(h.pose().Point(w.Place(h.r.State.Settings)), h.pose().Point(w.About), axis)
		}
	}
	if carrier < 0 {
		return nil
	}
	f := &h.b.Foils[carrier]
	for i := range f.Moves {
		if f.Moves[i].Control == control {
			return h.moved(f, &f.Moves[i], control)
		}
	}
	return h.flapped(f, control)
}

func (h *handles) pose() frame.Pose[frame.Track, frame.Boat] { return h.r.State.Attitude.Pose() }

// moved returns the grip of one move of a foil: of all path ends the one that it moves
// most.
func (h *handles) moved(f *boat.Foil, m *boat.Move, control int) *Place {
	settings := append([]float64(nil), h.r.State.Settings...)
	at := func(p frame.Point[boat.Local], by float64) frame.Point[frame.Track] {
		settings[control] = h.r.State.Settings[control] + by
		return h.pose().Point(f.Pose(settings).Point(p))
	}
	var best Place
	for j := range f.Pieces {
		for _, p := range []frame.Point[boat.Local]{f.Pieces[j].Path.End(), edge(&f.Pieces[j])} {
			rate := at(p, nudge).From(at(p, -nudge)).Times(1 / (2 * nudge))
			if rate.Norm() > 1.001*best.Rate.Norm() {
				best = Place{At: at(p, 0), Rate: rate}
			}
		}
	}
	if best.Rate.Norm() == 0 {
		return nil
	}
	best.Pivot = best.At
	if m.Kind == boat.Slide {
		return &best
	}
	axis := h.turn(f, settings, control)
	return h.turning(best.At, best.At.Add(axis.Cross(best.Rate)), axis)
}

// edge returns the trailing edge at the start of a piece, for what turns about its own
// line, such as a rudder.
func edge(p *boat.Piece) frame.Point[boat.Local] {
	return p.Path.Start().Add(frame.Vec[boat.Local]{X: -0.75 * p.Chord.At(0)})
}

// turn returns the axis in the track frame that a foil turns about as a control is set
// higher: that of the rotation from a little less to a little more.
func (h *handles) turn(f *boat.Foil, settings []float64, control int) frame.Vec[frame.Track] {
	matrix := func(by float64) [3][3]float64 {
		settings[control] = h.r.State.Settings[control] + by
		return frame.Then(h.pose().Turn, f.Pose(settings).Turn).Matrix()
	}
	more, less := matrix(nudge), matrix(-nudge)
	var turn [3][3]float64 // more times the transpose of less
	for i := range 3 {
		for j := range 3 {
			for k := range 3 {
				turn[i][j] += more[i][k] * less[j][k]
			}
		}
	}
	return frame.Vec[frame.Track]{X: turn[2][1] - turn[1][2], Y: turn[0][2] - turn[2][0], Z: turn[1][0] - turn[0][1]}.Unit()
}

// turning is a grip that turns about an axis through a pivot, drawn out to a lever
// that can be handled.
func (h *handles) turning(at, pivot frame.Point[frame.Track], axis frame.Vec[frame.Track]) *Place {
	arm := at.From(pivot)
	pivot = pivot.Add(axis.Times(arm.Dot(axis)))
	arm = at.From(pivot)
	length := arm.Norm()
	if length == 0 {
		return nil
	}
	if least := leastLever * h.b.Length; length < least {
		arm = arm.Times(least / length)
	}
	return &Place{At: pivot.Add(arm), Rate: axis.Cross(arm), Axis: axis, Pivot: pivot}
}

// flapped returns the grip of a flap: its trailing edge midway along.
func (h *handles) flapped(f *boat.Foil, control int) *Place {
	local := f.Pose(h.r.State.Settings)
	for j := range f.Pieces {
		p := &f.Pieces[j]
		if p.Flap.Share == 0 || p.Flap.Control != control {
			continue
		}
		share := (p.Flap.From + p.Flap.To) / 2
		q, tangent := p.Path.At(share)
		forward := frame.Vec[boat.Local]{X: 1}
		up := forward.Cross(tangent).Unit().Times(p.Upper)
		chord := p.Chord.At(share)
		hinge := q.Add(forward.Times((p.Flap.Share - 0.75) * chord))
		angle := si.Angle(p.Flap.Sign * h.r.State.Settings[control])
		back := forward.Times(-angle.Cos()).Plus(up.Times(-angle.Sin()))
		track := func(v frame.Vec[boat.Local]) frame.Vec[frame.Track] { return h.pose().Vec(local.Vec(v)) }
		axis := track(forward.Cross(up)).Times(p.Flap.Sign)
		pivot := h.pose().Point(local.Point(hinge))
		return h.turning(pivot.Add(track(back).Times(p.Flap.Share*chord)), pivot, axis)
	}
	return nil
}

// deck returns a point of the boat's centreplane on deck, at a share of the length
// from the middle of the hulls forward.
func (h *handles) deck(share float64) frame.Point[frame.Boat] {
	low, high, top := math.Inf(1), math.Inf(-1), 0.0
	for i := range h.b.Hulls {
		for _, s := range h.b.Hulls[i].Sections {
			low, high = math.Min(low, s.X+h.b.Hulls[i].Offset.X), math.Max(high, s.X+h.b.Hulls[i].Offset.X)
			top = math.Max(top, s.Points[len(s.Points)-1][1]+h.b.Hulls[i].Offset.Z)
		}
	}
	if low > high {
		return frame.Point[frame.Boat]{X: share * h.b.Length}
	}
	return frame.Point[frame.Boat]{X: (low+high)/2 + share*(high-low), Z: top}
}

// lie returns the grip of a figure of attitude: heel by the mast (or above the deck),
// pitch and leeway by the bow. The ride height stays as it is while they change.
func (h *handles) lie(name string, tack float64) *Place {
	grip := h.deck(0.5)
	if name == "heel" {
		grip = h.deck(0)
		grip.X, grip.Z = 0, grip.Z+0.3*h.b.Length
		for _, w := range h.b.Windages {
			if w.Follows < 0 && w.Top.Z > w.Bottom.Z && w.Top.Z > grip.Z {
				grip = w.Bottom.Toward(w.Top, math.Max(0, (grip.Z-w.Bottom.Z)/(w.Top.Z-w.Bottom.Z)))
				break
			}
		}
	}
	ride := h.r.RideHeight
	at := func(by float64) frame.Point[frame.Track] {
		a := h.r.State.Attitude
		switch name {
		case "heel":
			a.Heel += si.Angle(by * tack)
		case "pitch":
			a.Pitch += si.Angle(by)
		default:
			a.Leeway += si.Angle(by * tack)
		}
		return h.b.AtRideHeight(a, ride).Pose().Point(grip)
	}
	rate := at(nudge).From(at(-nudge)).Times(1 / (2 * nudge))
	// Frames turn by leeway, then pitch, then heel: each about the axes that those
	// before it have left.
	a := h.r.State.Attitude
	var axis frame.Vec[frame.Track]
	switch name {
	case "heel":
		axis = frame.TrackFromBoat(a.Leeway, a.Pitch, 0).Apply(frame.Vec[frame.Boat]{X: tack})
	case "pitch":
		axis = frame.TrackFromBoat(a.Leeway, 0, 0).Apply(frame.Vec[frame.Boat]{Y: 1})
	default:
		axis = frame.Vec[frame.Track]{Z: tack}
	}
	p := at(0)
	return h.turning(p, p.Add(axis.Cross(rate)), axis)
}
