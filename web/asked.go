package web

import (
	"encoding/json"
	"fmt"
	"path"

	"foilwright/study"
)

// What a page may ask at most.
const (
	mostLanes   = 64  // questions under way at a time
	longestName = 200 // of a lane, a verb, a file, letters
	mostBoats   = 8   // of one question
	mostWanted  = 16  // forms of one answer
	mostDrafts  = 32
	mostSamples = 4096 // of odds that are answered on a lane and not as a job
	mostTrims   = 500  // winds times angles
)

// readAsked reads a message, and refuses what is larger than any page would ask. What
// could be read comes with the error, so that the page knows which question it is of.
func readAsked(text []byte) (*Asked, error) {
	a := &Asked{}
	if err := json.Unmarshal(text, a); err != nil {
		return &Asked{}, fmt.Errorf("the message cannot be read: %w", err)
	}
	answerTo := &Asked{Seq: a.Seq}
	if len(a.Lane) > longestName || len(a.Verb) > longestName {
		return answerTo, fmt.Errorf("the lane or the verb has more than %d letters", longestName)
	}
	answerTo.Lane = a.Lane
	switch {
	case len(a.Boats) > mostBoats:
		return answerTo, fmt.Errorf("%d boats are more than %d\nhint: ask about fewer", len(a.Boats), mostBoats)
	case len(a.Want) > mostWanted:
		return answerTo, fmt.Errorf("%d forms of an answer are more than %d", len(a.Want), mostWanted)
	case len(a.Drafts) > mostDrafts:
		return answerTo, fmt.Errorf("%d files are not saved, and %d are the most\nhint: save some", len(a.Drafts), mostDrafts)
	}
	for name := range a.Drafts {
		if err := allowed(name); err != nil {
			return answerTo, err
		}
		if path.Clean(name) != name {
			return answerTo, fmt.Errorf("%s: write it %s", name, path.Clean(name))
		}
	}
	return a, nil
}

// atOnce refuses questions that are too long for a lane.
func atOnce(q study.Question) error {
	if o, ok := q.(*study.Odds); ok && o.Samples > mostSamples {
		return fmt.Errorf("samples: %d are more than are answered at once\nhint: ask for odds as a job", o.Samples)
	}
	s, ok := q.(interface{ Trims() int })
	if ok && s.Trims() > mostTrims {
		return fmt.Errorf("these are %d winds and angles, and %d are the most\nhint: take longer steps", s.Trims(), mostTrims)
	}
	return nil
}
