package generator

import (
	"math"
	"testing"

	"github.com/montanaflynn/stats"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/climate/stat"
)

func fit(t testing.TB, rec climate.Series) *Model {
	m, err := Fit(rec, climate.Calendar{}, DefaultOptions)
	require.NoError(t, err)
	return m
}

func TestEnsembleIsWholeAndConsistent(t *testing.T) {
	m := fit(t, newInvented(1).record(12))
	e := m.Ensemble(5, 6, 4, 52)
	assert.Equal(t, climate.ByWeather, e.By)
	assert.Equal(t, 12, e.Rests)
	assert.Equal(t, 52.0, e.Latitude)
	require.Len(t, e.Seasons, 24)
	for i, s := range e.Seasons {
		assert.Equal(t, i/4, s.World)
		require.Len(t, s.Tmin, climate.SpanLen)
		require.Len(t, s.Tmax, climate.SpanLen)
		wholeAndOrdered(t, s)
	}
}

func wholeAndOrdered(t testing.TB, s climate.Season) {
	t.Helper()
	for i := range s.Tmin {
		if !(s.Tmin[i] <= s.Tmax[i]) { // false for NaN too
			t.Fatalf("day %d: tmin %v, tmax %v", i, s.Tmin[i], s.Tmax[i])
		}
	}
}

func TestEnsembleIsTheSameForASeed(t *testing.T) {
	rec := newInvented(1).record(12)
	a, b := fit(t, rec).Ensemble(5, 4, 3, 52), fit(t, rec).Ensemble(5, 4, 3, 52)
	assert.Equal(t, a, b, "bit for bit, fitted anew")
	c := fit(t, rec).Ensemble(6, 4, 3, 52)
	assert.NotEqual(t, a.Seasons[0].Tmin, c.Seasons[0].Tmin)
	d := fit(t, rec).Ensemble(5, 8, 3, 52)
	assert.Equal(t, a.Seasons, d.Seasons[:12], "more worlds leave the first as they were")
}

// A record and its mirror, the same weather half a year later in the other hemisphere, give
// the same seasons.
func TestHemispheresMirror(t *testing.T) {
	v := newInvented(3)
	north := v.record(10)
	south := climate.Calendar{South: true}
	first, last := south.Day(2001, 0), south.Day(2011, 0)-1
	mirrored := climate.NewSeries(first, int(last-first)+1)
	for y := 2001; y < 2011; y++ {
		for d := climate.SeasonDay(0); d < climate.YearDays; d++ {
			i := south.Day(y, d) - first
			mirrored.Tmin[i], mirrored.Tmax[i] = north.At(climate.Calendar{}.Day(y, d))
		}
	}
	m, err := Fit(mirrored, south, DefaultOptions)
	require.NoError(t, err)
	a, b := fit(t, north).Ensemble(1, 3, 3, 50), m.Ensemble(1, 3, 3, -50)
	assert.Equal(t, a.Seasons, b.Seasons)
	assert.True(t, b.Calendar.South)
}

// What the generator must keep of a climate, measured on 40 seasons of invented weather
// against 1,000 generated ones: mean and spread of each time of year, how days and months
// hang together, and how whole summers vary. The 40 seasons themselves know the mean of a
// month to 1.7/sqrt(40) = 0.27 °C and a standard deviation to 11 %; the tolerances are three
// of those and more, so they would catch a lost swing or lost persistence, not a decimal.
func TestClimateIsKept(t *testing.T) {
	rec := newInvented(11).record(40)
	e := fit(t, rec).Ensemble(1, 50, 20, 50)
	r := climate.Recorded(rec, 50, 2002, 2039)
	for from := climate.SeasonDay(0); from+30 <= climate.YearDays; from += 30 {
		a, b := windowMeans(r, from, 30), windowMeans(e, from, 30)
		assert.InDelta(t, a.Mean, b.Mean, 0.9, "mean of 30 days from %d", from)
		assert.InEpsilon(t, a.SD, b.SD, 0.35, "spread of 30 days from %d", from)
	}
	for _, days := range []int{1, 7, 30, 90, 180} {
		var ra, ga float64
		for from := climate.SeasonDay(0); from+180 <= climate.YearDays; from += 15 {
			a, b := windowMeans(r, from, days), windowMeans(e, from, days)
			ra += a.SD * a.SD
			ga += b.SD * b.SD
		}
		assert.InDelta(t, 1, math.Sqrt(ga/ra), 0.15, "spread of means over %d days", days)
	}
	assert.InDelta(t, lag(r), lag(e), 0.03, "yesterday in today")
}

