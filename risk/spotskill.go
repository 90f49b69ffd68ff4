package risk

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
	Prior     site.Prior
	Mornings  []int             // numbers of readings tried; 0 is the prior alone
	From, To  climate.SeasonDay // the readings are from these days, both included
	Repeats   int               // logs drawn for each season scored
	Draws     int               // times each season of the record is taken to the spot
	Seed      uint64
}

// DefaultSpotTrial logs 10 or 30 random mornings of one spring, March to May.
func DefaultSpotTrial(c climate.Calendar) SpotTrial {
	return SpotTrial{
		Calendar: c, Prior: site.OpenBed, Mornings: []int{0, 10, 30},
		From: c.Of(3, 1), To: c.Of(5, 31), Draws: 4, Seed: 1,
	}
}

// SpotScore is how well one way of dating the last spring frost at the spot has done.
type SpotScore struct {
	Way      string  // in words
	Mornings int     // readings used; -1 where that is not the point
	CRPS     float64 // days, the mean over the seasons scored
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
// mornings of one of them, is scored against what was measured there. Beside it stand
// the station's dates as they are, moved by a fixed 2 and 3 °C, and the dates of the
// spot's own other seasons, which no log can have.
//
// station has the screen's Tmin and Tmax; spot the Tmin at plant height.
func (t SpotTrial) Score(station, spot climate.Series) SpotSkill {
	seasons, came := t.seasons(station, spot)
	if len(seasons) < climate.MinSeasons+1 {
		return SpotSkill{Seasons: len(seasons)}
	}
	var out SpotSkill
	out.Seasons = len(seasons)
	add := func(way string, mornings int, tell func(i int) [][]float64) {
		s := SpotScore{Way: way, Mornings: mornings}
		var n float64
		for i, y := range came {
			for _, x := range tell(i) {
				slices.Sort(x)
				lo, hi := stat.QuantileSorted(x, 0.05), stat.QuantileSorted(x, 0.95)
				if y >= lo && y <= hi {
					s.Covered++
				}
				s.CRPS += stat.CRPS(x, y)
				s.Bias += mean(x) - y
				n++
			}
		}
		s.CRPS, s.Bias, s.Covered = s.CRPS/n, s.Bias/n, s.Covered/n
		out.Scores = append(out.Scores, s)
	}
	screen := make([]climate.Season, len(seasons))
	for i, y := range seasons {
		screen[i] = climate.SeasonOf(station, t.Calendar, y)
	}
	fixed := func(by float64) func(int) [][]float64 {
		dates := make([]float64, len(screen))
		for i, s := range screen {
			dates[i] = t.date(climate.Frost(float64(t.Threshold) + by).LastSpring(s))
		}
		return func(i int) [][]float64 { return [][]float64{without(dates, i)} }
	}
	add("the station as it is", -1, fixed(0))
	add("the station less 2 °C", -1, fixed(2))
	add("the station less 3 °C", -1, fixed(3))
	add("the spot's own record", -1, func(i int) [][]float64 { return [][]float64{without(came, i)} })
	for _, n := range t.Mornings {
		add("log", n, func(i int) [][]float64 { return t.tell(station, spot, screen, seasons, i, n) })
	}
	return out
}

// tell returns, for a log kept in each other season, the dates said for season i.
func (t SpotTrial) tell(station, spot climate.Series, screen []climate.Season, seasons []int, i, mornings int) [][]float64 {
	others := climate.Ensemble{Calendar: t.Calendar, Seasons: without(screen, i)}
	logged := without(seasons, i)
	if mornings == 0 {
		logged = logged[:1]
	}
	var out [][]float64
	for _, y := range logged {
		// The seed leaves out the number of mornings, so that a longer log begins
		// with the shorter one and the two are told apart by less chance.
		rng := rand.New(rand.NewPCG(t.Seed, uint64(1000*i+y)))
		m, _ := site.Fit(station, t.Calendar, t.log(rng, spot, y, mornings), t.Prior)
		var dates []float64
		for range t.Draws {
			for _, s := range m.ToSpot(others, rng.Uint64()).Seasons {
				dates = append(dates, t.date(t.Threshold.LastSpring(s)))
			}
		}
		out = append(out, dates)
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

func without[T any](x []T, i int) []T {
	return append(slices.Clone(x[:i]), x[i+1:]...)
}

func mean(x []float64) float64 {
	var s float64
	for _, v := range x {
		s += v
	}
	return s / float64(len(x))
}
