package cli

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"foilwright/figure"
	"foilwright/study"
)

type figureCommand struct {
	Kind    string   `arg:"" help:"front-view, causes, difference, inputs, polar, speed, winds, crossovers, budget, drag or limits."`
	File    []string `arg:"" help:"Boat files."`
	sailing `embed:""`
	Out     string `short:"o" placeholder:"FILE.svg" help:"Write the picture to this file; else to standard output." group:"The picture"`
	Theme   string `enum:"light,dark" default:"light" help:"Colours: light or dark." group:"The picture"`
	CSV     bool   `name:"csv" help:"Write the figures behind the picture as CSV instead." group:"The picture"`
	Width   int    `placeholder:"800" help:"How wide the picture is, px; else 800." group:"The picture"`
	Level   string `placeholder:"\"80 %\"" help:"Of difference and winds: the level of the bands that stand out: 50, 80 or 95 %." group:"The picture"`
	Split   string `placeholder:"speed" help:"Of causes: the figure whose difference is split, as --figure of why." group:"What is told"`
	Base    string `placeholder:"Sorrel" help:"Of budget and drag: the first boat, by name or file." group:"What is told"`
	Winds   string `placeholder:"\"8 to 20 kn by 2 kn\"" help:"Of winds: draw bands over these winds, from samples; without it --tws gives the winds." group:"Samples"`
	Samples int    `placeholder:"1024" help:"Of difference, inputs and bands over winds: samples; else 1024." group:"Samples"`
	Seed    uint64 `default:"1" help:"Of the same: another seed draws other samples." group:"Samples"`
}

func (c *figureCommand) files() []string { return c.File }
func (c *figureCommand) json() bool      { return false }

func (c *figureCommand) question() (study.Question, error) {
	if err := c.target(); err != nil {
		return nil, err
	}
	if _, err := c.look(); err != nil {
		return nil, err
	}
	if c.Kind == string(figure.Difference) || c.Kind == string(figure.Inputs) || c.Kind == string(figure.Winds) && c.Winds != "" {
		odds := oddsCommand{boatFiles: boatFiles{File: c.File}, sailing: c.sailing, Winds: c.Winds, Samples: c.Samples, Seed: c.Seed, Tornado: c.Kind == string(figure.Inputs)}
		return odds.question()
	}
	if c.Samples != 0 {
		return nil, fmt.Errorf("--samples: %s draws none\nhint: difference and inputs do, and winds with --winds", c.Kind)
	}
	if c.Winds != "" {
		return nil, fmt.Errorf("--winds: %s is not drawn over winds\nhint: winds is", c.Kind)
	}
	if c.Kind == string(figure.Causes) {
		return c.causes()
	}
	s, err := c.sailing.sailing()
	if err != nil {
		return nil, err
	}
	switch figure.Kind(c.Kind) {
	case figure.FrontView:
		return &study.View{Sailing: s}, c.one(len(s.WindSpeeds) * max(1, len(s.WindAngles)))
	case figure.Limits:
		return &study.Trim{Sailing: s}, c.one(len(s.WindSpeeds) * max(1, len(s.WindAngles)))
	case figure.Budget, figure.Drag:
		return &study.Compare{Sailing: s, Base: c.Base}, c.one(len(s.WindSpeeds) * max(1, len(s.WindAngles)))
	case figure.Winds:
		return &study.Compare{Sailing: s, Base: c.Base}, nil
	case figure.Polar, figure.Speed, figure.Crossovers:
		if c.TWA == "" {
			return nil, fmt.Errorf("--twa: %s is drawn over wind angles, and none are given\nhint: write --twa \"40 to 150 deg by 10 deg\"", c.Kind)
		}
		return &study.Polar{Sailing: s}, nil
	}
	return nil, fmt.Errorf("figure: %q is no kind of figure\nhint: %s", c.Kind, kinds())
}

// causes asks as why does.
func (c *figureCommand) causes() (study.Question, error) {
	why := whyCommand{boatFiles: boatFiles{File: c.File}, sailing: c.sailing, Figure: c.Split}
	q, err := why.ask()
	if err != nil {
		return nil, err
	}
	return q, c.one(len(q.WindSpeeds) * max(1, len(q.WindAngles)))
}

// look reads how the picture is wanted.
func (c *figureCommand) look() (figure.Look, error) {
	l := figure.Look{Width: c.Width}
	if c.Width != 0 && (c.Width < figure.Narrowest || c.Width > figure.Widest) {
		return l, fmt.Errorf("--width: %d px is not between %d and %d", c.Width, figure.Narrowest, figure.Widest)
	}
	if c.Level == "" {
		return l, nil
	}
	for _, level := range figure.Levels() {
		if strings.ReplaceAll(c.Level, " ", "") == fmt.Sprintf("%d%%", level) {
			l.Level = level
			return l, nil
		}
	}
	return l, fmt.Errorf("--level: %q is none\nhint: write 50 %%, 80 %% or 95 %%", c.Level)
}

