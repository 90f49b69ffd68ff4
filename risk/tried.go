package risk

import (
	"slices"

	"frostward/climate"
)

// Tried is a planting tried on every starting day of a window.
type Tried struct {
	Days     []Counts         // by starting day, both ends of the window included
	Succeeds []climate.Chance // the same
	Choice                    // indexes into them

	At Result // of the best day; the zero Result where there is none
}

// TryAll plays some plantings, each for itself, from every starting day of a window. What it
// returns is good until the next call.
func (g *Ground) TryAll(list []Planting, w climate.Window, aim float64, seed uint64) []Tried {
	if g.e.By == climate.ByWeather {
		panic("risk: Ground.TryAll is for recorded seasons")
	}
	for len(g.tried) < len(list) {
		g.tried = append(g.tried, Tried{})
	}
	all := g.tried[:len(list)]
	for k, p := range list {
		f, t := g.Field(g.e, p.Crop, p.Raised, seed), &all[k]
		g.sweep.Set(f, p)
		days, outcomes := g.sweep.Count(w, 1, t.Days), t.At.Outcomes
		*t = Tried{Days: days, Succeeds: slices.Grow(t.Succeeds[:0], len(days))[:len(days)], Choice: noChoice}
		for i, n := range days {
			t.Succeeds[i] = g.e.ChanceOf(n.Succeeds, n.Known)
			t.take(i, t.Succeeds[i], aim)
		}
		if t.Best < 0 {
			continue
		}
		best := p.At(w.From + climate.SeasonDay(t.Best))
		outcomes = slices.Grow(outcomes[:0], len(g.e.Seasons))[:len(g.e.Seasons)]
		for i := range outcomes { // for one start the day loop is quicker than a sweep
			outcomes[i] = f.Play(i, best)
		}
		t.At = Count(g.e, best, outcomes)
	}
	return all
}
