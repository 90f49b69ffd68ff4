package daily

import (
	"sync"

	"frostward/climate"
)

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

// released are the series given back.
var released = spares[climate.Series]{make: func() *climate.Series { return new(climate.Series) }}

// Release gives a series that was read back to this package, which reads the next one into its
// memory. Nobody may hold it after.
func Release(s climate.Series) { released.put(&s) }
