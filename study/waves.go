package study

import "foilwright/fluid"

// Waves are the sea state that boats are asked about in: it asks for room under
// the hulls and over the tips (trim.SeaRoom) and for nothing else.
type Waves struct {
	WaveHeight float64 `json:"wave_height_m,omitempty"` // significant; 0 is a calm sea
	WavePeriod float64 `json:"wave_period_s,omitempty"` // of the highest waves, at a fixed place
}

// sea returns the sea state.
func (w *Waves) sea() (fluid.Sea, error) { return fluid.NewSea(w.WaveHeight, w.WavePeriod) }
