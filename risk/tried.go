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
	n, seasons := max(0, int(w.To-w.From)+1), len(g.e.Seasons)
	for k, p := range list {
		f, t := g.Field(g.e, p.Crop, p.Raised, seed), &all[k]
		g.sweep.set(f, p)
		g.came = slices.Grow(g.came[:0], n*seasons)[:n*seasons]
		clear(g.came)
		g.starts = g.starts[:0]
		for i := range n {
			g.starts = append(g.starts, g.came[i*seasons:(i+1)*seasons])
		}
		days, outcomes := g.sweep.count(w, 1, t.Days, g.starts), t.At.Outcomes
		*t = Tried{Days: days, Succeeds: slices.Grow(t.Succeeds[:0], n)[:n], Choice: noChoice}
		for i, n := range days {
			t.Succeeds[i] = g.e.ChanceOf(n.Succeeds, n.Known)
			t.take(i, t.Succeeds[i], aim)
		}
		if t.Best < 0 {
			continue
		}
		span, _ := Customary(p.Crop)
		t.settle(span, aim, func(i int) (climate.SeasonDay, climate.Chance) { return w.From + climate.SeasonDay(i), t.Succeeds[i] }, g.starts, g.e.Rests)
		best := p.At(w.From + climate.SeasonDay(t.Best))
		outcomes = slices.Grow(outcomes[:0], len(g.e.Seasons))[:len(g.e.Seasons)]
		for i := range outcomes { // for one start the day loop is quicker than a sweep
			outcomes[i] = f.Play(i, best)
		}
		t.At = count(g.e, best, outcomes)
	}
	return all
}
