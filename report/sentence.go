package report

import (
	"strings"

	"foilwright/figure"
)

// Phrase is a stretch of a sentence. One that is a figure leads to where it comes
// from: to a chart, or to the working of a row of the table.
type Phrase struct {
	Text   string      `json:"text"`
	Boat   int         `json:"boat,omitempty"`   // which boat it names, counted from 1; 0 for none
	Chart  figure.Kind `json:"chart,omitempty"`  // that it is read off
	Figure string      `json:"figure,omitempty"` // whose working it is told in
}

// sentence is words with the phrases that lead somewhere told apart.
type sentence []Phrase

// sentenced fills the places %s of a form with phrases, sentences and plain texts; %%
// stands for a per cent sign.
func sentenced(form string, args ...any) sentence {
	var out sentence
	for i, plain := range strings.Split(form, "%s") {
		plain = strings.ReplaceAll(plain, "%%", "%")
		if i > 0 {
			switch a := args[i-1].(type) {
			case Phrase:
				out = append(out, a)
			case sentence:
				out = append(out, a...)
			case string:
				out = out.and(a)
			}
		}
		out = out.and(plain)
	}
	return out
}

// and goes on with plain words.
func (s sentence) and(plain string) sentence {
	if plain == "" {
		return s
	}
	if last := len(s) - 1; last >= 0 && s[last] == (Phrase{Text: s[last].Text}) {
		joined := append(sentence{}, s...)
		joined[last].Text += plain
		return joined
	}
	return append(s, Phrase{Text: plain})
}

// String returns the words alone.
func (s sentence) String() string {
	var out strings.Builder
	for _, p := range s {
		out.WriteString(p.Text)
	}
	return out.String()
}

// joinedPhrases joins sentences with words between them.
func joinedPhrases(all []sentence, between string) sentence {
	var out sentence
	for i, s := range all {
		if i > 0 {
			out = out.and(between)
		}
		for _, p := range s {
			if p == (Phrase{Text: p.Text}) {
				out = out.and(p.Text)
			} else {
				out = append(out, p)
			}
		}
	}
	return out
}

// listedPhrases joins sentences: one, two and three.
func listedPhrases(all []sentence) sentence {
	if len(all) < 2 {
		return joinedPhrases(all, "")
	}
	last := len(all) - 1
	return joinedPhrases([]sentence{joinedPhrases(all[:last], ", "), all[last]}, " and ")
}

func charted(text string, kind figure.Kind) Phrase { return Phrase{Text: text, Chart: kind} }

func worked(text, figure string) Phrase { return Phrase{Text: text, Figure: figure} }
