package risk

import (
	"math"

	"frostward/climate"
	"frostward/climate/stat"
)

// freeOn is the season day on which a planting leaves its bed: the night that kills it, or the
// end of its picking, or the end of the season that it did not ripen in. NaN where its outcome is
// not known.
func (f Outcome) freeOn() float64 {
	switch {
	case !f.Known:
		return math.NaN()
	case f.Lost:
		return f.KilledOn.OrNever()
	default:
		return f.EndsOn.OrNever()
	}
}

// Handover is a bed passing from one planting to the next, season by season.
type Handover struct {
	Before  string              // the planting that is there first
	Overlap climate.SeasonDay   // days that the next may grow between the last of it
	On      []float64           // the day of each season from which the next may start; NaN: not known
	Free    [3]climate.Quantile // that day, at Picks
	Picked  climate.Chance      // the one before lives, and is picked before it leaves
	Leaves  [3]climate.Quantile // the day from which the next may start in the seasons in which it does, at Picks
	InTime  climate.Chance      // the bed is free by the planned start of the next, whatever became of the one before
	Wait    climate.Quantile    // days that the next waits beyond its planned start, in 9 seasons of 10
	Alone   Result              // the next planting, were the bed free in every season
}

// HandOver says when a bed is free for the planting next, from the outcomes of the one before it
// in the same ensemble. A planting whose start comes before that of the one it follows is of
// the year after: in recorded seasons it meets the one before it a season earlier.
func HandOver(e climate.Ensemble, before Planting, outcomes []Outcome, next Planting, overlap climate.SeasonDay) Handover {
	h := Handover{Before: before.Label(), Overlap: overlap, On: make([]float64, len(outcomes))}
	yearAfter := next.Start < before.Start
	wait := make([]float64, len(outcomes))
	intime, picked := make([]climate.Answer, len(outcomes)), make([]climate.Answer, len(outcomes))
	leaves := make([]float64, len(outcomes))
	for i := range outcomes {
		o, later := outcomeBefore(e, outcomes, i, yearAfter)
		h.On[i] = o.freeOn() - float64(later) - float64(overlap)
		picked[i], leaves[i] = known(o, o.Succeeds()), math.NaN()
		if o.Known && o.Succeeds() {
			leaves[i] = h.On[i]
		}
		wait[i] = max(0, h.On[i]-float64(next.Start))
		if !math.IsNaN(h.On[i]) {
			intime[i] = climate.AnswerOf(wait[i] == 0)
		}
	}
	h.InTime, h.Picked = e.Chance(intime), e.Chance(picked)
	h.Wait = e.Quantile(wait, 0.9)
	for k, share := range Picks {
		h.Free[k], h.Leaves[k] = e.Quantile(h.On, share), e.Quantile(leaves, share)
	}
	return h
}

// WaitCost is what waiting for the bed costs a planting.
type WaitCost struct {
	Never  bool    // it never waits
	Chance bool    // it succeeds clearly less often than in a free bed
	Later  float64 // days by which the wait puts off the median picking; 0 where there is none to put off
}

// Cost is what the wait costs the next planting, which scores as after with it.
func (h *Handover) Cost(after Result) WaitCost {
	c := WaitCost{Never: h.InTime.Share == 1, Chance: h.Alone.Succeeds.Share-after.Succeeds.Share > asGood}
	if later := after.Harvest[1].Value - h.Alone.Harvest[1].Value; !math.IsNaN(later) && !math.IsInf(later, 0) {
		c.Later = later
	}
	return c
}

// outcomeBefore is the outcome of the planting before in season i, and how many days its season
// days count more than those of the next; not known where the season before is not on record.
func outcomeBefore(e climate.Ensemble, outcomes []Outcome, i int, yearAfter bool) (o Outcome, later climate.SeasonDay) {
	switch {
	case !yearAfter:
		return outcomes[i], 0
	case e.By == climate.ByWeather || len(e.Seasons) > 1 && e.Seasons[0].Year == e.Seasons[1].Year:
		// Made seasons, or all of them ways that one season may go on.
		return outcomes[i], climate.YearDays
	case i > 0 && e.Seasons[i-1].Year == e.Seasons[i].Year-1:
		return outcomes[i-1], climate.YearDays
	default:
		return Outcome{}, 0
	}
}

// playAfter plays a planting through season i as Play does, but not before its bed is free on
// the season day free.
func (f *Field) playAfter(i int, p Planting, free float64) Outcome {
	switch {
	case math.IsNaN(free):
		return Outcome{Why: DaysMissingBefore}
	case free <= float64(p.Start):
		return f.Play(i, p)
	case free >= float64(climate.SpanTo): // the bed is never free
		o := begun()
		o.EndsOn = climate.SpanTo
		return o
	}
	return f.Play(i, p.At(climate.SeasonDay(math.Ceil(free))))
}

// ScoreAfter is Score for a planting that waits in each season for its bed; nil: it is free.
func ScoreAfter(f *Field, p Planting, free []float64) Result {
	outcomes := make([]Outcome, len(f.Ensemble.Seasons))
	climate.InParallel(len(outcomes), func(next func() int) {
		for i := next(); i < len(outcomes); i = next() {
			if free == nil {
				outcomes[i] = f.Play(i, p)
			} else {
				outcomes[i] = f.playAfter(i, p, free[i])
			}
		}
	})
	return count(f.Ensemble, p, outcomes)
}

// FreeOn returns the days on which a planting leaves its bed, whatever became of it, at Picks.
func FreeOn(f *Field, p Planting) []climate.Quantile {
	on := make([]float64, len(f.Ensemble.Seasons))
	climate.InParallel(len(on), func(next func() int) {
		for i := next(); i < len(on); i = next() {
			on[i] = f.pass(i, &p, p.Start, p.Start, f.bolts, false).outcome.freeOn()
		}
	})
	return f.Ensemble.Quantiles(on, Picks...)
}

// freed returns the days on which a planting leaves its bed, at Picks, and the median of those on
// which it leaves it after picking, over the seasons in which it is picked: Never where those are
// fewer than half.
func freed(e climate.Ensemble, outcomes []Outcome) (out []climate.Quantile, cleared climate.Quantile) {
	on, after := make([]float64, len(outcomes)), make([]float64, len(outcomes))
	picked, of := 0, 0
	for i, f := range outcomes {
		on[i], after[i] = f.freeOn(), math.NaN()
		if f.Known && f.Succeeds() {
			after[i] = on[i]
			picked++
		}
		if f.Known {
			of++
		}
	}
	out = e.Quantiles(on, Picks...)
	if cleared = e.Quantile(after, 0.5); 2*picked < of {
		cleared.Value = climate.Never
	}
	return out, cleared
}

// WhenItSucceeds returns the median days of first picking and of leaving the bed over the
// seasons in which the planting succeeds; NaN where they are fewer than climate.MinSeasons.
func (r Result) WhenItSucceeds() (pick, free float64) {
	var picks, frees []float64
	for _, f := range r.Outcomes {
		if f.Known && f.Succeeds() {
			picks, frees = append(picks, f.ReadyOn.OrNever()), append(frees, f.EndsOn.OrNever())
		}
	}
	if len(picks) < climate.MinSeasons {
		return math.NaN(), math.NaN()
	}
	return stat.Quantile(picks, 0.5), stat.Quantile(frees, 0.5)
}
