package cli

import (
	"fmt"
	"strings"

	"foilwright/study"
	"foilwright/why"
)

type whyCommand struct {
	boatFiles  `embed:""`
	sailing    `embed:""`
	Figure     string   `placeholder:"speed" help:"The figure whose difference is split: progress, speed, side force carried, any other that compare shows, take-off wind (the least in which a boat flies, at --twa or where that is; --tws is not needed), or one of the balance sheet as \"leeward main lift up\"." group:"What is told"`
	Cause      []string `sep:"none" placeholder:"\"tips=dihedral,foils.*.pieces.*wing*.chord\"" help:"Tell these differences as one cause: paths in the boat file with stars, or causes by name; may be given again." group:"What is told"`
	Pairs      bool     `help:"Tell as well how each two causes act on each other." group:"What is told"`
	CannotSail string   `placeholder:"\"0 kn\"" help:"What a mixed boat counts for that cannot sail; else as the slowest of those that can." group:"What is told"`
	Orders     int      `placeholder:"64" help:"How many orders are sampled where there are more than 12 causes; else 64." group:"Precision"`
	Seed       uint64   `placeholder:"1" help:"Of the orders that are sampled." group:"Precision"`
}

func (c *whyCommand) question() (study.Question, error) { return c.ask() }

func (c *whyCommand) ask() (*study.Why, error) {
	if c.Best != "" && study.IsTakeOff(c.Figure) {
		return nil, fmt.Errorf("--best: %q has no part in a take-off wind, the least in which a boat flies\nhint: leave --best out for the angle of least wind, or name one with --twa", c.Best)
	}
	if c.TWS == "" && strings.HasPrefix(strings.ToLower(c.Figure), "take") {
		c.TWS = "10 kn" // any: the wind is what is sought
	}
	s, err := c.sailing.sailing()
	if err != nil {
		return nil, err
	}
	q := &study.Why{Sailing: s, Figure: c.Figure, Pairs: c.Pairs, Orders: c.Orders, Seed: c.Seed, CannotSail: c.CannotSail}
	for _, text := range c.Cause {
		g, err := group(text)
		if err != nil {
			return nil, err
		}
		q.Groups = append(q.Groups, g)
	}
	return q, nil
}

// group reads a flag of the form name=path,path.
func group(text string) (why.Group, error) {
	name, held, ok := strings.Cut(text, "=")
	g := why.Group{Name: strings.TrimSpace(name)}
	for _, h := range strings.Split(held, ",") {
		if h = strings.TrimSpace(h); h != "" {
			g.Holds = append(g.Holds, h)
		}
	}
	if !ok || g.Name == "" || len(g.Holds) == 0 {
		return g, fmt.Errorf("--cause: %q names no cause with what it holds\nhint: write --cause \"tips=dihedral,foils.*.pieces.*wing*.chord\"", text)
	}
	return g, nil
}

// Help shows an example.
func (*whyCommand) Help() string {
	return `Differences of the two files are gathered into causes (foil plan, dihedral, weight and its place, sail plan, ...); each is given its part by Shapley's value, so that the parts add up to the difference.

Examples:
  foilwright why examples/which-foil/sorrel.yaml examples/which-foil/tansy.yaml --tws "17 kn"
  foilwright why examples/which-foil/sorrel.yaml examples/which-foil/tansy.yaml --tws "17 kn" --figure "side force carried" --cause "wings=dihedral,foil plan"
  foilwright why examples/which-foil/sorrel.yaml examples/which-foil/tansy.yaml --figure "take-off wind"`
}
