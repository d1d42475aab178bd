package boat

import (
	"math"
	"slices"

	"foilwright/frame"
	"foilwright/si"
)

// Attitude is how the boat lies to the track and the water.
type Attitude struct {
	Leeway si.Angle // positive with the bow to port of the track
	Heel   si.Angle // positive starboard down
	Pitch  si.Angle // positive bow down
	Height float64  // of the datum above the undisturbed water, m
}

// State is all that varies of a boat: speed, attitude, settings of its controls.
type State struct {
	Speed    si.Speed // through the water, along the track
	Attitude Attitude
	Settings []float64 // one for each of Boat.Controls, SI
}

// Clone returns a copy that shares nothing.
func (s State) Clone() State {
	s.Settings = append([]float64(nil), s.Settings...)
	return s
}

// Datum returns where the boat's datum is.
func (a Attitude) Datum() frame.Point[frame.Track] { return frame.Point[frame.Track]{Z: a.Height} }

// Pose returns where the boat frame stands in the track frame.
func (a Attitude) Pose() frame.Pose[frame.Track, frame.Boat] {
	return frame.Pose[frame.Track, frame.Boat]{
		Turn:   frame.TrackFromBoat(a.Leeway, a.Pitch, a.Heel),
		Origin: a.Datum(),
	}
}

// LowestHull returns the height of the hulls' lowest point above the datum's
// own height, m (negative below it), in an attitude. A boat without hull
// sections answers with the datum itself.
func (b *Boat) LowestHull(a Attitude) float64 {
	trackFromBoat := frame.TrackFromBoat(a.Leeway, a.Pitch, a.Heel)
	lowest := math.Inf(1)
	for i := range b.Hulls {
		h := &b.Hulls[i]
		for _, s := range h.Sections {
			for _, p := range s.Points {
				for _, y := range [2]float64{p[0], -p[0]} {
					v := frame.Vec[frame.Boat]{X: s.X, Y: y, Z: p[1]}.Plus(h.Offset)
					lowest = min(lowest, trackFromBoat.Z(v))
				}
			}
		}
	}
	if math.IsInf(lowest, 1) {
		return 0
	}
	return lowest
}

// RideHeight returns the height of the hulls' lowest point above the
// undisturbed water, m.
func (b *Boat) RideHeight(a Attitude) float64 { return a.Height + b.LowestHull(a) }

// AtRideHeight returns the attitude with the datum as high as the ride height
// asks, m.
func (b *Boat) AtRideHeight(a Attitude, rideHeight float64) Attitude {
	a.Height = rideHeight - b.LowestHull(a)
	return a
}

// ObeyLaws sets every control that follows a law to what the law asks at the
// state's ride height. It changes the state's settings in place.
func (b *Boat) ObeyLaws(s *State) {
	for i := range b.Controls {
		if law := b.Controls[i].Law; law != nil {
			s.Settings[i] = law.At(b.RideHeight(s.Attitude))
		}
	}
}

// amount returns how far a move has gone under settings.
func (m *Move) amount(settings []float64) float64 {
	if m.Control < 0 {
		return m.Fixed
	}
	return settings[m.Control]
}

// Pose returns where a foil's own frame stands in the boat's under settings.
// Moves act from the root of the list outward: the first listed carries the rest.
func (f *Foil) Pose(settings []float64) frame.Pose[frame.Boat, Local] {
	turn := frame.About(frame.Vec[Local]{}, 0)
	var shift frame.Vec[Local]
	for i := range f.Moves {
		m := &f.Moves[i]
		a := m.amount(settings)
		if m.Kind == Slide {
			shift = shift.Plus(turn.Apply(m.Axis.Times((a - 1) * m.Length)))
			continue
		}
		turn = frame.Then(turn, frame.About(m.Axis, si.Angle(a)))
	}
	axes := frame.Rename[frame.Boat, Local](turn)
	return frame.Pose[frame.Boat, Local]{Turn: axes, Origin: f.Root.Add(frame.Vec[frame.Boat](shift))}
}

// Place returns where a weight is under settings, m.
func (w *Weight) Place(settings []float64) frame.Point[frame.Boat] {
	p := w.At
	for axis, c := range w.Shift {
		if c < 0 {
			continue
		}
		switch axis {
		case 0:
			p.X = settings[c]
		case 1:
			p.Y = settings[c]
		case 2:
			p.Z = settings[c]
		}
	}
	if a := w.Swing.amount(settings); a != 0 {
		turn := frame.Rename[frame.Boat, frame.Boat](frame.About(frame.Vec[frame.Boat](w.Swing.Axis), si.Angle(a)))
		p = w.About.Add(turn.Apply(p.From(w.About)))
	}
	return p
}

// HasFlap tells whether a piece of the foil has a flap.
func (f *Foil) HasFlap() bool {
	return slices.ContainsFunc(f.Pieces, func(p Piece) bool { return p.Flap.Share > 0 })
}

// MassPlace returns where a foil's own mass is under settings, m.
func (f *Foil) MassPlace(settings []float64) frame.Point[frame.Boat] {
	p, _ := f.Pieces[f.MassPiece].Path.At(f.MassShare)
	return f.Pose(settings).Point(p)
}

// Place returns where the middle of a body is under settings, m.
func (b *Boat) BodyPlace(body int, settings []float64) frame.Point[frame.Boat] {
	d := &b.Bodies[body]
	if d.Foil < 0 {
		return d.At
	}
	f := &b.Foils[d.Foil]
	p, _ := f.Pieces[d.Piece].Path.At(d.Share)
	return f.Pose(settings).Point(p)
}
