package risk

import (
	"maps"
	"math"
	"slices"

	"frostward/climate"
)

// CoverWant is how much of one kind of cover a plan would want at once, against what is owned.
//
// A planting wants a cover on a night before its first picking that bare would set it back or kill
// it, and under the cover less: the night's minimum taken as known. A tender crop in autumn, when
// frost ends it, wants none here.
type CoverWant struct {
	Cover   string
	Have    Stock
	Counted bool             // it is known how much is owned
	Most    climate.Quantile // wanted on the worst night of a season, in 9 seasons of 10 at most: plantings, or metres
	Short   climate.Chance   // what is owned would not do, on some night of the season
	More    float64          // one more: a piece, or as many metres as the longest planting takes
	Saves   Saving           // by one more
}

// Saving is the mean of what something saves a year, in the unit of the costs, with its 90 %
// interval for the seasons of record. The zero value is not known.
type Saving struct {
	Known           bool
	Mean, Low, High float64
}

// harmNight is a night that harms a bare planting: as it is under nothing, and under each cover.
type harmNight struct {
	day      climate.SeasonDay
	planting int
	harm     []harm
}

type harm uint8

const (
	unharmed harm = iota
	setBack
	killed
)

// WantCovers counts, season by season, what the plantings of a plan want of each cover at once.
// need has their lengths and inPots whether they can be carried in. Where a cost is not known
// (NaN), what one more saves is not known.
func WantCovers(plan []Assessment, need []Need, inPots []bool, covers []Cover, stock map[string]Stock, costs NightCosts) []CoverWant {
	if len(plan) == 0 || len(covers) == 0 {
		return nil
	}
	w := wants{plan: plan, need: need, inPots: inPots, covers: covers, stock: stock, costs: costs}
	e := plan[0].field.Ensemble
	known := !math.IsNaN(costs.Cover + costs.SetBack + costs.Lost)
	out, more := make([]CoverWant, len(covers)), make([]map[string]Stock, len(covers))
	most, short, saved := make([][]float64, len(covers)), make([][]climate.Answer, len(covers)), make([][]float64, len(covers))
	for k, c := range covers {
		have, counted := stock[c.Name]
		out[k] = CoverWant{Cover: c.Name, Have: have, Counted: counted, More: w.oneMore(have)}
		more[k] = maps.Clone(stock)
		if have.Metres > 0 {
			have.Metres += out[k].More
		} else {
			have.Pieces++
		}
		if counted {
			more[k][c.Name] = have
		}
		most[k], saved[k] = make([]float64, len(e.Seasons)), make([]float64, len(e.Seasons))
		short[k] = make([]climate.Answer, len(e.Seasons))
	}
	climate.InParallel(len(e.Seasons), func(next func() int) {
		for i := next(); i < len(e.Seasons); i = next() {
			nights, ok := w.nights(i)
			if !ok {
				for k := range covers {
					most[k][i], saved[k][i] = math.NaN(), math.NaN()
				}
				continue
			}
			wanted := w.wanted(nights)
			hours := 0.0
			if known && len(stock) > 0 {
				hours = w.hours(nights, stock)
			}
			for k := range covers {
				_, of := out[k].Have.takes(Need{})
				most[k][i], short[k][i] = out[k].Have.amount(wanted[k]), climate.AnswerOf(wanted[k] > of)
				if known && out[k].Counted && wanted[k] > of {
					saved[k][i] = hours - w.hours(nights, more[k])
				}
			}
		}
	})
	for k := range out {
		out[k].Most = e.Quantile(most[k], 0.9)
		if out[k].Counted {
			out[k].Short = e.Chance(short[k])
		}
		if known && out[k].Counted {
			out[k].Saves = savingOf(e, saved[k])
		}
	}
	return out
}

// savingOf is the mean of one number a season; NaN leaves a season out.
func savingOf(e climate.Ensemble, saved []float64) Saving {
	var n, sum, square float64
	for _, v := range saved {
		if !math.IsNaN(v) {
			n, sum, square = n+1, sum+v, square+v*v
		}
	}
	if n < climate.MinSeasons || e.Rests < climate.MinSeasons {
		return Saving{}
	}
	mean := sum / n
	// Where nights follow that kill them anyway, covers put on before were work for nothing; but one
	// more need not be used, and so is worth nothing at the least.
	half := z90 * math.Sqrt(max(0, square/n-mean*mean)/min(n, float64(e.Rests)))
	return Saving{true, max(0, mean), max(0, mean-half), max(0, mean+half)}
}

type wants struct {
	plan   []Assessment
	need   []Need
	inPots []bool
	covers []Cover
	stock  map[string]Stock
	costs  NightCosts
}

// amount turns what takes counts into pieces or metres.
func (s Stock) amount(n int) float64 {
	if s.Metres > 0 {
		return float64(n) / 10
	}
	return float64(n)
}

