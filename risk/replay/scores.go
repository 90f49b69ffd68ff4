package replay

import (
	"math"
	"strings"

	"frostward/climate"
	"frostward/climate/stat"
)

// Score is how well one way to chances has done for one event from a number of seasons.
type Score struct {
	Event    Event
	By       climate.By
	Training int // seasons learnt from; All
	Learnt   int // the most seasons learnt from in any season scored
	Seasons  int // scored

	CRPS      float64       // mean, in days or degree-days; 0 is perfect
	Reference float64       // of the curve fitted to the last 30 seasons, over the same seasons
	Ratio     Ratio         // the one over the other: below 1 is better than the curve
	Bias      float64       // mean of the median said less what came
	Within80  float64       // share of seasons inside the central 80 % of what was said
	Within90  float64       // and 90 %
	PIT       []float64     // shares of ten bins
	Brier     stat.Brier    // of the yes-or-no questions
	Table     []stat.Issued // reliability of their chances, in ten bins
	Chances   []float64     // issued, each rounded to a twentieth
	Came      []bool        // and what came
}

// Ratio of two mean scores with its 90 % interval.
type Ratio struct{ Value, Low, High float64 }

// chanceStep is what chances are rounded to before they are scored: a reader takes 0.43 as
// "four or five times in ten", and Murphy's parts want seasons grouped by the chance issued.
const chanceStep = 0.05

// tally sums the replays up, in the order of events, training and ways.
func (h *Hindcast) tally(p *past, replays []*replay) []Score {
	var out []Score
	for e, v := range h.Events {
		for t, training := range h.Training {
			for w, by := range h.Ways {
				s := Score{Event: v, By: by, Training: training}
				if h.sum(&s, p, replays, e, h.at(e, t, w)) {
					out = append(out, s)
				}
			}
		}
	}
	return out
}

func (h *Hindcast) sum(s *Score, p *past, replays []*replay, e, at int) bool {
	var crps, ref []float64
	var pits []stat.PIT
	for i, r := range replays {
		if r == nil || !r.scored[e] || !r.said[at].known {
			continue
		}
		v := r.said[at]
		crps, ref = append(crps, v.crps), append(ref, r.ref[e].crps)
		pits = append(pits, v.pit)
		s.Bias += v.bias
		s.Within80 += oneIf(v.within[0])
		s.Within90 += oneIf(v.within[1])
		for k, c := range v.chances {
			s.Chances = append(s.Chances, math.Round(c/chanceStep)*chanceStep)
			s.Came = append(s.Came, r.came[e] <= p.points[e][k])
		}
		s.Learnt = max(s.Learnt, p.learnt(e, i, s.Training))
	}
	if s.Seasons = len(crps); s.Seasons < FewestScored {
		return false
	}
	n := float64(s.Seasons)
	s.CRPS, s.Reference = mean(crps), mean(ref)
	s.Ratio = ratioOf(crps, ref)
	s.Bias /= n
	s.Within80 /= n
	s.Within90 /= n
	s.PIT = stat.PITHistogram(pits, 10)
	s.Brier = stat.NewBrier(s.Chances, s.Came)
	s.Table = stat.ReliabilityTable(s.Chances, s.Came, 10)
	return true
}

func oneIf(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// learnt returns the number of seasons that a season's forecast was learnt from.
func (p *past) learnt(event, season, training int) int {
	return len(lastKnown(p.raw[event][:season], training))
}

// ratioOf returns the ratio of two means over the same seasons, with the interval of a ratio
// estimator: the spread of a - ratio*b (Cochran 1977, Sampling Techniques, section 6.4, from
// memory). Seasons are taken as independent. It is NaN where the event never came in any season
// and nothing else was said: there is nothing to be better at.
func ratioOf(a, b []float64) Ratio {
	r := mean(a) / mean(b)
	var ss float64
	for i := range a {
		d := a[i] - r*b[i]
		ss += d * d
	}
	n := float64(len(a))
	half := 1.645 * math.Sqrt(ss/(n-1)/n) / mean(b)
	if math.IsNaN(r) || math.IsInf(r, 0) || math.IsNaN(half) {
		return Ratio{math.NaN(), math.NaN(), math.NaN()}
	}
	return Ratio{r, max(0, r-half), r + half}
}

// meanRatio returns the mean of the scores' ratios, those that are not known left out; NaN of
// none.
func meanRatio(scores []Score) float64 {
	var sum, n float64
	for _, s := range scores {
		if !math.IsNaN(s.Ratio.Value) {
			sum += s.Ratio.Value
			n++
		}
	}
	return sum / n
}

// MeanRatios are the mean ratios to the curve of a way learning from so many seasons: over the dates of frosts, and over all events.
func MeanRatios(scores []Score, by climate.By, training int) (frosts, all float64) {
	var f, a []Score
	for _, x := range scores {
		if x.By != by || x.Training != training {
			continue
		}
		a = append(a, x)
		if strings.HasSuffix(x.Event.Name, "_frost") {
			f = append(f, x)
		}
	}
	return meanRatio(f), meanRatio(a)
}

// BestWay is the way with the lowest mean ratio over all events and trainings.
func BestWay(scores []Score) climate.By {
	best, least := climate.ByRecord, math.Inf(1)
	for _, by := range Ways {
		var own []Score
		for _, x := range scores {
			if x.By == by {
				own = append(own, x)
			}
		}
		if r := meanRatio(own); r < least {
			best, least = by, r
		}
	}
	return best
}
