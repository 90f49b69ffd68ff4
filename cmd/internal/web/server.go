package web

import (
	"bytes"
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"html/template"
	"log"
	"net"
	"net/http"
	"sync"
	"time"

	"frostward/climate"
	"frostward/cmd/internal/page"
)

// Options says how a Server is to behave.
type Options struct {
	Today    func() climate.Day
	Logf     func(format string, args ...any) // for the grower, on standard error
	Loopback bool                             // only this machine can reach it
	Names    []string                         // further host names it answers to, lower case
	Token    string                           // the word to enter with; "" only when Loopback
}

// Server answers for one garden.
type Server struct {
	garden   Garden
	today    func() climate.Day
	logf     func(string, ...any)
	loopback bool
	names    []string
	token    string
	key      [32]byte // makes cookies that die with the server
	delay    time.Duration
	attempts sync.Mutex

	writing sync.Mutex // one form at a time
	stored  [][32]byte // the last forms that were

	kept      sync.Mutex
	keptState string // of the garden, when keptPage was written
	keptPage  []byte
}

// New returns a server. It panics when it could be reached by others without a token,
// which is a fault of the program.
func New(g Garden, o Options) *Server {
	if !o.Loopback && len(o.Token) < MinToken {
		panic("web: a server that others can reach needs a token")
	}
	s := &Server{garden: g, today: o.Today, logf: o.Logf, loopback: o.Loopback, names: o.Names, token: o.Token, delay: time.Second}
	rand.Read(s.key[:])
	return s
}

// Handler returns the pages, guarded.
func (s *Server) Handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", s.home)
	mux.HandleFunc("GET /log", s.show(logTitle, "log"))
	mux.HandleFunc("POST /log", s.post(logTitle, "log", s.morning))
	mux.HandleFunc("POST /evening", s.post(logTitle, "log", s.evening))
	mux.HandleFunc("GET /try", s.try)
	mux.HandleFunc("POST /keep", s.post(tryTitle, "try", s.keep))
	mux.HandleFunc("GET /plantings", s.show(plantTitle, "plantings"))
	mux.HandleFunc("POST /did", s.post(plantTitle, "plantings", s.did))
	mux.HandleFunc("POST /move", s.post(plantTitle, "plantings", s.move))
	mux.HandleFunc("POST /undo", s.post(plantTitle, "plantings", s.undo))
	mux.HandleFunc("GET /enter", s.enterForm)
	mux.HandleFunc("POST /enter", s.enter)
	return s.guard(mux)
}

// Serve answers on a listener until the context ends, then lets what is under way
// finish, for five seconds at most.
func (s *Server) Serve(ctx context.Context, l net.Listener) error {
	var idle unused
	srv := &http.Server{
		Handler:           s.Handler(),
		ConnState:         idle.state,
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       10 * time.Second,
		WriteTimeout:      30 * time.Second,
		IdleTimeout:       60 * time.Second,
		MaxHeaderBytes:    16 << 10,
		ErrorLog:          log.New(logWriter{s.logf}, "", 0),
	}
	done := make(chan error, 1)
	go func() { done <- srv.Serve(l) }()
	select {
	case err := <-done:
		return err
	case <-ctx.Done():
	}
	wait, cancel := context.WithTimeout(context.Background(), 5*time.Second)
	defer cancel()
	idle.close()
	err := srv.Shutdown(wait)
	if errors.Is(err, context.DeadlineExceeded) {
		err = srv.Close() // what has not finished by now does not
	}
	if served := <-done; !errors.Is(served, http.ErrServerClosed) {
		return served
	}
	return err
}

// logWriter passes on what net/http has to say.
type logWriter struct {
	logf func(string, ...any)
}

func (l logWriter) Write(b []byte) (int, error) {
	l.logf("%s", bytes.TrimSpace(b))
	return len(b), nil
}

func (s *Server) home(w http.ResponseWriter, r *http.Request) {
	v, state, err := s.garden.View()
	if err != nil {
		s.fail(w, r, err)
		return
	}
	b, err := s.written(v, state)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	p, ok := s.page(w, r, "/")
	if !ok {
		return
	}
	var top bytes.Buffer
	if err := forms().ExecuteTemplate(&top, "top", p); err != nil {
		panic(err) // a fault of the templates; guard answers
	}
	b = bytes.Replace(b, []byte(topMark), top.Bytes(), 1)
	html(w, http.StatusOK, b)
}

// topMark stands in a kept page where each visitor's forms go.
const topMark = "<hr class=\"forms-here\">"

// written is the page as HTML, kept for as long as the garden's state is the same.
func (s *Server) written(v page.View, state string) ([]byte, error) {
	s.kept.Lock()
	defer s.kept.Unlock()
	if state != "" && state == s.keptState {
		return s.keptPage, nil
	}
	var b bytes.Buffer
	if err := page.Write(&b, v, page.Options{Live: true, Links: links("/"), Top: topMark}); err != nil {
		return nil, err
	}
	s.keptState, s.keptPage = state, b.Bytes()
	return s.keptPage, nil
}

// links are the pages, the one at path marked.
func links(path string) []page.Link {
	out := []page.Link{{To: "/", Name: "Garden"}, {To: "/log", Name: "Log a reading"}, {To: "/try", Name: "Try a planting"}, {To: "/plantings", Name: "Plantings"}}
	for i := range out {
		out[i].Here = out[i].To == path
	}
	return out
}

// shell writes a page with a form.
func (s *Server) shell(w http.ResponseWriter, status int, title, name string, data formPage) {
	var body, b bytes.Buffer
	o := page.Options{Live: true, Links: links("/" + name)}
	if name == "enter" {
		o.Links = nil
	}
	err := forms().ExecuteTemplate(&body, name, data)
	if err == nil {
		// forms is html/template: what it writes is safe.
		err = page.WriteShell(&b, title, template.HTML(body.String()), o)
	}
	if err != nil {
		panic(err) // a fault of the templates; guard answers
	}
	html(w, status, b.Bytes())
}

func html(w http.ResponseWriter, status int, b []byte) {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Content-Length", fmt.Sprint(len(b)))
	w.WriteHeader(status)
	w.Write(b)
}

// fail answers for an error that the visitor cannot put right. What it says may hold
// names of files, so it goes to the log only.
func (s *Server) fail(w http.ResponseWriter, r *http.Request, err error) {
	s.logf("%s %q: %v", r.Method, r.URL.Path, err)
	s.shell(w, http.StatusInternalServerError, "That did not work", "failed", formPage{})
}
