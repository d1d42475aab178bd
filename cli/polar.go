package cli

import (
	"errors"

	"foilwright/study"
)

type polarCommand struct {
	boatFiles `embed:""`
	sailing   `embed:""`
	TakeOff   bool `name:"take-off" help:"Tell how she takes off instead: the least wind for each speed, at --twa or where she flies in the least wind; --tws is not needed." group:"What is told"`
	CSV       bool `name:"csv" help:"Write one flat table as CSV." group:"What is told"`
}

func (c *polarCommand) question() (study.Question, error) {
	switch {
	case c.Best != "":
		return nil, errors.New("--best: a polar tells the best angles both to windward and to leeward\nhint: leave --best out")
	case c.JSON && c.CSV:
		return nil, errors.New("--json and --csv are given together\nhint: an answer is written in one way: take one of them")
	}
	if c.TakeOff {
		if c.CSV {
			return nil, errors.New("--csv: a take-off is told as a table or as JSON\nhint: leave --csv out, or write --json")
		}
		if c.TWS == "" {
			c.TWS = "10 kn" // any: the wind is what is sought
		}
	}
	s, err := c.sailing.sailing()
	return &study.Polar{Sailing: s, TakeOff: c.TakeOff}, err
}

// Help shows an example.
func (*polarCommand) Help() string {
	return `Without --twa it is the best angles alone.

Examples:
  foilwright polar examples/dinghy/sloe.yaml --tws "8,12,16 kn" --twa "40 to 150 deg by 10 deg"
  foilwright polar examples/dinghy/sloe.yaml --take-off`
}
