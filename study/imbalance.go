package study

import (
	"math"
	"slices"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/frame"
	"foilwright/trim"
)

// Imbalance is what is left over of all loads on a boat that is held: how she would
// begin to move if she were let go. Water that would have to move with her is left out.
type Imbalance struct {
	About  frame.Point[frame.Track] `json:"about_m"` // the centre of gravity
	Force  frame.Vec[frame.Track]   `json:"force_N"`
	Moment frame.Vec[frame.Track]   `json:"moment_Nm"` // about it
	// Shares are those of balance.Residual, its moments about the centre of gravity: of
	// the weight, and of the weight times the boat's length.
	Shares [6]float64 `json:"shares"`
	Ways   []Way      `json:"ways"` // in which she would move, the strongest first; empty where she is in balance
}

// Way is one way in which a boat that is let go begins to move.
type Way struct {
	Equation string  `json:"equation"` // that does not close: see balance.Equation
	Words    string  `json:"words"`    // "rises", "bow down", "slows"
	Share    float64 `json:"share"`    // of the weight, or of the weight times length; positive
}

// still is the share below which nobody would see a boat begin to move. Judgement: a
// thousandth of g.
const still = 1e-3

// imbalanceOf reads what is left over off a state that was described.
func imbalanceOf(b *boat.Boat, r *trim.Result) Imbalance {
	m := Imbalance{About: gravityOf(r), Force: r.ResidualForce, Ways: []Way{}}
	about := frame.Load[frame.Track]{Force: r.ResidualForce, Moment: r.ResidualMoment, About: r.State.Attitude.Pose().Origin}
	sum := about.MovedTo(m.About)
	m.Moment = sum.Moment
	balance.Residual(b, balance.Loads{Sum: sum}, m.Shares[:])
	tack := balance.Leeward(r.Conditions.WindFrom())
	for i, share := range m.Shares {
		words := [6][2]string{
			{"gains speed", "slows"}, {"goes to windward", "slips to leeward"}, {"rises", "sinks"},
			{"heels to leeward", "heels to windward"}, {"bow down", "bow up"}, {"luffs", "bears away"},
		}[i]
		if i == 1 || i == 3 || i == 5 {
			share *= tack // y, and turns about x and z, change sides with the wind
		}
		way := Way{Equation: balance.Equation(i), Words: words[0], Share: math.Abs(share)}
		if share < 0 {
			way.Words = words[1]
		}
		if way.Share >= still {
			m.Ways = append(m.Ways, way)
		}
	}
	slices.SortStableFunc(m.Ways, func(a, b Way) int {
		switch {
		case a.Share > b.Share:
			return -1
		case a.Share < b.Share:
			return 1
		}
		return 0
	})
	return m
}

// gravityOf returns the centre of gravity of a state that was described.
func gravityOf(r *trim.Result) frame.Point[frame.Track] {
	var sum frame.Vec[frame.Track]
	weight := 0.0
	for i := range r.Loads {
		if l := &r.Loads[i]; l.Item == boat.Gravity.String() {
			sum = sum.Plus(frame.Vec[frame.Track](l.About).Times(-l.Force.Z))
			weight -= l.Force.Z
		}
	}
	if weight == 0 {
		return r.State.Attitude.Pose().Origin
	}
	return frame.Point[frame.Track](sum.Times(1 / weight))
}
