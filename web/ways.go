package web

import (
	"encoding/json"
	"fmt"
)

// ways tells how boats may be sailed, for a page's choices.
func (d *Desk) ways(a *Asked) *Told {
	var q struct {
		WindFrom string `json:"wind_from"`
	}
	if err := json.Unmarshal(a.Question, &q); err != nil {
		return &Told{Error: fmt.Sprintf("ways: the question cannot be read: %v", err)}
	}
	all, err := d.shelf.Ways(a.Boats, q.WindFrom, d.drafted(a.Drafts))
	if err != nil {
		return &Told{Error: err.Error()}
	}
	return &Told{Ways: all}
}
