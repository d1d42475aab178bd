package odds

import "math"

// settle names the input that is most worth measuring for a pair: with input i
// known exactly the variance left is expected to be 1 − Sᵢ of what it was (the
// definition of the first-order index, Sobol' 1993).
func (p *Pair) settle(inputs []Input) *Settle {
	of := differenceName(p.First, p.Second)
	if p.Difference.Deviation == nil {
		return nil
	}
	s := Settle{Deviation: *p.Difference.Deviation}
	left := func(share float64) float64 { return s.Deviation * math.Sqrt(max(0, 1-share)) }
	var file *Input
	fileOrder := 0.0
	for i := range inputs {
		in := &inputs[i]
		order := in.shareOf(of).FirstOrder
		if order > s.FirstOrder {
			s.Input, s.Kind, s.FirstOrder = in.Name, in.Kind, order
		}
		if (in.Kind == OfFigure || in.Kind == OfShared) && order > fileOrder {
			file, fileOrder = in, order
		}
	}
	if s.Input == "" {
		return nil
	}
	s.Left = left(s.FirstOrder)
	if file != nil && file.Name != s.Input {
		l := left(fileOrder)
		s.Measure, s.MeasureOrder, s.MeasureLeft = file.Name, fileOrder, &l
	}
	return &s
}

// shareOf returns the input's share in the spread of a figure.
func (in *Input) shareOf(of string) Share {
	if in.Share.Of == of {
		return in.Share
	}
	for _, s := range in.Others {
		if s.Of == of {
			return s
		}
	}
	return Share{Of: of}
}
