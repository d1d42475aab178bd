package study

import (
	"fmt"
	"strings"

	"foilwright/fluid"
	"foilwright/quantity"
)

// Conditions are the water and the air that boats are asked about in.
type Conditions struct {
	WaterTemperature float64 `json:"water_temperature_K"`
	Salinity         float64 `json:"salinity"` // Absolute Salinity, share
	AirTemperature   float64 `json:"air_temperature_K"`
	WindProfile      string  `json:"wind_profile"` // see WindProfiles
}

// WindProfiles tells what a wind profile may be.
const WindProfiles = "open sea, uniform, log law and a roughness (log law 0.2 mm), or power law and an exponent (power law 0.11)"

// Standard returns the conditions that hold unless a person says otherwise: sea
// and air of 15 °C, and the wind over open sea, given for 10 m.
func Standard() Conditions {
	return Conditions{
		WaterTemperature: fluid.StandardTemperature, Salinity: fluid.StandardSalinity,
		AirTemperature: fluid.StandardTemperature, WindProfile: "open sea",
	}
}

// fluids returns the water, the air and the wind's profile.
func (c *Conditions) fluids() (fluid.Water, fluid.Air, fluid.Profile, error) {
	water, err := fluid.SeaWater(c.WaterTemperature, c.Salinity)
	if err != nil {
		return fluid.Water{}, fluid.Air{}, fluid.Profile{}, err
	}
	air := fluid.StandardAir()
	if c.AirTemperature != fluid.StandardTemperature {
		if air, err = fluid.MoistAir(c.AirTemperature, fluid.StandardPressure, 0); err != nil {
			return fluid.Water{}, fluid.Air{}, fluid.Profile{}, err
		}
	}
	profile, err := profileOf(c.WindProfile)
	return water, air, profile, err
}

// profileOf reads a wind profile in words.
func profileOf(words string) (fluid.Profile, error) {
	switch {
	case words == "" || words == "open sea":
		return fluid.OpenSea(), nil
	case words == "uniform":
		return fluid.Uniform(), nil
	}
	build, want := fluid.LogLaw, quantity.Length
	rest, ok := strings.CutPrefix(words, "log law ")
	if !ok {
		build, want = fluid.PowerLaw, quantity.Number
		rest, ok = strings.CutPrefix(words, "power law ")
	}
	if !ok {
		return fluid.Profile{}, fmt.Errorf("wind profile: %q is not one that is known\nhint: %s", words, WindProfiles)
	}
	q, err := quantity.Parse(rest, want)
	if err != nil {
		return fluid.Profile{}, fmt.Errorf("wind profile: %w", err)
	}
	p, err := build(q.Likely)
	if err != nil {
		return fluid.Profile{}, fmt.Errorf("wind profile: %w", err)
	}
	return p, nil
}
