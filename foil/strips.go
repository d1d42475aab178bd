package foil

import (
	"math"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/lattice"
	"foilwright/si"
)

// Strip is one strip of a wet piece with its load, as Loads found it last.
type Strip struct {
	Foil, Piece int
	Share       float64                  // of the piece's path, at the strip's angular midpoint
	Place       frame.Point[frame.Track] // quarter chord, m
	Chord       float64                  // m
	Width       float64                  // across the stream, m
	Depth       float64                  // of the quarter chord, m
	Circulation float64                  // m²/s, positive for a force towards the upper side
	Lift        float64                  // lift coefficient on the strip's chord
	Largest     float64                  // largest usable lift coefficient of its section
	Flap        float64                  // its flap's angle, rad
	Force       frame.Vec[frame.Track]   // lattice force, its induced drag along x, N
	Cavitation  Cavitation               // filled in by Cavitate
}

// Cavitation is how a strip stands against cavitation. Known is false where its
// section's pressure peaks are not known.
type Cavitation struct {
	Known  bool
	Number float64  // (pressure above vapour pressure at its depth) / dynamic pressure
	Peak   float64  // pressure peak, −Cp, positive
	Margin float64  // Number less Peak; negative where vapour pressure is undercut
	First  si.Speed // at which it would first cavitate carrying its present force
}

// Strips returns the strips of the state that Loads saw last, outward piece by
// piece. It is the table that margins, centres and span plots are read from.
func Strips(b *boat.Boat, s boat.State, water fluid.Water, w *Workspace) []Strip {
	speed := s.Speed.MetresPerSecond()
	momentum := water.Density * speed * speed
	all := make([]Strip, 0, len(w.strips))
	for i := range w.pieces {
		p := &w.pieces[i]
		for k := p.first; k < p.first+p.n; k++ {
			st := &w.strips[k]
			cl, circulation := w.lift(st)
			row := Strip{
				Foil: p.foil, Piece: p.piece, Share: st.share, Place: frame.PointOf[frame.Track](st.quarter),
				Chord: st.chord, Width: st.width, Depth: -st.quarter[2],
				Circulation: circulation * speed, Lift: cl, Largest: p.placed.piece.Section.LargestLift,
			}
			if f := &p.placed.piece.Flap; f.Share > 0 && st.share >= f.From && st.share <= f.To {
				row.Flap = f.Sign * s.Settings[f.Control]
			}
			for r := range w.Options.Rows {
				row.Force = row.Force.Plus(frame.VecOf[frame.Track](w.force[st.panels[0]+r*st.panels[1]]).Times(momentum))
			}
			all = append(all, row)
		}
	}
	return all
}

// Totals returns the lattice's sums of the state that Loads saw last, per ρV², m².
func (w *Workspace) Totals() lattice.Totals { return w.totals }

// NearField returns the induced drag of that state as it is found at the bound
// vortices, per ρV², m²: beside the far wake's it shows the error of the lattice.
// It is nothing where no foil is wet.
func (w *Workspace) NearField() (float64, error) {
	if len(w.strips) == 0 {
		return 0, nil
	}
	return w.lattice.NearField(w.circulation)
}

// RootBending returns the moment of a foil's water loads about its root, N·m:
// the length of its part across the boat's x axis, which bends the arm. Weight,
// buoyancy and inertia of the foil itself are left out.
func RootBending(b *boat.Boat, s boat.State, foil int, items []boat.Item) float64 {
	pose := s.Attitude.Pose()
	root := pose.Point(b.Foils[foil].Root)
	total := frame.Load[frame.Track]{About: root}
	for i := range items {
		if items[i].Part == b.Foils[foil].Name && items[i].Cause.Medium() == boat.Water {
			total = total.Plus(items[i].Load)
		}
	}
	m := pose.Inverse().Vec(total.Moment)
	return math.Abs(m.X)
}
