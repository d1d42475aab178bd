package cli

import (
	"errors"
	"fmt"
	"strings"

	"github.com/alecthomas/kong"

	"foilwright/quantity"
	"foilwright/si"
	"foilwright/study"
)

// versionFlag shows the version and ends.
type versionFlag bool

// BeforeReset is called by the parser where the flag is given.
func (versionFlag) BeforeReset(app *kong.Kong, vars kong.Vars) error {
	fmt.Fprintln(app.Stdout, vars["version"])
	app.Exit(found)
	return nil
}

type checkCommand struct {
	File   []string `arg:"" optional:"" help:"Boat files."`
	JSON   bool     `name:"json" help:"Write JSON in SI units."`
	Schema bool     `help:"Print the JSON Schema of boat files."`
	Rule   string   `placeholder:"examples/class-rule/sound-40.yaml" help:"Hold the boats against a class rule: each limit with the boat's figure and what is left of it."`
}

func (c *checkCommand) files() []string { return c.File }
func (c *checkCommand) json() bool      { return c.JSON }

func (c *checkCommand) question() (study.Question, error) {
	if len(c.File) == 0 {
		return nil, errors.New("check: no boat file is named\nhint: foilwright check examples/which-foil/sorrel.yaml")
	}
	return &study.Check{Rule: c.Rule}, nil
}

// Help shows an example.
func (*checkCommand) Help() string {
	return `Examples:
  foilwright check examples/which-foil/sorrel.yaml examples/which-foil/tansy.yaml
  foilwright check examples/class-rule/medlar.yaml --rule examples/class-rule/sound-40.yaml`
}

type leversCommand struct {
	boatFiles `embed:""`
	stance    `embed:""`
	Base      string `placeholder:"Sorrel" help:"The boat that changes are taken from, by name or file; else the first."`
}

func (c *leversCommand) question() (study.Question, error) {
	s, err := c.stance.stance()
	return &study.Levers{Stance: s, Base: c.Base}, err
}

// Help shows an example.
func (*leversCommand) Help() string {
	return `Nothing is solved: the lever is the trade's rule of thumb (common practice).

Example:
  foilwright levers examples/which-foil/sorrel.yaml examples/which-foil/tansy.yaml --cant "20 deg" --ride "0.8 m"`
}

type towCommand struct {
	boatFiles   `embed:""`
	Speed       string `placeholder:"\"30 kn\"" help:"Speed through the water." group:"State"`
	stance      `embed:""`
	Only        string `placeholder:"\"leeward main\"" help:"Tow this part alone, with the others out of the water."`
	Sensitivity bool   `help:"Tell what each of the model's own factors (friction, wake core and others) does to lift, side force and drag at either end of its spread."`

	Sweep  string   `placeholder:"\"cant 0 to 25 deg by 1\"" help:"Tow at each of these values of speed, heel, pitch, leeway, ride or any control: a line each." group:"Sweep"`
	LineAt string   `placeholder:"\"-1.2 m\"" help:"Height above the water at which a sweep tells the line of action; else the mean height of the load-weighted centre." group:"Sweep"`
	CSV    bool     `name:"csv" help:"Write a sweep as CSV." group:"Sweep"`
	Plot   []string `sep:"none" placeholder:"lift" help:"Plot a figure of a sweep: lift, side, drag, induced, centre, cavitation, hinge and others; may be given again." group:"Sweep"`

	lattice `embed:""`
	sea     `embed:""`
}

func (c *towCommand) question() (study.Question, error) {
	q, err := c.tow()
	if err != nil {
		return nil, err
	}
	if err := c.forms(); err != nil {
		return nil, err
	}
	switch {
	case c.Sweep != "" && c.Sensitivity:
		return nil, errors.New("--sweep and --sensitivity are given together\nhint: a sweep is of many states, a sensitivity of one: ask for one of them")
	case c.Sweep != "":
		return c.sweep(q)
	case c.Sensitivity:
		return &study.Sensitivity{Tow: *q}, nil
	}
	return q, nil
}

