package replay

import (
	"math"
	"math/rand/v2"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/climate/stat"
	"frostward/risk"
)

// NightTrial replays the nights of a record as tonight would have met them.
type NightTrial struct {
	Calendar  climate.Calendar
	Latitude  float64
	Prior     site.Prior
	Threshold climate.Frost // damage at or below, at the spot, °C
	From, To  climate.SeasonDay
	Autumn    [2]climate.SeasonDay // the second span of nights, from and to
	Error     float64              // root mean square error of the forecast, °C
	Mornings  int                  // logged by the grower each season, at random
	Rule      float64              // cover when the forecast is at or below, °C: the fixed rule
	Ratios    []float64            // of cost to loss
	Seed      uint64
}

// DefaultNightTrial replays April to June and September and October with a forecast that
// errs by 1.8 °C, a log of 30 mornings a season, and the fixed rule of covering at a
// forecast of 3 °C.
func DefaultNightTrial(c climate.Calendar, latitude float64, p site.Prior) NightTrial {
	return NightTrial{
		Calendar: c, Latitude: latitude, Prior: p,
		// Season days, so that the south has its own spring: 1 April to 30 June, 1
		// September to 31 October in the north.
		From: 90, To: 180, Autumn: [2]climate.SeasonDay{243, 303},
		Error: risk.ForecastSpread, Mornings: 30, Rule: 3,
		Ratios: []float64{0.02, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.7}, Seed: 1,
	}
}

// NightScore is how the outlooks have done.
type NightScore struct {
	Nights   int
	Damage   int           // nights with damage
	Brier    stat.Brier    // of the chance of damage
	Usual    stat.Brier    // of the date's climatology at the spot alone
	Reliable []stat.Issued // nights by the chance said, in tenths
	Error    float64       // root mean square error of the minimum at the spot, °C
	Covered  float64       // share of nights inside the 90 % interval
	Costs    []NightCost
}

// NightCost is the mean cost a night, in losses, at one ratio of cost to loss, with a
// cover that saves the plant (Murphy 1977).
type NightCost struct {
	Ratio                      float64
	Ours, Always, Never, Fixed float64
	Best, BestRule             float64 // of the fixed rule chosen afterwards, and its forecast, °C
	Value                      float64 // relative value: 0 the better of always and never, 1 perfect
}

// Replay goes through the nights in order. What the program knows of the spot and of the
// date is only what seasons before have shown, and of the forecast's errors what the
// mornings logged so far have; the first MinSeasons+3 seasons are there to begin with.
// station has the screen's Tmin and Tmax, spot the minima at the plants.
//
// The forecast is made up (see madeUp), as no garden has a long record of forecasts.
func (t NightTrial) Replay(station, spot climate.Series) NightScore {
	rng := rand.New(rand.NewPCG(t.Seed, 0))
	first, last := climate.SeasonsIn(spot, t.Calendar)
	var log []site.Reading
	var past []risk.PastNight
	tally := nightTally{limit: readBetween(spot, t.Threshold)}
	for y := first; y <= last; y++ {
		days := t.nights(station, spot, y)
		if len(days) == 0 {
			continue
		}
		before := climate.Recorded(station, t.Latitude, first, y-1)
		model := site.FitModel(station, t.Calendar, log, t.Prior)
		atSpot := model.ToSpot(before, t.Seed+uint64(y))
		scored := y >= first+climate.MinSeasons+3
		usual := map[climate.SeasonDay]risk.Usual{}
		issue := newMadeUp(before, t.Error, rng)
		logged := map[int]bool{}
		for _, k := range rng.Perm(len(days))[:min(t.Mornings, len(days))] {
			logged[k] = true
		}
		for k, d := range days {
			_, sd := t.Calendar.Locate(d)
			if _, ok := usual[sd]; !ok {
				usual[sd] = risk.UsualAt(atSpot, sd)
			}
			p := risk.PastNight{Evening: risk.NewEvening(), Day: sd, Usual: usual[sd]}
			tmin, _ := station.At(d)
			_, p.Tmax = station.At(d - 1)
			p.Forecast = issue.forecast(sd, tmin, p.Tmax)
			p.Came, _ = spot.At(d)
			if scored {
				tonight := risk.Foresee(risk.TonightIn{Evening: p.Evening, Day: sd, Usual: p.Usual, Spot: model, Past: past})
				tally.add(t, tonight, p)
			}
			if logged[k] {
				past = append(past, p)
				log = append(log, site.Reading{Day: d, Tmin: p.Came})
			}
		}
	}
	return tally.score(t)
}

