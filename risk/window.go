package risk

import (
	"frostward/climate"
)

// Window is one crop at one spot tried on every starting day of a window.
type Window struct {
	Results []Result // in the order of their starting days; Outcomes are dropped
	Aim     float64
	Choice  // indexes into Results
}

// Choice picks among starting days, by their place in a row; -1 where there is no such day.
type Choice struct {
	Earliest int // the first day that meets the aim at the lower end of its interval
	Best     int // the best chance of both; among days as good, the earliest picking
	Last     int // the last day that meets the aim

	best float64 // the chance of Best
}

var noChoice = Choice{Earliest: -1, Best: -1, Last: -1}

// take looks at the next day, in their order, by its chance of success.
func (x *Choice) take(i int, succeeds climate.Chance, aim float64) {
	if !succeeds.Known {
		return
	}
	if meets(succeeds, aim) {
		if x.Earliest < 0 {
			x.Earliest = i
		}
		x.Last = i
	}
	// A later start is better than an earlier one if it succeeds clearly more often. Starting
	// later never makes the picking earlier by more than the days a set back costs, so at a
	// like chance the earlier start stays.
	if x.Best < 0 || succeeds.Share > x.best+asGood {
		x.Best, x.best = i, succeeds.Share
	}
}

// Try plays a planting from every starting day in a window, both ends included, step days
// apart.
func Try(f *Field, p Planting, w climate.Window, step int, aim float64) Window {
	return TryAfter(f, p, nil, w, step, aim)
}

// TryAfter is Try for a planting that waits in each season for its bed; nil: it is free.
func TryAfter(f *Field, p Planting, free []float64, w climate.Window, step int, aim float64) Window {
	memory := outcomeMemory.Get().(*[]Outcome)
	defer outcomeMemory.Put(memory)
	out := Window{Aim: aim, Choice: noChoice, Results: scoreStarts(f, p, free, w, step, memory)}
	for i := range out.Results {
		out.Results[i].Outcomes = nil
	}
	out.choose()
	return out
}

func (w *Window) choose() {
	for i, r := range w.Results {
		w.take(i, r.Succeeds, w.Aim)
	}
}

// asGood is the difference in chance that is not worth a later harvest: one season in 50.
const asGood = 0.02
