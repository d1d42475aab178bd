package web

import (
	"bytes"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// folder is a desk's folder with a file beside it that is none of its business.
func folder(t *testing.T) (at string, d *Desk) {
	t.Helper()
	at = filepath.Join(t.TempDir(), "boats")
	for name, text := range map[string]string{
		"sorrel.yaml": "foilwright: 1 # a\nname: Sorrel\n", "tansy.yaml": "name: Tansy\nlike: sorrel.yaml # it\n",
		"shared.yaml": "unknowns: {}\n", "rule.yaml": "rule: Sound 40\n", "curve.csv": "1,2\n", "note.md": "no\n", "../secret.yaml": "name: secret\n",
	} {
		name = filepath.Join(at, name)
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	d, err := Open(at)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.Close() })
	return at, d
}

// call makes a call and reads its answer.
func call(t *testing.T, d *Desk, method, to string, body, into any) int {
	t.Helper()
	text, err := json.Marshal(body)
	if err != nil {
		t.Fatal(err)
	}
	w := httptest.NewRecorder()
	d.routes().ServeHTTP(w, httptest.NewRequest(method, to, bytes.NewReader(text)))
	if err := json.Unmarshal(w.Body.Bytes(), into); err != nil {
		t.Fatalf("%s %s: %v: %s", method, to, err, w.Body)
	}
	return w.Code
}

func TestSaving(t *testing.T) {
	at, d := folder(t)
	var was, is Text
	if code := call(t, d, "GET", "/text?file=sorrel.yaml", nil, &was); code != http.StatusOK || was.Version != version([]byte(was.Text)) {
		t.Fatal(code, was)
	}
	const changed = "foilwright: 1 # a\r\nname: Sorrel ± 2\r\n"
	if code := call(t, d, "PUT", "/text", Saving{"sorrel.yaml", changed, was.Version}, &is); code != http.StatusOK || is.Text != changed || is.Version != version([]byte(changed)) {
		t.Fatal(code, is)
	}
	if text, err := os.ReadFile(filepath.Join(at, "sorrel.yaml")); err != nil || string(text) != changed {
		t.Fatal(err, string(text))
	}
	if info, err := os.Stat(filepath.Join(at, "sorrel.yaml")); err != nil || info.Mode().Perm() != 0o600 {
		t.Error("the file's mode is not kept", err, info.Mode())
	}
	// The version that was read is no longer there: both texts come back, and nothing is written.
	var no Refused
	if code := call(t, d, "PUT", "/text", Saving{"sorrel.yaml", "name: mine\n", was.Version}, &no); code != http.StatusConflict || no.Disk == nil || no.Disk.Text != changed {
		t.Fatal(code, no)
	}
	if !strings.Contains(no.Error, "changed on disk meanwhile") {
		t.Error(no.Error)
	}
	// A new file does not take the place of one that is there.
	if code := call(t, d, "PUT", "/text", Saving{"tansy.yaml", "name: mine\n", ""}, &no); code != http.StatusConflict {
		t.Error(code, no)
	}
	if code := call(t, d, "PUT", "/text", Saving{"deeper/new.yaml", "name: New\n", ""}, &is); code != http.StatusOK || is.Text != "name: New\n" {
		t.Error(code, is)
	}
	if err := os.Remove(filepath.Join(at, "sorrel.yaml")); err != nil {
		t.Fatal(err)
	}
	if code := call(t, d, "PUT", "/text", Saving{"sorrel.yaml", "name: mine\n", version([]byte(changed))}, &no); code != http.StatusConflict || !strings.Contains(no.Error, "no longer on disk") {
		t.Error(code, no)
	}
	left, err := filepath.Glob(filepath.Join(at, ".*.part"))
	if err != nil || len(left) > 0 {
		t.Error("parts are left over", left, err)
	}
}

