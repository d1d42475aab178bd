package study

import (
	"foilwright/boat"
	"foilwright/frame"
	"foilwright/si"
	"foilwright/trim"
)

// Shape is where the parts of a boat are in the track frame, m.
type Shape struct {
	Hulls   []HullShape  `json:"hulls"`
	Foils   []FoilShape  `json:"foils"`
	Bodies  []BodyShape  `json:"bodies"`
	Weights []WeightSpot `json:"weights"`
	Spars   []SparShape  `json:"spars"`
	Sails   []SailShape  `json:"sails"`
}

// HullShape is the sections of one hull, bow to stern, each a closed outline.
type HullShape struct {
	Name     string                       `json:"name"`
	Sections [][]frame.Point[frame.Track] `json:"sections_m"`
	Deck     []frame.Point[frame.Track]   `json:"deck_m"`  // the sections' upper corners, closed
	Water    []frame.Point[frame.Track]   `json:"water_m"` // where the undisturbed surface cuts the sections, closed; empty where none is cut
}

// FoilShape is the pieces of one foil.
type FoilShape struct {
	Name   string       `json:"name"`
	Pieces []PieceShape `json:"pieces"`
}

// PieceShape is the quarter-chord line of a piece, from its start outward, with its
// edges. Where the undisturbed surface cuts the line there is a point of it, so that
// between points a piece is wet or dry.
type PieceShape struct {
	Name      string                     `json:"name"`
	Line      []frame.Point[frame.Track] `json:"line_m"`
	Leading   []frame.Point[frame.Track] `json:"leading_m"`
	Trailing  []frame.Point[frame.Track] `json:"trailing_m"`
	Thickness []float64                  `json:"thickness_m"` // of its sections, at each point of the line
	Wet       []bool                     `json:"wet"`         // each length between two points
}

// BodyShape is one body of revolution.
type BodyShape struct {
	Name     string                   `json:"name"`
	Middle   frame.Point[frame.Track] `json:"middle_m"`
	Length   float64                  `json:"length_m"`
	Diameter float64                  `json:"diameter_m"`
}

// WeightSpot is one weight at its place.
type WeightSpot struct {
	Name  string                   `json:"name"`
	Mass  float64                  `json:"mass_kg"`
	Place frame.Point[frame.Track] `json:"place_m"`
	At    frame.Point[frame.Boat]  `json:"at_m"`  // as the file places it
	Free  [3]bool                  `json:"moved"` // along which of the boat's axes a control moves it instead; all where it swings
}

// SparShape is the line that an area in the wind is spread along: a mast, a stay.
type SparShape struct {
	Name   string                   `json:"name"`
	Bottom frame.Point[frame.Track] `json:"bottom_m"`
	Top    frame.Point[frame.Track] `json:"top_m"`
}

// SailShape is the corners of a sail that is up, and where its force acts.
type SailShape struct {
	Name   string                   `json:"name"`
	Tack   frame.Point[frame.Track] `json:"tack_m"`
	Head   frame.Point[frame.Track] `json:"head_m"`
	Clew   frame.Point[frame.Track] `json:"clew_m"` // on the centreplane, as unsheeted
	Centre frame.Point[frame.Track] `json:"centre_of_effort_m"`
}

// along is how many points a piece's line is drawn with, its corners besides.
const along = 24

// shapeOf returns how a boat lies in the state of a result.
func shapeOf(b *boat.Boat, r *trim.Result) Shape {
	pose, settings := r.State.Attitude.Pose(), r.State.Settings
	s := Shape{Hulls: hullShapes(b, pose), Foils: []FoilShape{}, Bodies: []BodyShape{}, Weights: []WeightSpot{}, Spars: []SparShape{}, Sails: []SailShape{}}
	for i := range b.Foils {
		s.Foils = append(s.Foils, foilShape(&b.Foils[i], pose, settings))
	}
	for i := range b.Bodies {
		s.Bodies = append(s.Bodies, BodyShape{b.Bodies[i].Name, pose.Point(b.BodyPlace(i, settings)), b.Bodies[i].Length, b.Bodies[i].Diameter})
	}
	for i := range b.Weights {
		s.Weights = append(s.Weights, weightSpot(&b.Weights[i], pose, settings))
	}
	for _, w := range b.Windages {
		if w.Follows < 0 && w.Top.From(w.Bottom).Norm() > 0 {
			s.Spars = append(s.Spars, SparShape{w.Name, pose.Point(w.Bottom), pose.Point(w.Top)})
		}
	}
	for i := range b.Sails {
		for _, told := range r.Sails {
			if told.Name != b.Sails[i].Name {
				continue
			}
			sail := &b.Sails[i]
			head := sail.Tack.Add(frame.Vec[frame.Boat]{X: -sail.Lean.Sin() * sail.Luff, Z: sail.Lean.Cos() * sail.Luff})
			clew := sail.Tack.Add(frame.Vec[frame.Boat]{X: -sail.Foot})
			s.Sails = append(s.Sails, SailShape{sail.Name, pose.Point(sail.Tack), pose.Point(head), pose.Point(clew), pose.Point(told.CentreOfEffort)})
		}
	}
	return s
}