// forms holds the ways of writing an answer against each other.
func (c *towCommand) forms() error {
	var asked []string
	for _, f := range []struct {
		flag  string
		given bool
	}{{"--csv", c.CSV}, {"--plot", len(c.Plot) > 0}, {"--line-at", c.LineAt != ""}} {
		if f.given && c.Sweep == "" {
			return fmt.Errorf("%s: goes with a sweep, and none is asked for\nhint: add --sweep \"cant 0 to 25 deg by 1\"", f.flag)
		}
	}
	if c.JSON {
		asked = append(asked, "--json")
	}
	if c.CSV {
		asked = append(asked, "--csv")
	}
	if len(c.Plot) > 0 {
		asked = append(asked, "--plot")
	}
	if len(asked) > 1 {
		return fmt.Errorf("%s are given together\nhint: an answer is written in one way: take one of them", strings.Join(asked, " and "))
	}
	return nil
}

// sweep turns the question about one state into one about many.
func (c *towCommand) sweep(q *study.Tow) (study.Question, error) {
	s := &study.Sweep{Tow: *q, Over: c.Sweep}
	if c.LineAt == "" {
		return s, nil
	}
	height, err := value("line-at", c.LineAt, quantity.Length, 0)
	s.LineHeight = &height
	return s, err
}

// tow is the state to tow in. A sweep over speed needs no speed.
func (c *towCommand) tow() (*study.Tow, error) {
	if c.Speed == "" && !strings.HasPrefix(strings.TrimSpace(c.Sweep), "speed") {
		return nil, errors.New("--speed: the speed to tow at is missing\nhint: write --speed \"30 kn\"")
	}
	speed, err := value("speed", c.Speed, quantity.Speed, 0)
	if err != nil {
		return nil, err
	}
	q := &study.Tow{Speed: si.Speed(speed), Only: c.Only}
	if q.Stance, err = c.stance.stance(); err != nil {
		return nil, err
	}
	if q.Lattice, err = c.lattice.lattice(); err != nil {
		return nil, err
	}
	q.Conditions, err = c.conditions()
	return q, err
}

// Help shows an example.
func (*towCommand) Help() string {
	return `Examples:
  foilwright tow examples/which-foil/sorrel.yaml --speed "30 kn" --leeway "1 deg" --cant "20 deg" --only "leeward main"
  foilwright tow examples/which-foil/sorrel.yaml --speed "30 kn" --sweep "cant 8 to 22 deg by 1" --plot lift
  foilwright tow examples/which-foil/sorrel.yaml --speed "30 kn" --cant "20 deg" --sensitivity`
}

type trimCommand struct {
	boatFiles `embed:""`
	sailing   `embed:""`
	Afloat    bool   `help:"Sail with the hull in the water, whatever the boat's limits say of ride height: the branch on which she is before take-off." group:"What the crew may do"`
	Per       bool   `help:"Tell as well what each figure of the file is worth: progress per kg, per mm, per 1 % and per degree, at the trim that would then be best." group:"What is told"`
	About     string `placeholder:"\"y=1.2 m, z=-0.5 m\"" help:"Take the budget about this point: y to port of the track, z above the water; else one on the line of action." group:"What is told"`
}

func (c *trimCommand) question() (study.Question, error) {
	s, err := c.sailing.sailing()
	if err != nil {
		return nil, err
	}
	about, err := across("about", c.About)
	return &study.Trim{Sailing: s, About: about, Per: c.Per, Afloat: c.Afloat}, err
}

// Help shows an example.
func (*trimCommand) Help() string {
	return `Examples:
  foilwright trim examples/which-foil/sorrel.yaml --tws "17 kn"
  foilwright trim examples/which-foil/sorrel.yaml --tws "10,14,18 kn" --twa "110 deg" --set-of-sails reaching`
}

type compareCommand struct {
	boatFiles `embed:""`
	sailing   `embed:""`
	Base      string `placeholder:"Sorrel" help:"The boat that changes are taken from, by name or file; else the first." group:"What is told"`
}

func (c *compareCommand) question() (study.Question, error) {
	s, err := c.sailing.sailing()
	return &study.Compare{Sailing: s, Base: c.Base}, err
}

// Help shows an example.
func (*compareCommand) Help() string {
	return "Example:\n  " + firstExample
}
