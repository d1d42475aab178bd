package foilwright_test

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
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
	if !bytes.Equal(kept, drawn) {
		t.Errorf("%s: %s draws another picture.\nRenew it with -write-readme, after looking at it.", file, command)
	}
}
