package replay

import (
	"math"

	"frostward/climate"
	"frostward/climate/stat"
	"frostward/crops"
	"frostward/risk"
)

// OutlookScore is how well outlooks some days before picking foretold its day, over the seasons
// replayed, as mean CRPS in days.
type OutlookScore struct {
	Lead        int // days before the usual day of picking
	Seasons     int // scored
	CRPS        float64
	Climatology float64 // of the recorded seasons before, taken as they stand
	Within      float64 // the share of seasons that came between the outlook's 10 and 90 % dates
}

// Ratio is the outlook's score over climatology's: below 1 it is better.
func (s OutlookScore) Ratio() float64 { return s.CRPS / s.Climatology }

// Outlooker makes the seasons that may follow, from a record that ends on a day of a season.
type Outlooker func(rec climate.Series, season int, upTo climate.SeasonDay) (climate.Ensemble, error)

// SplicedRecord is the outlooker by record: the seasons before, spliced onto this season's days.
// How departures fade is fitted once a season, on the record up to its first day: some weeks
// more would hardly change it. It is for one record and one goroutine.
func SplicedRecord(cal climate.Calendar, latitude float64) Outlooker {
	fits := map[int]*risk.Fading{}
	return func(rec climate.Series, season int, upTo climate.SeasonDay) (climate.Ensemble, error) {
		first, _ := climate.SeasonsIn(rec, cal)
		if fits[season] == nil {
			fits[season] = risk.FitFading(rec.Between(rec.First, cal.Day(season, -1)), cal)
		}
		e := climate.Recorded(rec, latitude, first, season-1)
		return fits[season].Splice(e, climate.SeasonOf(rec, cal, season), upTo), nil
	}
}

// OutlookSkill replays the seasons of a record after the first train as if each were under
// way: on the day so many days before the median day of picking in the seasons before, the
// outlook and climatology are each asked when a crop started on a day will be ready, knowing
// only days up to then. Seasons in which it was not in the ground yet on that day are not
// scored. What is scored is the ripening alone, by warmth and light: frost is
// left out, as a date that does not come cannot be scored in days.
func OutlookSkill(rec climate.Series, latitude float64, c crops.Crop, raised bool, start climate.SeasonDay, leads []int, train int, look Outlooker) ([]OutlookScore, error) {
	cal := climate.CalendarAt(latitude)
	c.SetBackHardened, c.SetBackSeedling, c.Chill = crops.Unknown(), crops.Unknown(), crops.Unknown()
	c.KillSeedling, c.KillWinter = crops.Unknown(), crops.Unknown()
	c.KillHardened.Value = math.Inf(-1)
	p := risk.Planting{Crop: c, Start: start, Raised: raised}
	first, last := climate.SeasonsIn(rec, cal)
	scores := make([]OutlookScore, len(leads))
	for i := range scores {
		scores[i].Lead = leads[i]
	}
	truth := readyDays(climate.Recorded(rec, latitude, first, last), p)
	for season := first + train; season <= last; season++ {
		came := truth[season-first]
		if math.IsNaN(came) || math.IsInf(came, 1) {
			continue
		}
		// The seasons before, as known on the eve of this one's planting.
		eve := cal.Day(season, start-1)
		usual := finite(readyDays(climate.Recorded(rec.Between(rec.First, eve), latitude, first, season-1), p))
		if len(usual) < train/2 {
			continue
		}
		median := stat.Quantile(usual, 0.5)
		for k, lead := range leads {
			upTo := climate.SeasonDay(math.Round(median)) - climate.SeasonDay(lead)
			if upTo < start {
				continue // not in the ground yet
			}
			e, err := look(rec.Between(rec.First, cal.Day(season, upTo)), season, upTo)
			if err != nil {
				return nil, err
			}
			said := finite(readyDays(e, p))
			if len(said) < len(usual)/2 {
				continue
			}
			scores[k].Seasons++
			scores[k].CRPS += stat.FairCRPS(said, came) // sorts said
			if came >= stat.QuantileSorted(said, risk.Picks[0]) && came <= stat.QuantileSorted(said, risk.Picks[2]) {
				scores[k].Within++
			}
			scores[k].Climatology += stat.FairCRPS(append([]float64(nil), usual...), came)
		}
	}
	for k := range scores {
		scores[k].CRPS /= float64(scores[k].Seasons)
		scores[k].Climatology /= float64(scores[k].Seasons)
		scores[k].Within /= float64(scores[k].Seasons)
	}
	return scores, nil
}

// readyDays returns the day of first picking in each season; NaN: not known.
func readyDays(e climate.Ensemble, p risk.Planting) []float64 {
	f := risk.NewField(e, p.Crop, p.Raised, 1).Certain() // the typical crop, in what came as in what was said
	out := make([]float64, len(e.Seasons))
	for i := range out {
		if outcome := f.Play(i, p); outcome.Known {
			out[i] = outcome.ReadyOn.OrNever()
		} else {
			out[i] = math.NaN()
		}
	}
	return out
}

func finite(x []float64) []float64 {
	var out []float64
	for _, v := range x {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			out = append(out, v)
		}
	}
	return out
}
