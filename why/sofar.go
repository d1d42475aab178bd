package why

// SoFar is what can be said of a split before it is done: the whole difference, and
// what each cause does alone to the first boat. These do not add up to the difference,
// since causes act on each other, and are not the parts that the split comes to.
type SoFar struct {
	Figure     string  `json:"figure"`
	Unit       string  `json:"unit"`
	First      Side    `json:"first"`
	Second     Side    `json:"second"`
	Difference float64 `json:"difference"` // second less first
	Weight     float64 `json:"weight_N"`   // of the first boat, for scale
	Alone      []Alone `json:"alone"`      // empty before each was tried
}

// Alone is what one cause does by itself to the first boat.
type Alone struct {
	Name   string  `json:"name"`
	Change float64 `json:"change"` // of the figure, in its unit
}

// soFar is what can be said of the two boats; the difference must be there.
func (res *Result) soFar() *SoFar {
	return &SoFar{Figure: res.Figure, Unit: res.Unit, First: res.First, Second: res.Second, Difference: *res.Difference,
		Weight: res.Boats[0].Weight, Alone: []Alone{}}
}

// soFar is the same with what each cause does alone, where boats with it sail.
func (v *voyage) soFar(r *Request, res *Result) *SoFar {
	so := res.soFar()
	for i, c := range v.fleet.causes {
		a, tried := v.answers[Coalition(0).With(i)]
		if !tried || !a.sails() {
			continue
		}
		if value, has := r.Figure.Read(a.trim); has {
			so.Alone = append(so.Alone, Alone{c.Name, value - *res.First.Value})
		}
	}
	return so
}
