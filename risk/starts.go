package risk

import (
	"math"
	"slices"
	"sync"

	"frostward/climate"
)

// scoreStarts is ScoreAfter for each starting day of a window, step days apart. A planting's
// better day is looked for on some thirty days through hundreds of seasons, which is most of
// what a plan costs, so it is done by sweeps on all cores; for one start the day loop is
// quicker. The outcomes are written to memory, which grows as it must.
func scoreStarts(f *Field, p Planting, free []float64, w climate.Window, step int, memory *[]Outcome) []Result {
	var starts []climate.SeasonDay
	for sd := w.From; sd <= w.To; sd += climate.SeasonDay(step) {
		starts = append(starts, sd)
	}
	if len(starts) == 0 {
		return nil
	}
	seasons := len(f.Ensemble.Seasons)
	outcomes := slices.Grow((*memory)[:0], len(starts)*seasons)[:len(starts)*seasons] // by start, then season
	*memory = outcomes
	climate.InParallel(seasons, func(next func() int) {
		s := sweeps.Get().(*Sweep)
		defer sweeps.Put(s)
		s.Set(f, p)
		for i := next(); i < seasons; i = next() {
			s.starts(i, starts, free, func(k int) *Outcome { return &outcomes[k*seasons+i] })
		}
	})
	results := make([]Result, len(starts))
	climate.InParallel(len(starts), func(next func() int) {
		for k := next(); k < len(starts); k = next() {
			results[k] = Count(f.Ensemble, p.At(starts[k]), outcomes[k*seasons:(k+1)*seasons])
		}
	})
	return results
}

// starts plays season i from each start, or from the day the bed is free in it, as playAfter.
func (s *Sweep) starts(i int, starts []climate.SeasonDay, free []float64, out func(k int) *Outcome) {
	if free == nil {
		s.begin(i, starts[0])
		for k, sd := range starts {
			s.start(sd, out(k))
		}
		return
	}
	from := free[i]
	if math.IsNaN(from) || from >= float64(climate.SpanTo) {
		for k, sd := range starts {
			*out(k) = s.f.playAfter(i, s.p.At(sd), from)
		}
		return
	}
	first := climate.SeasonDay(math.Ceil(max(from, float64(climate.SpanFrom))))
	s.begin(i, max(starts[0], first))
	for k, sd := range starts {
		s.start(max(sd, first), out(k))
	}
}

// sweeps are kept between plantings.
var sweeps = sync.Pool{New: func() any { return new(Sweep) }}

// outcomeMemory is kept between windows: a plan's would come to 10 MB that nobody looks at again.
var outcomeMemory = sync.Pool{New: func() any { return new([]Outcome) }}
