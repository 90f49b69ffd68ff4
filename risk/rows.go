package risk

import (
	"sync"

	"frostward/climate"
)

// rows has a number for each day of some seasons, worked out as far as it is wanted: a planting meets a quarter of
// the days that its seasons have. It may be asked from several goroutines at once.
type rows struct {
	all    [][]float64
	filled []filled
	work   func(row []float64, i, from, to int) // works out row[from:to] of season i; nil: all of it is there
	memory []float64
}

// filled says which days of a season are worked out: from one up to another, not included.
type filled struct {
	mu       sync.Mutex
	from, to int
}

// newRows are rows of n seasons, of which nothing is worked out.
func newRows(n int, work func(row []float64, i, from, to int)) *rows {
	r := &rows{work: work}
	r.reset(n)
	return r
}

// wholeRows are those that can be worked out only from the first day to the last.
func wholeRows(n int, work func(row []float64, i int)) *rows {
	return newRows(n, func(row []float64, i, from, to int) { work(row, i) })
}

// reset forgets what is worked out, and keeps the memory.
func (r *rows) reset(n int) {
	if cap(r.memory) < n*climate.SpanLen {
		r.memory = make([]float64, n*climate.SpanLen)
	}
	r.filled, r.all = make([]filled, n), r.all[:0]
	for i := range n {
		r.all = append(r.all, r.memory[i*climate.SpanLen:(i+1)*climate.SpanLen:(i+1)*climate.SpanLen])
	}
}

// row returns the row of season i, of which the days from one up to another, not included,
// are worked out. What is there stays one run of days: those between it and what is wanted
// come with it.
func (r *rows) row(i, from, to int) []float64 {
	if r.work == nil {
		return r.all[i]
	}
	f, row := &r.filled[i], r.all[i]
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.from == f.to {
		f.from, f.to = from, from
	}
	if from < f.from {
		r.work(row, i, from, f.from)
		f.from = from
	}
	if to > f.to {
		r.work(row, i, f.to, to)
		f.to = to
	}
	return row
}

// whole is all of the row of season i.
func (r *rows) whole(i int) []float64 { return r.row(i, 0, climate.SpanLen) }
