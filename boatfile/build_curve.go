package boatfile

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"

	"foilwright/boat"
	"foilwright/quantity"
)

// The sources of a hull's resistance afloat.
const (
	fromRegression = "regression"
	fromOwnCurve   = "own curve"
)

// resistance returns where a hull's resistance afloat comes from.
func (b *builder) resistance(f *floatsForm) boat.Resistance {
	if !f.given() {
		return boat.Resistance{}
	}
	if f.From.given() && f.From.text == fromRegression {
		if f.File.given() || f.Curve.given() {
			b.faultAt(&f.From.site, "a regression takes no curve", "write  from: own curve")
		}
		return boat.Resistance{Source: fromRegression}
	}
	if f.From.text != fromOwnCurve {
		if f.From.given() {
			b.faultAt(&f.From.site, fmt.Sprintf("%q is no source of resistance", f.From.text), nearest(f.From.text, []string{fromRegression, fromOwnCurve}))
		}
		return boat.Resistance{}
	}
	switch {
	case f.File.given() && f.Curve.given():
		b.faultAt(&f.File.site, "file and curve cannot both be given", "keep one of them")
	case f.File.given():
		return b.curveFile(&f.File)
	case f.Curve.given():
		return b.curveHere(&f.Curve)
	default:
		b.faultUnder(&f.site, "file", "is missing", "write  file: resistance.csv, or  curve: {4 kn: 300 N, 8 kn: 1.2 kN}")
	}
	return boat.Resistance{}
}

// curveHere reads a curve that is written in the boat file.
func (b *builder) curveHere(f *named[setting]) boat.Resistance {
	r := boat.Resistance{Source: fromOwnCurve}
	before := len(b.faults)
	for i := range f.items {
		item := &f.items[i]
		at := site{&node{text: item.name, place: item.place}, item.part.path}
		v, err := quantity.Parse(item.name, quantity.Speed)
		if err != nil {
			b.faults = append(b.faults, quantityFault(at.node, at.path, err))
			continue
		}
		b.curvePoint(&r, &at, v.Likely, b.setting(&item.part, quantity.Force))
	}
	if len(r.Speed) < 2 && len(b.faults) == before {
		b.faultAt(&f.site, "a curve needs two points or more", "write a resistance for each speed:  curve: {4 kn: 300 N, 8 kn: 1.2 kN}")
	}
	return r
}

// curvePoint adds a point to a curve.
func (b *builder) curvePoint(r *boat.Resistance, at *site, speed, force float64) {
	n := len(r.Speed)
	switch {
	case speed < 0 || n > 0 && speed <= r.Speed[n-1]:
		b.faultAt(at, "speeds must rise from 0", "give each speed once, the slowest first")
	case force < 0:
		b.faultAt(at, "a resistance is not negative", "")
	default:
		r.Speed, r.Force = append(r.Speed, speed), append(r.Force, force)
	}
}

// curveFile reads a curve from a table of its own, once.
func (b *builder) curveFile(w *words) boat.Resistance {
	full, text, err := b.shelf.fetch(w.node.place, w.text)
	if err != nil {
		b.faultErr(&w.site, err)
		return boat.Resistance{}
	}
	for _, have := range b.shelf.curves {
		if have.file == full {
			return have.curve
		}
	}
	r := b.readCurve(full, text)
	if b.reading() {
		b.shelf.curves = append(b.shelf.curves, shelvedCurve{full, r})
	}
	return r
}

// readCurve reads comma-separated values: a heading with the two units in
// brackets, then speed and resistance, speeds rising. Lines that begin with #
// are comments.
func (b *builder) readCurve(name string, text []byte) boat.Resistance {
	r := boat.Resistance{Source: fromOwnCurve}
	in := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))))
	in.Comment, in.TrimLeadingSpace, in.FieldsPerRecord = '#', true, -1
	var units [2]string
	for row := 0; ; row++ {
		record, err := in.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		at := site{node: &node{place: Place{File: name, Line: 1, Column: 1}}}
		if err != nil {
			var parse *csv.ParseError
			if errors.As(err, &parse) {
				at.node.place.Line, at.node.place.Column, err = parse.Line, parse.Column, parse.Err
			}
			b.faultAt(&at, "not a table of comma-separated values: "+err.Error(), "")
			return r
		}
		at.node.place.Line, at.node.place.Column = in.FieldPos(0)
		if len(record) != 2 {
			b.faultAt(&at, fmt.Sprintf("%d columns, speed and resistance are wanted", len(record)), "write  speed (kn),resistance (N)  in the first line")
			return r
		}
		if row == 0 {
			for i, want := range [...]quantity.Dimension{quantity.Speed, quantity.Force} {
				units[i] = bracketed(record[i])
				if _, err := quantity.Parse("1 "+units[i], want); err != nil {
					b.faultAt(&at, fmt.Sprintf("column %d has no unit of %s in brackets", i+1, want), "write  speed (kn),resistance (N)  in the first line")
					return r
				}
			}
			continue
		}
		var v [2]float64
		good := true
		for i, want := range [...]quantity.Dimension{quantity.Speed, quantity.Force} {
			q, err := quantity.Parse(strings.TrimSpace(record[i])+" "+units[i], want)
			if err != nil {
				at.node.text = record[i]
				at.node.place.Line, at.node.place.Column = in.FieldPos(i)
				b.faultErr(&at, err)
				good = false
			}
			v[i] = q.Likely
		}
		if good {
			b.curvePoint(&r, &at, v[0], v[1])
		}
	}
	if len(r.Speed) < 2 {
		at := site{node: &node{place: Place{File: name}}}
		b.faultAt(&at, "a curve needs two points or more", "write a line for each speed: speed, resistance")
	}
	return r
}

// bracketed returns what stands in the last brackets of a heading.
func bracketed(heading string) string {
	_, rest, found := strings.Cut(heading, "(")
	if !found {
		return ""
	}
	unit, _, _ := strings.Cut(rest, ")")
	return strings.TrimSpace(unit)
}
