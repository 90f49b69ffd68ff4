package risk

import (
	"math"

	"frostward/climate"
)

// Outlook is what the season so far and the seasons that may follow say of a planting in the
// ground. Its field's ensemble has this season's days in place up to AsOf.
type Outlook struct {
	Planting Planting
	AsOf     climate.SeasonDay // the last day known

	Usual [3]climate.Quantile // first picking in other seasons from the same start, as alive on that day, at Picks
	Ready [3]climate.Quantile // first picking now to be expected, at Picks: Never where it does not come

	Ripens     climate.Chance // ready before frost kills it at its spot
	Worth      climate.Chance // ready in time for a picking worth the bed
	Light      climate.Chance // ready before growth all but stops for light
	LightLine  climate.SeasonDay
	NoLine     bool           // the days are never so short at this latitude
	ByDate     climate.Chance // ready by the grower's date, where one is set
	Date       climate.SeasonDay
	Covered    climate.Chance // ripens, with the cover asked about over it from autumn on
	CoverSaves float64        // days of picking that the cover adds, in the mean over the seasons

	// GiveUp is the day from which, if it is not ready then, the chance that it will still be
	// worth picking is below the share asked about; Never where there is no such day, and AsOf
	// itself where it is so already.
	GiveUp float64

	Outcomes []Outcome // one a season of the ensemble
	free     []climate.Quantile
}

// IsReady says whether it was ready on the last known day, in 9 years in 10 of what its spot's
// nights may have been.
func (o Outlook) IsReady() bool { return o.Ready[2].Known && o.Ready[2].Value <= float64(o.AsOf) }

// FreeOn has the days by which it has left its bed, at Picks.
func (o Outlook) FreeOn() []climate.Quantile { return o.free }

// UsualGiveUp is the chance of a picking worth the bed below which the bed is better used otherwise, unless the grower
// says another (common practice, no source).
const UsualGiveUp = 0.2

// OutlookOptions are what a grower may ask beside.
type OutlookOptions struct {
	Cover  Cover             // to try over it in autumn
	By     climate.SeasonDay // ready by this day?
	HasBy  bool
	GiveUp float64 // the chance below which the bed is better used otherwise
}

// LookOut looks ahead for a planting that stands in its bed on the last known day, alive:
// seasons in which the nights drawn for its spot would have killed it before that are left out,
// as the spot cannot have been so cold. Where that would leave too few, it must have been saved,
// and is played on as set back. usual is the same planting's field without this season's days.
func LookOut(f, usual *Field, p Planting, asOf climate.SeasonDay, opt OutlookOptions) Outlook {
	e := f.Ensemble
	o := Outlook{Planting: p, AsOf: asOf, Date: opt.By, GiveUp: climate.Never}
	n := len(e.Seasons)
	o.Outcomes = livingOutcomes(f, p, asOf)
	ready := make([]float64, n)
	covered := make([]climate.Answer, n)
	var days, played float64
	autumn := max(asOf+1, climate.Midsummer)
	for i, outcome := range o.Outcomes {
		ready[i] = outcome.picked()
		if !outcome.Known {
			continue
		}
		under := outcome
		if p.Cover.Name == "" && opt.Cover.Name != "" {
			q := p
			q.Cover = opt.Cover
			under = f.play(i, q, autumn, asOf)
		}
		covered[i] = climate.AnswerOf(!math.IsInf(under.picked(), 1))
		days += under.pickingDays() - outcome.pickingDays()
		played++
	}
	o.CoverSaves = days / played
	o.Covered = e.Chance(covered)
	ask := func(yes func(i int) bool) climate.Chance {
		out := make([]climate.Answer, n)
		for i, f := range o.Outcomes {
			out[i] = known(f, yes(i))
		}
		return e.Chance(out)
	}
	o.Ripens = ask(func(i int) bool { return !math.IsInf(ready[i], 1) })
	o.Worth = ask(func(i int) bool { return o.Outcomes[i].Succeeds() })
	o.LightLine, o.NoLine = lightLine(e, p)
	o.Light = ask(func(i int) bool { return ready[i] <= float64(o.LightLine) || o.NoLine && !math.IsInf(ready[i], 1) })
	if opt.HasBy {
		o.ByDate = ask(func(i int) bool { return ready[i] <= float64(opt.By) })
	}
	for k, share := range Picks {
		o.Ready[k] = e.Quantile(ready, share)
	}
	o.Usual = usually(usual, p, asOf)
	o.free, _ = freed(e, o.Outcomes)
	o.GiveUp = giveUp(o.Outcomes, ready, asOf, opt.GiveUp)
	return o
}

