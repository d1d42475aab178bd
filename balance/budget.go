package balance

import (
	"foilwright/boat"
	"foilwright/frame"
)

// Budget is every item's moment about a fore-and-aft axis through one point:
// what rights the boat and what heels her. The two totals are equal in a steady
// state about any point; what each row holds depends on the point.
type Budget struct {
	About    frame.Point[frame.Track] `json:"about_m"`
	Rows     []BudgetRow              `json:"rows"`
	Righting float64                  `json:"righting_moment_Nm"` // of weight, buoyancy and water, N·m, positive to windward
	Heeling  float64                  `json:"heeling_moment_Nm"`  // of the air, N·m, positive to leeward
}

// BudgetRow is one part's share of the budget.
type BudgetRow struct {
	Part    string  `json:"part"`
	Kind    string  `json:"kind"`      // weight, buoyancy, water, sails or windage
	Moment  float64 `json:"moment_Nm"` // N·m; positive rights in rows of weight, buoyancy and water, positive heels in the air's
	Arm     float64 `json:"arm_m"`     // moment over the force across it, m; 0 where there is no force
	Force   float64 `json:"force_N"`   // across the axis, N
	Heeling Turning `json:"-"`
}

// Turning tells which total a row counts toward.
type Turning int

// The totals.
const (
	Rights Turning = iota
	Heels
)

// Leeward returns +1 where positive heel is to leeward, with the wind from
// port, and −1 where it is to windward.
func Leeward(windFrom boat.Side) float64 {
	if windFrom == boat.Starboard {
		return -1
	}
	return 1
}

// BudgetAbout returns the righting-moment budget of items about a point.
func BudgetAbout(items []boat.Item, about frame.Point[frame.Track], windFrom boat.Side) Budget {
	budget := Budget{About: about}
	leeward := Leeward(windFrom)
	var loads []frame.Load[frame.Track]
	var sources []source
	for i := range items {
		it := &items[i]
		source := sourceOf(it.Cause)
		at := -1
		for k := range budget.Rows {
			if budget.Rows[k].Part == it.Part && sources[k] == source {
				at = k
			}
		}
		if at < 0 {
			at = len(budget.Rows)
			row := BudgetRow{Part: it.Part, Kind: source.kind()}
			if source >= sails {
				row.Heeling = Heels
			}
			sources = append(sources, source)
			budget.Rows = append(budget.Rows, row)
			loads = append(loads, frame.Load[frame.Track]{About: about})
		}
		loads[at] = loads[at].Plus(it.Load)
	}
	for k := range budget.Rows {
		row := &budget.Rows[k]
		across := frame.Vec[frame.Track]{Y: loads[k].Force.Y, Z: loads[k].Force.Z}
		row.Force = across.Norm()
		row.Moment = -leeward * loads[k].Moment.X
		if row.Heeling == Heels {
			row.Moment = -row.Moment
			budget.Heeling += row.Moment
		} else {
			budget.Righting += row.Moment
		}
		if row.Force > 0 {
			row.Arm = row.Moment / row.Force
		}
	}
	return budget
}

// source is where a row's loads come from. Sails and windage are two: a foil and
// a sail may go by one name, and the foil has windage where it is dry.
type source int

const (
	gravity source = iota
	buoyancy
	water
	sails
	windage
)

// kind returns the source's name in a row.
func (s source) kind() string {
	return [...]string{"weight", "buoyancy", "water", "sails", "windage"}[s]
}

func sourceOf(c boat.Cause) source {
	switch {
	case c == boat.Gravity:
		return gravity
	case c == boat.Buoyancy:
		return buoyancy
	case c.Medium() == boat.Water:
		return water
	case c == boat.WindDrag:
		return windage
	}
	return sails
}