func weightSpot(w *boat.Weight, pose frame.Pose[frame.Track, frame.Boat], settings []float64) WeightSpot {
	spot := WeightSpot{Name: w.Name, Mass: w.Mass, Place: pose.Point(w.Place(settings)), At: w.At}
	for axis, c := range w.Shift {
		spot.Free[axis] = c >= 0 || w.Swing.Control >= 0
	}
	return spot
}

func hullShapes(b *boat.Boat, pose frame.Pose[frame.Track, frame.Boat]) []HullShape {
	hulls := []HullShape{}
	for _, h := range b.Hulls {
		shape := HullShape{Name: h.Name, Sections: [][]frame.Point[frame.Track]{}}
		var decks, waters [2][]frame.Point[frame.Track] // port, then starboard
		for _, section := range h.Sections {
			n := len(section.Points)
			outline := make([]frame.Point[frame.Track], 2*n)
			for i, p := range section.Points {
				at := func(y float64) frame.Point[frame.Track] {
					return pose.Point(frame.Point[frame.Boat]{X: section.X, Y: y, Z: p[1]}.Add(h.Offset))
				}
				outline[n-1-i], outline[n+i] = at(p[0]), at(-p[0])
			}
			shape.Sections = append(shape.Sections, outline)
			decks[0], decks[1] = append(decks[0], outline[0]), append(decks[1], outline[2*n-1])
			if port, starboard, cut := waterline(outline); cut {
				waters[0], waters[1] = append(waters[0], port), append(waters[1], starboard)
			}
		}
		shape.Deck, shape.Water = around(decks), around(waters)
		hulls = append(hulls, shape)
	}
	return hulls
}

// waterline returns where the surface cuts a section's closed outline, on its port
// and its starboard side.
func waterline(outline []frame.Point[frame.Track]) (port, starboard frame.Point[frame.Track], cut bool) {
	for i, p := range outline {
		q := outline[(i+1)%len(outline)]
		if (p.Z < 0) == (q.Z < 0) {
			continue
		}
		at := p.Toward(q, p.Z/(p.Z-q.Z))
		if !cut || at.Y > port.Y {
			port = at
		}
		if !cut || at.Y < starboard.Y {
			starboard = at
		}
		cut = true
	}
	return port, starboard, cut
}

// around joins two sides, both from the bow aft, to a closed outline.
func around(sides [2][]frame.Point[frame.Track]) []frame.Point[frame.Track] {
	all := append([]frame.Point[frame.Track]{}, sides[0]...)
	for i := len(sides[1]) - 1; i >= 0; i-- {
		all = append(all, sides[1][i])
	}
	return all
}

func foilShape(f *boat.Foil, pose frame.Pose[frame.Track, frame.Boat], settings []float64) FoilShape {
	local := f.Pose(settings)
	shape := FoilShape{Name: f.Name, Pieces: []PieceShape{}}
	for i := range f.Pieces {
		piece := &f.Pieces[i]
		drawn := PieceShape{Name: piece.Name, Wet: []bool{}}
		height := func(share float64) float64 {
			p, _ := piece.Path.At(share)
			return pose.Point(local.Point(p)).Z
		}
		for k := range along + 1 {
			share := float64(k) / along
			if k > 0 {
				last := float64(k-1) / along
				if from, to := height(last), height(share); (from < 0) != (to < 0) {
					drawn.add(piece, last+(share-last)*from/(from-to), local, pose)
				}
			}
			drawn.add(piece, share, local, pose)
		}
		for k := range len(drawn.Line) - 1 {
			drawn.Wet = append(drawn.Wet, drawn.Line[k].Z+drawn.Line[k+1].Z < 0)
		}
		shape.Pieces = append(shape.Pieces, drawn)
	}
	return shape
}

// add adds the section at a share of a piece's path. Chords lie along the boat's x axis
// at zero moves, turned by twist.
func (d *PieceShape) add(piece *boat.Piece, share float64, local frame.Pose[frame.Boat, boat.Local], pose frame.Pose[frame.Track, frame.Boat]) {
	p, tangent := piece.Path.At(share)
	forward := frame.Vec[boat.Local]{X: 1}
	up := forward.Cross(tangent).Unit().Times(piece.Upper)
	nose := forward.Times(si.Angle(piece.Twist.At(share)).Cos()).Plus(up.Times(si.Angle(piece.Twist.At(share)).Sin()))
	chord := piece.Chord.At(share)
	at := func(back float64) frame.Point[frame.Track] {
		return pose.Point(local.Point(p.Add(nose.Times(-back * chord))))
	}
	d.Line, d.Leading, d.Trailing = append(d.Line, at(0)), append(d.Leading, at(-0.25)), append(d.Trailing, at(0.75))
	d.Thickness = append(d.Thickness, chord*piece.Section.Thickness)
}
