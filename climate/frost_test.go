package climate

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// flat returns a record with one temperature throughout.
func flat(from, to Day, tmin, tmax float64) Series {
	s := NewSeries(from, int(to-from)+1)
	for i := range s.Tmin {
		s.Tmin[i], s.Tmax[i] = tmin, tmax
	}
	return s
}

func TestFrostAtTheThreshold(t *testing.T) {
	rec := flat(NewDay(1999, 1, 1), NewDay(2001, 12, 31), 8, 18)
	rec.Tmin[NewDay(2000, 5, 20)-rec.First] = 0
	rec.Tmin[NewDay(2000, 5, 24)-rec.First] = 0.1
	rec.Tmin[NewDay(2000, 10, 3)-rec.First] = -0.1
	s := SeasonOf(rec, Calendar{}, 2000)
	c := Calendar{}
	assert.Equal(t, float64(c.Of(time.May, 20)), Frost(0).LastSpring(s), "0.0 °C is a frost, 0.1 °C is not")
	assert.Equal(t, float64(c.Of(time.October, 3)), Frost(0).FirstAutumn(s))
	assert.Equal(t, 135., FreeDays(Frost(0).LastSpring(s), Frost(0).FirstAutumn(s)), "by hand: 21 May to 2 October")
	assert.Equal(t, Never, Frost(-3).LastSpring(s))
	assert.Equal(t, Never, FreeDays(Never, 280))
}

func TestFrostThatWrapsTheYear(t *testing.T) {
	rec := flat(NewDay(1999, 1, 1), NewDay(2002, 12, 31), 8, 18)
	rec.Tmin[NewDay(1999, 12, 28)-rec.First] = -1
	rec.Tmin[NewDay(2001, 1, 9)-rec.First] = -1
	s := SeasonOf(rec, Calendar{}, 2000)
	assert.Equal(t, -4., Frost(0).LastSpring(s), "28 December before")
	assert.Equal(t, 373., Frost(0).FirstAutumn(s), "9 January after")
}

func TestMirroredHemispheres(t *testing.T) {
	north := flat(NewDay(1997, 1, 1), NewDay(1999, 12, 30), 8, 18)
	north.Tmin[NewDay(1997, 5, 3)-north.First] = -1
	north.Tmin[NewDay(1997, 10, 3)-north.First] = -1
	south := north.Clone()
	south.First = NewDay(1997, 7, 1) // no 29 February before the second frost
	n, s := SeasonOf(north, Calendar{}, 1997), SeasonOf(south, Calendar{South: true}, 1997)
	assert.Equal(t, Frost(0).LastSpring(n), Frost(0).LastSpring(s))
	assert.Equal(t, Frost(0).FirstAutumn(n), Frost(0).FirstAutumn(s))
}

func TestLeapDayIsFolded(t *testing.T) {
	rec := flat(NewDay(2000, 1, 1), NewDay(2000, 12, 31), 8, 18)
	rec.Tmin[NewDay(2000, 2, 29)-rec.First] = -2
	rec.Tmax[NewDay(2000, 2, 28)-rec.First] = 21
	s := SeasonOf(rec, Calendar{}, 2000)
	c := Calendar{}
	tmin, tmax := s.At(c.Of(time.February, 28))
	assert.Equal(t, [2]float64{-2, 21}, [2]float64{tmin, tmax})
	tmin, _ = s.At(364)
	assert.Equal(t, 8., tmin, "31 December is the last day")
	tmin, _ = s.At(365)
	assert.True(t, math.IsNaN(tmin))
}

func TestEveryDateAndBack(t *testing.T) {
	for _, c := range []Calendar{{}, {South: true}} {
		prevSeason, prev := c.Locate(NewDay(1899, 12, 31))
		for d := NewDay(1900, 1, 1); d <= NewDay(2100, 12, 31); d++ {
			season, sd := c.Locate(d)
			if _, m, md := d.Date(); m == time.February && md == 29 {
				assert.Equal(t, prev, sd)
				continue
			}
			if got := c.Day(season, sd); got != d {
				t.Fatalf("%v -> %d %d -> %v", d, season, sd, got)
			}
			if next := (int(prev) + 1) % YearDays; int(sd) != next || (next == 0) != (season == prevSeason+1) {
				t.Fatalf("%v: season day %d after %d", d, sd, prev)
			}
			if back, err := c.Parse(c.Format(sd)); err != nil || back != sd {
				t.Fatalf("%v: %d reads back as %d, %v", d, sd, back, err)
			}
			prevSeason, prev = season, sd
		}
	}
}

func TestCompletenessAtTheLimits(t *testing.T) {
	c := Calendar{}
	april := Window{c.Of(time.April, 1), c.Of(time.April, 30)}
	miss := func(days ...int) Season {
		s := SeasonOf(flat(NewDay(1999, 1, 1), NewDay(2001, 12, 31), 5, 15), c, 2000)
		for _, d := range days {
			s.Tmin[c.Of(time.April, d)-SpanFrom] = math.NaN()
		}
		return s
	}
	assert.Empty(t, WMO.Lacks(c, miss(1, 2, 3, 4), april), "4 in a row pass")
	assert.Equal(t, "April: 5 days missing in a row", WMO.Lacks(c, miss(1, 2, 3, 4, 5), april))
	ten := []int{1, 3, 5, 7, 9, 11, 13, 15, 17, 19}
	assert.Empty(t, WMO.Lacks(c, miss(ten...), april), "10 pass")
	assert.Equal(t, "April: 11 days missing, 1 in a row", WMO.Lacks(c, miss(append(ten, 21)...), april))
}

func TestParseDayRefuses(t *testing.T) {
	for _, s := range []string{"2026-02-30", "26-02-03", "2026-2-3", "", "2026-02-03x"} {
		_, err := ParseDay(s)
		assert.Error(t, err, s)
	}
	for _, s := range []string{"02-30", "13-01", "5-24", "05-24x", "ab-cd", "00-10"} {
		_, err := Calendar{}.Parse(s)
		assert.Error(t, err, s)
	}
}

// Of seasons with few frost-free days the curve goes below none at its low end; the days do not.
func TestFreeDaysAreNeverBelowNone(t *testing.T) {
	free := []float64{0, 2, 0, 14, 5, 0, 30, 1, 0, 9, 3, 22}
	e := Ensemble{By: ByCurve, Seasons: make([]Season, len(free)), Rests: len(free)}
	assert.Negative(t, e.Quantiles(free, 0.1)[0].Low, "else this tests nothing")
	for _, q := range e.FreeQuantiles(free, 0.1, 0.5) {
		assert.True(t, q.Known)
		assert.GreaterOrEqual(t, q.Low, 0.0)
		assert.GreaterOrEqual(t, q.Value, q.Low)
	}
	upper := e.FreeQuantiles(free, 0.9)[0]
	assert.Equal(t, e.Quantiles(free, 0.9)[0].High, upper.High)
}
