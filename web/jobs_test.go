package web

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/coder/websocket"
)

// A job is asked for over the socket, tells all pages how it comes on, and what it has
// is drawn by any of them.
func TestJobsOverTheSocket(t *testing.T) {
	d, _, at := served(t)
	conn, err := dialled(t, at, "")
	if err != nil {
		t.Fatal(err)
	}
	other, err := dialled(t, at, "")
	if err != nil {
		t.Fatal(err)
	}
	if got := asked(t, other, `{"lane":"a","verb":"jobs"}`); got.Error != "" || len(got.Jobs) != 0 {
		t.Fatalf("%+v", got)
	}
	const question = `{"true_wind_speeds_mps":[8.5],"strips":4,"samples":16,"seed":1}`
	run := asked(t, conn, `{"lane":"run","verb":"run","boats":["sorrel.yaml","tansy.yaml"],"question":{"verb":"odds","question":`+question+`}}`)
	if run.Job == nil || run.Job.Words != "odds, true wind 16.5 kn, best progress to windward; 16 samples" {
		t.Fatalf("%+v", run)
	}
	id := run.Job.ID
	last, times := time.Time{}, 0
	for standing := ""; standing != "done"; {
		kind, text, err := other.Read(t.Context())
		if err != nil || kind != websocket.MessageText {
			t.Fatal(err)
		}
		var heard struct {
			Event string `json:"event"`
			Body  struct {
				ID       string `json:"id"`
				Standing string `json:"standing"`
				Problem  string `json:"problem"`
			} `json:"body"`
		}
		if err := json.Unmarshal(text, &heard); err != nil {
			t.Fatal(err)
		}
		if heard.Event != "job" || heard.Body.ID != id || heard.Body.Standing == "failed" {
			t.Fatalf("%s", text)
		}
		standing = heard.Body.Standing
		times++
		last = time.Now()
	}
	t.Logf("told %d times, the last at %v", times, last)
	got := asked(t, other, `{"lane":"job","verb":"job","question":{"id":"`+id+`"},"want":["difference","text","causes"]}`)
	if len(got.Charts) != 1 || got.Charts[0].Spread == nil || len(got.Missing) != 1 || !strings.Contains(got.Text, "16 samples") {
		t.Errorf("%+v", got)
	}
	changed := asked(t, other, `{"lane":"job","verb":"job","question":{"id":"`+id+`"},"drafts":{"tansy.yaml":"name: Tansy\n"}}`)
	if changed.Job == nil || strings.Join(changed.Job.Changed, " ") != "tansy.yaml" {
		t.Errorf("%+v", changed.Job)
	}
	if weighed := asked(t, conn, `{"lane":"f","verb":"forget","question":{"id":"`+id+`"}}`); !strings.Contains(weighed.Text, "This removes runs/"+id) {
		t.Errorf("%+v", weighed)
	}
	if len(d.queue.List(d.open)) != 1 {
		t.Error("a job is gone before the page was sure")
	}
	if gone := asked(t, conn, `{"lane":"f","verb":"forget","question":{"id":"`+id+`","sure":true}}`); gone.Error != "" || len(d.queue.List(d.open)) != 0 {
		t.Errorf("%+v", gone)
	}
}
