package web

import (
	"net"
	"net/http"
	"net/netip"
	"slices"
	"strings"

	"frostward/cmd/internal/page"
)

// maxForm is the most bytes of a form that are read: a long note is a few hundred.
const maxForm = 16 << 10

// guard wraps the pages in what keeps strangers out.
func (s *Server) guard(next http.Handler) http.Handler {
	// Refuses what other sites send: a form on a strange page must not write the log.
	next = http.NewCrossOriginProtection().Handler(next)
	policy := page.Policy(true)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer func() {
			if v := recover(); v != nil {
				s.logf("fault while answering %s %q: %v", r.Method, r.URL.Path, v)
				http.Error(w, "something went wrong; the garden's files are as they were", http.StatusInternalServerError)
			}
		}()
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("X-Frame-Options", "DENY")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		if !s.hostAllowed(r.Host) {
			http.Error(w, "this address is not served here", http.StatusMisdirectedRequest)
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, maxForm)
		if s.token != "" && !s.entered(r) && r.URL.Path != "/enter" {
			http.Redirect(w, r, "/enter", http.StatusSeeOther)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// hostAllowed keeps out pages that had their own name point at this machine (DNS
// rebinding): a browser then sends that name as Host. Numbers cannot be so abused.
func (s *Server) hostAllowed(host string) bool {
	name := host
	if h, _, err := net.SplitHostPort(host); err == nil {
		name = h
	}
	name = strings.ToLower(strings.Trim(name, "[]"))
	if name == "localhost" || slices.Contains(s.names, name) {
		return true
	}
	ip, err := netip.ParseAddr(name)
	if err != nil {
		return false
	}
	return ip.Unmap().IsLoopback() || !s.loopback
}
