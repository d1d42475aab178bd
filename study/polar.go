package study

import (
	"context"
	"fmt"
	"slices"

	"foilwright/boat"
	"foilwright/polar"
	"foilwright/si"
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
	res, err := q.byWind(ctx, d, b, polar.Request{Base: base, Winds: q.WindSpeeds, Angles: q.WindAngles})
	if err != nil {
		return nil, "", err
	}
	if res.Flies() {
		return res, Answered, nil
	}
	return res, HonestNo, nil
}

// byWind makes the polar: at once, or, where parts of work are kept, one wind after the
// other, since no wind's part depends on another's.
func (q *Polar) byWind(ctx context.Context, d *desk, b *boat.Boat, r polar.Request) (*polar.Result, error) {
	count := d.counter(r.Steps())
	if d.request.Keep == nil {
		r.Running = soFar[*polar.Result](d, q)
		return polar.Run(ctx, b, r, d.request.Workers, count)
	}
	winds := slices.Clone(r.Winds)
	slices.Sort(winds)
	var whole *polar.Result
	tell := soFar[*polar.Result](d, q)
	for i, wind := range slices.Compact(winds) {
		own := r
		own.Winds = []si.Speed{wind}
		if tell != nil {
			own.Running = func(now *polar.Result) { tell(joined(whole, now)) }
		}
		made := false
		part, err := piece(ctx, d, q, i, func() (*polar.Result, error) {
			made = true
			return polar.Run(ctx, b, own, d.request.Workers, count)
		})
		if err != nil {
			return nil, err
		}
		for step := 0; count != nil && !made && step < own.Steps(); step++ {
			count(step)
		}
		whole = joined(whole, part)
		if tell != nil {
			tell(whole)
		}
	}
	return whole, nil
}

// joined puts a wind behind those that there are.
func joined(whole, wind *polar.Result) *polar.Result {
	if whole == nil {
		return wind
	}
	both := *whole
	both.Winds = append(slices.Clone(whole.Winds), wind.Winds...)
	return &both
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
