package foilwright_test

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"foilwright/cli"
)

// pictured is a picture in a page, with the command that makes it in a comment
// above it.
var pictured = regexp.MustCompile(`<!-- foilwright (figure [^\n]+) -->\n!\[[^\]]+\]\(([^)]+\.svg)\)`)

// anyKernel is what a picture says of the arithmetic: all kernels give the same
// bits, and a build may have another than the one that drew it.
var anyKernel = regexp.MustCompile(`kernel [a-z0-9]+`)

// The pictures in README.md, and in those of the examples, are what the program
// draws. They are renewed with the sessions:
//
//	go test -run TestPictures -write-readme .
func TestPictures(t *testing.T) {
	if testing.Short() {
		t.Skip("trims boats: left out in short runs")
	}
	pages, err := filepath.Glob("examples/*/README.md")
	if err != nil {
		t.Fatal(err)
	}
	shown := 0
	for _, page := range append([]string{"README.md"}, pages...) {
		for _, m := range pictured.FindAllStringSubmatch(readDoc(t, page), -1) {
			shown++
			checkPicture(t, m[1], filepath.Join(filepath.Dir(page), m[2]))
		}
	}
	if shown == 0 {
		t.Error("no page shows a picture")
	}
}

func checkPicture(t *testing.T, command, file string) {
	t.Helper()
	var out, errs bytes.Buffer
	if status := cli.Run(t.Context(), words(command), &out, &errs); status != 0 {
		t.Errorf("%s: status %d: %s", command, status, errs.String())
		return
	}
	drawn := anyKernel.ReplaceAll(out.Bytes(), []byte("kernel scalar"))
	if *writeReadme {
		if err := os.WriteFile(file, drawn, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	kept, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !samePicture(kept, drawn) {
		t.Errorf("%s: %s draws another picture.\nRenew it with -write-readme, after looking at it.", file, command)
	}
}

// tag is markup; place is a number in it.
var (
	tag   = regexp.MustCompile(`<[^>]*>`)
	place = regexp.MustCompile(`-?[0-9]+(\.[0-9]+)?`)
)

// nudge is how far marks may be from where they were, px: a search that ends a
// hundred-thousandth of a knot away moves a mark by a tenth. Words must be the same.
const nudge = 0.5

// samePicture tells whether two pictures say the same, with marks in the same places.
func samePicture(one, other []byte) bool {
	if bytes.Equal(one, other) {
		return true
	}
	if !bytes.Equal(tag.ReplaceAll(one, nil), tag.ReplaceAll(other, nil)) {
		return false
	}
	marks := func(svg []byte) (shape []byte, places [][]byte) {
		for _, t := range tag.FindAll(svg, -1) {
			shape = append(shape, place.ReplaceAll(t, []byte("0"))...)
			places = append(places, place.FindAll(t, -1)...)
		}
		return shape, places
	}
	shape, places := marks(one)
	shapeNow, now := marks(other)
	if !bytes.Equal(shape, shapeNow) || len(places) != len(now) {
		return false
	}
	for i := range places {
		a, errA := strconv.ParseFloat(string(places[i]), 64)
		b, errB := strconv.ParseFloat(string(now[i]), 64)
		if errA != nil || errB != nil || math.Abs(a-b) > nudge {
			return false
		}
	}
	return true
}
