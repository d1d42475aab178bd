package study

import (
	"context"
	"fmt"

	"foilwright/polar"
)

// Polar asks for one boat over wind speeds and angles: the best trim at each, and
// the best angles to windward and leeward with the bands around them. Without
// wind angles it is the best angles alone. What Sailing says of one aim does not
// count.
type Polar struct {
	Sailing
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
	r := polar.Request{Base: base, Winds: q.WindSpeeds, Angles: q.WindAngles}
	res, err := polar.Run(ctx, b, r, d.request.Workers, d.counter(r.Steps()))
	if err != nil {
		return nil, "", err
	}
	if res.Flies() {
		return res, Answered, nil
	}
	return res, HonestNo, nil
}
