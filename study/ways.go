package study

import (
	"foilwright/boat"
	"foilwright/quantity"
	"foilwright/trim"
)

// Ways is how a boat may be sailed, and what her crew may set.
type Ways struct {
	File     string        `json:"file"`
	Boat     string        `json:"boat"`
	Modes    []WaysMode    `json:"modes"` // none where the boat has one way only
	Sets     []string      `json:"sets"`
	Controls []WaysControl `json:"controls"` // those that can take more than one setting
}

// WaysMode is a mode with the sets of sails that it is sailed with.
type WaysMode struct {
	Name string   `json:"name"`
	Sets []string `json:"sets"`
}

// WaysControl is a control that the crew sets.
type WaysControl struct {
	Name  string `json:"name"`  // by the wind, "leeward main cant"
	Range string `json:"range"` // with its unit
}

// Ways reads boats and tells how each may be sailed, with the wind from a side. A boat
// that cannot be read has no ways, and is left out: other questions say why.
func (s *Shelf) Ways(files []string, windFrom string, open func(string) ([]byte, error)) ([]Ways, error) {
	side, err := sideOf(windFrom)
	if err != nil {
		return nil, err
	}
	all := []Ways{}
	for _, file := range files {
		if k := s.read(file, open); k.err == nil {
			all = append(all, waysOf(file, k.boat, side))
		}
	}
	return all, nil
}

func waysOf(file string, b *boat.Boat, side boat.Side) Ways {
	w := Ways{File: file, Boat: b.Name, Modes: []WaysMode{}, Sets: []string{}, Controls: []WaysControl{}}
	for _, set := range b.Sets {
		w.Sets = append(w.Sets, set.Name)
	}
	for _, m := range b.Modes {
		mode := WaysMode{Name: m.Name, Sets: []string{}}
		for _, i := range m.Sets {
			mode.Sets = append(mode.Sets, b.Sets[i].Name)
		}
		if len(m.Sets) == 0 {
			mode.Sets = w.Sets
		}
		w.Modes = append(w.Modes, mode)
	}
	for i := range b.Controls {
		if c := &b.Controls[i]; !c.Fixed() {
			can := quantity.Range{Low: c.Lower, High: c.Upper, Dimension: dimensionOf(c.Kind), Unit: unitOf(c.Kind)}
			w.Controls = append(w.Controls, WaysControl{trim.ByWind(c.Name, side), can.String()})
		}
	}
	return w
}