// oneMore is the least more of a stock that is of use to any planting.
func (w *wants) oneMore(s Stock) float64 {
	if s.Metres <= 0 {
		return 1
	}
	most := 0
	for _, n := range w.need {
		takes, _ := s.takes(n)
		most = max(most, takes)
	}
	return s.amount(most)
}

// nights are the nights of season i that would harm a bare planting before its first picking, in
// their order; false where the outcome of one is not known.
func (w *wants) nights(i int) (out []harmNight, ok bool) {
	for k := range w.plan {
		a := &w.plan[k]
		o, f, p := &a.Result.Outcomes[i], a.field, a.Result.Planting
		if !o.Known {
			return nil, false
		}
		l := f.newLife(i, &p)
		from, to := p.Start, min(o.ReadyOn, o.EndsOn, climate.SpanTo-1)
		if a.Handover != nil && a.Handover.On[i] > float64(from) {
			if a.Handover.On[i] >= float64(to) {
				continue
			}
			from = climate.SeasonDay(math.Ceil(a.Handover.On[i]))
		}
		if !p.Raised {
			if from = o.EmergedOn; from == climate.NeverDay {
				continue
			}
			l.seedling = from + 1 + SeedlingDays
		}
		if l.tender {
			to = min(to, climate.Midsummer-1)
		}
		nights := f.met(i, from)
		for sd := from + 1; sd <= to; sd++ {
			low, back, kill := nights.at(int(sd-climate.SpanFrom)), l.setBack, l.kill
			if !p.Raised && sd < l.seedling {
				back, kill = l.setBackYoung, l.killYoung
			}
			if !(low <= back || low <= kill) {
				continue
			}
			harms := []harm{harmOf(low, back, kill)}
			for _, cover := range w.covers {
				harms = append(harms, harmOf(low+f.coverGain(i, sd, cover), back, kill))
			}
			out = append(out, harmNight{sd, k, harms})
		}
	}
	slices.SortStableFunc(out, func(a, b harmNight) int { return int(a.day - b.day) })
	return out, true
}

func harmOf(low, back, kill float64) harm {
	switch {
	case low <= kill:
		return killed
	case low <= back:
		return setBack
	}
	return unharmed
}

// eachNight calls night with those of a season that are of the same date, of plantings still alive;
// night returns the harm that is done to each.
func (w *wants) eachNight(nights []harmNight, night func([]harmNight) []harm) {
	dead := make([]bool, len(w.plan))
	var out []harmNight
	for len(nights) > 0 {
		day := nights[0].day
		out = out[:0]
		for len(nights) > 0 && nights[0].day == day {
			if !dead[nights[0].planting] {
				out = append(out, nights[0])
			}
			nights = nights[1:]
		}
		if len(out) == 0 {
			continue
		}
		for i, h := range night(out) {
			dead[out[i].planting] = h == killed
		}
	}
}

// wanted is the most of each cover that is wanted on one night of a season, with enough of all.
func (w *wants) wanted(nights []harmNight) []int {
	most := make([]int, len(w.covers))
	w.eachNight(nights, func(out []harmNight) []harm {
		sum := make([]int, len(w.covers))
		done := make([]harm, len(out))
		for i, n := range out {
			best := 0
			for c := range w.covers {
				if n.harm[1+c] < n.harm[best] {
					best = 1 + c
				}
			}
			if done[i] = n.harm[best]; best > 0 {
				takes, _ := w.stock[w.covers[best-1].Name].takes(w.need[n.planting])
				sum[best-1] += takes
			}
		}
		for c := range most {
			most[c] = max(most[c], sum[c])
		}
		return done
	})
	return most
}

// hours is what a season's cold nights cost, with the covers owned shared out each night where
// they save most.
func (w *wants) hours(nights []harmNight, stock map[string]Stock) (hours float64) {
	loss := [...]float64{unharmed: 0, setBack: w.costs.SetBack, killed: w.costs.Lost}
	w.eachNight(nights, func(out []harmNight) []harm {
		advice, need, done := make([]Advice, len(out)), make([]Need, len(out)), make([]harm, len(out))
		for i, n := range out {
			need[i] = w.need[n.planting]
			choices := append(make([]NightChoice, 0, 2+len(w.covers)), NightChoice{Loss: loss[n.harm[0]]})
			for c, cover := range w.covers {
				choices = append(choices, NightChoice{Action: LayCover, Cover: cover, Work: w.costs.Cover, Loss: loss[n.harm[1+c]]})
			}
			if w.inPots[n.planting] && !math.IsNaN(w.costs.BringIn) {
				choices = append(choices, NightChoice{Action: BringIn, Work: w.costs.BringIn})
			}
			advice[i].Choices = choices
		}
		ShareCovers(advice, need, stock)
		for i, n := range out {
			best := advice[i].Best
			hours += advice[i].Do().hours()
			if best < 1+len(w.covers) {
				done[i] = n.harm[best]
			}
		}
		return done
	})
	return hours
}
