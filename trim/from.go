package trim

import (
	"math"

	"foilwright/boat"
)

// farBehind is the share of an answer's progress below which a way of sailing that
// its search met is not searched again from that answer alone: near by in boat or
// conditions, ways do not gain as much on one another.
const farBehind = 0.95

// open returns the ways of sailing that are searched: every one that the request
// allows, but from an answer alone only its own and those that came near it in its
// own search. Where that is none of those allowed, all are.
func open(b *boat.Boat, r *Request) ([]way, error) {
	all, err := ways(b, r)
	from := r.from(b)
	if err != nil || from == nil || r.Starts != OnlyFrom {
		return all, err
	}
	var near []way
	for _, w := range all {
		if from.cameNear(b, &w) {
			near = append(near, w)
		}
	}
	if len(near) == 0 {
		return all, nil
	}
	return near, nil
}

// cameNear tells whether a way of sailing is an answer's own, or came near it.
func (res *Result) cameNear(b *boat.Boat, w *way) bool {
	set := setName(b, w.set)
	if w.mode.Name == res.Mode && set == res.Set {
		return true
	}
	for _, o := range res.Others {
		theirs, own := math.Abs(float64(o.VMG)), math.Abs(float64(res.VMG))
		if res.Aim == AtAngle.String() {
			theirs, own = float64(o.Speed), float64(res.Speed)
		}
		if o.Mode == w.mode.Name && o.Set == set && theirs >= farBehind*own {
			return true
		}
	}
	return false
}
