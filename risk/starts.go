package risk

import (
	"math"
	"sync"

	"frostward/climate"
)

// finish is how one start in one season ends: what the chances of a starting day are counted from.
type finish struct{ known, survives, ripens bool }

func finishOf(o Outcome) finish { return finish{o.Known, o.Known && !o.Lost, o.Ripens} }

// starts counts a planting on each starting day of a window, step days apart, and says of each in which seasons it
// succeeds. It is done for some hundred days through hundreds of seasons, which is most of what a plan costs, so by
// sweeps on all cores.
func starts(f *Field, p Planting, free []float64, w climate.Window, step int) (out []Start, succeeds [][]climate.Answer) {
	for sd := w.From; sd <= w.To; sd += climate.SeasonDay(step) {
		out = append(out, Start{Day: sd})
	}
	if len(out) == 0 {
		return nil, nil
	}
	n := len(f.Ensemble.Seasons)
	ends := make([]finish, n*len(out)) // by season, then start: each core writes to its own
	climate.InParallel(n, func(next func() int) {
		s := sweeps.Get().(*Sweep)
		defer sweeps.Put(s)
		s.set(f, p)
		for i := next(); i < n; i = next() {
			bed := math.Inf(-1)
			if free != nil {
				bed = free[i]
			}
			first := max(out[0].Day, climate.SeasonDay(math.Ceil(min(max(bed, float64(climate.SpanFrom)), float64(climate.SpanTo)))))
			s.begin(i, first)
			for k, start := range out {
				if math.IsNaN(bed) || bed >= float64(climate.SpanTo) {
					ends[i*len(out)+k] = finishOf(f.playAfter(i, p.At(start.Day), bed))
				} else {
					ends[i*len(out)+k] = s.start(max(start.Day, first))
				}
			}
		}
	})
	for k := range out {
		var answers [3][]climate.Answer
		for of, c := range [...]*climate.Chance{&out[k].Survives, &out[k].Ripens, &out[k].Succeeds} {
			answers[of] = make([]climate.Answer, n)
			for i := range n {
				if end := ends[i*len(out)+k]; end.known {
					answers[of][i] = climate.AnswerOf([...]bool{end.survives, end.ripens, end.survives && end.ripens}[of])
				}
			}
			*c = f.Ensemble.Chance(answers[of])
		}
		succeeds = append(succeeds, answers[2])
	}
	return out, succeeds
}

// sweeps are kept between plantings.
var sweeps = sync.Pool{New: func() any { return new(Sweep) }}
