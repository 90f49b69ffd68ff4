package climate

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// spell is a season at 0 °C but for a warm spell, both days included.
func spell(c Calendar, from, to SeasonDay, warm float64) Season {
	s := NewSeason(2000)
	for i := range s.Tmin {
		m := 0.0
		if sd := SpanFrom + SeasonDay(i); sd >= from && sd <= to {
			m = warm
		}
		s.Tmin[i], s.Tmax[i] = m-4, m+4
	}
	return s
}

// The edge cases are those of a public climate-index library's test suite (year 2000 as
// 365 days, 0 °C but for a spell at 280 K = 6.85 °C).
func TestGrowingSeasonEdges(t *testing.T) {
	c := Calendar{}
	tests := []struct {
		name     string
		from, to SeasonDay
		want     float64
		state    GrowingState
	}{
		{"no warm spell", 400, 399, 0, GrowingNever},
		{"warm all year", 0, 364, 365, GrowingToYearsEnd},
		{"15 June to 15 July", c.Of(6, 15), c.Of(7, 15), 31, GrowingBounded},
		// The library's year 2000 stops after 365 days, on 30 December, and gives 199; a
		// season here ends on 31 December.
		{"15 June to the end of the year", c.Of(6, 15), 364, 200, GrowingToYearsEnd},
		{"from 10 July: cool days come first", c.Of(7, 10), c.Of(9, 30), math.NaN(), GrowingUndefined},
		// A note in the library's tests: this 'should' be 10 days, but the index does not
		// let the season end before 1 July. By hand: 1 June to 30 June.
		{"1 to 10 June", c.Of(6, 1), c.Of(6, 10), 30, GrowingBounded},
		{"five warm days are too few", c.Of(6, 1), c.Of(6, 5), 0, GrowingNever},
		{"six are enough", c.Of(6, 1), c.Of(6, 6), 30, GrowingBounded},
	}
	for _, w := range tests {
		g := growingSeasonOf(spell(c, w.from, w.to, 6.85), c)
		assert.Equal(t, w.state, g.State, w.name)
		if math.IsNaN(w.want) {
			assert.True(t, math.IsNaN(g.Days), w.name)
		} else {
			assert.Equal(t, w.want, g.Days, w.name)
		}
	}
	// "Season end for 15 June to 15 July: day 198 of 2000", which is 16 July.
	g := growingSeasonOf(spell(c, c.Of(6, 15), c.Of(7, 15), 6.85), c)
	assert.Equal(t, c.Of(time.July, 16), g.End)
	assert.Equal(t, c.Of(time.June, 15), g.Start)
	// 5.0 °C is neither warm nor cool.
	assert.Equal(t, GrowingNever, growingSeasonOf(spell(c, 100, 250, 5), c).State)
}

func TestGrowingSeasonSouth(t *testing.T) {
	c := Calendar{South: true}
	g := growingSeasonOf(spell(c, c.Of(10, 1), c.Of(4, 30), 9), c)
	assert.Equal(t, GrowingBounded, g.State)
	assert.Equal(t, c.Of(time.October, 1), g.Start)
	assert.Equal(t, c.Of(time.May, 1), g.End)
	assert.Equal(t, 212., g.Days) // by hand: 31+30+31+31+28+31+30 days, October to April
	// It may not end before 1 January.
	g = growingSeasonOf(spell(c, c.Of(10, 1), c.Of(11, 30), 9), c)
	assert.Equal(t, c.Of(time.January, 1), g.End)
}

func TestGrowingSeasonGaps(t *testing.T) {
	c := Calendar{}
	miss := func(days ...SeasonDay) GrowingState {
		s := spell(c, c.Of(4, 20), c.Of(10, 10), 8)
		for _, sd := range days {
			s.Tmax[sd-SpanFrom] = math.NaN()
		}
		return growingSeasonOf(s, c).State
	}
	require.Equal(t, GrowingBounded, miss())
	assert.Equal(t, GrowingBounded, miss(c.Of(2, 10)), "one missing day among cold ones changes nothing")
	assert.Equal(t, GrowingBounded, miss(c.Of(6, 10), c.Of(6, 11), c.Of(6, 12), c.Of(6, 13), c.Of(6, 14), c.Of(6, 15), c.Of(6, 16)),
		"nor do missing days in June")
	assert.Equal(t, GrowingNotKnown, miss(c.Of(4, 22)), "a missing day in the first warm run")
	assert.Equal(t, GrowingNotKnown, miss(c.Of(4, 19)), "it might have begun a day earlier")
	assert.Equal(t, GrowingNotKnown, miss(c.Of(8, 1), c.Of(8, 2), c.Of(8, 3), c.Of(8, 4), c.Of(8, 5), c.Of(8, 6)), "it might have ended")
	assert.Equal(t, GrowingBounded, miss(c.Of(8, 1), c.Of(8, 2), c.Of(8, 3), c.Of(8, 4), c.Of(8, 5)), "five days cannot end it")
	assert.Equal(t, GrowingBounded, miss(c.Of(12, 1)), "it is over")
	assert.True(t, math.IsNaN(growingSeasonOf(NewSeason(1), c).Days))
}

// Berlin began its growing season of 1960 with warm days on both 28 and 29 February, so the
// issue said; folded into one, the run fell short and the season began 40 days late. Here 25
// February to 1 March, six days only if the 29th counts, and then 10 April to 15 October.
func TestGrowingSeasonCountsTheLeapDay(t *testing.T) {
	for _, south := range []bool{false, true} {
		c := Calendar{South: south}
		rec := NewSeries(NewDay(1959, 1, 1), 1200)
		for i := range rec.Tmin {
			d := rec.First + Day(i)
			_, m, md := d.Date()
			v := 2.0
			spring := m == time.February && md >= 25 || m == time.March && md == 1
			summer := d >= NewDay(1960, 4, 10) && d <= NewDay(1960, 10, 15)
			if spring || !south && summer || south && m >= time.September {
				v = 8
			}
			rec.Tmin[i], rec.Tmax[i] = v-4, v+4
		}
		if south { // the leap day ends no run of cool days, and its season has 366 days
			g := GrowingSeasonIn(rec, c, 1959)
			assert.Equal(t, GrowingBounded, g.State)
			assert.Equal(t, 122., g.Days, "by hand: September to December")
			continue
		}
		g := GrowingSeasonIn(rec, c, 1960)
		assert.Equal(t, c.Of(2, 25), g.Start)
		assert.Equal(t, c.Of(10, 16), g.End)
		assert.Equal(t, 234., g.Days, "by hand: 5+31+30+31+30+31+31+30+15, February to October")
		assert.Equal(t, c.Of(4, 10), growingSeasonOf(SeasonOf(rec, c, 1960), c).Start, "folded, it came late")
	}
	// Warm all year: 366 days of a leap year, 365 of another.
	warm := flat(NewDay(1960, 1, 1), NewDay(1961, 12, 31), 10, 20)
	assert.Equal(t, 366., GrowingSeasonIn(warm, Calendar{}, 1960).Days)
	assert.Equal(t, 365., GrowingSeasonIn(warm, Calendar{}, 1961).Days)
}
