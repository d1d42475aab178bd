package cli

import (
	"fmt"

	"foilwright/batch"
	"foilwright/quantity"
	"foilwright/si"
	"foilwright/study"
)

type oddsCommand struct {
	boatFiles  `embed:""`
	sailing    `embed:""`
	Winds      string `placeholder:"\"8 to 20 kn by 2 kn\"" help:"Draw bands over these winds as well: so many times the work." group:"Wind"`
	Samples    int    `placeholder:"1024" help:"Samples: powers of two are spread most evenly; else 1024." group:"Samples"`
	Seed       uint64 `default:"1" help:"Another seed draws other samples." group:"Samples"`
	Until      string `placeholder:"\"1 %\"" help:"Take samples, up to a power of two, until the sampling error of every chance is at most this; --samples is then the most." group:"Samples"`
	Out        string `placeholder:"FOLDER" help:"Keep samples in this folder as they come, and at the end all of them as samples.parquet; a run that was stopped is taken up from there." group:"Samples"`
	Confidence string `placeholder:"\"80 %\"" help:"Below this chance a difference is too close to call; else 80 %." group:"What is told"`
	Anchor     string `placeholder:"\"Sorrel 25.1 kn ± 0.4 kn at 17 kn\"" help:"A speed that one boat was seen to sail, in which wind (and \", 45 deg\" for an angle; else as she is asked about): what it says of the model counts for all." group:"What is told"`
	Tornado    bool   `help:"Move every input alone to either end of its 80 % band as well." group:"What is told"`
}

func (c *oddsCommand) question() (study.Question, error) {
	q := &study.Odds{Samples: c.Samples, Seed: c.Seed, Anchor: c.Anchor, Tornado: c.Tornado}
	if c.Samples < 0 || c.Samples == 1 {
		return nil, fmt.Errorf("--samples: %d are too few\nhint: 1024 are usual", c.Samples)
	}
	// What may have a spread here is cut out of the flags that all verbs have.
	plain := c.sailing
	for _, f := range []struct {
		flag string
		text *string
		want quantity.Dimension
		says *string
	}{
		{"tws", &plain.TWS, quantity.Speed, &q.WindSpread},
		{"water-temperature", &plain.WaterTemperature, quantity.Temperature, &q.WaterSpread},
		{"air-temperature", &plain.AirTemperature, quantity.Temperature, &q.AirSpread},
	} {
		v, err := quantity.Parse(*f.text, f.want)
		if err != nil || v.Exact() {
			continue // the flag's own reader says what is wrong
		}
		*f.says = v.String()
		*f.text = quantity.Format(v.Likely, f.want, v.Unit, quantity.Shortest)
	}
	var err error
	if q.Sailing, err = plain.sailing(); err != nil {
		return nil, err
	}
	if len(q.WindSpeeds) > 1 {
		return nil, fmt.Errorf("--tws: odds are of one wind, and %s are %d\nhint: give the range of winds with --winds", c.TWS, len(q.WindSpeeds))
	}
	if c.Winds != "" {
		winds, err := values("winds", c.Winds, quantity.Speed)
		if err != nil {
			return nil, err
		}
		for _, w := range winds {
			q.Winds = append(q.Winds, si.Speed(w))
		}
	}
	if q.Until, err = portion("until", c.Until, 0, 0.5); err != nil {
		return nil, err
	}
	q.Confidence, err = portion("confidence", c.Confidence, 0.5, 1)
	return q, err
}

// portion reads a flag that takes a share between two others; 0 where it is empty.
func portion(flag, text string, low, high float64) (float64, error) {
	if text == "" {
		return 0, nil
	}
	v, err := value(flag, text, quantity.Share, 0)
	if err == nil && !(v > low && v < high) {
		share := func(v float64) string { return quantity.Format(v, quantity.Share, "%", quantity.Shortest) }
		err = fmt.Errorf("--%s: %s is not between %s and %s", flag, text, share(low), share(high))
	}
	return v, err
}

// keeper returns where a command keeps its samples, nil for nowhere.
func keeper(c command) (batch.Keeper, error) {
	o, ok := c.(*oddsCommand)
	if !ok || o.Out == "" {
		return nil, nil
	}
	folder := batch.Folder(o.Out)
	if data, err := folder.Get(""); err == nil && data != nil {
		return nil, fmt.Errorf("--out: %s is a file, and a folder is wanted", o.Out)
	}
	return folder, nil
}

// Help shows an example.
func (*oddsCommand) Help() string {
	return `All that the files leave uncertain is drawn; every sample is a full best trim of every boat.

Examples:
  foilwright odds examples/which-foil/sorrel.yaml examples/which-foil/tansy.yaml --tws "17 kn ± 1 kn"
  foilwright odds examples/which-foil/sorrel.yaml examples/which-foil/tansy.yaml --tws "17 kn" --until "2 %" --out sorrel-tansy`
}