// usually returns the days of first picking in other seasons, of the same planting from the
// same start and as alive on the same day, at Picks.
func usually(f *Field, p Planting, asOf climate.SeasonDay) (out [3]climate.Quantile) {
	ready := make([]float64, len(f.Ensemble.Seasons))
	for i, outcome := range livingOutcomes(f, p, asOf) {
		ready[i] = outcome.picked()
	}
	for k, share := range Picks {
		out[k] = f.Ensemble.Quantile(ready, share)
	}
	return out
}

// fewestAlive is how many seasons, and what share of all, must have let a planting live for the
// others to be left out.
const (
	fewestAlive      = 10
	fewestAliveShare = 0.2
)

// livingOutcomes plays a planting through every season, as one that is alive on a day.
func livingOutcomes(f *Field, p Planting, on climate.SeasonDay) []Outcome {
	outcomes := make([]Outcome, len(f.Ensemble.Seasons))
	killed := 0
	for i := range outcomes {
		outcomes[i] = f.Play(i, p)
		if outcomes[i].killedBy(on) {
			killed++
		}
	}
	lived := len(outcomes) - killed
	leaveOut := lived >= fewestAlive && float64(lived) >= fewestAliveShare*float64(len(outcomes))
	for i := range outcomes {
		switch {
		case !outcomes[i].killedBy(on):
		case leaveOut:
			outcomes[i] = Outcome{Why: DiedBefore}
		default:
			outcomes[i] = f.play(i, p, p.Start, on)
		}
	}
	return outcomes
}

func (f Outcome) killedBy(on climate.SeasonDay) bool { return f.Lost && f.KilledOn <= on }

// picked is the day of first picking of a planting that lives to see it, else Never.
func (f Outcome) picked() float64 {
	switch {
	case !f.Known:
		return math.NaN()
	case f.Lost || f.ReadyOn >= f.EndsOn:
		return climate.Never
	}
	return f.ReadyOn.OrNever()
}

func (f Outcome) pickingDays() float64 {
	if !f.Known || f.Lost {
		return 0
	}
	return max(0, float64(f.EndsOn-f.ReadyOn))
}

// lightLine is the last day after midsummer, and after the planting's start, that is as long
// as the crop needs to grow well: its LightHours, or the growers' 10 hours.
func lightLine(e climate.Ensemble, p Planting) (line climate.SeasonDay, none bool) {
	hours := climate.LeafLightHours
	if p.Crop.LightHours.Known() {
		hours = p.Crop.LightHours.Value
	}
	span := e.Calendar.DaysOfLight(e.Latitude, hours)
	if span.Whole || span.None {
		return climate.SpanTo, span.Whole
	}
	line = span.Last
	if p.Start > line {
		line += climate.YearDays
	}
	return line, false
}

// fewToGiveUp is the fewest seasons that are still waiting from which a day to give up is stated.
const fewToGiveUp = climate.MinSeasons

// giveUp finds the first day on which, of the seasons in which it stands and is not ready, no
// more than a share will still be worth picking.
func giveUp(outcomes []Outcome, ready []float64, asOf climate.SeasonDay, share float64) float64 {
	for sd := asOf; sd < climate.SpanTo; sd++ {
		var waiting, worth float64
		for i, f := range outcomes {
			if !f.Known || ready[i] <= float64(sd) || f.freeOn() <= float64(sd) {
				continue
			}
			waiting++
			if f.Succeeds() {
				worth++
			}
		}
		if waiting < fewToGiveUp {
			return climate.Never
		}
		if worth < share*waiting {
			return float64(sd)
		}
	}
	return climate.Never
}
