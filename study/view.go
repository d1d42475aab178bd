package study

import (
	"context"

	"foilwright/boat"
	"foilwright/frame"
	"foilwright/trim"
)

// View asks for one boat's best trim together with her shape in that state, for
// drawings of her.
type View struct {
	Sailing
}

// Verb names the question.
func (*View) Verb() string { return "view" }

// ViewResult is a best trim and how the boat then lies.
type ViewResult struct {
	Trim  *trim.Result `json:"trim"` // where there is no answer, the best attempt
	Shape Shape        `json:"shape"`
}

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
}

// FoilShape is the pieces of one foil.
type FoilShape struct {
	Name   string       `json:"name"`
	Pieces []PieceShape `json:"pieces"`
}

// PieceShape is the quarter-chord line of a piece, from its start outward.
type PieceShape struct {
	Name      string                     `json:"name"`
	Line      []frame.Point[frame.Track] `json:"line_m"`
	Thickness []float64                  `json:"thickness_m"` // of its sections, at each point of the line
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
}

// SparShape is the line that an area in the wind is spread along: a mast, a stay.
type SparShape struct {
	Name   string                   `json:"name"`
	Bottom frame.Point[frame.Track] `json:"bottom_m"`
	Top    frame.Point[frame.Track] `json:"top_m"`
}

// SailShape is the luff of a sail that is up, and where its force acts.
type SailShape struct {
	Name   string                   `json:"name"`
	Tack   frame.Point[frame.Track] `json:"tack_m"`
	Head   frame.Point[frame.Track] `json:"head_m"`
	Centre frame.Point[frame.Track] `json:"centre_of_effort_m"`
}

func (q *View) ask(ctx context.Context, d *desk) (any, Verdict, error) {
	b, err := d.one(q.Verb())
	if err != nil {
		return nil, "", err
	}
	answer, verdict, err := (&Trim{Sailing: q.Sailing}).ask(ctx, d)
	if err != nil {
		return nil, "", err
	}
	views := []*ViewResult{}
	for _, r := range answer.([]*trim.Result) {
		views = append(views, &ViewResult{Trim: r, Shape: shapeOf(b, r)})
	}
	return views, verdict, nil
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
		s.Weights = append(s.Weights, WeightSpot{b.Weights[i].Name, b.Weights[i].Mass, pose.Point(b.Weights[i].Place(settings))})
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
			s.Sails = append(s.Sails, SailShape{sail.Name, pose.Point(sail.Tack), pose.Point(head), pose.Point(told.CentreOfEffort)})
		}
	}
	return s
}

func hullShapes(b *boat.Boat, pose frame.Pose[frame.Track, frame.Boat]) []HullShape {
	hulls := []HullShape{}
	for _, h := range b.Hulls {
		shape := HullShape{Name: h.Name, Sections: [][]frame.Point[frame.Track]{}}
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
		}
		hulls = append(hulls, shape)
	}
	return hulls
}

func foilShape(f *boat.Foil, pose frame.Pose[frame.Track, frame.Boat], settings []float64) FoilShape {
	local := f.Pose(settings)
	shape := FoilShape{Name: f.Name, Pieces: []PieceShape{}}
	for i := range f.Pieces {
		piece := &f.Pieces[i]
		drawn := PieceShape{Name: piece.Name}
		for k := range along + 1 {
			share := float64(k) / along
			p, _ := piece.Path.At(share)
			drawn.Line = append(drawn.Line, pose.Point(local.Point(p)))
			drawn.Thickness = append(drawn.Thickness, piece.Chord.At(share)*piece.Section.Thickness)
		}
		shape.Pieces = append(shape.Pieces, drawn)
	}
	return shape
}
