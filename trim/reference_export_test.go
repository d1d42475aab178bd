package trim

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"testing"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/foil"
	"foilwright/lattice"
	"foilwright/sail"
	"foilwright/section"
	"foilwright/solve"
)

// What bench/reference is handed: one way of sailing one boat as plain numbers,
// SI. Fields are written by their Go names; a boat is written as package boat has
// it, and what its types keep to themselves stands beside it.
type referenceProblem struct {
	Boat     boat.Boat
	Pieces   []referencePiece
	Set      int
	Weight   float64 // N
	Wind     referenceWind
	Water    referenceWater
	Air      referenceAir
	Options  referenceOptions
	Unit     float64 // of the objective, m/s
	Settings []float64
	Unknowns []referenceVariable
	Rows     []referenceRow
	Starts   [][]float64 // by variable
	Optimum  referenceOptimum
	States   []referenceState
}

type referencePiece struct {
	Foil, Piece                         int
	Stretches                           []referenceStretch
	FormFactor, LiftRange               float64
	FlapZeroLift, FlapMoment, FlapIdeal float64 // a radian of effective flap angle
	CamberGain                          float64
	Peaks                               *section.PeakGrid
}

// referenceStretch is a straight length of a path (radius 0) or an arc.
type referenceStretch struct {
	From, Along, Inward [3]float64
	Radius, Length      float64
}

type referenceWind struct {
	Speed, Reference float64
	Roughness        float64
	Sense            float64 // −1 where the wind comes from starboard
}

type referenceWater struct{ Density, Viscosity, VapourPressure float64 }

type referenceAir struct{ Density, Pressure float64 }

type referenceOptions struct {
	Strips, SailStrips      int
	Iterations              int
	Feasibility, Difference float64
}

type referenceVariable struct {
	Kind                string // empty: unknown to the reference
	Control             int
	Name                string
	Lower, Upper, Scale float64
}

// referenceRow is a row of constraints: one bound is open, and written null.
type referenceRow struct {
	Figure                   string // empty: unknown to the reference
	Foil, Piece, Strip, Sail int
	Point                    [3]float64
	Lower, Upper             *float64
	Size                     float64
}

type referenceOptimum struct {
	X        []float64
	Progress float64 // m/s
}

// referenceState is one state with its loads about the datum.
type referenceState struct {
	X         []float64
	Objective float64
	Equal     []float64
	Inequal   []float64
	Items     []referenceItem
}

type referenceItem struct {
	Part, Piece, Cause string
	Force, Moment      [3]float64
}

// referenceOf writes out the way of sailing of an attempt, with all the starts that
// it was searched from.
func referenceOf(b *boat.Boat, best *attempt, found findings) (*referenceProblem, error) {
	p := best.problem
	r := p.request
	reference := &referenceProblem{
		Boat: *b, Set: p.way.set, Weight: b.Weight(), Unit: r.unit(), Settings: p.settings,
		Wind:    referenceWind{Speed: r.WindSpeed.MetresPerSecond(), Reference: r.Profile.Reference(), Sense: balance.Leeward(r.windFrom())},
		Water:   referenceWater{r.Water.Density, r.Water.KinematicViscosity, r.Water.VapourPressure},
		Air:     referenceAir{r.Air.Density, r.Air.Pressure},
		Options: referenceOptions{Strips: p.strips(), SailStrips: sail.StripsOf(&p.here.Sail), Iterations: mostIterations, Feasibility: tight().feasible / 10, Difference: difference},
		Optimum: referenceOptimum{X: best.outcome.X, Progress: best.progress()},
	}
	// Limits and modes are in the rows and ranges already, and their open ends are
	// no JSON.
	reference.Boat.Limits, reference.Boat.Modes = nil, nil
	reference.Wind.Roughness = referenceRoughness(r)
	for i := range p.variables {
		v := &p.variables[i]
		reference.Unknowns = append(reference.Unknowns, referenceVariable{referenceKind(v.kind), v.control, v.name, v.lower, v.upper, v.scale})
	}
	for i := range p.rows {
		row := &p.rows[i]
		reference.Rows = append(reference.Rows, referenceRow{referenceFigure(row.figure), row.foil, row.piece, row.strip, row.sail, row.point, closed(row.lower), closed(row.upper), row.size})
	}
	for i := range found.surveyed {
		if a := &found.surveyed[i]; a.problem.way.is(&p.way) {
			reference.Starts = append(reference.Starts, a.start)
		}
	}
	for i := range b.Foils {
		for j := range b.Foils[i].Pieces {
			reference.Pieces = append(reference.Pieces, referencePieceOf(i, j, &b.Foils[i].Pieces[j], b.Model.FlapLoss))
		}
	}
	return reference, reference.suits(b, r)
}