func windowMeans(e climate.Ensemble, from climate.SeasonDay, days int) stat.Mixed {
	var x []float64
	for _, s := range e.Seasons {
		var sum float64
		for d := range days {
			tmin, _ := s.At(from + climate.SeasonDay(d))
			sum += tmin / float64(days)
		}
		x = append(x, sum)
	}
	return stat.FitMixed(x)
}

func lag(e climate.Ensemble) float64 {
	var r, n float64
	for _, s := range e.Seasons {
		x := make([]float64, 360)
		for i := range x {
			x[i], _ = s.At(climate.SeasonDay(i))
			x[i] += 9 * math.Cos(2*math.Pi*float64(i-20)/year) // the invented course of the year
		}
		lag1, _ := stats.AutoCorrelation(x, 1) // of whole seasons, so that it can't fail
		r += lag1
		n++
	}
	return r / n
}

// A record that warms by 0.06 °C a year for 40 years ends 1.2 °C above its mean. The level is
// that of the recent seasons, 7 years old on average, and a fifth of it of the whole record, 20
// years old: hence some 0.06 (0.8*7+0.2*20) = 0.6 °C short of the end; the swings of single
// seasons leave it uncertain by 0.25 °C.
func TestLevelIsThePresent(t *testing.T) {
	rec := newInvented(4).record(40)
	for i := range rec.Tmin {
		up := 0.06 * float64(i) / 365.25
		rec.Tmin[i] += up
		rec.Tmax[i] += up
	}
	e := fit(t, rec).Ensemble(1, 25, 20, 50)
	old := climate.Recorded(rec, 50, 2002, 2039)
	rise := windowMeans(e, 0, 364).Mean - windowMeans(old, 0, 364).Mean
	assert.InDelta(t, 0.6, rise, 0.5)
}

// Gaps: a tenth of the days here and there, two whole years, and every January of most years.
func TestGaps(t *testing.T) {
	v := newInvented(8)
	rec := v.record(20)
	whole := fit(t, rec).Ensemble(1, 25, 20, 50)
	gappy := rec.Clone()
	for i := range gappy.Tmin {
		y, m, _ := (gappy.First + climate.Day(i)).Date()
		switch {
		case v.rng.Float64() < 0.05:
			gappy.Tmin[i] = math.NaN()
		case v.rng.Float64() < 0.05:
			gappy.Tmax[i] = math.NaN()
		case y == 2004 || y == 2009, m == 1 && y%4 != 0:
			gappy.Tmin[i], gappy.Tmax[i] = math.NaN(), math.NaN()
		}
	}
	m := fit(t, gappy)
	assert.Equal(t, 18, m.seasons, "two years have no days")
	e := m.Ensemble(1, 25, 20, 50)
	for _, s := range e.Seasons {
		wholeAndOrdered(t, s)
	}
	for from := climate.SeasonDay(0); from < 360; from += 60 {
		assert.InDelta(t, windowMeans(whole, from, 60).Mean, windowMeans(e, from, 60).Mean, 0.8, "from %d", from)
	}
}

// A record kept in summer only: the winter is unknown and its numbers mean little, but they
// are numbers.
func TestSummersOnly(t *testing.T) {
	rec := newInvented(8).record(12)
	for i := range rec.Tmin {
		if _, m, _ := (rec.First + climate.Day(i)).Date(); m < 4 || m > 11 {
			rec.Tmin[i], rec.Tmax[i] = math.NaN(), math.NaN()
		}
	}
	for _, s := range fit(t, rec).Ensemble(1, 5, 5, 50).Seasons {
		wholeAndOrdered(t, s)
		for i := range s.Tmin {
			require.Less(t, math.Abs(s.Tmin[i]), 60.0)
		}
	}
}