// apart tells whether each boat is asked about by herself, and all are drawn together.
func (c *figureCommand) apart() bool {
	kind := figure.Kind(c.Kind)
	return len(c.File) > 1 && (kind == figure.Polar || kind == figure.Speed || kind == figure.Crossovers)
}

// one asks for a single state: a picture shows one.
func (c *figureCommand) one(states int) error {
	if states > 1 {
		return fmt.Errorf("figure: %s shows one wind, and %d are asked for\nhint: give --tws and --twa one value each", c.Kind, states)
	}
	return nil
}

func kinds() string {
	var all []string
	for _, k := range figure.Kinds() {
		all = append(all, string(k))
	}
	return strings.Join(all, ", ")
}

// target holds the name of the file to write against what is written.
func (c *figureCommand) target() error {
	if c.Out == "" {
		return nil
	}
	want := ".svg"
	if c.CSV {
		want = ".csv"
	}
	if got := strings.ToLower(filepath.Ext(c.Out)); got != want {
		hint := "end the name in " + want
		switch got {
		case ".csv":
			hint = "add --csv, or " + hint
		case ".png":
			hint = "a browser turns the SVG into a PNG; " + hint
		}
		return fmt.Errorf("--out: %s does not end in %s\nhint: %s", c.Out, want, hint)
	}
	if info, err := os.Stat(c.Out); err == nil && !info.Mode().IsRegular() {
		return fmt.Errorf("--out: %s is not a plain file\nhint: name a file such as sorrel.svg", c.Out)
	}
	if _, err := os.Stat(filepath.Dir(c.Out)); err != nil {
		return fmt.Errorf("--out: there is no folder %s\nhint: make it first", filepath.Dir(c.Out))
	}
	return nil
}

// draw writes the picture of a result.
func (c *figureCommand) draw(r *study.Result, out, errs *bytes.Buffer, more ...*study.Result) error {
	look, err := c.look()
	if err != nil {
		return err
	}
	chart, err := look.Of(figure.Kind(c.Kind), r, more...)
	var none *figure.NoAnswer
	if errors.As(err, &none) && r.Verdict == study.HonestNo {
		fmt.Fprintln(errs, err)
		return nil
	}
	if err != nil {
		return err
	}
	text, err := chart.CSV()
	if !c.CSV {
		text, err = chart.SVG(figure.Theme(c.Theme))
	}
	if err != nil {
		return err
	}
	if c.CSV {
		fmt.Fprintln(errs, r.Caution)
	}
	if c.Out == "" {
		out.Write(text)
		return nil
	}
	if err := replace(c.Out, text); err != nil {
		return fmt.Errorf("--out: %s cannot be written: %w", c.Out, err)
	}
	fmt.Fprintf(errs, "%s: %s\n", c.Out, chart.Title)
	return nil
}

// replace writes a file beside the old one and then puts it in its place, so that
// nobody meets half a file.
func replace(name string, text []byte) error {
	f, err := os.CreateTemp(filepath.Dir(name), ".foilwright-*")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name()) // fails where it has its name already
	if _, err := f.Write(text); err != nil {
		f.Close()
		return err
	}
	if err := f.Chmod(0o644); err != nil {
		f.Close()
		return err
	}
	if err := f.Close(); err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}

// Help shows an example.
func (*figureCommand) Help() string {
	return `Pictures are SVG, with their figures' units, the caution and the provenance on them.

  front-view   one boat looking forward, to scale, with her forces and her lever
  causes       the difference between two boats, split into causes
  difference   how sure that difference is;  inputs: what each uncertain figure does to it
  polar        boats over wind angles;  speed: the same along an axis;  crossovers: modes and sails
  winds        boats over the wind's speed, with --winds in bands
  budget       righting and heeling moments of several boats;  drag: by cause
  limits       where one boat stands between her limits, and what they cost

Examples:
  foilwright figure front-view examples/which-foil/sorrel.yaml --tws "17 kn" --out sorrel.svg
  foilwright figure speed examples/which-foil/sorrel.yaml examples/which-foil/tansy.yaml --tws "17 kn" --twa "40 to 150 deg by 10 deg" --out speed.svg
  foilwright figure causes examples/which-foil/sorrel.yaml examples/which-foil/tansy.yaml --tws "17 kn" --out causes.svg`
}
