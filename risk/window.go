package risk

import (
	"math"

	"frostward/climate"
	"frostward/crops"
)

// Window is one crop at one spot tried on every starting day of a window.
type Window struct {
	Starts []Start // in the order of their days
	Aim    float64
	Choice // indexes into Starts

	score func(climate.SeasonDay) Result
}

// Start is what the seasons say of one starting day.
type Start struct {
	Day      climate.SeasonDay
	Survives climate.Chance // as in Result
	Ripens   climate.Chance
	Succeeds climate.Chance
}

// Result is all that the seasons say of one of the starts.
func (w Window) Result(i int) Result { return w.score(w.Starts[i].Day) }

// Choice picks among starting days, by their place in a row; -1 where there is no such day.
type Choice struct {
	Earliest int // the first day that meets the aim at the lower end of its interval
	Best     int // see settle
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

// beyondCustom is how far outside a crop's customary span its window reaches, in days.
const beyondCustom = 30

// Customary is the span of days on which a crop customarily goes into open ground, and the window in which a day for
// it is looked for: a month more at either end. A crop of which no custom is known has March to August, and the same
// half-year in the south.
func Customary(c crops.Crop) (span, window climate.Window) {
	if !c.OutFrom.Known() || !c.OutTo.Known() {
		w := climate.Window{From: 59, To: 242}
		return w, w
	}
	span = climate.Window{From: climate.SeasonDay(c.OutFrom.Value), To: climate.SeasonDay(c.OutTo.Value)}
	if span.To < span.From {
		span.To += climate.YearDays
	}
	return span, climate.Window{From: span.From - beyondCustom, To: span.To + beyondCustom}
}

// WindowOf is when a planting's crop may start at its spot under its cover. Every screen that names an earliest, best
// or last day has it from here. h is the bed's handover, nil where it waits for none: a day before the bed is usually
// free, after a picking of the planting before, is none to plan for; where that is too late, there are no days.
func WindowOf(f *Field, p Planting, h *Handover, aim float64) Window {
	_, w := Customary(p.Crop)
	if h == nil {
		return tryAfter(f, p, nil, w, 1, aim)
	}
	usual := h.Leaves[1]
	if !usual.Known || math.IsInf(usual.Value, 0) {
		usual = h.Free[1]
	}
	if usual.Known && usual.Value > float64(w.From) {
		w.From = climate.SeasonDay(math.Ceil(min(usual.Value, float64(w.To+1))))
	}
	return tryAfter(f, p, h.On, w, 1, aim)
}

// Try plays a planting from every starting day in a window, both ends included, step days
// apart.
func Try(f *Field, p Planting, w climate.Window, step int, aim float64) Window {
	return tryAfter(f, p, nil, w, step, aim)
}

// tryAfter is Try for a planting that waits in each season for its bed; nil: it is free.
func tryAfter(f *Field, p Planting, free []float64, w climate.Window, step int, aim float64) Window {
	out := Window{Aim: aim, Choice: noChoice, score: func(day climate.SeasonDay) Result { return ScoreAfter(f, p.At(day), free) }}
	var succeeds [][]climate.Answer
	out.Starts, succeeds = starts(f, p, free, w, step)
	span, _ := Customary(p.Crop)
	for i, s := range out.Starts {
		out.take(i, s.Succeeds, aim)
	}
	out.settle(span, aim, func(i int) (climate.SeasonDay, climate.Chance) { return out.Starts[i].Day, out.Starts[i].Succeeds }, succeeds, f.Ensemble.Rests)
	return out
}

// settle moves Best from the day with the highest chance to the earliest, in the customary span, whose chance is not
// clearly below that; where none in the span is, the one nearest to the span. Where days meet the aim, it is one of
// those. at has the starting days and their chances, succeeds their seasons, and rests is the sample size behind them.
func (x *Choice) settle(span climate.Window, aim float64, at func(i int) (climate.SeasonDay, climate.Chance), succeeds [][]climate.Answer, rests int) {
	if x.Best < 0 {
		return
	}
	highest, away := x.Best, math.Inf(1)
	for i := range succeeds {
		day, chance := at(i)
		d := float64(max(span.From-day, day-span.To, 0))
		if d < away && chance.Known && (x.Earliest < 0 || meets(chance, aim)) && !clearlyBelow(succeeds[i], succeeds[highest], rests) {
			x.Best, away = i, d
		}
	}
}

// clearlyBelow says whether a starting day does clearly worse than another: compared in the same seasons, by more
// than chance explains at the 90 % level (McNemar 1947, with the sample size of the record, which resampled seasons
// do not add to).
func clearlyBelow(a, b []climate.Answer, seasons int) bool {
	better, worse, n := 0.0, 0.0, 0.0
	for i, x := range b {
		y := a[i]
		if x == climate.NotKnown || y == climate.NotKnown {
			continue
		}
		n++
		switch {
		case x > y:
			better++
		case y > x:
			worse++
		}
	}
	if n == 0 {
		return true
	}
	d := (better - worse) / n
	spread := math.Sqrt(max(0, (better+worse)/n-d*d) / float64(max(1, seasons)))
	return d > asGood && d > z90*spread
}

// z90 is the normal quantile with 5 % above it.
const z90 = 1.6449

// asGood is the difference in chance that is not worth a later harvest: one season in 50.
const asGood = 0.02
