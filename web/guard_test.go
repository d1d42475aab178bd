package web

import (
	"context"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/coder/websocket"
)

// served opens a desk on a folder with two boats and serves it until the test ends.
func served(t *testing.T) (d *Desk, folder, address string) {
	t.Helper()
	folder = t.TempDir()
	for _, name := range []string{"sorrel.yaml", "tansy.yaml", "harrow-unknowns.yaml", "sorrel-resistance.csv"} {
		text, err := os.ReadFile(filepath.Join("..", "examples", "which-foil", name))
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(folder, name), text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	d, err := Open(folder)
	if err != nil {
		t.Fatal(err)
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- d.Serve(ctx, l) }()
	t.Cleanup(func() {
		cancel()
		if err := <-ended; err != nil && err != http.ErrServerClosed {
			t.Error(err)
		}
		_ = d.Close()
	})
	return d, folder, l.Addr().String()
}

// fetched makes a request with headers given as name, value, ...; "Host" is the host.
func fetched(t *testing.T, method, url string, headers ...string) (int, http.Header, string) {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), method, url, nil)
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i+1 < len(headers); i += 2 {
		if headers[i] == "Host" {
			r.Host = headers[i+1]
			continue
		}
		r.Header.Set(headers[i], headers[i+1])
	}
	answer, err := http.DefaultTransport.RoundTrip(r)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer.StatusCode, answer.Header, string(text)
}

// A page of another site reaches nothing, whatever name it gives this machine.
func TestForeignersAreRefused(t *testing.T) {
	_, _, at := served(t)
	_, port, _ := net.SplitHostPort(at)
	for _, c := range []struct {
		what, method, path string
		headers            []string
		want               int
	}{
		{"the page", "GET", "/", nil, 200},
		{"the page by the name of the loopback", "GET", "/", []string{"Host", "localhost:" + port}, 200},
		{"the page by a name that leads here", "GET", "/", []string{"Host", "harrow.example:" + port}, 421},
		{"the page at another port", "GET", "/", []string{"Host", "127.0.0.1:1"}, 421},
		{"the page with no host's port", "GET", "/", []string{"Host", "127.0.0.1"}, 421},
		{"a link from another site", "GET", "/", []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate"}, 200},
		{"a call from another site", "GET", "/files", []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "no-cors"}, 403},
		{"a call from another port of this machine", "GET", "/files", []string{"Sec-Fetch-Site", "same-site", "Sec-Fetch-Mode", "cors"}, 403},
		{"a call of the page", "GET", "/files", []string{"Sec-Fetch-Site", "same-origin"}, 200},
		{"a form of another site", "POST", "/files", []string{"Origin", "http://harrow.example"}, 403},
		{"a form of another site by navigation", "POST", "/", []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate"}, 403},
		{"a file of the folder", "GET", "/sorrel.yaml", nil, 404},
		{"a path that leads out", "GET", "/..%2f..%2fetc%2fpasswd", nil, 404},
		{"the page's own sources", "GET", "/page.go", nil, 404},
	} {
		status, header, text := fetched(t, c.method, "http://"+at+c.path, c.headers...)
		if status != c.want {
			t.Errorf("%s: %d, want %d: %s", c.what, status, c.want, text)
		}
		policy := header.Get("Content-Security-Policy")
		if !strings.HasPrefix(policy, "default-src 'none'") || strings.Contains(policy, "http") || header.Get("X-Content-Type-Options") != "nosniff" {
			t.Errorf("%s: policy %q", c.what, policy)
		}
		if header.Get("Access-Control-Allow-Origin") != "" {
			t.Errorf("%s: other sites may read it", c.what)
		}
	}
}

// dialled opens a socket with an Origin; empty for none.
func dialled(t *testing.T, at, origin string) (*websocket.Conn, error) {
	t.Helper()
	o := &websocket.DialOptions{HTTPHeader: http.Header{}}
	if origin != "" {
		o.HTTPHeader.Set("Origin", origin)
	}
	conn, answer, err := websocket.Dial(t.Context(), "ws://"+at+"/live", o)
	if answer != nil && answer.Body != nil {
		_ = answer.Body.Close()
	}
	if err == nil {
		conn.SetReadLimit(64 << 20)
		t.Cleanup(func() { _ = conn.CloseNow() })
	}
	return conn, err
}

// asked sends a message and returns what is told on its lane.
func asked(t *testing.T, conn *websocket.Conn, message string) *Told {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), 2*time.Minute)
	defer cancel()
	if err := conn.Write(ctx, websocket.MessageText, []byte(message)); err != nil {
		t.Fatal(err)
	}
	for {
		_, text, err := conn.Read(ctx)
		if err != nil {
			t.Fatal(err)
		}
		var heard struct {
			Event  string `json:"event"`
			Result any    `json:"result"`
			Told
		}
		if err := json.Unmarshal(text, &heard); err != nil {
			t.Fatalf("%v: %s", err, text)
		}
		if heard.Event == "" {
			return &heard.Told
		}
	}
}

