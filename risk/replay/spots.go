package replay

import (
	"math"
	"math/rand/v2"
	"slices"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/climate/stat"
)

// SpotTrial says how to measure what a garden log is worth.
type SpotTrial struct {
	Calendar  climate.Calendar
	Threshold climate.Frost
	Prior     site.Prior        // with the place of the garden seen from the station
	Others    []site.Station    // the station's neighbours, each with its own place
	Mornings  []int             // numbers of readings tried; 0 is the prior alone
	From, To  climate.SeasonDay // the readings are from these days, both included
	Logs      int               // logs drawn in each season
	Draws     int               // times each season of the record is taken to the spot
	Thin      int               // only every so many-th season is logged; 0 is every
	Seed      uint64
}

// DefaultSpotTrial logs 10 or 30 random mornings of one spring: March to May in the north.
func DefaultSpotTrial(c climate.Calendar) SpotTrial {
	return SpotTrial{
		Calendar: c, Prior: site.OpenBed, Mornings: []int{0, 10, 30},
		From: 59, To: 150, Logs: 2, Draws: 8, Seed: 1,
	}
}

// SpotWay is a way to date the last spring frost at a spot.
type SpotWay int

// The ways.
const (
	ByStation   SpotWay = iota // the station's dates, less so many °C
	ByOwnRecord                // the spot's own record
	ByLog                      // the station's record and a log of some mornings
)

// SpotScore is how well one way of dating the last spring frost at the spot has done.
type SpotScore struct {
	Way      SpotWay
	Less     float64 // °C that the station is taken to be too warm by
	Mornings int     // logged; -1 where that is not the point
	CRPS     float64 // days, the mean over the seasons scored
	Ratio    float64 // CRPS over that of the spot's own record
	Bias     float64 // days: mean of what was said less what came
	Covered  float64 // share of seasons inside the stated central 90 %
}

// SpotSkill is the score of each way on one record.
type SpotSkill struct {
	Seasons int // scored
	Scores  []SpotScore
}

// Score replays a record that has both the station's minimum and that at plant
// height. Each season in turn is left out: what the program would say of its last
// spring frost at plant height, from the station's other seasons and a log of a few
// mornings of one of them, is scored against what was measured there; every other
// season is logged once. Beside it stand the station's dates as they are, those of
// the station less a fixed 2 and 3 °C, and the dates of the spot's own other seasons,
// which no log can have.
//
// station has the screen's Tmin and Tmax; spot the Tmin at plant height.
func (t SpotTrial) Score(station, spot climate.Series) SpotSkill {
	seasons, came := t.seasons(station, spot)
	out := SpotSkill{Seasons: len(seasons)}
	if len(seasons) < climate.MinSeasons+1 {
		return out
	}
	screen := t.screen(station, seasons)
	add := func(way SpotWay, less float64, mornings int, tally spotTally) {
		out.Scores = append(out.Scores, SpotScore{Way: way, Less: less, Mornings: mornings, CRPS: tally.crps / tally.n, Bias: tally.bias / tally.n, Covered: tally.covered / tally.n})
	}
	for _, by := range []float64{0, 2, 3} {
		add(ByStation, by, -1, compare(came, t.dates(screen, t.Threshold+climate.Frost(by)), -1))
	}
	own := make([][]float64, len(came))
	for i, d := range came {
		own[i] = []float64{d}
	}
	ownRecord := len(out.Scores)
	add(ByOwnRecord, 0, -1, compare(came, own, -1))
	for _, n := range t.Mornings {
		var tally spotTally
		for k := 0; k < len(seasons); k += max(1, t.Thin) {
			for i := range t.Logs {
				// The seed leaves out the number of mornings, so that a longer log begins
				// with the shorter one and the two are kept apart by less chance.
				rng := rand.New(rand.NewPCG(t.Seed, uint64(k*t.Logs+i)))
				log := t.log(rng, spot, seasons[k], n)
				record, prior, screen := station, t.Prior, screen
				if len(t.Others) > 0 {
					record, prior, screen = t.together(station, log, seasons)
				}
				m := site.FitModel(record, t.Calendar, log, prior)
				out := k
				if n == 0 {
					out = -1 // nothing was logged: no season to leave out for it
				}
				tally = tally.plus(compare(came, t.said(m, screen, rng), out))
			}
		}
		add(ByLog, 0, n, tally)
	}
	for i := range out.Scores {
		out.Scores[i].Ratio = out.Scores[i].CRPS / out.Scores[ownRecord].CRPS
	}
	return out
}

