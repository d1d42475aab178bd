package cli

import (
	"errors"
	"fmt"

	"foilwright/quantity"
	"foilwright/si"
	"foilwright/study"
	"foilwright/trim"
)

const about = "Which of two foiling yachts is faster, by how much, and every force accounted for."

const firstExample = `foilwright compare examples/which-foil/sorrel.yaml examples/which-foil/tansy.yaml --tws "17 kn"`

// grammar is the command line.
type grammar struct {
	Check   checkCommand   `cmd:"" help:"What is in boat files: faults, assumptions, uncertain figures, differences."`
	Levers  leversCommand  `cmd:"" help:"Geometry in an attitude, with nothing solved: areas, depths, levers."`
	Tow     towCommand     `cmd:"" help:"All loads in the water in a fixed state, as in a towing tank."`
	Trim    trimCommand    `cmd:"" help:"The best trim of one boat, and every force on her."`
	Polar   polarCommand   `cmd:"" help:"One boat over winds and angles: best angles, bands, crossovers, gaps."`
	Compare compareCommand `cmd:"" help:"Boats side by side in the same wind, each at her best trim."`
	Why     whyCommand     `cmd:"" help:"The difference between two boats, split into causes that add up."`
	Odds    oddsCommand    `cmd:"" help:"How sure a difference is: all that is uncertain drawn, and what matters most."`
	Figure  figureCommand  `cmd:"" help:"Charts and drawings as SVG: a boat looking forward, causes, odds, polars, budgets, limits."`
	Desk    deskCommand    `cmd:"" help:"The boats of a folder in the browser: see them, drag them, set them side by side."`

	Version versionFlag `help:"Show the version."`
}

// command is one verb with its flags.
type command interface {
	files() []string
	json() bool
	question() (study.Question, error)
}

// boatFiles are the files of a verb, and how its answer is written.
type boatFiles struct {
	File []string `arg:"" help:"Boat files."`
	JSON bool     `name:"json" help:"Write JSON in SI units."`
}

func (b *boatFiles) files() []string { return b.File }
func (b *boatFiles) json() bool      { return b.JSON }

// sea is the flags of the conditions.
type sea struct {
	WaterTemperature string `placeholder:"\"15 °C\"" help:"Of the water." group:"Conditions"`
	Salinity         string `placeholder:"\"35 g/kg\"" help:"Of the water; 0 g/kg is fresh." group:"Conditions"`
	AirTemperature   string `placeholder:"\"15 °C\"" help:"Of the air." group:"Conditions"`
	WindProfile      string `placeholder:"\"open sea\"" help:"How wind varies with height: ${profiles}." group:"Conditions"`
}

func (s *sea) conditions() (c study.Conditions, err error) {
	c = study.Standard()
	if c.WaterTemperature, err = value("water-temperature", s.WaterTemperature, quantity.Temperature, c.WaterTemperature); err != nil {
		return c, err
	}
	if c.Salinity, err = value("salinity", s.Salinity, quantity.Share, c.Salinity); err != nil {
		return c, err
	}
	if c.AirTemperature, err = value("air-temperature", s.AirTemperature, quantity.Temperature, c.AirTemperature); err != nil {
		return c, err
	}
	if s.WindProfile != "" {
		c.WindProfile = s.WindProfile
	}
	return c, nil
}

// lattice is the flags of how foils are cut.
type lattice struct {
	Strips int    `placeholder:"12" help:"Strips that each wet piece of a foil is cut into; else 12." group:"Precision"`
	Rows   int    `placeholder:"1" help:"Rows of vortices over the chord; else 1." group:"Precision"`
	Waves  string `placeholder:"drag" help:"Waves that lift makes: none, drag (as where nothing is said), or full, which counts the incidence that they change too; a trim then takes ten times as long." group:"Precision"`
}

func (l *lattice) lattice() (study.Lattice, error) {
	for _, f := range []struct {
		flag, given string
		count       int
	}{{"strips", "12", l.Strips}, {"rows", "1", l.Rows}} {
		if f.count < 0 {
			return study.Lattice{}, fmt.Errorf("--%s: %d is no number of them\nhint: write --%s %s", f.flag, f.count, f.flag, f.given)
		}
	}
	return study.Lattice{Strips: l.Strips, Rows: l.Rows, Waves: l.Waves}, nil
}

// stance is the flags of an attitude and the controls.
type stance struct {
	Heel     string   `placeholder:"\"2 deg to windward\"" help:"To leeward, unless it says to windward." group:"State"`
	Pitch    string   `placeholder:"\"0.5 deg\"" help:"Bow down, unless it says bow up." group:"State"`
	Leeway   string   `placeholder:"\"1 deg\"" help:"Leeway angle." group:"State"`
	Ride     string   `placeholder:"\"0.8 m\"" help:"Height of the hull's lowest point above the water; else the middle of the boat's limits." group:"State"`
	Cant     string   `placeholder:"\"20 deg\"" help:"Cant of the leeward foil." group:"State"`
	Set      []string `sep:"none" placeholder:"\"leeward main flap=3 deg\"" help:"Set any control; may be given again." group:"State"`
	Mode     string   `placeholder:"\"one foil\"" help:"The mode whose settings hold for what is not set; else the boat's first." group:"State"`
	WindFrom string   `enum:"port,starboard" default:"port" help:"The side that counts as windward: port or starboard." group:"State"`
}

