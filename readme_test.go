package foilwright_test

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"foilwright/cli"
)

// writeReadme renews the sessions that README.md and the examples show:
//
//	go test -run TestReadmeSessions -write-readme .
var writeReadme = flag.Bool("write-readme", false, "renew the sessions in README.md and the examples")

// session is a block that shows a command and what it answers,
// with … where lines are left out.
var session = regexp.MustCompile("(?s)```console\n\\$ foilwright ([^\n]+)\n(.*?)```\n")

const leftOut = "…"

// The sessions in README.md, and in those of the examples, are what the program
// answers.
func TestReadmeSessions(t *testing.T) {
	if testing.Short() {
		t.Skip("trims two boats: left out in short runs")
	}
	examples, err := filepath.Glob("examples/*/README.md")
	if err != nil || len(examples) == 0 {
		t.Fatalf("no example has a README.md: %v", err)
	}
	for _, name := range append([]string{"README.md"}, examples...) {
		t.Run(name, func(t *testing.T) { checkSessions(t, name) })
	}
}

func checkSessions(t *testing.T, name string) {
	text := readDoc(t, name)
	found := session.FindAllStringSubmatch(text, -1)
	if len(found) == 0 {
		t.Fatalf("%s shows no session", name)
	}
	for _, m := range found {
		var out, errs bytes.Buffer
		if status := cli.Run(t.Context(), words(m[1]), &out, &errs); status != 0 {
			t.Errorf("%s: status %d: %s", m[1], status, errs.String())
			continue
		}
		answer := strings.Split(out.String(), "\n")
		shown := pieces(m[2])
		if *writeReadme {
			renewed := strings.Join(renew(t, shown, answer), "\n"+leftOut+"\n")
			text = strings.Replace(text, m[2], renewed+"\n"+leftOut+"\n", 1)
			continue
		}
		for _, piece := range shown {
			at := indexOf(answer, piece)
			if at < 0 {
				t.Errorf("%s: the program does not answer this any more:\n%s\nRenew it with -write-readme, after reading what changed.", m[1], strings.Join(piece, "\n"))
				break
			}
			answer = answer[at+len(piece):]
		}
	}
	if *writeReadme {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// words parts a command line at blanks outside of double quotes.
func words(line string) []string {
	var all []string
	for i, part := range strings.Split(line, `"`) {
		if i%2 == 1 {
			all = append(all, part)
		} else {
			all = append(all, strings.Fields(part)...)
		}
	}
	return all
}

// pieces parts what is shown where lines are left out.
func pieces(shown string) [][]string {
	var all [][]string
	for piece := range strings.SplitSeq(strings.TrimRight(shown, "\n"), leftOut) {
		if piece = strings.Trim(piece, "\n"); piece != "" {
			all = append(all, strings.Split(piece, "\n"))
		}
	}
	return all
}

// renew takes as much of the answer as each piece has, from where its first line
// stands (the first piece from the top where that line has changed): as many
// lines, or, of a piece with blank lines, as many paragraphs.
func renew(t *testing.T, shown [][]string, answer []string) []string {
	t.Helper()
	var all []string
	for i, piece := range shown {
		at := slices.Index(answer, piece[0])
		if at < 0 && i > 0 {
			t.Fatalf("the answer has no line %q", piece[0])
		}
		from := answer[max(at, 0):]
		if !slices.Contains(piece, "") {
			all = append(all, strings.Join(from[:min(len(piece), len(from))], "\n"))
			continue
		}
		count := len(strings.Split(strings.Join(piece, "\n"), "\n\n"))
		paragraphs := strings.Split(strings.Join(from, "\n"), "\n\n")
		all = append(all, strings.Join(paragraphs[:min(count, len(paragraphs))], "\n\n"))
	}
	return all
}

func indexOf(answer, piece []string) int {
	for at := 0; at+len(piece) <= len(answer); at++ {
		if slices.Equal(answer[at:at+len(piece)], piece) {
			return at
		}
	}
	return -1
}
