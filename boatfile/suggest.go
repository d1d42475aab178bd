package boatfile

import (
	"slices"
	"strings"
)

// nearest returns "did you mean …?" for the word among known ones that is
// closest to a word, or a list of what there is.
func nearest(word string, known []string) string {
	best, least := "", len(word)/3+2
	for _, k := range known {
		if d := editDistance(strings.ToLower(word), strings.ToLower(k)); d < least {
			best, least = k, d
		}
	}
	if best == "" {
		for _, k := range known {
			if len(word) > 2 && (strings.Contains(k, word) || len(k) > 2 && strings.Contains(word, k)) {
				best = k
			}
		}
	}
	switch {
	case best != "":
		return "did you mean " + best + "?"
	case len(known) == 0:
		return "there is none to choose from"
	case len(known) > 24:
		known = append(slices.Clone(known[:24]), "…")
	}
	return "there is " + strings.Join(known, ", ")
}

// editDistance is the least number of letters to insert, delete or replace that
// turns a into b (Levenshtein 1966), neighbours changing places counted as one.
func editDistance(a, b string) int {
	s, t := []rune(a), []rune(b)
	if len(s) > 64 || len(t) > 64 {
		return max(len(s), len(t))
	}
	before, last, row := make([]int, len(t)+1), make([]int, len(t)+1), make([]int, len(t)+1)
	for j := range last {
		last[j] = j
	}
	for i := range s {
		row[0] = i + 1
		for j := range t {
			cost := 1
			if s[i] == t[j] {
				cost = 0
			}
			row[j+1] = min(row[j]+1, last[j+1]+1, last[j]+cost)
			if i > 0 && j > 0 && s[i] == t[j-1] && s[i-1] == t[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(t)]
}

// Starred tells whether a text matches a pattern in which each star stands for any
// run of letters: "*wing*" matches "inner wing".
func Starred(pattern, text string) bool {
	parts := strings.Split(pattern, "*")
	if len(parts) == 1 {
		return pattern == text
	}
	rest, ok := strings.CutPrefix(text, parts[0])
	if !ok {
		return false
	}
	last := len(parts) - 1
	for _, part := range parts[1:last] {
		at := strings.Index(rest, part)
		if at < 0 {
			return false
		}
		rest = rest[at+len(part):]
	}
	return strings.HasSuffix(rest, parts[last])
}