// Cross-origin protection lets the opening of a socket through: its own check must not.
func TestForeignSocketsAreRefused(t *testing.T) {
	_, _, at := served(t)
	for origin, want := range map[string]bool{
		"": true, "http://" + at: true, "http://harrow.example": false, "http://127.0.0.1:1": false, "null": false, "http://" + at + ".harrow.example": false,
	} {
		if _, err := dialled(t, at, origin); (err == nil) != want {
			t.Errorf("a socket of %q: %v", origin, err)
		}
	}
}

// What is too large or too many is refused, and the desk lives on.
func TestLimits(t *testing.T) {
	_, _, at := served(t)
	conn, err := dialled(t, at, "")
	if err != nil {
		t.Fatal(err)
	}
	for want, message := range map[string]string{
		"cannot be read":         `{"lane":1}`,
		"boats are more than":    `{"lane":"a","seq":1,"verb":"check","question":{},"boats":["a","a","a","a","a","a","a","a","a"]}`,
		"forms of an answer":     `{"lane":"a","seq":2,"verb":"check","question":{},"want":["","","","","","","","","","","","","","","","",""]}`,
		"letters":                `{"lane":"` + strings.Repeat("a", 300) + `"}`,
		"is outside":             `{"lane":"a","drafts":{"../x.yaml":""}}`,
		"is no question":         `{"lane":"a","verb":"sink","question":{}}`,
		"are not saved":          `{"lane":"a","drafts":{"a.yaml":""` + manyDrafts(mostDrafts) + `}}`,
		"ask for odds as a job":  `{"lane":"a","verb":"odds","boats":["sorrel.yaml"],"question":{"samples":1000000}}`,
		"take longer steps":      `{"lane":"a","verb":"trim","boats":["sorrel.yaml"],"question":{"true_wind_speeds_mps":[` + strings.Repeat("8,", 600) + `8]}}`,
		"is not done in the bac": `{"lane":"a","verb":"run","boats":["sorrel.yaml"],"question":{"verb":"check","question":{}}}`,
		"is no job":              `{"lane":"a","verb":"job","question":{"id":"../../x"}}`,
		"there is no job":        `{"lane":"a","verb":"job","question":{"id":"2026-11-25-odds-sorrel-tansy-66f96ec8"}}`,
	} {
		if got := asked(t, conn, message); !strings.Contains(got.Error, want) {
			t.Errorf("%.80s: %q, want %q", message, got.Error, want)
		}
	}
	// A message above the limit ends its socket, and no other.
	_ = conn.Write(t.Context(), websocket.MessageText, []byte(`{"lane":"`+strings.Repeat("a", largest)+`"}`))
	if _, _, err := conn.Read(t.Context()); err == nil {
		t.Error("a message of more than 1 MB is read")
	}
	if conn, err = dialled(t, at, ""); err != nil {
		t.Fatal(err)
	}
	if got := asked(t, conn, `{"lane":"a","verb":"read","question":{"unit":"m/s","text":"17 kn"}}`); got.Figure == nil {
		t.Errorf("the desk has not lived on: %+v", got)
	}
	for range mostPages {
		if _, err = dialled(t, at, ""); err != nil {
			break
		}
	}
	last, err := dialled(t, at, "")
	if err == nil {
		if _, _, err = last.Read(t.Context()); err == nil {
			t.Error("there are more pages than may be")
		}
	}
}

func manyDrafts(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(`,"d` + strings.Repeat("x", i) + `.yaml":""`)
	}
	return b.String()
}

// Lanes are let go when their question is answered, and a few dozen at a time are taken.
func TestLanes(t *testing.T) {
	p := &talk{lanes: map[string]*question{}}
	ended := 0
	one := &question{func() { ended++ }}
	for i := range mostLanes {
		if !p.begin(strings.Repeat("a", i), &question{func() {}}) {
			t.Fatalf("lane %d is refused", i)
		}
	}
	if p.begin("another", one) {
		t.Error("there are more lanes than may be")
	}
	if !p.begin("a", one) {
		t.Error("a newer question on its lane is refused")
	}
	newer := &question{func() {}}
	if !p.begin("a", newer) || ended != 1 {
		t.Errorf("an older question is given up %d times", ended)
	}
	if p.end("a", one); p.lanes["a"] != newer {
		t.Error("an older question takes a newer one off its lane")
	}
	if p.end("a", newer); len(p.lanes) != mostLanes-1 {
		t.Errorf("%d lanes are left", len(p.lanes))
	}
}

