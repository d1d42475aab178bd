package study

import (
	"context"
	"fmt"

	"foilwright/boat"
	"foilwright/polar"
	"foilwright/trim"
)

// Polar asks for one boat over wind speeds and angles: the best trim at each, and
// the best angles to windward and leeward with the bands around them. Without
// wind angles it is the best angles alone. What Sailing says of one aim does not
// count.
type Polar struct {
	Sailing
	TakeOff bool `json:"take_off,omitempty"` // how she takes off instead: at the first wind angle, or at the best
}

// Verb names the question.
func (*Polar) Verb() string { return "polar" }

// polarAim is the aim of a polar in words.
const polarAim = "most speed at each angle, best progress to windward and to leeward"

func (q *Polar) ask(ctx context.Context, d *desk) (any, Verdict, error) {
	b, err := d.one(q.Verb())
	if err != nil {
		return nil, "", err
	}
	requests, err := q.requests()
	if err != nil {
		return nil, "", err
	}
	q.Aimed = polarAim
	if len(requests) > mostPoints {
		return nil, "", fmt.Errorf("%s: %d winds at %d angles are more than %d points\nhint: take longer steps", b.Name, len(q.WindSpeeds), len(q.WindAngles), mostPoints)
	}
	base, err := q.forBoat(b, requests[0])
	if err != nil {
		return nil, "", err
	}
	if q.TakeOff {
		return q.takeOff(ctx, d, b, base)
	}
	r := polar.Request{Base: base, Winds: q.WindSpeeds, Angles: q.WindAngles, Running: soFar[*polar.Result](d, q)}
	// Kept as a whole: winds start from one another.
	res, err := piece(ctx, d, q, 0, func() (*polar.Result, error) {
		return polar.Run(ctx, b, r, d.request.Workers, d.counter(r.Steps()))
	})
	if err != nil {
		return nil, "", err
	}
	if res.Flies() {
		return res, Answered, nil
	}
	return res, HonestNo, nil
}

// takeOff asks how the boat takes off.
func (q *Polar) takeOff(ctx context.Context, d *desk, b *boat.Boat, base trim.Request) (any, Verdict, error) {
	q.Aimed = trim.LeastWind.String()
	if base.WindAngle = 0; len(q.WindAngles) > 0 {
		base.WindAngle = q.WindAngles[0]
	}
	res, err := polar.TakeOffOf(ctx, b, base, d.counter(polar.TakeOffSteps))
	if err != nil {
		return nil, "", err
	}
	if res.Flying == nil && res.Hump == nil {
		return res, HonestNo, nil
	}
	return res, Answered, nil
}
