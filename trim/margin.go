package trim

import (
	"math"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/foil"
	"foilwright/frame"
	"foilwright/si"
)

// Margin is how one piece of a foil in the water stands against what its loads
// know nothing of, each told at the strip where it is least, or where it comes
// out of the water.
type Margin struct {
	Part        string             `json:"part"`
	Piece       string             `json:"piece"`
	LargestLift *LiftMargin        `json:"largest_lift"` // nil where the piece is dry
	Cavitation  *CavitationMargin  `json:"cavitation"`   // nil where it is dry, or its section's pressures are not known
	Ventilation *VentilationMargin `json:"ventilation"`  // nil where it does not pierce the surface
	Tip         *TipDepth          `json:"tip"`          // nil where another piece begins at its end
}

// StripPlace is where on a piece a strip is.
type StripPlace struct {
	Share float64                  `json:"share"`   // of the piece's path, 0 at its start
	Depth float64                  `json:"depth_m"` // of the quarter chord under the undisturbed surface
	Place frame.Point[frame.Track] `json:"place_m"`
}

// LiftMargin is the margin to stall.
type LiftMargin struct {
	StripPlace
	Lift    float64 `json:"lift_coefficient"`
	Largest float64 `json:"largest_lift_coefficient"` // usable, to the side that the strip lifts to
	Margin  float64 `json:"margin"`                   // how much lift is in hand; negative past it
}

// CavitationMargin is the margin to cavitation.
type CavitationMargin struct {
	StripPlace
	Number float64   `json:"cavitation_number"`
	Peak   float64   `json:"pressure_peak"`        // −Cp, positive
	Margin float64   `json:"margin"`               // number less peak; negative where the strip cavitates
	First  *si.Speed `json:"first_cavitation_mps"` // at which the first strip of the piece would cavitate with its present force; 0: at any; nil: at none up to 60 m/s
}

// VentilationMargin is the margin to ventilation, as foil.Piercing tells it.
type VentilationMargin struct {
	StripPlace
	Incidence si.Angle `json:"incidence_rad"` // above zero lift
	Boundary  si.Angle `json:"boundary_rad"`  // at its depth Froude number
	Margin    si.Angle `json:"margin_rad"`    // negative where air may be drawn down
}

// TipDepth is how deep a free tip is.
type TipDepth struct {
	Depth  float64 `json:"depth_m"` // under the undisturbed surface, negative above it
	Chords float64 `json:"chords"`  // depth over the chord at the tip
}

// Hinge is the moment of the water about the hinge of a foil's flaps.
type Hinge struct {
	Part   string  `json:"part"`
	Moment float64 `json:"hinge_moment_Nm"` // positive pushing trailing edges towards the lower sides
}

// MarginsOf returns the margins of every piece of the foils that are down, from
// the strips of a state with their cavitation filled in, and its piercings.
func MarginsOf(b *boat.Boat, s boat.State, strips []foil.Strip, piercings []foil.Piercing) []Margin {
	all := []Margin{}
	outlines := foil.Outlines(b, s)
	for _, i := range foil.Down(b, s) {
		f := &b.Foils[i]
		for j := range f.Pieces {
			m := Margin{Part: f.Name, Piece: f.Pieces[j].Name}
			for k := range strips {
				if st := &strips[k]; st.Foil == i && st.Piece == j {
					m.take(st, f.Pieces[j].Section.LargestDownLift)
				}
			}
			for k := range piercings {
				if at := &piercings[k]; at.Foil == i && at.Piece == j {
					m.pierce(at)
				}
			}
			for k := range outlines {
				if o := &outlines[k]; o.Foil == i && o.Piece == j && o.FreeTip == foil.FreeTip {
					m.Tip = &TipDepth{Depth: o.Depth(), Chords: o.Depth() / f.Pieces[j].Chord.At(1)}
				}
			}
			if m.LargestLift != nil || m.Tip != nil {
				all = append(all, m)
			}
		}
	}
	return all
}

// take counts a strip in: the least of each margin stays. largestDown is its
// section's largest usable lift coefficient downward, negative.
func (m *Margin) take(st *foil.Strip, largestDown float64) {
	at := StripPlace{Share: st.Share, Depth: st.Depth, Place: st.Place}
	lift := LiftMargin{StripPlace: at, Lift: st.Lift, Largest: st.Largest, Margin: st.Largest - st.Lift}
	if st.Lift < 0 {
		lift.Largest, lift.Margin = largestDown, st.Lift-largestDown
	}
	if m.LargestLift == nil || lift.Margin < m.LargestLift.Margin {
		m.LargestLift = &lift
	}
	if c := &st.Cavitation; c.Known {
		first := earlier(m.Cavitation, c.First)
		if m.Cavitation == nil || c.Margin < m.Cavitation.Margin {
			m.Cavitation = &CavitationMargin{StripPlace: at, Number: c.Number, Peak: c.Peak, Margin: c.Margin}
		}
		m.Cavitation.First = first
	}
}

// pierce counts a piercing in: the least margin stays.
func (m *Margin) pierce(at *foil.Piercing) {
	if m.Ventilation == nil || at.Margin < m.Ventilation.Margin {
		m.Ventilation = &VentilationMargin{
			StripPlace: StripPlace{Share: at.Share, Depth: at.Depth, Place: at.Place},
			Incidence:  at.Incidence, Boundary: at.Boundary, Margin: at.Margin,
		}
	}
}

// fastestLooked is up to where cavitation is looked for by package foil.
const fastestLooked = si.Speed(60)

// earlier returns the lower of the speed of first cavitation so far and
// another's, nil where both are beyond what is looked for.
func earlier(so *CavitationMargin, first si.Speed) *si.Speed {
	if so != nil && so.First != nil && *so.First <= first {
		return so.First
	}
	if first >= fastestLooked {
		return nil
	}
	return &first
}

// HingesOf returns the hinge moment of every foil that is down and has a flap
// whose section's hinge moment is known, in the state that foil.Loads saw last.
func HingesOf(b *boat.Boat, s boat.State, water fluid.Water, w *foil.Workspace) []Hinge {
	all := []Hinge{}
	for _, i := range foil.Down(b, s) {
		for j := range b.Foils[i].Pieces {
			if b.Foils[i].Pieces[j].Hinge != nil {
				all = append(all, Hinge{Part: b.Foils[i].Name, Moment: foil.HingeMoment(s, water, i, w)})
				break
			}
		}
	}
	return all
}

// LeastLiftMargin, LeastCavitation and LeastVentilation return the piece whose
// margin is the least, nil where none has one.
func LeastLiftMargin(all []Margin) *Margin {
	return least(all, func(m *Margin) (float64, bool) {
		if m.LargestLift == nil {
			return math.NaN(), false
		}
		return m.LargestLift.Margin, true
	})
}

// LeastCavitation is described at LeastLiftMargin.
func LeastCavitation(all []Margin) *Margin {
	return least(all, func(m *Margin) (float64, bool) {
		if m.Cavitation == nil {
			return math.NaN(), false
		}
		return m.Cavitation.Margin, true
	})
}

// LeastVentilation is described at LeastLiftMargin.
func LeastVentilation(all []Margin) *Margin {
	return least(all, func(m *Margin) (float64, bool) {
		if m.Ventilation == nil {
			return math.NaN(), false
		}
		return m.Ventilation.Margin.Radians(), true
	})
}

func least(all []Margin, read func(*Margin) (float64, bool)) *Margin {
	var best *Margin
	lowest := math.Inf(1)
	for i := range all {
		if v, ok := read(&all[i]); ok && v < lowest {
			best, lowest = &all[i], v
		}
	}
	return best
}
