package trim

import (
	"math"

	"foilwright/sail"
)

// largestLiftRows keeps every strip of a sail below its largest lift: a row a
// strip. The best twist makes the hardest strips equal, so that the least of all
// has its kink just where the answer lies, and a search by slopes does not come to
// rest there.
func (p *problem) largestLiftRows(rows []row, position int, name string) []row {
	for k := range sail.StripsOf(&p.here.Sail) {
		rows = append(rows, row{
			limit: name, unit: "1", figure: largestLift, sail: position, strip: k, lower: leastLiftInHand, upper: math.Inf(1), size: 1,
		})
	}
	return rows
}
