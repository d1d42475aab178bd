package boat

import "strings"

// Mode is what the crew may combine: sets of sails, and narrower ranges of
// controls, by windward and leeward.
type Mode struct {
	Name   string
	Sets   []int // indices in Boat.Sets; empty means any
	Ranges []ModeRange
	Limits []Limit // in this mode these stand in for the boat's of the same kind and part
}

// ModeRange narrows one control in a mode.
type ModeRange struct {
	Bearing      Bearing
	Part         string // "main"
	Label        string // "cant"
	Lower, Upper float64
}

// Bounds returns the lower and upper setting of every control in a mode, with
// the wind from a side. The crew's range is the control's own cut by the mode's.
// A mode is written for port tack: ranges of what turns over in the mirror, such
// as a weight's y, change sides on starboard tack.
func (b *Boat) Bounds(m *Mode, windFrom Side) (lower, upper []float64) {
	lower, upper = make([]float64, len(b.Controls)), make([]float64, len(b.Controls))
	for i := range b.Controls {
		c := &b.Controls[i]
		lower[i], upper[i] = c.Lower, c.Upper
		for _, r := range m.Ranges {
			if r.Part != c.Part || r.Label != c.Label {
				continue
			}
			if r.Bearing != AnyBearing && c.Side != Centre && r.Bearing.On(windFrom) != c.Side {
				continue
			}
			from, to := r.Lower, r.Upper
			if windFrom == Starboard && c.Side == Centre && b.turnsOver(i) {
				from, to = -to, -from // written for port tack
			}
			lower[i], upper[i] = max(lower[i], from), min(upper[i], to)
		}
	}
	return lower, upper
}

// LimitsIn returns the limits that hold in a mode: the boat's, each replaced by
// the mode's own of the same kind and part.
func (b *Boat) LimitsIn(m *Mode) []Limit {
	limits := append([]Limit(nil), b.Limits...)
	for _, l := range m.Limits {
		at := -1
		for i := range limits {
			if limits[i].Kind == l.Kind && limits[i].Part == l.Part {
				at = i
			}
		}
		if at < 0 {
			limits = append(limits, l)
		} else {
			limits[at] = l
		}
	}
	return limits
}

// LimitKind is what a limit limits.
type LimitKind int

// The kinds of limit.
const (
	LimitHeel        LimitKind = iota // rad, positive to leeward
	LimitPitch                        // rad, positive bow down
	LimitLeeway                       // rad, positive to leeward
	LimitRideHeight                   // m
	LimitTipDepth                     // m, the shallowest free tip of every foil that is down
	LimitSheetLoad                    // N, of one sail
	LimitCavitation                   // 1, the least margin over all strips
	LimitVentilation                  // rad, the least margin over all strips
	LimitRootBending                  // N·m, at a foil's root
	LimitHingeMoment                  // N·m, of a flap
	LimitSpeed                        // m/s
	LimitSailLoad                     // 1, the least lift coefficient of a sail's strips, positive to leeward
)

// String returns the limit's name in a boat file.
func (k LimitKind) String() string {
	return [...]string{
		"heel", "pitch", "leeway", "ride height", "tip depth", "sheet load", "cavitation margin",
		"ventilation margin", "root bending moment", "hinge moment", "speed", "load to leeward",
	}[k]
}

// Limit keeps one figure between bounds; ±Inf where a side is open.
type Limit struct {
	Kind         LimitKind
	Part         string // the foil, flap or sail that it is for; empty for all
	Lower, Upper float64
}

// Name returns the limit's name with its part.
func (l Limit) Name() string { return strings.TrimSpace(l.Part + " " + l.Kind.String()) }

// Names tells how closely a limit names a foil: 0 not at all, 1 as every foil, 2 by its
// kind, 3 by its own name.
func (l Limit) Names(f *Foil) int {
	switch l.Part {
	case f.Name:
		return 3
	case f.Kind:
		return 2
	case "":
		return 1
	}
	return 0
}
