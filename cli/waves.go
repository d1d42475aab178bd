package cli

import (
	"errors"

	"foilwright/quantity"
	"foilwright/study"
)

// waves is the flags of the sea state.
type waves struct {
	WaveHeight string `placeholder:"\"0.6 m\"" help:"Significant height of waves that run with the wind: the hull must clear their crests, tips must stay under their troughs. Else a calm sea." group:"Conditions"`
	WavePeriod string `placeholder:"\"3.2 s\"" help:"Period of the highest waves, as a buoy counts it." group:"Conditions"`
}

func (w *waves) waves() (q study.Waves, err error) {
	switch {
	case w.WaveHeight == "" && w.WavePeriod != "":
		return q, errors.New("--wave-period: goes with a height, and none is given\nhint: add --wave-height \"0.6 m\", or leave both out for a calm sea")
	case w.WaveHeight != "" && w.WavePeriod == "":
		return q, errors.New("--wave-height: goes with a period, and none is given\nhint: add --wave-period \"3.2 s\": short seas and long ones of one height ask for different room")
	}
	if q.WaveHeight, err = value("wave-height", w.WaveHeight, quantity.Length, 0); err != nil {
		return q, err
	}
	q.WavePeriod, err = value("wave-period", w.WavePeriod, quantity.Time, 0)
	return q, err
}