// readBetween is the temperature that parts the readings at or below a threshold from those above
// it: half way between the nearest of both. What a thermometer read to whole °F shows as 32 °F may have been
// 0.2 °C, and a chance of 0 °C would fall short of how often 32 °F is read.
func readBetween(r climate.Series, threshold climate.Frost) float64 {
	at, above := math.Inf(-1), math.Inf(1)
	for d := r.First; d <= r.Last(); d++ {
		switch v, _ := r.At(d); {
		case v <= float64(threshold):
			at = max(at, v)
		case v > float64(threshold):
			above = min(above, v)
		}
	}
	if mid := (at + above) / 2; mid-float64(threshold) < 0.5 && float64(threshold)-mid < 0.5 {
		return mid
	}
	return float64(threshold) // never near it
}

// nights are the days of a season, in both spans, with all that a replay needs.
func (t NightTrial) nights(station, spot climate.Series, season int) (days []climate.Day) {
	for _, span := range [][2]climate.SeasonDay{{t.From, t.To}, t.Autumn} {
		for sd := span[0]; sd <= span[1]; sd++ {
			d := t.Calendar.Day(season, sd)
			tmin, _ := station.At(d)
			_, before := station.At(d - 1)
			came, _ := spot.At(d)
			if !math.IsNaN(tmin + before + came) {
				days = append(days, d)
			}
		}
	}
	return days
}

// nightTally gathers what was said and what came, one a night.
type nightTally struct {
	limit               float64   // of damage, °C
	chance, usual, rule []float64 // of damage; the fixed rule says 0 or 1
	forecast            []float64 // °C
	came                []bool
	low, high, lows     []float64 // interval of the minimum, and the minimum that came
	error2              float64
}

func (a *nightTally) add(t NightTrial, w risk.Tonight, p risk.PastNight) {
	usual := risk.Tonight{Tmin: p.Usual.Low, SD: p.Usual.SD}
	a.chance = append(a.chance, w.AtOrBelow(a.limit, risk.Cover{}).Share)
	a.usual = append(a.usual, usual.AtOrBelow(a.limit, risk.Cover{}).Share)
	rule := 0.0
	if p.Forecast <= t.Rule {
		rule = 1
	}
	a.rule = append(a.rule, rule)
	a.forecast = append(a.forecast, p.Forecast)
	a.came = append(a.came, p.Came <= a.limit)
	low, high := w.Interval()
	a.low, a.high, a.lows = append(a.low, low), append(a.high, high), append(a.lows, p.Came)
	a.error2 += (w.Tmin - p.Came) * (w.Tmin - p.Came)
}

func (a *nightTally) score(t NightTrial) NightScore {
	s := NightScore{Nights: len(a.came)}
	if s.Nights == 0 {
		return s
	}
	for _, c := range a.came {
		if c {
			s.Damage++
		}
	}
	s.Brier, s.Usual = stat.NewBrier(a.chance, a.came), stat.NewBrier(a.usual, a.came)
	s.Reliable = stat.ReliabilityTable(a.chance, a.came, 10)
	s.Error = math.Sqrt(a.error2 / float64(s.Nights))
	s.Covered = stat.Coverage(a.low, a.high, a.lows)
	for _, r := range t.Ratios {
		ours := stat.CostLoss(a.chance, a.came, r)
		best, rule := stat.BestRule(a.forecast, a.came, r)
		s.Costs = append(s.Costs, NightCost{Best: best, BestRule: rule, Ratio: r, Ours: ours.Method, Always: r, Never: s.Brier.BaseRate,
			Fixed: stat.CostLoss(a.rule, a.came, r).Method, Value: ours.Value()})
	}
	return s
}
