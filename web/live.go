package web

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"sync"
	"time"

	"github.com/coder/websocket"

	"foilwright/figure"
	"foilwright/job"
	"foilwright/quantity"
	"foilwright/report"
	"foilwright/study"
)

// Asked is one question of a page.
type Asked struct {
	Lane     string          `json:"lane"` // on a lane a newer question takes the place of an older one
	Seq      int             `json:"seq"`
	Verb     string          `json:"verb"`
	Boats    []string        `json:"boats"`    // files
	Question json.RawMessage `json:"question"` // as results carry it
	Want     []string        `json:"want"`     // kinds of charts; and "result", "answer", "text"

	// Units are what answers are shown in: "trade", also where nothing is said, or "si".
	Units quantity.Units `json:"units"`

	// Level is that of the bands that stand out on charts, per cent; 0 is 80.
	Level figure.Level `json:"level"`

	// Drafts are texts of files that differ from what is saved, by file.
	Drafts map[string]string `json:"drafts"`
}

// Told is an answer to a page.
type Told struct {
	Lane    string          `json:"lane"`
	Seq     int             `json:"seq"`
	Verdict study.Verdict   `json:"verdict,omitempty"`
	Charts  []*figure.Chart `json:"charts,omitempty"`
	Missing []string        `json:"missing,omitempty"` // why a chart that was wanted is not there
	Result  *study.Result   `json:"result,omitempty"`
	Answer  *report.Answer  `json:"answer,omitempty"` // for the panel
	Text    string          `json:"text,omitempty"`   // as the command line prints it
	Figure  *Figure         `json:"figure,omitempty"`
	Ways    []study.Ways    `json:"ways,omitempty"`
	List    *Figures        `json:"list,omitempty"`
	Job     *job.State      `json:"job,omitempty"`
	Jobs    []job.State     `json:"jobs,omitempty"`
	Fields  []Field         `json:"fields,omitempty"`
	Error   string          `json:"error,omitempty"`
	Took    float64         `json:"took_s"`
}

// live talks with one page until it goes.
func (d *Desk) live(w http.ResponseWriter, r *http.Request) {
	conn, err := websocket.Accept(w, r, &websocket.AcceptOptions{CompressionMode: websocket.CompressionDisabled})
	if err != nil {
		return // Accept has answered
	}
	conn.SetReadLimit(largest)
	ctx, cancel := context.WithCancel(r.Context())
	defer cancel()
	p := &talk{desk: d, conn: conn, lanes: map[string]*question{}, news: newNews()}
	if !d.pages.join(p) {
		_ = conn.Close(websocket.StatusTryAgainLater, "too many pages are open")
		return
	}
	defer d.pages.leave(p)
	p.working.Go(func() { p.crying(ctx) })
	for {
		_, text, err := conn.Read(ctx)
		if err != nil {
			break
		}
		a, err := readAsked(text)
		if err != nil {
			p.tell(ctx, &Told{Lane: a.Lane, Seq: a.Seq, Error: err.Error()})
			continue
		}
		p.ask(ctx, a)
	}
	cancel()
	p.working.Wait()
	_ = conn.CloseNow()
}

// talk is what goes on with one page.
type talk struct {
	desk    *Desk
	conn    *websocket.Conn
	mu      sync.Mutex
	lanes   map[string]*question // that is being answered on a lane
	working sync.WaitGroup
	news    *news
}

// question is one that is being answered.
type question struct{ giveUp context.CancelFunc }

// ask answers a question beside others; an older one on its lane is given up.
func (p *talk) ask(ctx context.Context, a *Asked) {
	own, cancel := context.WithCancel(ctx)
	q := &question{cancel}
	if !p.begin(a.Lane, q) {
		cancel()
		p.tell(ctx, &Told{Lane: a.Lane, Seq: a.Seq, Error: fmt.Sprintf("%d questions are being answered, and no more are taken\nhint: wait for one", mostLanes)})
		return
	}
	p.working.Go(func() {
		defer p.end(a.Lane, q)
		began := time.Now()
		t := p.desk.answer(own, a)
		if own.Err() != nil {
			return
		}
		t.Lane, t.Seq, t.Took = a.Lane, a.Seq, time.Since(began).Seconds()
		p.tell(ctx, t)
	})
}

// begin puts a question on its lane, in place of an older one; false where too many are
// under way on others.
func (p *talk) begin(lane string, q *question) bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	older := p.lanes[lane]
	if older == nil && len(p.lanes) >= mostLanes {
		return false
	}
	if older != nil {
		older.giveUp()
	}
	p.lanes[lane] = q
	return true
}

// end takes a question off its lane, where no newer one is there.
func (p *talk) end(lane string, q *question) {
	q.giveUp()
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.lanes[lane] == q {
		delete(p.lanes, lane)
	}
}

// tell sends an answer. Where the page has gone there is nobody to tell.
func (p *talk) tell(ctx context.Context, t *Told) {
	text, err := json.Marshal(t)
	if err != nil {
		text, _ = json.Marshal(&Told{Lane: t.Lane, Seq: t.Seq, Error: fmt.Sprintf("internal error: the answer cannot be written: %v", err)})
	}
	p.write(ctx, text)
}

// answer puts a question to study, and its result into the forms that are wanted.
func (d *Desk) answer(ctx context.Context, a *Asked) (t *Told) {
	defer func() {
		if p := recover(); p != nil {
			t = &Told{Error: fmt.Sprintf("internal error: %v\nhint: this is the program's own fault; please report it with the boat files", p)}
		}
	}()
	switch a.Verb {
	case "read":
		return readFigure(a.Question, a.Units)
	case "list":
		return readFigures(a.Question, a.Units)
	case "set":
		return d.set(a)
	case "fields":
		return d.fields(a)
	case "ways":
		return d.ways(a)
	}
	if t := d.jobs(a); t != nil {
		return t
	}
	q, err := study.Asked(a.Verb, a.Question)
	if err != nil {
		return &Told{Error: err.Error()}
	}
	if err := atOnce(q); err != nil {
		return &Told{Error: err.Error()}
	}
	if drawn(q) {
		defer d.queue.Hold()()
	}
	r, err := study.Run(ctx, study.Request{Boats: a.Boats, Question: q, Open: d.drafted(a.Drafts), Shelf: &d.shelf, Workers: 1})
	if err != nil {
		return &Told{Error: err.Error()}
	}
	return told(r, a)
}

// drawn tells whether a question is one of those that a hand waits for, which are asked
// again and again while something is dragged.
func drawn(q study.Question) bool {
	switch q.(type) {
	case *study.Held, *study.View:
		return true
	}
	return false
}

// told puts a result into the forms that are wanted.
func told(r *study.Result, a *Asked, beside ...*study.Result) *Told {
	t := &Told{Verdict: r.Verdict}
	for _, form := range a.Want {
		switch form {
		case "result":
			t.Result = r
		case "answer":
			t.Answer = report.AnswerOf(a.Units, r)
		case "text":
			t.Text = report.Text(r)
		default:
			chart, err := figure.Look{Units: a.Units, Level: a.Level}.Of(figure.Kind(form), r, beside...)
			if err != nil {
				t.Missing = append(t.Missing, form+": "+err.Error())
				continue
			}
			t.Charts = append(t.Charts, chart)
		}
	}
	return t
}