// Of many who save at once on the same version one does, and the rest are told.
func TestSavingAtOnce(t *testing.T) {
	_, d := folder(t)
	var was Text
	call(t, d, "GET", "/text?file=sorrel.yaml", nil, &was)
	var wg sync.WaitGroup
	codes := make([]int, 8)
	for i := range codes {
		wg.Go(func() {
			body, _ := json.Marshal(Saving{"sorrel.yaml", strings.Repeat("#", i+1) + "\n", was.Version})
			w := httptest.NewRecorder()
			d.routes().ServeHTTP(w, httptest.NewRequest("PUT", "/text", bytes.NewReader(body)))
			codes[i] = w.Code
		})
	}
	wg.Wait()
	saved := 0
	for _, code := range codes {
		switch code {
		case http.StatusOK:
			saved++
		case http.StatusConflict:
		default:
			t.Error(code)
		}
	}
	if saved != 1 {
		t.Errorf("%d saved", saved)
	}
}

func TestSavingStaysInTheFolder(t *testing.T) {
	at, d := folder(t)
	for link, to := range map[string]string{"out.yaml": "../secret.yaml", "in.yaml": "sorrel.yaml", "away": "..", "nowhere.yaml": "../nothing.yaml"} {
		if err := os.Symlink(to, filepath.Join(at, link)); err != nil {
			t.Skip("links cannot be made here: ", err)
		}
	}
	secret := version([]byte("name: secret\n"))
	for name, want := range map[string]string{
		"../secret.yaml": "no name of a file of this folder", "/etc/x.yaml": "no name of a file", "out.yaml": "is a link", "in.yaml": "is a link",
		"nowhere.yaml": "is a link", "away/secret.yaml": "outside of the desk's folder", "away/new.yaml": "outside", ".hidden.yaml": "not for boat files",
		"runs/a.yaml": "not for boat files", "a/.git/b.yaml": "not for boat files", "x.md": "names end in", "a.yaml\n": "no name of a file",
		"a\\b.yaml": "no name of a file", "c:x.yaml": "no name of a file", "a/b/c/d/e/f.yaml": "too deep", "": "no name of a file",
	} {
		for _, base := range []string{"", secret} {
			var no Refused
			if code := call(t, d, "PUT", "/text", Saving{name, "name: mine\n", base}, &no); code != http.StatusBadRequest || !strings.Contains(no.Error, want) {
				t.Errorf("%q: %d %s", name, code, no.Error)
			}
			if code := call(t, d, "POST", "/variant", Moving{"sorrel.yaml", name, "Mine"}, &no); code != http.StatusBadRequest {
				t.Errorf("%q: %d %s", name, code, no.Error)
			}
			if code := call(t, d, "POST", "/rename", Moving{From: "tansy.yaml", To: name}, &no); code != http.StatusBadRequest {
				t.Errorf("%q: %d %s", name, code, no.Error)
			}
		}
	}
	for _, name := range []string{"../secret.yaml", "out.yaml", "away/secret.yaml", "nowhere.yaml", "note.md", "nobody.yaml"} {
		var no Refused
		if code := call(t, d, "GET", "/text?file="+url.QueryEscape(name), nil, &no); code < 400 || no.Error == "" {
			t.Errorf("%s: %d", name, code)
		}
	}
	if text, err := os.ReadFile(filepath.Join(at, "..", "secret.yaml")); err != nil || string(text) != "name: secret\n" {
		t.Error("a file outside was written", err)
	}
	if _, err := os.Stat(filepath.Join(at, "..", "nothing.yaml")); err == nil {
		t.Error("a file outside was made")
	}
}

