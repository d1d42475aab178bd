package report

import (
	"fmt"
	"math"

	"foilwright/quantity"
	"foilwright/trim"
)

// sea tells what the waves ask of one boat.
func (p *page) sea(r *trim.Result) {
	s := r.Sea
	if s == nil {
		return
	}
	met := "run with the boat"
	if s.Encounter != nil {
		met = fmt.Sprintf("%s every %s", s.Overtaking, seconds(*s.Encounter))
	}
	p.say(fmt.Sprintf("Sea: waves of %s and %s, %s long, %s. One in twenty rises and falls by more than %s; "+
		"the boat does not follow %s of that, so that hulls that stay dry and tips that stay under need %s.",
		metres(s.Height), seconds(s.Period), quantity.Format(s.Length, quantity.Length, "m", quantity.Decimals(0)), met,
		metres(s.Amplitude), perCent(s.NotFollowed), metres(s.Room)))
}

// seaOf says in what sea several trims are, where there is one.
func (p *page) seaOf(results []*trim.Result) {
	least, most := math.Inf(1), 0.0
	var s *trim.SeaRoom
	for _, r := range results {
		if r != nil && r.Sea != nil && r.Answer == trim.Found {
			s = r.Sea
			least, most = math.Min(least, s.Room), math.Max(most, s.Room)
		}
	}
	if s == nil {
		return
	}
	room := metres(most)
	if metres(least) != room {
		room = metres(least) + " to " + room
	}
	p.say(fmt.Sprintf("Sea: waves of %s and %s. At these speeds and angles hulls that stay dry and tips that stay under need %s.",
		metres(s.Height), seconds(s.Period), room))
}

func seconds(v float64) string { return quantity.Format(v, quantity.Time, "s", quantity.Decimals(1)) }