// referenceRoughness finds the roughness length of a log law from its ratio at a
// tenth of the height of reference: ln(h/10 z₀) = ratio · ln(h/z₀).
func referenceRoughness(r *Request) float64 {
	h := r.Profile.Reference()
	ratio := r.Profile.Ratio(h / 10)
	return h * math.Exp(-math.Ln10/(1-ratio))
}

// follows tells whether the wind is a log law of the roughness found.
func (w referenceWind) follows(r *Request) bool {
	ratio := math.Log(2/w.Roughness) / math.Log(w.Reference/w.Roughness)
	return math.Abs(r.Profile.Ratio(2)-ratio) < 1e-12
}

// suits refuses what bench/reference has not been taught.
func (reference *referenceProblem) suits(b *boat.Boat, r *Request) error {
	o := r.Foil
	switch {
	case o != (foil.Options{}) && (o.Rows != 1 || o.Boundary != lattice.FreeSurface || o.Waves != foil.WaveDrag):
		return errors.New("one row under a free surface with the drag of waves is all that it knows")
	case r.Aim != Windward:
		return errors.New("it knows no aim but windward")
	case !reference.Wind.follows(r):
		return errors.New("it knows no wind but the log law")
	}
	for i := range b.Controls {
		if b.Controls[i].Law != nil {
			return errors.New("it knows no control that follows a law")
		}
	}
	for i := range b.Sails {
		if s := &b.Sails[i]; s.Flatten >= 0 || s.Coefficients.Against != boat.WindAngle {
			return errors.New("it knows no sail that is flattened, and no coefficients over incidence")
		}
	}
	for i := range b.Weights {
		if w := &b.Weights[i]; w.Swing.Control >= 0 || w.Swing.Fixed != 0 {
			return errors.New("it knows no weight that swings")
		}
	}
	for i := range b.Foils {
		for _, m := range b.Foils[i].Moves {
			if m.Kind != boat.Turn {
				return errors.New("it knows no foil that slides")
			}
		}
		for j := range b.Foils[i].Pieces {
			if p := &b.Foils[i].Pieces[j]; p.LaminarShares != nil || p.Section.DragTable() != nil {
				return errors.New("it knows no computed transition and no drag tables")
			}
		}
	}
	for _, v := range reference.Unknowns {
		if v.Kind == "" {
			return errors.New("it knows no variable like " + v.Name)
		}
	}
	for i, row := range reference.Rows {
		if row.Figure == "" {
			return fmt.Errorf("it knows no limit like number %d", i)
		}
	}
	return nil
}

// referenceKind and referenceFigure name what the reference knows.
func referenceKind(k kind) string {
	switch k {
	case speedVariable:
		return "speed"
	case leewayVariable:
		return "leeway"
	case heelVariable:
		return "heel"
	case pitchVariable:
		return "pitch"
	case heightVariable:
		return "height"
	case angleVariable:
		return "true wind angle"
	case controlVariable:
		return "control"
	}
	return ""
}

