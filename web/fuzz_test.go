package web

import (
	"context"
	"encoding/json"
	"strings"
	"testing"
	"time"
)

// Any message gets an answer that can be written, and none ends in an internal error.
func FuzzMessages(f *testing.F) {
	for _, message := range []string{
		`{"lane":"a","seq":1,"verb":"read","question":{"unit":"m/s","text":"17 kn"}}`,
		`{"lane":"a","seq":1,"verb":"read","question":{"unit":"rad","value":1e308}}`,
		`{"lane":"a","verb":"list","question":{"unit":"m/s","text":"8 to 20 kn by 2 kn"}}`,
		`{"lane":"a","verb":"trim","boats":["sorrel.yaml"],"question":{"true_wind_speeds_mps":[8.5],"strips":4},"want":["limits","answer"]}`,
		`{"lane":"a","verb":"view","boats":["sorrel.yaml"],"question":{"true_wind_speeds_mps":[-1]},"want":["front-view"]}`,
		`{"lane":"a","verb":"check","boats":["a.yaml"],"question":{},"drafts":{"a.yaml":"foilwright: 1\nname: A\n"},"want":["text"]}`,
		`{"lane":"a","verb":"set","boats":["sorrel.yaml"],"question":{"file":"sorrel.yaml","path":"length","value":"12 m"}}`,
		`{"lane":"a","verb":"ways","boats":["sorrel.yaml"],"question":{"wind_from":"port"}}`,
		`{"lane":"a","verb":"jobs"}`,
		`{"lane":"a","verb":"job","question":{"id":"2026-11-25-odds-sorrel-tansy-66f96ec8"},"want":["difference"]}`,
		`{"lane":"a","verb":"forget","question":{"id":"..","sure":true}}`,
		`{"lane":"a","verb":"odds","boats":["sorrel.yaml","tansy.yaml"],"question":{"samples":-1}}`,
		`[[[[[[[[`, `{"verb":null}`, ``,
	} {
		f.Add([]byte(message))
	}
	d, err := Open("../examples/which-foil")
	if err != nil {
		f.Fatal(err)
	}
	f.Cleanup(func() { _ = d.Close() })
	f.Fuzz(func(t *testing.T, message []byte) {
		a, err := readAsked(message)
		if err != nil {
			return
		}
		switch a.Verb {
		case "run", "resume", "cancel", "forget": // these write
			return
		}
		ctx, cancel := context.WithTimeout(t.Context(), 50*time.Millisecond)
		defer cancel()
		told := d.answer(ctx, a)
		if strings.Contains(told.Error, "internal error") {
			t.Errorf("%s\n%s", message, told.Error)
		}
		if _, err := json.Marshal(told); err != nil {
			t.Errorf("%s\n%v", message, err)
		}
	})
}
