package odds

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"math"

	"foilwright/batch"
)

// perPiece is how many samples are evaluated, and kept, together.
const perPiece = 8

// outcomeBytes is how long a written outcome is: a state and three numbers.
const outcomeBytes = 1 + 3*8

// encode writes outcomes, little-endian.
func encode(outcomes []Outcome) []byte {
	data := make([]byte, 0, outcomeBytes*len(outcomes))
	for _, o := range outcomes {
		data = append(data, byte(o.State))
		for _, v := range []float64{o.Progress, o.Speed, o.Angle} {
			data = binary.LittleEndian.AppendUint64(data, math.Float64bits(v))
		}
	}
	return data
}

// decode reads outcomes in rows of a width.
func decode(data []byte, width int) ([][]Outcome, error) {
	if width <= 0 || len(data)%(width*outcomeBytes) != 0 {
		return nil, fmt.Errorf("internal error: a piece of %d bytes holds no whole rows of %d outcomes", len(data), width)
	}
	var rows [][]Outcome
	number := func(at int) float64 { return math.Float64frombits(binary.LittleEndian.Uint64(data[at:])) }
	for at := 0; at < len(data); {
		row := make([]Outcome, width)
		for i := range row {
			row[i] = Outcome{State(data[at]), number(at + 1), number(at + 9), number(at + 17)}
			at += outcomeBytes
		}
		rows = append(rows, row)
	}
	return rows, nil
}

// rowsOf has a runner evaluate the rows of values from a row up to another, and
// hands each row's outcomes, for the first so many columns, on in order.
func (p *Plan) rowsOf(ctx context.Context, run batch.Runner, from, until, width int, values func(row int) []float64, take func([]Outcome)) error {
	return run(ctx, batch.Work{
		From: from / perPiece, Until: (until + perPiece - 1) / perPiece,
		Do: func(ctx context.Context, piece int) ([]byte, error) {
			var all []Outcome
			for row := piece * perPiece; row < (piece+1)*perPiece; row++ {
				v := values(row)
				if v == nil {
					break
				}
				outcomes, err := p.Evaluate(ctx, v, width)
				if err != nil {
					return nil, err
				}
				if err := sound(outcomes, width); err != nil {
					return nil, err
				}
				all = append(all, outcomes...)
			}
			return encode(all), nil
		},
		Take: func(piece int, made []byte) error {
			rows, err := decode(made, width)
			for i, row := range rows {
				if at := piece*perPiece + i; at >= from && at < until {
					take(row)
				}
			}
			return err
		},
	})
}

// sound refuses outcomes that are no answer.
func sound(outcomes []Outcome, width int) error {
	if len(outcomes) != width {
		return fmt.Errorf("internal error: %d outcomes, %d are wanted", len(outcomes), width)
	}
	for _, o := range outcomes {
		if sum := o.Progress + o.Speed + o.Angle; o.State == Sails && (math.IsNaN(sum) || math.IsInf(sum, 0)) {
			return errors.New("internal error: an outcome is not a number")
		}
	}
	return nil
}
