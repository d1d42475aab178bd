package web

import (
	"net"
	"net/http"
	"strings"
)

// policy is what a page of the desk may load: nothing from elsewhere.
const policy = "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self'; " +
	"connect-src 'self'; worker-src 'self' blob:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// guarded answers only who comes by the desk's own address: a page of another site
// can neither read it nor write to it, whatever name it gives this machine.
func (d *Desk) guarded(at net.Addr) http.Handler {
	sameSite := http.NewCrossOriginProtection()
	inner := sameSite.Handler(d.routes())
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
		if site := r.Header.Get("Sec-Fetch-Site"); site == "cross-site" && r.Header.Get("Sec-Fetch-Mode") != "navigate" {
			http.Error(w, "calls from another site are refused", http.StatusForbidden)
			return
		}
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
