package web

import (
	"fmt"
	"net"
	"net/http"
	"strings"
	"sync"
)

// policy is what a page of the desk may load: nothing from elsewhere.
const policy = "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self'; " +
	"connect-src 'self'; worker-src 'self' blob:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// guarded answers only who comes by the desk's own address: a page of another site
// can neither read it nor write to it, whatever name it gives this machine.
func (d *Desk) guarded(at net.Addr) http.Handler { return guard(at, d.routes()) }

func guard(at net.Addr, routes http.Handler) http.Handler {
	inner := http.NewCrossOriginProtection().Handler(routes)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		if !ours(r.Host, at) {
			http.Error(w, "this address is not the desk's own\nhint: open the address that foilwright desk printed", http.StatusMisdirectedRequest)
			return
		}
		// Another port of this machine is another site too, though browsers call it the
		// same: what runs there may be anybody's.
		switch site := r.Header.Get("Sec-Fetch-Site"); {
		case site == "", site == "same-origin", site == "none", r.Header.Get("Sec-Fetch-Mode") == "navigate" && r.Method == http.MethodGet:
		default:
			http.Error(w, "calls from another site are refused", http.StatusForbidden)
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, mostPosted)
		defer func() {
			if p := recover(); p != nil {
				http.Error(w, fmt.Sprintf("internal error: %v\nhint: this is the program's own fault; please report it", p), http.StatusInternalServerError)
			}
		}()
		inner.ServeHTTP(w, r)
	})
}

// ours tells whether a host is one by which the desk was opened: the loopback's names,
// or the very address that it was told to listen on.
func ours(host string, at net.Addr) bool {
	name, port, err := net.SplitHostPort(host)
	if err != nil {
		name, port = host, "80"
	}
	address, own, err := net.SplitHostPort(at.String())
	if err != nil || port != own {
		return false
	}
	name = strings.Trim(name, "[]")
	if name == "localhost" {
		return true
	}
	ip := net.ParseIP(name)
	if ip == nil {
		return false
	}
	listening := net.ParseIP(address)
	return ip.IsLoopback() || ip.Equal(listening) || listening.IsUnspecified()
}

// fewAtATime takes so many connections at a time; more wait until one has gone.
type fewAtATime struct {
	net.Listener
	slots chan struct{}
}

// mostConnections is how many connections are taken at a time: pages with their
// sockets, and what browsers open beside them.
const mostConnections = 256

// few returns a listener that takes few connections at a time.
func few(l net.Listener, most int) net.Listener { return &fewAtATime{l, make(chan struct{}, most)} }

// Accept waits for a slot and then for a connection.
func (f *fewAtATime) Accept() (net.Conn, error) {
	f.slots <- struct{}{}
	conn, err := f.Listener.Accept()
	if err != nil {
		<-f.slots
		return nil, err
	}
	return &slotted{Conn: conn, free: sync.OnceFunc(func() { <-f.slots })}, nil
}

// slotted is a connection that gives its slot back when it is closed.
type slotted struct {
	net.Conn
	free func()
}

// Close closes it.
func (s *slotted) Close() error {
	defer s.free()
	return s.Conn.Close()
}