func (s *stance) stance() (q study.Stance, err error) {
	q = study.Stance{WindFrom: s.WindFrom, Mode: s.Mode}
	if q.Heel, err = turned("heel", s.Heel, "to leeward", "to windward"); err != nil {
		return q, err
	}
	if q.Pitch, err = turned("pitch", s.Pitch, "bow down", "bow up"); err != nil {
		return q, err
	}
	if q.Leeway, err = turned("leeway", s.Leeway, "to leeward", "to windward"); err != nil {
		return q, err
	}
	if s.Ride != "" {
		ride, err := value("ride", s.Ride, quantity.Length, 0)
		if err != nil {
			return q, err
		}
		q.Ride = &ride
	}
	if s.Cant != "" {
		if _, err := value("cant", s.Cant, quantity.Angle, 0); err != nil {
			return q, err
		}
		q.Settings = append(q.Settings, study.Setting{Name: "leeward cant", Value: s.Cant})
	}
	more, err := settings("set", s.Set)
	q.Settings = append(q.Settings, more...)
	return q, err
}

// sailing is the flags of the wind and of what is asked in it.
type sailing struct {
	TWS       string   `name:"tws" placeholder:"\"17 kn\"" help:"True wind speed at 10 m; also a list: \"8,10,12 kn\"." group:"Wind"`
	TWA       string   `name:"twa" placeholder:"\"45 deg\"" help:"True wind angle off the track, or a list: most speed there." group:"Wind"`
	Best      string   `placeholder:"windward" help:"Best progress to windward (where nothing else is said) or leeward." group:"Wind"`
	WindFrom  string   `enum:"port,starboard" default:"port" help:"The side that the wind comes from: port or starboard." group:"Wind"`
	Mode      string   `placeholder:"\"one foil\"" help:"Sail in this mode; else in the best of all." group:"What the crew may do"`
	Sails     string   `name:"set-of-sails" placeholder:"working" help:"Sail with this set of sails; else with the best of all." group:"What the crew may do"`
	Hold      []string `sep:"none" placeholder:"\"heel=2 deg to windward\"" help:"Hold speed, heel, pitch, leeway, ride height or a control; heel and leeway count to leeward, pitch bow down, unless they say otherwise; may be given again." group:"What the crew may do"`
	Relax     []string `sep:"none" placeholder:"\"ride height\"" help:"Leave out a limit by its name; may be given again." group:"What the crew may do"`
	CarriedAt string   `placeholder:"\"6 m\"" help:"Height above the water at which side force carried is told; else the sails' own." group:"What is told"`
	lattice   `embed:""`
	waves     `embed:""`
	sea       `embed:""`
}

func (s *sailing) sailing() (q study.Sailing, err error) {
	if s.TWS == "" {
		return q, errors.New("--tws: the true wind's speed is missing\nhint: write --tws \"17 kn\"")
	}
	speeds, err := values("tws", s.TWS, quantity.Speed)
	if err != nil {
		return q, err
	}
	for _, v := range speeds {
		if !(v > 0) {
			return q, fmt.Errorf("--tws: the true wind must be above 0, and is %s\nhint: foils carry nothing in a calm; try \"8 kn\"", s.TWS)
		}
		q.WindSpeeds = append(q.WindSpeeds, si.Speed(v))
	}
	if s.TWA != "" {
		angles, err := values("twa", s.TWA, quantity.Angle)
		if err != nil {
			return q, err
		}
		for _, v := range angles {
			q.WindAngles = append(q.WindAngles, si.Angle(v))
		}
	}
	switch {
	case s.TWA != "" && s.Best != "":
		return q, errors.New("--twa and --best are given together\nhint: --twa asks for most speed at an angle, --best for the angle of best progress")
	case s.Best == "leeward":
		q.Aim = trim.Leeward
	case s.Best != "" && s.Best != "windward":
		return q, fmt.Errorf("--best: %q is no aim\nhint: windward or leeward", s.Best)
	}
	q.WindFrom, q.Mode, q.Set, q.Relaxed = s.WindFrom, s.Mode, s.Sails, s.Relax
	if q.Holds, err = settings("hold", s.Hold); err != nil {
		return q, err
	}
	if q.CarriedAt, err = value("carried-at", s.CarriedAt, quantity.Length, 0); err != nil {
		return q, err
	}
	if s.CarriedAt != "" && !(q.CarriedAt > 0) {
		return q, fmt.Errorf("--carried-at: %s is not above the water\nhint: name a height such as 6 m", s.CarriedAt)
	}
	if q.Lattice, err = s.lattice.lattice(); err != nil {
		return q, err
	}
	if q.Waves, err = s.waves.waves(); err != nil {
		return q, err
	}
	q.Conditions, err = s.conditions()
	return q, err
}
