package replay

import (
	"math"

	"frostward/climate"
	"frostward/risk"
)

// Event is one number a season that a replay forecasts and scores: a date or a sum.
type Event struct {
	Name      string  // for programs, such as "last_spring_frost"
	Threshold float64 // of frost, °C; NaN where there is none
	Base      float64 // of degree-days, °C; 0 where there are none
	Planting  string  // that ripens; "" where none does
	Dates     bool    // it is a season day, or a number of days

	// Scores are taken between two values: what lies outside counts as being at the end,
	// the same for what was said and what came. A season without the event is at high, or
	// at low where none means early (early).
	low, high float64
	early     bool
	values    func(e climate.Ensemble) []float64 // one a season; NaN not known
}

// Same says whether two events are one.
func (v Event) Same(o Event) bool {
	threshold := v.Threshold == o.Threshold || math.IsNaN(v.Threshold) && math.IsNaN(o.Threshold)
	return v.Name == o.Name && threshold && v.Base == o.Base && v.Planting == o.Planting
}

// Values returns the event's value in each season, within the range that it is scored in. NaN
// is not known.
func (v Event) Values(e climate.Ensemble) []float64 {
	x := v.values(e)
	for i, y := range x {
		switch {
		case math.IsNaN(y):
		case math.IsInf(y, 1) && v.early:
			x[i] = v.low
		default:
			x[i] = min(max(y, v.low), v.high)
		}
	}
	return x
}

// raw is Values before they are brought within the range, a season without the event as an
// infinite value: what a curve is fitted to.
func (v Event) raw(e climate.Ensemble) []float64 {
	if x := v.values(e); v.early {
		return climate.Earliest(x)
	} else {
		return x
	}
}

// LastSpringFrost is the last frost before midsummer. One before midwinter, and none at all,
// count as midwinter: neither matters to a grower, and they are no nearer to or farther from a
// frost in March for being three months or for ever apart.
func LastSpringFrost(f climate.Frost) Event {
	return Event{Name: "last_spring_frost",
		Threshold: float64(f), Dates: true, low: 0, high: float64(climate.Midsummer), early: true,
		values: func(e climate.Ensemble) []float64 { return climate.DatesOf(e, f, climate.WMO).Spring }}
}

// FirstAutumnFrost is the first frost from midsummer on; one after the next midwinter, and
// none, count as midwinter.
func FirstAutumnFrost(f climate.Frost) Event {
	return Event{Name: "first_autumn_frost",
		Threshold: float64(f), Dates: true, low: float64(climate.Midsummer), high: climate.YearDays,
		values: func(e climate.Ensemble) []float64 { return climate.DatesOf(e, f, climate.WMO).Autumn }}
}

// FrostFreeDays is their number between the two, at most a year.
func FrostFreeDays(f climate.Frost) Event {
	return Event{Name: "frost_free_days",
		Threshold: float64(f), Dates: true, low: 0, high: climate.YearDays,
		values: func(e climate.Ensemble) []float64 { return climate.DatesOf(e, f, climate.WMO).Free }}
}

// WarmthBy is the degree-days from one season day up to another, the first included. Days
// missing in a row, up to 4 and 10 in all in each month, are taken as the last one measured.
func WarmthBy(g climate.DegreeDays, from, by climate.SeasonDay) Event {
	w := climate.Window{From: from, To: by - 1}
	return Event{Name: "degree_days", Base: g.Base,
		Threshold: math.NaN(), low: 0, high: 60 * float64(by-from), // no day is worth 60
		values: func(e climate.Ensemble) []float64 {
			x := make([]float64, len(e.Seasons))
			for i, s := range e.Seasons {
				x[i] = warmthOver(g, e.Calendar, s, w)
			}
			return x
		}}
}

func warmthOver(g climate.DegreeDays, c climate.Calendar, s climate.Season, w climate.Window) float64 {
	var sum, last float64
	gap := false
	for sd := w.From; sd <= w.To; sd++ {
		tmin, tmax := s.At(sd)
		next, _ := s.At(sd + 1)
		day := g.Day(tmin, tmax, next)
		if math.IsNaN(day) {
			gap = true
			day = last
		}
		sum += day
		last = day
	}
	if gap {
		highs := s
		highs.Tmin, highs.Night = s.Tmax, nil // Lacks looks at the minima
		if climate.WMO.Lacks(c, s, w) != "" || climate.WMO.Lacks(c, highs, w) != "" {
			return math.NaN()
		}
	}
	return sum
}

// Ripening is the day a planting is first picked, if it ripens in time to be worth it.
func Ripening(p risk.Planting, seed uint64) Event {
	return Event{Name: "ripening", Planting: p.Label(),
		Threshold: math.NaN(), Dates: true, low: float64(p.Start), high: climate.YearDays,
		values: func(e climate.Ensemble) []float64 {
			f := risk.NewField(e, p.Crop, p.Raised, seed).Certain() // the typical crop, in what came as in what was said
			x := make([]float64, len(e.Seasons))
			for i := range x {
				switch outcome := f.Play(i, p); {
				case !outcome.Known:
					x[i] = math.NaN()
				case outcome.Ripens:
					x[i] = outcome.ReadyOn.OrNever()
				default:
					x[i] = climate.Never
				}
			}
			return x
		}}
}
