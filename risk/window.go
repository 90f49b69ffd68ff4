package risk

import (
	"frostward/climate"
)

// Window is one crop at one spot tried on every starting day of a stretch.
type Window struct {
	Results []Result // in the order of their starting days; Fates are dropped
	Aim     float64

	// Indexes into Results, -1 where there is no such day.
	Earliest int // the first day that meets the aim at the lower end of its interval
	Best     int // the best chance of both; among days as good, the earliest picking
	Last     int // the last day that meets the aim
}

// Try plays a planting from every starting day in a window, both ends included, step days
// apart.
func Try(f *Field, p Planting, w climate.Window, step int, aim float64) Window {
	return TryAfter(f, p, nil, w, step, aim)
}

// TryAfter is Try for a planting that waits in each season for its bed; nil: it is free.
func TryAfter(f *Field, p Planting, free []float64, w climate.Window, step int, aim float64) Window {
	out := Window{Aim: aim, Earliest: -1, Best: -1, Last: -1}
	for sd := w.From; sd <= w.To; sd += climate.SeasonDay(step) {
		r := ScoreAfter(f, p.At(sd), free)
		r.Fates = nil
		out.add(r)
	}
	return out
}

// add takes in the result of a further starting day.
func (w *Window) add(r Result) {
	i := len(w.Results)
	w.Results = append(w.Results, r)
	if !r.Succeeds.Known {
		return
	}
	if meets(r.Succeeds, w.Aim) {
		if w.Earliest < 0 {
			w.Earliest = i
		}
		w.Last = i
	}
	if w.Best < 0 || better(r, w.Results[w.Best]) {
		w.Best = i
	}
}

// asGood is the difference in chance that is not worth a later harvest: one season in 50.
const asGood = 0.02

// better tells whether a later start is better than an earlier one: it succeeds clearly
// more often. Starting later never makes the picking earlier by more than the days a set
// back costs, so at a like chance the earlier start stays.
func better(later, earlier Result) bool {
	return later.Succeeds.Share > earlier.Succeeds.Share+asGood
}
