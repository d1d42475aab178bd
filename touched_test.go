package foilwright_test

import (
	"fmt"
	"testing"

	"foilwright/balance"
	"foilwright/boat"
)

// A control changes the groups of loads that it is said to touch and no others:
// what is not touched is not computed again in a search.
func TestControlsTouchWhatTheySay(t *testing.T) {
	for _, name := range append([]string{"examples/dinghy/sloe.yaml", "examples/catamaran/bramble.yaml"}, sailed[0]) {
		b := example(t, name)
		c := request(12)
		res := best(t, b, c)
		s := res.State.Clone()
		sums := func(s boat.State) (all [balance.GroupCount]string) {
			var w balance.Workspace
			for g := range balance.GroupCount {
				items, err := balance.Append(g, b, s, max(0, res.SetIndex), res.Conditions, &w, nil)
				if err != nil {
					t.Fatal(err)
				}
				all[g] = fmt.Sprintf("%x", balance.SumOf(s, items))
			}
			return all
		}
		before := sums(s)
		for i := range b.Controls {
			shifted := s.Clone()
			shifted.Settings[i] += b.Controls[i].Step / 10
			touched := balance.Touched(b, i)
			for g, after := range sums(shifted) {
				if after != before[g] && !touched[g] {
					t.Errorf("%s: %s changes group %d of the loads, and is not said to", b.Name, b.Controls[i].Name, g)
				}
			}
		}
	}
}
