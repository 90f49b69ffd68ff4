package risk

import (
	"math"

	"frostward/climate"
)

// Reserve is what a planting falls back on: spare plants, held back under cover until a day and
// planted out on it where frost has killed the first by then; or a second planting on that day,
// which stands beside the first whatever becomes of it. The zero value is none.
type Reserve struct {
	Plants int  // held back
	Of     int  // plants of the planting itself; 0: not known, and taken to be no more than are held back
	Again  bool // a second planting instead
	On     climate.SeasonDay
}

// None says whether there is no reserve.
func (r Reserve) None() bool { return r.Plants == 0 && !r.Again }

// Replaces is how much of a lost planting the reserve can stand for.
func (r Reserve) Replaces() float64 {
	if r.Again || r.Of == 0 {
		return 1
	}
	return min(1, float64(r.Plants)/float64(r.Of))
}

// Reserved is a planting with its reserve, from the same seasons.
type Reserved struct {
	Reserve
	Second Result         // the reserve alone, planted on its day in every season
	Pair   Result         // a crop from either
	Used   climate.Chance // the crop comes from the reserve alone
	Needed climate.Chance // spare plants go out; of a second planting: the first fails
	Verdict
}

// Saves is what the reserve saves a year where a lost planting costs so much, in the same unit.
func (r Reserved) Saves(lost float64) float64 { return r.Used.Share * r.Replaces() * lost }

// WithReserve scores the planting of an assessment together with a reserve.
func (a *Assessment) WithReserve(r Reserve) Reserved {
	f, second := a.field, a.Result.Planting.At(r.On)
	var free []float64
	if a.Handover != nil {
		free = a.Handover.On
	}
	out := Reserved{Reserve: r, Second: ScoreAfter(f, second, free)}
	first, both := a.Result.Outcomes, make([]Outcome, len(f.Ensemble.Seasons))
	used, needed := make([]climate.Answer, len(both)), make([]climate.Answer, len(both))
	for i := range both {
		both[i] = r.either(first[i], out.Second.Outcomes[i])
		used[i] = known(both[i], both[i].Succeeds() && !first[i].Succeeds())
		needed[i] = known(first[i], r.goesOut(first[i]) || r.Again && !first[i].Succeeds())
	}
	out.Pair = count(f.Ensemble, a.Result.Planting, both)
	if out.Verdict = grade(out.Pair.Succeeds, a.Aim); out.Verdict == Failing {
		out.Verdict = kindOfFailing(0, 0, false)
	}
	out.Used, out.Needed = f.Ensemble.Chance(used), f.Ensemble.Chance(needed)
	return out
}

// goesOut says whether spare plants are planted in place of the first.
func (r Reserve) goesOut(first Outcome) bool { return !r.Again && first.Lost && first.KilledOn <= r.On }

// either is what becomes of a planting and its reserve in one season. What is not known of the
// reserve counts for nothing, so that it never lowers a chance.
func (r Reserve) either(first, second Outcome) Outcome {
	switch {
	case !first.Known || !second.Known:
		return first
	case r.goesOut(first):
		return second
	case !r.Again:
		return first
	case first.Succeeds() && second.Succeeds():
		first.ReadyOn = min(first.ReadyOn, second.ReadyOn)
		first.EndsOn = max(first.EndsOn, second.EndsOn)
		return first
	case second.Succeeds() || first.Lost && !second.Lost:
		return second
	}
	return first
}

// ReservePlan is the pair of days for a planting and its reserve that has the highest chance for
// the least delay.
type ReservePlan struct {
	First  Result // the planting by itself, on its day of the pair
	Of     Reserved
	Picked float64 // mean season day of first picking, over the seasons with a crop
	Known  bool
}

// leastGap is the fewest days between a planting and its reserve: nearer, they meet the same nights.
const leastGap = 7

// longestGap is the most: spare plants do not keep for longer (common practice, no source).
const longestGap = 56

// BestReserve tries a planting and its reserve on every pair of days of a window. Of the pairs that
// succeed in as many seasons as the best, but for 1 in 50, it is the one picked earliest on average;
// where two are, the one planted first.
func BestReserve(f *Field, p Planting, r Reserve, w climate.Window) ReservePlan {
	var tried []Result
	for sd := w.From; sd <= w.To; sd++ {
		tried = append(tried, ScoreAfter(f, p.At(sd), nil))
	}
	n := len(f.Ensemble.Seasons)
	type pair struct {
		a, b    int
		succeed int
		picked  float64
	}
	var all []pair
	best := -1
	for a := range tried {
		for b := a + leastGap; b < min(len(tried), a+longestGap+1); b++ {
			x := pair{a: a, b: b}
			r.On = tried[b].Planting.Start
			for i, first := range tried[a].Outcomes {
				if o := r.either(first, tried[b].Outcomes[i]); o.Known && o.Succeeds() {
					x.succeed++
					x.picked += float64(o.ReadyOn)
				}
			}
			x.picked /= float64(x.succeed)
			if all = append(all, x); best < 0 || x.succeed > all[best].succeed {
				best = len(all) - 1
			}
		}
	}
	if best < 0 || all[best].succeed == 0 {
		return ReservePlan{}
	}
	choice := all[best]
	for _, x := range all {
		if float64(x.succeed) >= float64(all[best].succeed)-asGood*float64(n) && x.picked < choice.picked {
			choice = x
		}
	}
	a := Assessment{field: f, Result: tried[choice.a]}
	r.On = tried[choice.b].Planting.Start
	out := ReservePlan{First: tried[choice.a], Of: a.WithReserve(r), Picked: choice.picked}
	out.Known = out.Of.Pair.Succeeds.Known && !math.IsNaN(out.Picked)
	return out
}
