package risk

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"frostward/climate"
)

// Ten seasons of 10 to 20 °C, in which the test crop is picked 40 days after it goes out, so one out
// on 20 May from 28 June. Frost of -2 °C kills it on 25 May in seasons 1 to 3, on 12 June in season
// 4, and on both 25 May and 12 June in season 5; season 6 is too cold to ripen anything. By hand:
//
//	alone                       a crop in seasons 7 to 10: 4 of 10
//	6 plants until 10 June      they go out in seasons 1, 2, 3 and 5, and live in 1 to 3: 7 of 10
//	6 plants until 12 June      season 4 has been lost by then too, and they live in it and in 5: 9 of 10
//	again 21 days later         both stand: on 10 June it meets the frost of seasons 4 and 5: 7 of 10
//
// Multiplied as if the frosts were independent, 0.4 and 0.7 would make 0.82.
func TestReserveByHand(t *testing.T) {
	var seasons []climate.Season
	for i := range 10 {
		s := even(10, 20)
		if i == 5 {
			s = even(3, 9)
		}
		if i <= 2 || i == 4 {
			set(s, on(time.May, 25), -2)
		}
		if i == 3 || i == 4 {
			set(s, on(time.June, 12), -2)
		}
		s.Year = 2001 + i
		seasons = append(seasons, s)
	}
	c := testCrop()
	f := NewField(climate.Ensemble{Latitude: 52, Seasons: seasons, Rests: 10}, c, true, 1)
	a := Assess(f, out(c, on(time.May, 20)), Fleece, 0.8)
	require.Equal(t, 0.4, a.Result.Succeeds.Share)

	spare := a.WithReserve(Reserve{Plants: 6, On: on(time.June, 10)})
	assert.Equal(t, 0.7, spare.Pair.Succeeds.Share)
	assert.Equal(t, 0.4, spare.Needed.Share)
	assert.Equal(t, 0.3, spare.Used.Share)
	assert.Equal(t, on(time.May, 20)+39, spare.Pair.Outcomes[7].ReadyOn)
	assert.Equal(t, on(time.June, 10)+39, spare.Pair.Outcomes[0].ReadyOn, "from the reserve, 21 days later")
	assert.Equal(t, 0.7, spare.Second.Succeeds.Share, "the reserve alone: seasons 1 to 3 and 7 to 10")
	assert.Equal(t, Poor, spare.Verdict)

	longer := a.WithReserve(Reserve{Plants: 6, On: on(time.June, 12)})
	assert.Equal(t, 0.9, longer.Pair.Succeeds.Share, "the night of the 12th is over when they go out")
	assert.Equal(t, 0.7, a.WithReserve(Reserve{Again: true, On: on(time.June, 10)}).Pair.Succeeds.Share)
	assert.True(t, Reserve{}.None())
	assert.InDelta(t, 0.3*8, spare.Saves(8), 1e-12)
	spare.Of = 12
	assert.InDelta(t, 0.3*8/2, spare.Saves(8), 1e-12, "6 plants stand for half of 12")
}

// What is not known of a reserve counts for nothing.
func TestReserveNotKnown(t *testing.T) {
	lost := Outcome{Known: true, Lost: true, KilledOn: on(time.May, 25)}
	r := Reserve{Plants: 3, On: on(time.June, 10)}
	assert.Equal(t, lost, r.either(lost, Outcome{}))
	assert.Equal(t, Outcome{}, r.either(Outcome{}, Outcome{Known: true, Ripens: true}))
}

// In any weather: a reserve never lowers the chance, and the pair does no better than the sum of its
// parts, nor worse than the better of the two where both stand.
func TestReserveLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var seasons []climate.Season
		for range 8 {
			seasons = append(seasons, someSeason(t))
			seasons[len(seasons)-1].Year = 2000 + len(seasons)
		}
		c := testCrop()
		f := NewField(climate.Ensemble{Latitude: 52, Seasons: seasons, Rests: 8}, c, true, 1)
		start := climate.SeasonDay(rapid.IntRange(90, 180).Draw(t, "start"))
		later := climate.SeasonDay(rapid.IntRange(1, 60).Draw(t, "later"))
		a := Assess(f, out(c, start), Fleece, 0.8)
		alone := a.Result.Succeeds.Share
		spare := a.WithReserve(Reserve{Plants: 6, On: start + later})
		again := a.WithReserve(Reserve{Again: true, On: start + later})
		second := again.Second.Succeeds.Share
		require.GreaterOrEqual(t, spare.Pair.Succeeds.Share, alone)
		require.GreaterOrEqual(t, again.Pair.Succeeds.Share, max(alone, second))
		require.LessOrEqual(t, again.Pair.Succeeds.Share, alone+second+1e-12)
		require.LessOrEqual(t, spare.Pair.Succeeds.Share, again.Pair.Succeeds.Share, "both in the ground do all that one after the other does")
		require.InDelta(t, spare.Pair.Succeeds.Share, alone+spare.Used.Share, 1e-12)
		require.LessOrEqual(t, spare.Used.Share, spare.Needed.Share)
	})
}

// Against trying every pair of days one by one, in the day loop.
func TestBestReserve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var seasons []climate.Season
		for range 6 {
			seasons = append(seasons, someSeason(t))
			seasons[len(seasons)-1].Year = 2000 + len(seasons)
		}
		c := testCrop()
		e := climate.Ensemble{Latitude: 52, Seasons: seasons, Rests: 6}
		f := NewField(e, c, true, 1)
		w := climate.Window{From: 124, To: 137}
		r := Reserve{Plants: 1, Again: rapid.Bool().Draw(t, "again")}
		if r.Again {
			r.Plants = 0
		}
		highest := -1.0
		for a := w.From; a <= w.To; a++ {
			x := Assess(f, out(c, a), Fleece, 0.8)
			for b := a + leastGap; b <= w.To; b++ {
				r.On = b
				highest = max(highest, x.WithReserve(r).Pair.Succeeds.Share)
			}
		}
		got := BestReserve(f, out(c, w.From), r, w)
		if highest == 0 {
			require.False(t, got.Known)
			return
		}
		require.True(t, got.Known)
		require.GreaterOrEqual(t, got.Of.On, got.First.Planting.Start+leastGap)
		require.GreaterOrEqual(t, got.Of.Pair.Succeeds.Share, highest-asGood)
		r.On = got.Of.On
		a := Assess(f, got.First.Planting, Fleece, 0.8)
		require.Equal(t, a.WithReserve(r).Pair.Succeeds, got.Of.Pair.Succeeds)
	})
}
