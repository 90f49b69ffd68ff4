package risk

import (
	"math"
	"sync"

	"frostward/climate"
)

// Assessment is everything the plan says of one planting.
type Assessment struct {
	Result  Result // as planned
	Verdict Verdict
	Aim     float64

	field  *Field        // that it was played in
	around func() Window // other starting days, with the planned cover: looked for once, however often the assessment is copied
	spread func() Spread // of the days of picking
	other  func() Result

	Hardening Hardening // of a raised planting, where the caller has scored it
	Handover  *Handover // of a planting that follows another in its bed
	Reserved  Reserved  // with its reserve, where the caller has scored that

	free    []climate.Quantile // when it leaves its bed, whatever became of it, at Picks
	cleared climate.Quantile   // when it leaves it after picking, the median
}

// Assess scores a planting of a plan: as planned, with and without cover, and on the days
// around. other is the cover to compare with when the planting has none.
func Assess(f *Field, p Planting, other Cover, aim float64) Assessment {
	return AssessAfter(f, p, other, aim, nil)
}

// AssessAfter is Assess for a planting that follows another in its bed: in each season it
// starts on its planned day or on the day that the bed is free, whichever is later.
func AssessAfter(f *Field, p Planting, other Cover, aim float64, h *Handover) Assessment {
	var free []float64
	if h != nil {
		free = h.On
		h.Alone = score(f, p)
	}
	a := Assessment{field: f, Aim: aim, Handover: h, Result: ScoreAfter(f, p, free),
		around: sync.OnceValue(func() Window { return WindowOf(f, p, h, aim) })}
	a.spread = func() Spread { return spreadOf(a.Result, ScoreAfter(f.Certain(), p, free)) }
	a.free, a.cleared = freed(f.Ensemble, a.Result.Outcomes)
	if a.Verdict = grade(a.Result.Succeeds, aim); a.bedTaken() {
		a.Verdict = Failing // as planned, whatever it does once it has waited
	}
	a.other = sync.OnceValue(func() Result {
		alt := p
		alt.Cover = other
		if p.Cover.Name != "" {
			alt.Cover = Cover{}
		}
		return ScoreAfter(f, alt, free)
	})
	if a.Verdict == Failing {
		b, found := a.Better()
		a.Verdict = kindOfFailing(p.Start, b.Day, found)
		if a.bedTaken() {
			a.Verdict = TooEarly
		}
	}
	return a
}

// Other is the same planting without its cover, or under the cover owned where it has none.
func (a *Assessment) Other() Result { return a.other() }

// Spread says how far the days of picking lie apart from season to season, as a standard
// deviation in days, and what of it is weather and what is not known of the crop. NaN where too few
// seasons succeed.
type Spread struct{ Days, Weather, Crop float64 }

// Spread is that of the planting as planned.
func (a *Assessment) Spread() Spread { return a.spread() }

// spreadOf parts the spread of a result from that of the typical crop in the same weather.
func spreadOf(all, typical Result) Spread {
	sd := func(r Result) float64 {
		var n, sum, square float64
		for _, o := range r.Outcomes {
			if o.Known && o.Succeeds() {
				d := float64(o.ReadyOn)
				n, sum, square = n+1, sum+d, square+d*d
			}
		}
		if n < climate.MinSeasons {
			return math.NaN()
		}
		return math.Sqrt(max(0, (square-sum*sum/n)/(n-1)))
	}
	s := Spread{Days: sd(all), Weather: sd(typical)}
	s.Weather = min(s.Weather, s.Days)
	s.Crop = math.Sqrt(max(0, s.Days*s.Days-s.Weather*s.Weather))
	return s
}

// Around is when the planting may start. Looking for it is most of what an assessment costs, and nobody moves a
// planting that is sound, so it is put off until it is asked for.
func (a *Assessment) Around() Window {
	if a.around == nil {
		return Window{Choice: noChoice}
	}
	return a.around()
}

// Better returns the best day of the planting's window, and how it does there, where that is better than the
// planned one. There is none when the plan is sound.
func (a *Assessment) Better() (Start, bool) {
	if a.Verdict == Sound || a.Verdict == NotKnown {
		return Start{}, false
	}
	w := a.Around()
	if w.Best < 0 {
		return Start{}, false
	}
	s := w.Starts[w.Best]
	return s, s.Succeeds.Share > a.Result.Succeeds.Share+asGood
}

// seldomFree is the share of seasons with a free bed below which a planting is planned too early.
const seldomFree = 0.05

// bedTaken says whether the bed is hardly ever free on the planned day.
func (a *Assessment) bedTaken() bool {
	return a.Handover != nil && a.Handover.InTime.Known && a.Handover.InTime.Share < seldomFree
}

// Cleared is the median day on which the planting has been picked and leaves its bed: Never where
// it succeeds in fewer than half the seasons.
func (a Assessment) Cleared() climate.Quantile {
	return a.cleared
}

// FreeOn has the days by which it has left its bed, whatever became of it, at Picks.
func (a Assessment) FreeOn() []climate.Quantile { return a.free }