func TestSavingHasLimits(t *testing.T) {
	_, d := folder(t)
	var no Refused
	if code := call(t, d, "PUT", "/text", Saving{"big.yaml", strings.Repeat("#", largest+1), ""}, &no); code != http.StatusBadRequest || !strings.Contains(no.Error, "1 MB") {
		t.Error(code, no.Error)
	}
	if code := call(t, d, "PUT", "/text", Saving{"big.yaml", strings.Repeat("#", mostPosted), ""}, &no); code != http.StatusBadRequest || !strings.Contains(no.Error, "too large") {
		t.Error(code, no.Error)
	}
	if code := call(t, d, "PUT", "/text", map[string]any{"file": "a.yaml", "text": "x", "force": true}, &no); code != http.StatusBadRequest {
		t.Error(code, no.Error)
	}
	var is Text
	if code := call(t, d, "PUT", "/text", Saving{"big.yaml", strings.Repeat("#", largest), ""}, &is); code != http.StatusOK {
		t.Error(code)
	}
}

func TestVariantsAndNames(t *testing.T) {
	_, d := folder(t)
	var is Text
	var no Refused
	if code := call(t, d, "POST", "/variant", Moving{"sorrel.yaml", "variants/yarrow.yaml", "Yarrow"}, &is); code != http.StatusOK || !strings.Contains(is.Text, "name: Yarrow\nlike: ../sorrel.yaml ") {
		t.Error(code, is)
	}
	if code := call(t, d, "POST", "/variant", Moving{"sorrel.yaml", "tansy.yaml", "Tansy"}, &no); code != http.StatusConflict {
		t.Error(code, no)
	}
	if code := call(t, d, "POST", "/rename", Moving{From: "sorrel.yaml", To: "yarrow.yaml"}, &no); code != http.StatusBadRequest || !strings.Contains(no.Error, "is named in tansy.yaml, variants/yarrow.yaml") {
		t.Error(code, no)
	}
	if code := call(t, d, "POST", "/rename", Moving{From: "tansy.yaml", To: "rule.yaml"}, &no); code != http.StatusBadRequest || !strings.Contains(no.Error, "there is a file") {
		t.Error(code, no)
	}
	if code := call(t, d, "POST", "/rename", Moving{From: "tansy.yaml", To: "yarrow.yaml"}, &is); code != http.StatusOK || is.File != "yarrow.yaml" {
		t.Error(code, is)
	}
	var all Keep
	call(t, d, "GET", "/texts", nil, &all)
	kinds := map[string]string{}
	for _, k := range all.Files {
		kinds[k.File] = k.Kind
	}
	for file, want := range map[string]string{
		"sorrel.yaml": "boat", "yarrow.yaml": "boat", "shared.yaml": "unknowns", "rule.yaml": "class rule", "curve.csv": "table", "note.md": "", "tansy.yaml": "",
	} {
		if kinds[file] != want {
			t.Errorf("%s is %q", file, kinds[file])
		}
	}
}

// The pages hear of files that appear, change and go.
func TestWatching(t *testing.T) {
	at, d := folder(t)
	p := &talk{desk: d, news: newNews()}
	d.pages.join(p)
	done := make(chan struct{})
	go func() {
		defer close(done)
		d.watch(t.Context())
	}()
	heard := map[string]string{}
	hear := func() {
		for until := time.Now().Add(20 * time.Second); time.Now().Before(until); {
			for _, text := range p.news.take() {
				var h struct{ Body Changed }
				if err := json.Unmarshal(text, &h); err != nil {
					t.Fatal(err)
				}
				heard[h.Body.File] = h.Body.Version
				return
			}
			time.Sleep(20 * time.Millisecond)
		}
		t.Fatal("nothing was heard")
	}
	time.Sleep(100 * time.Millisecond) // for the first look
	if err := os.WriteFile(filepath.Join(at, "tansy.yaml"), []byte("name: Another\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	hear()
	if err := os.Remove(filepath.Join(at, "rule.yaml")); err != nil {
		t.Fatal(err)
	}
	hear()
	if len(heard) != 2 || heard["tansy.yaml"] != version([]byte("name: Another\n")) || heard["rule.yaml"] != "" {
		t.Error(heard)
	}
}
