package daily

import "sync"

// spares keeps what is dear to make for the next file: as many as were ever in use at once. A
// sync.Pool would let go of them at each collection of garbage, and of many short files that is
// after every few.
type spares[T any] struct {
	mu   sync.Mutex
	free []*T
	make func() *T
}

func (s *spares[T]) get() *T {
	s.mu.Lock()
	defer s.mu.Unlock()
	n := len(s.free)
	if n == 0 {
		return s.make()
	}
	x := s.free[n-1]
	s.free = s.free[:n-1]
	return x
}

func (s *spares[T]) put(x *T) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.free = append(s.free, x)
}