// Files outside of the folder, and those that are no boat's, are not opened: not by
// names, not by links; pipes and folders neither.
func TestFilesAreConfined(t *testing.T) {
	d, folder, _ := served(t)
	outside := filepath.Join(t.TempDir(), "secret.yaml")
	if err := os.WriteFile(outside, []byte("name: secret\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for name, make := range map[string]func(at string) error{
		"out.yaml":    func(at string) error { return os.Symlink(outside, at) },
		"away":        func(at string) error { return os.Symlink(filepath.Dir(outside), at) },
		"folder.yaml": func(at string) error { return os.Mkdir(at, 0o755) },
		"pipe.yaml":   pipe,
		".hidden":     func(at string) error { return os.Mkdir(at, 0o755) },
		"notes.md":    func(at string) error { return os.WriteFile(at, []byte("name: notes"), 0o644) },
		"large.yaml":  func(at string) error { return os.WriteFile(at, append([]byte("name: large\n"), make1MB()...), 0o644) },
		"plain.yaml":  func(at string) error { return os.WriteFile(at, []byte("colour: red\n"), 0o644) },
		"inner.yaml":  func(at string) error { return os.Symlink("sorrel.yaml", at) },
	} {
		if err := make(filepath.Join(folder, name)); err != nil {
			t.Logf("%s cannot be made here: %v", name, err)
		}
	}
	if err := os.WriteFile(filepath.Join(folder, ".hidden", "boat.yaml"), []byte("name: hidden\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{
		"", ".", "..", "../secret.yaml", outside, "/etc/passwd", "out.yaml", "away/secret.yaml", "folder.yaml", "pipe.yaml", ".hidden/boat.yaml",
		"notes.md", "large.yaml", "a\x00.yaml", `..\secret.yaml`, `C:\secret.yaml`, "away/../out.yaml", strings.Repeat("a/", 300) + "b.yaml", "nettle.yaml",
	} {
		if text, err := d.open(name); err == nil {
			t.Errorf("%q is opened: %.40q", name, text)
		}
	}
	for _, name := range []string{"sorrel.yaml", "./sorrel.yaml", "inner.yaml"} {
		if _, err := d.open(name); err != nil {
			t.Errorf("%q: %v", name, err)
		}
	}
	var listed []string
	for _, l := range d.boats() {
		listed = append(listed, l.File)
	}
	if got := strings.Join(listed, " "); got != "inner.yaml sorrel.yaml tansy.yaml" {
		t.Errorf("listed: %s", got)
	}
}

func make1MB() []byte { return make([]byte, largest+1) }

// A fault of the program's own is told, and the desk lives on.
func TestPanicsAreTold(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	server := &http.Server{ReadHeaderTimeout: time.Second, Handler: guard(l.Addr(), http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/odd" {
			panic("odd")
		}
		text, err := io.ReadAll(r.Body)
		if err != nil {
			http.Error(w, err.Error(), http.StatusRequestEntityTooLarge)
			return
		}
		_, _ = w.Write(text)
	}))}
	go func() { _ = server.Serve(few(l, 2)) }()
	defer server.Close()
	at := "http://" + l.Addr().String()
	if status, _, text := fetched(t, "GET", at+"/odd"); status != 500 || !strings.Contains(text, "internal error: odd") {
		t.Errorf("%d %s", status, text)
	}
	if status, _, _ := fetched(t, "GET", at+"/"); status != 200 {
		t.Errorf("after it: %d", status)
	}
	r, err := http.NewRequestWithContext(t.Context(), "PUT", at+"/", strings.NewReader(strings.Repeat("a", mostPosted+1)))
	if err != nil {
		t.Fatal(err)
	}
	answer, err := http.DefaultTransport.RoundTrip(r)
	if err == nil {
		_ = answer.Body.Close()
		if answer.StatusCode != http.StatusRequestEntityTooLarge {
			t.Errorf("a body of more than 1 MB: %d", answer.StatusCode)
		}
	}
	// A question that ends in a panic is an answer too.
	d := &Desk{}
	if told := d.answer(t.Context(), &Asked{Verb: "jobs"}); !strings.Contains(told.Error, "internal error") {
		t.Errorf("%+v", told)
	}
}

// Whoever says nothing is let go, and holds nobody up who does.
func TestSilentConnections(t *testing.T) {
	_, _, at := served(t)
	for range 20 {
		conn, err := net.Dial("tcp", at)
		if err != nil {
			t.Fatal(err)
		}
		defer conn.Close()
		if _, err := conn.Write([]byte("GET / HTTP/1.1\r\nHost: " + at + "\r\nX-Slow: ")); err != nil {
			t.Fatal(err)
		}
	}
	if status, _, _ := fetched(t, "GET", "http://"+at+"/"); status != 200 {
		t.Errorf("beside them: %d", status)
	}
}

// News takes the place of older news of the same thing, in order.
func TestNews(t *testing.T) {
	n := newNews()
	n.put("job a", []byte("1"))
	n.put("job b", []byte("2"))
	n.put("job a", []byte("3"))
	var got []string
	for _, text := range n.take() {
		got = append(got, string(text))
	}
	if strings.Join(got, "") != "32" || len(n.take()) != 0 {
		t.Errorf("%v", got)
	}
}
