package generator

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

func TestContinueKeepsWhatWasMeasured(t *testing.T) {
	v := newInvented(21)
	m := fit(t, v.record(15))
	season := v.season()
	const upTo = climate.SeasonDay(120)
	known := int(upTo-climate.SpanFrom) + 1
	for i := range season.Tmin {
		if i >= known || i >= 60 && i < 75 || i == 100 {
			season.Tmin[i], season.Tmax[i] = math.NaN(), math.NaN()
		}
	}
	season.Tmax[110] = math.NaN()
	season.Tmin[112] = math.NaN()
	e := m.Continue(season, upTo, 1, 4, 5, 50)
	require.Len(t, e.Seasons, 20)
	assert.Equal(t, 15, e.Rests)
	for _, s := range e.Seasons {
		wholeAndOrdered(t, s)
		for i := range known {
			if !math.IsNaN(season.Tmin[i]) {
				require.Equal(t, season.Tmin[i], s.Tmin[i], "day %d", i)
			}
			if !math.IsNaN(season.Tmax[i]) {
				require.Equal(t, season.Tmax[i], s.Tmax[i], "day %d", i)
			}
		}
	}
	assert.NotEqual(t, e.Seasons[0].Tmin[known:], e.Seasons[1].Tmin[known:])
	assert.Equal(t, e, m.Continue(season, upTo, 1, 4, 5, 50), "the same for a seed")
	for _, s := range m.Continue(season, climate.SpanFrom-1, 1, 2, 2, 50).Seasons {
		wholeAndOrdered(t, s)
	}
	whole := v.season()
	for _, s := range m.Continue(whole, climate.SpanTo+9, 1, 2, 2, 50).Seasons {
		assert.Equal(t, whole.Tmin, s.Tmin)
	}
}

// A warm month fades as the laws of the invented weather say it does: the spell of weeks has
// correlation 0.96 a day and the share 0.5^2/(0.85^2+0.5^2+0.15^2) = 0.25 of the variance of a
// day. After a month two standard deviations (of a day) warm, the days 5 to 14 on are still
// clearly warm, those 60 to 89 on hardly.
func TestAnomalyFades(t *testing.T) {
	v := newInvented(5)
	m := fit(t, v.record(40))
	const upTo = climate.SeasonDay(100)
	known := int(upTo-climate.SpanFrom) + 1
	mean := func(add float64) climate.Ensemble {
		s := climate.NewSeason(2041)
		for i := range known {
			d := yearDay(i)
			s.Tmin[i], s.Tmax[i] = m.mean[0][d], m.mean[1][d]
			if i >= known-slowDays {
				s.Tmin[i] += add * m.spread[0][d]
				s.Tmax[i] += add * m.spread[1][d]
			}
		}
		return m.Continue(s, upTo, 3, 25, 20, 50)
	}
	warm, usual := mean(2), mean(0)
	gain := func(from, days climate.SeasonDay) float64 {
		return (windowMeans(warm, upTo+from, int(days)).Mean - windowMeans(usual, upTo+from, int(days)).Mean) / m.spread[0][110]
	}
	// The laws give 0.80 of a spread for days 5 to 14 and 0.19 for days 60 to 89 (expected).
	// The regressions on the last day and the month know their coefficients to about 0.05
	// from 40 seasons, and both are multiplied by 2.
	soon, late := gain(5, 10), gain(60, 30)
	t.Logf("days 5 to 14: %.2f of %.2f, days 60 to 89: %.2f of %.2f", soon, expected(5, 10), late, expected(60, 30))
	assert.InDelta(t, expected(5, 10), soon, 0.2)
	assert.InDelta(t, expected(60, 30), late, 0.2)
	assert.Greater(t, soon, late)
}

// expected is the mean residual over some days after 30 days at 2, from the covariances of the
// invented weather.
func expected(from, days int) float64 {
	cov := func(h int) float64 {
		if h < 0 {
			h = -h
		}
		return 0.85*0.85*math.Pow(0.7, float64(h)) + 0.25*math.Pow(0.96, float64(h)) + 0.15*0.15
	}
	var within, ahead float64
	for i := range slowDays {
		for j := range slowDays {
			within += cov(i-j) / slowDays / slowDays
		}
		for k := range days {
			ahead += cov(slowDays-i+from+k-1) / slowDays / float64(days)
		}
	}
	return 2 * ahead / within
}

// Snow goes with the days that are drawn, and the days known keep theirs.
func TestSnowIsDrawnWithItsDays(t *testing.T) {
	rec := newInvented(4).record(12)
	rec.Snow = make([]float64, rec.Len())
	for i, tmin := range rec.Tmin {
		if tmin < 0 {
			rec.Snow[i] = 10
		}
	}
	m := fit(t, rec)
	cold, days, warm := 0.0, 0.0, 0.0
	for _, s := range m.Ensemble(1, 5, 4, 50).Seasons {
		for i, cm := range s.Snow {
			if days += cm / 10; s.Tmin[i] < 0 {
				cold++
			}
			if cm > 0 && s.Tmin[i] > 6 {
				warm++
			}
		}
	}
	assert.InDelta(t, 1, days/cold, 0.2)
	assert.Less(t, warm, 0.05*days)
	now := climate.SeasonOf(rec, climate.Calendar{}, rec.Last().Year()-1)
	s := m.Continue(now, 30, 1, 1, 1, 50).Seasons[0]
	known := int(30-climate.SpanFrom) + 1
	assert.Equal(t, now.Snow[:known], s.Snow[:known])
}
