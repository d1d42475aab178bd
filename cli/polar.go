package cli

import (
	"errors"

	"foilwright/study"
)

type polarCommand struct {
	boatFiles `embed:""`
	sailing   `embed:""`
	CSV       bool `name:"csv" help:"Write one flat table as CSV." group:"What is told"`
}

func (c *polarCommand) question() (study.Question, error) {
	switch {
	case c.Best != "":
		return nil, errors.New("--best: a polar tells the best angles both to windward and to leeward\nhint: leave --best out")
	case c.JSON && c.CSV:
		return nil, errors.New("--json and --csv are given together\nhint: an answer is written in one way: take one of them")
	}
	s, err := c.sailing.sailing()
	return &study.Polar{Sailing: s}, err
}

// Help shows an example.
func (*polarCommand) Help() string {
	return `Without --twa it is the best angles alone.

Example:
  foilwright polar examples/dinghy/sloe.yaml --tws "8,12,16 kn" --twa "40 to 150 deg by 10 deg"`
}
