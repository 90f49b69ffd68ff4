package risk

import (
	"math"

	"frostward/climate"
	"frostward/climate/stat"
)

// Result is what the seasons say of one planting.
type Result struct {
	Planting Planting
	Survives climate.Chance // not killed by frost before picking
	Ripens   climate.Chance // ready in time, were it to escape the frosts of spring
	Succeeds climate.Chance // both, in the same season

	// Harvest has the first picking at Picks, over the seasons in which it succeeds as a
	// share of all: beyond the share that succeeds the date is Never.
	Harvest []climate.Quantile

	// ColdNights has the median and the 90 % quantile of nights before picking that would
	// set the bare plants back or kill them: the nights a season a cover is wanted.
	ColdNights [2]climate.Quantile

	SetBack  climate.Chance // set back at least once
	Chilled  float64        // mean chilled nights of the first fortnight
	Light    climate.Chance // fails for light alone
	UpOn     float64        // median day of coming up, of a sowing; NaN of a raised plant
	LeftOut  int            // seasons that could not be played for gaps
	Outcomes []Outcome      // one a season
}

// Picks are the chances that Result.Harvest has dates for: in so many seasons it is ready
// by then.
var Picks = []float64{0.1, 0.5, 0.9}

// score plays a planting through every season of a field and counts.
func score(f *Field, p Planting) Result { return ScoreAfter(f, p, nil) }

// count turns the outcomes of a planting, one a season, into chances.
func count(e climate.Ensemble, p Planting, outcomes []Outcome) Result {
	r := Result{Planting: p, Outcomes: outcomes, UpOn: math.NaN()}
	// One pass over the outcomes for all questions: a plan asks some hundreds of plantings.
	var answers [5][]climate.Answer
	all := make([]climate.Answer, len(answers)*len(outcomes))
	for k := range answers {
		answers[k], all = all[:len(outcomes)], all[len(outcomes):]
	}
	ready, cold, up := make([]float64, len(outcomes)), make([]float64, len(outcomes)), []float64(nil)
	n := 0
	for i := range outcomes {
		f := &outcomes[i]
		if !f.Known {
			ready[i], cold[i] = math.NaN(), math.NaN()
			r.LeftOut++
			continue
		}
		for k, yes := range [...]bool{!f.Lost, f.Ripens, f.Succeeds(), f.SetBacks > 0, f.Light} {
			answers[k][i] = climate.AnswerOf(yes)
		}
		n++
		r.Chilled += float64(f.Chilled)
		cold[i] = float64(f.ColdNights)
		ready[i] = climate.Never
		if f.Succeeds() {
			ready[i] = f.ReadyOn.OrNever()
		}
		if !p.Raised {
			up = append(up, f.EmergedOn.OrNever())
		}
	}
	for k, c := range [...]*climate.Chance{&r.Survives, &r.Ripens, &r.Succeeds, &r.SetBack, &r.Light} {
		*c = e.Chance(answers[k])
	}
	r.Chilled /= float64(n)
	if len(up) > 0 {
		r.UpOn = stat.Quantile(up, 0.5)
	}
	r.Harvest = e.Quantiles(ready, Picks...)
	r.ColdNights = [2]climate.Quantile(e.Quantiles(cold, 0.5, 0.9))
	return r
}

func known(f Outcome, yes bool) climate.Answer {
	if !f.Known {
		return climate.NotKnown
	}
	return climate.AnswerOf(yes)
}