func TestTooLittleToGoBy(t *testing.T) {
	_, err := Fit(newInvented(1).record(4), climate.Calendar{}, DefaultOptions)
	assert.EqualError(t, err, "4 seasons have most of their days, wanted at least 5 to resample daily weather from")
	_, err = Fit(climate.NewSeries(0, 5000), climate.Calendar{}, DefaultOptions)
	assert.ErrorContains(t, err, "0 seasons")
	_, err = Fit(climate.Series{}, climate.Calendar{}, DefaultOptions)
	assert.ErrorContains(t, err, "0 seasons")
	onlyTmin := newInvented(1).record(9)
	for i := range onlyTmin.Tmax {
		onlyTmin.Tmax[i] = math.NaN()
	}
	_, err = Fit(onlyTmin, climate.Calendar{}, DefaultOptions)
	assert.ErrorContains(t, err, "0 seasons")
}

// Seasons are rounded as the record is: a thermometer read to whole °F, written in tenths of
// a °C, shows frost at 0 °C from 32.5 °F down.
func TestRoundedAsTheRecord(t *testing.T) {
	rec := newInvented(2).record(10)
	for i := range rec.Tmin {
		for _, v := range []*float64{&rec.Tmin[i], &rec.Tmax[i]} {
			f := math.Round(climate.Fahrenheit(*v))
			*v = math.Round(climate.Celsius(f)*10) / 10
		}
	}
	for _, s := range fit(t, rec).Ensemble(1, 2, 2, 50).Seasons {
		for _, v := range append(s.Tmin, s.Tmax...) {
			f := climate.Fahrenheit(v)
			require.InDelta(t, math.Round(f), f, 0.0901, "%v °C is %v °F", v, f)
			require.Equal(t, math.Round(v*10)/10, v)
		}
	}
	fine := fit(t, newInvented(2).record(10))
	assert.Zero(t, fine.grid.step)
}

func BenchmarkFit45(b *testing.B) {
	rec := newInvented(1).record(45)
	b.ReportAllocs()
	for b.Loop() {
		fit(b, rec)
	}
}

func BenchmarkEnsemble500(b *testing.B) {
	m := fit(b, newInvented(1).record(45))
	b.ReportAllocs()
	for b.Loop() {
		m.Ensemble(1, 25, 20, 50)
	}
}

func TestPresent(t *testing.T) {
	rec := newInvented(4).record(40)
	steady := fit(t, rec).Present()
	assert.Less(t, steady.Low, steady.Value)
	assert.Less(t, steady.Value, steady.High)
	assert.Less(t, math.Abs(steady.Value), 0.8, "no change but for chance")
	assert.InDelta(t, 5.2, steady.HalfLife, 0.1)
	assert.Less(t, steady.Seasons, 40.0)
	assert.Greater(t, steady.Seasons, 14.0)
	for i := range rec.Tmin {
		if i > rec.Len()*3/4 {
			rec.Tmin[i] += 2
			rec.Tmax[i] += 2
		}
	}
	// The last ten of 40 seasons are 2 °C warmer: 1.5 °C above the mean. By age they have
	// (1-e^-(10/7.5))/(1-e^-(40/7.5)) = 0.74 of the weight, with the shrinkage (2 seasons against
	// 8) 0.64: 2 (0.64 - 0.25) = 0.78.
	warmed := fit(t, rec).Present()
	assert.InDelta(t, 0.78, warmed.Value-steady.Value, 0.1)
	assert.Greater(t, warmed.Low, steady.Low)
}

// The floor of the spread, from both sides and in every place of the year: a fifth of the
// root of the mean square (by hand: 363 days at 4, one at 0.1 and one at 0.2, mean 3.979...).
func TestSpreadHasAFloor(t *testing.T) {
	for _, at := range []int{0, 100, year - 1} {
		var square [year]float64
		for d := range square {
			square[d] = 4
		}
		mean := (363*4 + 0.1 + 0.2) / 365.
		square[at], square[(at+50)%year] = 0.1, 0.2
		got := spreadOf(square)
		assert.InDelta(t, math.Sqrt(mean)/5, got[at], 1e-12, "below the floor, 0.159")
		assert.InDelta(t, math.Sqrt(0.2), got[(at+50)%year], 1e-12, "above it")
		assert.InDelta(t, 2, got[(at+10)%year], 1e-12)
		square[at] = -1
		assert.Greater(t, spreadOf(square)[at], 0.39, "a harmonic may dip below 0")
	}
}