// together is the station and its neighbours as one, weighted by what a log says of each.
func (t SpotTrial) together(station climate.Series, log []site.Reading, seasons []int) (climate.Series, site.Prior, climate.Ensemble) {
	all := append([]site.Station{{Record: station, Place: t.Prior.Place}}, t.Others...)
	one := site.Combine(all, t.Calendar, site.Weights(all, t.Calendar, log, t.Prior))
	return one.Record, t.Prior.At(one.Place), t.screen(one.Record, seasons)
}

func (t SpotTrial) screen(station climate.Series, seasons []int) climate.Ensemble {
	e := climate.Ensemble{Calendar: t.Calendar}
	const midwinter, end = int(-climate.SpanFrom), int(climate.Midsummer - climate.SpanFrom)
	for _, y := range seasons {
		s := climate.SeasonOf(station, t.Calendar, y)
		s.Tmin, s.Tmax = s.Tmin[:end], s.Tmax[:end] // no later night is asked for, and none before midwinter
		for i := range midwinter - 1 {
			s.Tmin[i] = math.NaN()
		}
		e.Seasons = append(e.Seasons, s)
	}
	return e
}

// spotTally sums scores.
type spotTally struct{ n, crps, bias, covered float64 }

func (a spotTally) plus(b spotTally) spotTally {
	return spotTally{a.n + b.n, a.crps + b.crps, a.bias + b.bias, a.covered + b.covered}
}

// compare scores each season's date against what is said from all other seasons, but
// for the season that was logged (-1 for none).
func compare(came []float64, said [][]float64, logged int) (tally spotTally) {
	for i, y := range came {
		if i == logged {
			continue
		}
		x := slices.Concat(slices.Concat(said[:i]...), slices.Concat(said[i+1:]...))
		tally.crps += stat.CRPS(x, y) // sorts x
		tally.bias += mean(x) - y
		if y >= stat.QuantileSorted(x, 0.05) && y <= stat.QuantileSorted(x, 0.95) {
			tally.covered++
		}
		tally.n++
	}
	return tally
}

// said returns the last spring frosts at the spot by the model, Draws for each season.
func (t SpotTrial) said(m site.Model, screen climate.Ensemble, rng *rand.Rand) [][]float64 {
	out := make([][]float64, len(screen.Seasons))
	for range t.Draws {
		for j, d := range t.dates(m.ToSpot(screen, rng.Uint64()), t.Threshold) {
			out[j] = append(out[j], d...)
		}
	}
	return out
}

// dates returns the last spring frost of each season, one in a slice of its own.
func (t SpotTrial) dates(e climate.Ensemble, f climate.Frost) [][]float64 {
	out := make([][]float64, len(e.Seasons))
	for i, s := range e.Seasons {
		out[i] = []float64{t.date(f.LastSpring(s))}
	}
	return out
}

// log draws readings on different mornings of one season.
func (t SpotTrial) log(rng *rand.Rand, spot climate.Series, season, mornings int) []site.Reading {
	var log []site.Reading
	for _, k := range rng.Perm(int(t.To - t.From + 1)) {
		if len(log) == mornings {
			break
		}
		d := t.Calendar.Day(season, t.From+climate.SeasonDay(k))
		if tmin, _ := spot.At(d); !math.IsNaN(tmin) {
			log = append(log, site.Reading{Day: d, Tmin: tmin})
		}
	}
	return log
}

// seasons returns those that are complete at both heights from midwinter to
// midsummer, by the WMO's rule, and the date of the last frost at the spot in each.
func (t SpotTrial) seasons(station, spot climate.Series) (seasons []int, came []float64) {
	window := climate.Window{From: 0, To: climate.Midsummer - 1}
	first, last := climate.SeasonsIn(spot, t.Calendar)
	for y := first; y <= last; y++ {
		s := climate.SeasonOf(spot, t.Calendar, y)
		if climate.WMO.Lacks(t.Calendar, s, window) != "" ||
			climate.WMO.Lacks(t.Calendar, climate.SeasonOf(station, t.Calendar, y), window) != "" {
			continue
		}
		seasons = append(seasons, y)
		came = append(came, t.date(t.Threshold.LastSpring(s)))
	}
	return seasons, came
}

// date puts a season without a frost, and one whose last came before midwinter, at
// midwinter: see stat.Clamp.
func (t SpotTrial) date(d float64) float64 {
	if math.IsInf(d, 1) {
		return 0
	}
	return stat.Clamp(d, 0, float64(climate.Midsummer))
}

func mean(x []float64) float64 {
	var s float64
	for _, v := range x {
		s += v
	}
	return s / float64(len(x))
}
