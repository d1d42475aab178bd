package job

import (
	"encoding/json"
	"time"

	"foilwright/study"
)

// Request is a question that is asked in the background.
type Request struct {
	Verb     string          `json:"verb"`
	Boats    []string        `json:"boats"`    // files
	Question json.RawMessage `json:"question"` // as results carry it, and as it was asked
}

// asked is what request.json holds: all that a job needs to be done again.
type asked struct {
	Request
	ID      string            `json:"id"`
	Print   string            `json:"fingerprint"` // SHA-256 over the question, the files and the program's version
	At      time.Time         `json:"asked"`
	Sources []study.Source    `json:"sources"`
	Files   map[string]string `json:"files"` // the text of every file that makes the boats
	Words   string            `json:"words"` // what is asked, for people
}

// Standing is how a job stands.
type Standing string

// The standings.
const (
	Waiting     Standing = "waiting"
	Running     Standing = "running"
	Done        Standing = "done"
	Cancelled   Standing = "cancelled"
	Interrupted Standing = "interrupted" // the program ended again and again while it was done
	Failed      Standing = "failed"
)

// ended tells whether nothing more happens unless somebody asks for it.
func (s Standing) ended() bool { return s != Waiting && s != Running }

// State is what can be told of a job.
type State struct {
	ID       string          `json:"id"` // the name of its folder
	Verb     string          `json:"verb"`
	Boats    []study.Source  `json:"boats"`
	Words    string          `json:"words"` // what is asked
	Asked    string          `json:"asked"` // when, as in RFC 3339
	Standing Standing        `json:"standing"`
	Done     int             `json:"done"`
	Of       int             `json:"of"`      // 0 while it is not known
	Left     *float64        `json:"left_s"`  // nil while it is not known
	Says     string          `json:"says"`    // how far it has come, in words
	SoFar    string          `json:"so_far"`  // what can be said of the answer; empty for nothing
	Partial  int             `json:"partial"` // grows whenever there is more of the answer to be drawn
	Verdict  study.Verdict   `json:"verdict,omitempty"`
	Problem  string          `json:"problem,omitempty"` // what went wrong, and what to change
	Took     float64         `json:"took_s"`            // of work, over all that took it up
	Changed  []string        `json:"changed"`           // files that are not as they were when it was asked
	Question json.RawMessage `json:"question"`
}

// stood is what state.json holds.
type stood struct {
	Standing Standing      `json:"standing"`
	Done     int           `json:"done"`
	Of       int           `json:"of"`
	SoFar    string        `json:"so_far,omitempty"`
	Verdict  study.Verdict `json:"verdict,omitempty"`
	Problem  string        `json:"problem,omitempty"`
	Took     float64       `json:"took_s"`
	Begun    int           `json:"begun"` // how often it was taken up since it last came on
	By       string        `json:"by"`    // the program that has it in hand; empty for none
	At       time.Time     `json:"at"`    // when that last said so
	Build    string        `json:"build"` // of the program that made the pieces
}
