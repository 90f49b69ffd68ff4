package web

import "time"

// SetDelay shortens the wait after a wrong token for the tests.
func (s *Server) SetDelay(d time.Duration) { s.delay = d }
