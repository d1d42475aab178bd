package study

import (
	"context"
	"fmt"
	"strings"

	"foilwright/boat"
	"foilwright/compare"
	"foilwright/polar"
	"foilwright/quantity"
	"foilwright/trim"
	"foilwright/why"
)

// Why asks which differences of two boats make one of them faster, or another
// figure of hers greater.
type Why struct {
	Sailing
	Figure     string      `json:"figure"` // filled in; empty: progress, or speed at a given angle
	Groups     []why.Group `json:"groups,omitempty"`
	Pairs      bool        `json:"pairs,omitempty"`       // also how each two causes act on each other
	Orders     int         `json:"orders,omitempty"`      // sampled where causes are many; 0 for why.DefaultOrders
	Seed       uint64      `json:"seed,omitempty"`        // of the orders
	CannotSail string      `json:"cannot_sail,omitempty"` // what mixed boats count for that cannot sail, with its unit
}

// Verb names the question.
func (*Why) Verb() string { return "why" }

// besides are the figures that are split beside the one that is asked about.
var besides = []string{
	"progress", "speed", "true wind angle", "side force carried", "righting moment", "wetted area", "drag in the water", "drag in the air",
}

func (q *Why) ask(ctx context.Context, d *desk) (any, Verdict, error) {
	if len(d.boats) != 2 {
		return nil, "", fmt.Errorf("why takes two boat files, and %d %s named\nhint: of more boats there is foilwright compare; then ask why of two", len(d.boats), areOrIs(len(d.boats)))
	}
	requests, err := q.requests()
	if err != nil {
		return nil, "", err
	}
	put := q.forBoat
	if IsTakeOff(q.Figure) {
		requests, put = q.takeOffs(requests)
	}
	r := why.Request{First: d.sheets[0], Second: d.sheets[1], Groups: q.Groups, Orders: q.Orders, Seed: q.Seed}
	if q.Pairs {
		r.Depth = why.InPairs
	}
	if err := q.figures(&r, requests[0].Aim); err != nil {
		return nil, "", err
	}
	results, verdict := []*why.Result{}, HonestNo
	for i := range requests {
		r.Ask = func(b *boat.Boat) (trim.Request, error) { return put(b, requests[i]) }
		r.Running = soFar[*why.SoFar](d, q)
		res, err := piece(ctx, d, q, i, func() (*why.Result, error) {
			return why.Run(ctx, r, d.request.Workers, d.within(i, len(requests)))
		})
		if err != nil {
			return nil, "", err
		}
		if res.Difference != nil {
			verdict = Answered
		}
		results = append(results, res)
	}
	return results, verdict, nil
}

func areOrIs(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// within returns what tells the progress of one of several splits.
func (d *desk) within(i, of int) func(done, total int) {
	if d.request.Progress == nil {
		return nil
	}
	return func(done, total int) { d.request.Progress(i*total+done, of*total) }
}

// figures looks up the figure that is asked about and those beside it.
func (q *Why) figures(r *why.Request, aim trim.Aim) error {
	if q.Figure == "" {
		q.Figure = "progress"
		if aim == trim.AtAngle {
			q.Figure = "speed"
		}
	}
	asked, ok := compare.FigureOf(q.Figure)
	switch {
	case IsTakeOff(q.Figure):
		asked = takeOffWind()
	case !ok:
		return unknownFigure(q.Figure)
	}
	q.Figure = asked.Name
	r.Figure = why.Figure(asked)
	for _, name := range besides {
		f, _ := compare.FigureOf(name)
		if name != asked.Name && !(name == "progress" && aim != trim.Windward && aim != trim.Leeward) && !(name == "true wind angle" && len(q.WindAngles) > 0) {
			r.Others = append(r.Others, why.Figure(f))
		}
	}
	if q.CannotSail == "" {
		return nil
	}
	v, err := quantity.Parse(q.CannotSail, dimensionOfUnit(asked.Unit))
	if err != nil {
		return fmt.Errorf("cannot sail: %w", err)
	}
	r.CannotSail = &v.Likely
	return nil
}

// takeOffWind is the least true wind in which a boat flies, read off the trim in it:
// what [Polar] with TakeOff tells first.
func takeOffWind() compare.Figure {
	return compare.Figure{Name: "take-off wind", Unit: "m/s", Read: func(r *trim.Result) (float64, bool) {
		return r.TrueWindSpeed.MetresPerSecond(), r.Aim == trim.LeastWind.String()
	}}
}

// IsTakeOff tells whether a figure's name is the take-off wind's, however spelt.
func IsTakeOff(name string) bool {
	plain := strings.NewReplacer(" ", "", "-", "").Replace(strings.ToLower(name))
	return plain == "takeoffwind" || plain == "takeoff"
}

// takeOffs returns a request for the least wind for each angle, or one at the best,
// and what puts it to a boat. Wind speeds do not count.
func (q *Why) takeOffs(requests []trim.Request) ([]trim.Request, func(*boat.Boat, trim.Request) (trim.Request, error)) {
	q.Aimed = trim.LeastWind.String()
	all := requests[:max(1, len(q.WindAngles))]
	for i := range all {
		if len(q.WindAngles) == 0 {
			all[i].WindAngle = 0
		}
		all[i] = polar.LeastWindToFly(all[i])
	}
	return all, func(b *boat.Boat, r trim.Request) (trim.Request, error) {
		if !polar.MayFly(b) {
			return r, &why.FigureError{Figure: "take-off wind", Problem: "the limits of " + b.Name + " keep a hull in the water", Hint: "ask for progress or speed"}
		}
		return q.forBoat(b, r)
	}
}

// unknownFigure is the error of a figure that is not known by its name.
func unknownFigure(name string) error {
	names := []string{takeOffWind().Name}
	for _, f := range compare.Figures() {
		names = append(names, f.Name)
	}
	return fmt.Errorf("figure: there is no figure %q\nhint: %s; of the balance sheet, as in: leeward main lift up", name, suggestion(name, names))
}

// dimensionOfUnit returns what a figure with an SI unit measures.
func dimensionOfUnit(unit string) quantity.Dimension {
	switch unit {
	case "m/s":
		return quantity.Speed
	case "rad":
		return quantity.Angle
	case "m":
		return quantity.Length
	case "m²":
		return quantity.Area
	case "N":
		return quantity.Force
	case "N·m":
		return quantity.Moment
	}
	return quantity.Number
}
