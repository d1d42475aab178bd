package figure

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"foilwright/quantity"
	"foilwright/trim"
	"foilwright/why"
)

// WaterfallPart is a difference in steps, from the first boat to the second.
type WaterfallPart struct {
	Axis  string       `json:"axis"`
	First NamedNumber  `json:"first"`
	Last  NamedNumber  `json:"last"`
	Whole Number       `json:"whole"` // the difference
	Steps []CausedStep `json:"steps"`
}

// NamedNumber is a figure with its name.
type NamedNumber struct {
	Name string `json:"name"`
	Number
}

// CausedStep is what one cause is worth.
type CausedStep struct {
	NamedNumber
	Error float64 `json:"error"` // standard error, in the axis's unit; 0 where there is none
	Said  string  `json:"said"`  // the change in the file, where there is one only
}

// causes fills the chart with a split.
func (c *Chart) causes(r *why.Result) error {
	if r.Difference == nil {
		for _, b := range r.Boats {
			if b.Answer != trim.Found {
				return noAnswer(b)
			}
		}
	}
	if len(r.Causes) == 0 {
		return fmt.Errorf("%s and %s: the files do not differ, and there is nothing to split\nhint: name two boats that differ", r.First.Boat, r.Second.Boat)
	}
	u := c.units.On(r.Boats[0].Weight, r.Unit)
	what := r.Figure
	if r.Figure == "progress" {
		what = strings.TrimPrefix(progressWord(r.Aim), "of ")
	}
	w := &WaterfallPart{Axis: what + unitOf(u), Whole: changeIn(u, *r.Difference),
		First: NamedNumber{r.First.Boat, numberIn(u, *r.First.Value)}, Last: NamedNumber{r.Second.Boat, numberIn(u, *r.Second.Value)}}
	c.Waterfall = w
	c.Table.Head = []string{"step", what + unitOf(u), "standard error" + unitOf(u)}
	c.Table.Rows = append(c.Table.Rows, []string{r.First.Boat, w.First.Text, ""})
	causes := slices.Clone(r.Causes)
	slices.SortStableFunc(causes, func(a, b why.Part) int { return cmp.Compare(math.Abs(b.Part), math.Abs(a.Part)) })
	for _, k := range causes {
		step := CausedStep{NamedNumber: NamedNumber{k.Name, changeIn(u, k.Part)}, Error: u.In(k.Error)}
		if len(k.Changes) == 1 {
			step.Said = k.Changes[0].Path
		} else {
			step.Said = fmt.Sprintf("%d figures of the files", len(k.Changes))
		}
		w.Steps = append(w.Steps, step)
		c.Table.Rows = append(c.Table.Rows, []string{k.Name, step.Text, u.Numeral(k.Error)})
	}
	c.Table.Rows = append(c.Table.Rows, []string{r.Second.Boat, w.Last.Text, ""})
	c.Title = causesTitle(r, u, what, causes)
	c.Under = fmt.Sprintf("%s split into causes, each by its mean over all orders (Shapley). %s", capital(what), capital(c.windOf(r)))
	var told []string
	for _, s := range w.Steps {
		told = append(told, s.Name+" "+s.Text+space(u.Unit))
	}
	c.Summary = fmt.Sprintf("From %s, %s, to %s, %s: %s.", r.First.Boat, w.First.Text+space(u.Unit), r.Second.Boat, w.Last.Text+space(u.Unit), strings.Join(told, ", "))
	return nil
}

// windOf says which wind a split is in.
func (c *Chart) windOf(r *why.Result) string {
	if r.Aim == trim.LeastWind.String() {
		return "every boat in the least wind in which she flies, from " + r.WindFrom
	}
	return c.wind(r.Boats[0])
}

// causesTitle says by how much, and the cause that does most of it; causes come the
// largest first.
func causesTitle(r *why.Result, u quantity.Usual, what string, causes []why.Part) string {
	d := *r.Difference
	if nearZero(u, d) {
		return fmt.Sprintf("%s and %s are equal in %s", r.Second.Boat, r.First.Boat, what)
	}
	more, less := "has more "+what+" than", "has less "+what+" than"
	if r.Figure == "progress" || r.Figure == "speed" {
		more, less = "is faster than", "is slower than"
	}
	if r.Aim == trim.LeastWind.String() {
		more, less = "needs more wind to fly than", "flies in less wind than"
	}
	verb := more
	if d < 0 {
		verb = less
	}
	title := fmt.Sprintf("%s %s %s by %s", r.Second.Boat, verb, r.First.Boat, u.Format(math.Abs(d)))
	for _, k := range causes {
		if k.Part*d > 0 {
			return title + fmt.Sprintf(", most of all for %s (%s)", k.Name, u.FormatChange(k.Part))
		}
	}
	return title
}

func unitOf(u quantity.Usual) string {
	if u.Unit == "" {
		return ""
	}
	return " (" + u.Unit + ")"
}

func space(unit string) string {
	if unit == "" {
		return ""
	}
	return " " + unit
}
