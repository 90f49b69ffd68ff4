package replay

import (
	"math"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/climate/stat"
	"frostward/risk"
)

// Issued is a forecast that was really given, with what came.
type Issued struct {
	Place      string  // nights of one place stand together, in order of days
	Said, Came float64 // °C, at the same place
}

// ScoreIssued replays forecasts that were really given, place by place, each corrected by those
// before it as tonight corrects them. Nothing else is known of the nights: the chance of frost is
// measured against how often it came over all of them.
func ScoreIssued(nights []Issued, threshold climate.Frost) NightScore {
	t := DefaultNightTrial(climate.Calendar{}, 0, site.AtStation)
	t.Threshold = threshold
	nan := math.NaN()
	none := risk.Usual{Low: nan, SD: nan, Tmax: nan}
	model := site.PriorModel(site.AtStation)
	tally := nightTally{limit: float64(threshold)}
	var past []risk.PastNight
	came := 0.0
	for i, n := range nights {
		if i > 0 && n.Place != nights[i-1].Place {
			past = nil
		}
		e := risk.NewEvening()
		e.Forecast = n.Said
		p := risk.PastNight{Evening: e, Came: n.Came, Usual: none}
		tally.add(t, risk.Foresee(risk.TonightIn{Evening: e, Usual: none, Spot: model, Past: past}), p)
		past = append(past, p)
		if n.Came <= float64(threshold) {
			came++
		}
	}
	for i := range tally.usual {
		tally.usual[i] = stat.Clamp(came/float64(len(nights)), 0, 1)
	}
	return tally.score(t)
}
