package opened

import (
	"math"

	"github.com/montanaflynn/stats"

	"frostward/climate"
	"frostward/climate/stat"
)

// FrostChances are the chances that frost dates are stated at.
var FrostChances = []float64{0.1, 0.2, 0.5, 0.8, 0.9}

// Frosts is what is found at one threshold.
type Frosts struct {
	Dates  climate.FrostDates
	Spring []climate.Quantile // by FrostChances: the frost comes on or after
	Autumn []climate.Quantile // on or before
	Free   []climate.Quantile // at least
	Trends [3]Trend           // spring, autumn, free days
}

// Trend is how dates or amounts change with the seasons.
type Trend struct {
	stat.Trend
	OK bool // there were enough seasons
}

// FrostsAt counts the frosts of an ensemble; the recorded seasons give the seasons left
// out and the trend.
func FrostsAt(e, recorded climate.Ensemble, f climate.Frost) Frosts {
	t := Frosts{Dates: climate.DatesOf(recorded, f, climate.WMO)}
	d := t.Dates
	if e.By == climate.ByWeather {
		d = climate.DatesOf(e, f, climate.WMO)
	}
	spring := climate.Earliest(d.Spring)
	for _, c := range FrostChances {
		t.Spring = append(t.Spring, e.Quantile(spring, 1-c))
		t.Autumn = append(t.Autumn, e.Quantile(d.Autumn, c))
		t.Free = append(t.Free, e.FreeQuantiles(d.Free, 1-c)[0])
	}
	seasons := make([]float64, len(recorded.Seasons))
	for i, s := range recorded.Seasons {
		seasons[i] = float64(s.Year)
	}
	for i, y := range [][]float64{climate.Earliest(t.Dates.Spring), t.Dates.Autumn, t.Dates.Free} {
		t.Trends[i].Trend, t.Trends[i].OK = stat.MannKendall(seasons, y, climate.Level)
	}
	return t
}

// Counted returns how many seasons of a half count, and how many of them had a frost.
func Counted(dates []float64) (seasons, withFrost int) {
	for _, v := range dates {
		if !math.IsNaN(v) {
			seasons++
			if !math.IsInf(v, 0) {
				withFrost++
			}
		}
	}
	return seasons, withFrost
}

// Extreme finds the earliest (sign 1) or latest (sign -1) frost and its index, -1 if none.
func Extreme(dates []float64, sign float64) int {
	best := -1
	for i, v := range dates {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			continue
		}
		if best < 0 || sign*v < sign*dates[best] {
			best = i
		}
	}
	return best
}

// Spread is the mean and sample standard deviation of the finite dates.
func Spread(dates []float64) (mean, sd float64) {
	var x []float64
	for _, v := range dates {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			x = append(x, v)
		}
	}
	return meanSD(x)
}

// meanSD returns the mean and the sample standard deviation (n-1), NaN where there are too
// few values.
func meanSD(x []float64) (mean, sd float64) {
	mean, err := stats.Mean(x)
	if err != nil {
		mean = math.NaN()
	}
	sd, err = stats.StandardDeviationSample(x)
	if err != nil || len(x) < 2 {
		sd = math.NaN()
	}
	return mean, sd
}

// Median returns the median of the dates that seasons have, NaN where none has.
func Median(dates []float64) float64 {
	var x []float64
	for _, v := range dates {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			x = append(x, v)
		}
	}
	m, err := stats.Median(x)
	if err != nil {
		return math.NaN()
	}
	return m
}
