package web

import (
	"net"
	"net/http"
	"sync"
)

// unused are the connections over which nothing has been asked yet. Browsers open one or two to
// spare, for which a server that stops would wait five seconds.
type unused struct {
	mu    sync.Mutex
	conns map[net.Conn]bool
}

// state follows a connection, as http.Server.ConnState.
func (u *unused) state(c net.Conn, s http.ConnState) {
	u.mu.Lock()
	defer u.mu.Unlock()
	if s != http.StateNew {
		delete(u.conns, c)
		return
	}
	if u.conns == nil {
		u.conns = map[net.Conn]bool{}
	}
	u.conns[c] = true
}

// close closes them.
func (u *unused) close() {
	u.mu.Lock()
	defer u.mu.Unlock()
	for c := range u.conns {
		c.Close()
	}
}