func referenceFigure(f figure) string {
	switch f {
	case rideHeight:
		return "ride height"
	case hullPoint:
		return "height of a point of the hull"
	case tipDepth:
		return "tip depth"
	case largestLift:
		return "lift in hand"
	case loading:
		return "lift"
	case sheetLoad:
		return "sheet load"
	case cavitation:
		return "cavitation margin"
	}
	return ""
}

func referencePieceOf(foilIndex, index int, p *boat.Piece, lossFactor float64) referencePiece {
	s := &p.Section
	out := referencePiece{
		Foil: foilIndex, Piece: index, Stretches: referenceStretches(&p.Path),
		FormFactor: section.FormFactor(s.Thickness, s.ThickestAt), LiftRange: s.LargestLift - section.CamberGain*s.IdealLift,
		CamberGain: section.CamberGain,
	}
	if p.Flap.Share > 0 {
		small := section.Flap{Share: p.Flap.Share, Deflection: 1e-3}
		effect, delta := small.Effect(lossFactor), small.Effective(lossFactor).Radians()
		out.FlapZeroLift, out.FlapMoment, out.FlapIdeal = effect.ZeroLift.Radians()/delta, effect.Moment/delta, effect.IdealLift/delta
	}
	if p.Peaks != nil {
		g := p.Peaks.Grid()
		out.Peaks = &g
	}
	return out
}

// referenceStretches reads a path's lengths and bends off its points and tangents.
func referenceStretches(p *boat.Path) []referenceStretch {
	ends := append(append([]float64{0}, p.AppendBreaks(nil)...), 1)
	var all []referenceStretch
	for i := 1; i < len(ends); i++ {
		from, to := ends[i-1], ends[i]
		begin, _ := p.At(from)
		_, early := p.At(from + (to-from)/4)
		_, late := p.At(from + (to-from)*3/4)
		length := (to - from) * p.Length()
		s := referenceStretch{From: begin.Array(), Along: early.Array(), Length: length}
		// From a quarter to three quarters an arc turns by half of its angle.
		if half := math.Atan2(early.Cross(late).Norm(), early.Dot(late)); half > 1e-9 {
			across := late.Minus(early.Times(early.Dot(late))).Unit()
			sin, cos := math.Sincos(half / 2)
			s.Along = early.Times(cos).Minus(across.Times(sin)).Array()
			s.Inward = early.Times(sin).Plus(across.Times(cos)).Array()
			s.Radius = length / (2 * half)
		}
		all = append(all, s)
	}
	return all
}

func closed(bound float64) *float64 {
	if math.IsInf(bound, 0) {
		return nil
	}
	return &bound
}

// look adds a state with its loads.
func (reference *referenceProblem) look(t testing.TB, p *problem, x []float64) {
	t.Helper()
	sp := p.solve()
	v := solve.Values{Equal: make([]float64, sp.Equalities), Inequal: make([]float64, sp.Inequalities)}
	if !p.values(x, &v) {
		t.Fatalf("no loads at %v: %v", x, p.failure)
	}
	angle := p.state(x, &p.state0)
	loads, err := balance.At(p.boat, p.state0, p.way.set, p.conditions(angle), p.here)
	if err != nil {
		t.Fatal(err)
	}
	s := referenceState{X: x, Objective: v.F, Equal: v.Equal, Inequal: v.Inequal}
	datum := p.state0.Attitude.Pose().Origin
	for _, it := range loads.Items {
		l := it.Load.MovedTo(datum)
		s.Items = append(s.Items, referenceItem{it.Part, it.Piece, it.Cause.String(), l.Force.Array(), l.Moment.Array()})
	}
	reference.States = append(reference.States, s)
}

// write puts the problem into a file.
func (reference *referenceProblem) write(t testing.TB, name string) {
	t.Helper()
	text, err := json.Marshal(reference)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, text, 0o600); err != nil {
		t.Fatal(err)
	}
}
