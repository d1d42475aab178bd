package web

import (
	"context"

	"foilwright/si"
	"foilwright/study"
	"foilwright/trim"
)

// Opening is what a page shows where its link says nothing.
type Opening struct {
	Boats     int      `json:"boats"` // of the folder, the first
	WindSpeed si.Speed `json:"tws"`
	WindFrom  string   `json:"from"`
}

// opening is written into the page's sources, see told_test.go.
var opening = Opening{Boats: 2, WindSpeed: 17 * si.Knot, WindFrom: "port"}

// foresee looks for the best trims that a page will ask about when it opens, while the
// browser is still starting: one after the other, the boat that is drawn first. What
// cannot be found is told when a page asks for it.
func (d *Desk) foresee(ctx context.Context) {
	defer func() { _ = recover() }() // whoever asks is told of it
	boats := d.boats()
	for _, b := range boats[:min(opening.Boats, len(boats))] {
		q := &study.Trim{Sailing: study.Sailing{
			WindSpeeds: []si.Speed{opening.WindSpeed}, WindFrom: opening.WindFrom, Aim: trim.Windward, Conditions: study.Standard(),
		}}
		_, _ = study.Run(ctx, study.Request{Boats: []string{b.File}, Question: q, Open: d.open, Shelf: &d.shelf, Workers: 1})
	}
}
