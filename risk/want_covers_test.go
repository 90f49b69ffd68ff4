package risk

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"frostward/climate"
)

// exact is a cover that gains 2 °C on every night.
var exact = Cover{Name: "fleece", Gain: 2}

// three are plantings of the test crop (set back at 0 °C, killed at -1 °C) out on 20 May.
func three(seasons []climate.Season) (out []Assessment) {
	for i := range seasons {
		seasons[i].Year = 2001 + i
	}
	c := testCrop()
	f := NewField(climate.Ensemble{Latitude: 52, Seasons: seasons, Rests: len(seasons)}, c, true, 1)
	for range 3 {
		out = append(out, Assess(f, Planting{Crop: c, Start: on(time.May, 20), Raised: true}, exact, 0.8))
	}
	return out
}

var hours = NightCosts{Cover: 0.3, BringIn: 0.5, SetBack: 2, Lost: 8}

// Ten seasons, by hand. Two sheets for three plantings: in seasons 5 to 7 a night of -0.5 °C sets a
// bare one back, in season 8 two such nights do, in season 9 a night of -2.5 °C kills a bare one and
// sets a covered one back, and in season 10 one of -5 °C kills all, covered or not, so that the
// next frost wants no cover. So the third sheet is wanted in 5 seasons of 10, and saves 2 - 0.3
// in three of them, twice that in one, and 8 - 2 - 0.3 in one: 14.2 in ten years.
func TestWantCoversByHand(t *testing.T) {
	var seasons []climate.Season
	for i := range 10 {
		s := even(10, 20)
		switch {
		case i >= 4 && i <= 6:
			set(s, on(time.May, 25), -0.5)
		case i == 7:
			set(s, on(time.May, 25), -0.5)
			set(s, on(time.May, 27), -0.5)
		case i == 8:
			set(s, on(time.May, 25), -2.5)
		case i == 9:
			set(s, on(time.May, 25), -5)
			set(s, on(time.May, 26), -0.5)
		}
		set(s, on(time.May, 20), -3) // the night before it goes out
		set(s, on(time.October, 20), -3)
		seasons = append(seasons, s)
	}
	plan := three(seasons)
	want := func(need []Need, s Stock, costs NightCosts, pots ...bool) CoverWant {
		if pots == nil {
			pots = make([]bool, 3)
		}
		return WantCovers(plan, need, pots, []Cover{exact}, map[string]Stock{"fleece": s}, costs)[0]
	}
	got := want(make([]Need, 3), Stock{Pieces: 2}, hours)
	assert.Equal(t, 3.0, got.Most.Value)
	assert.Equal(t, 0.5, got.Short.Share)
	assert.InDelta(t, 1.42, got.Saves.Mean, 1e-12)
	assert.True(t, got.Saves.Low < 1.42 && got.Saves.High > 1.42)

	assert.Equal(t, 0.0, want(make([]Need, 3), Stock{Pieces: 3}, hours).Short.Share)
	assert.Zero(t, want(make([]Need, 3), Stock{Pieces: 3}, hours).Saves.Mean)
	// The first in pots, which are carried in for 0.5: 0.2 dearer than the third sheet in seasons 5 to 7,
	// twice that in season 8, and in season 9 better than a sheet anyway: 1.0 in ten years.
	assert.InDelta(t, 0.1, want(make([]Need, 3), Stock{Pieces: 2}, hours, true, false, false).Saves.Mean, 1e-12)

	metres := want([]Need{{1}, {2}, {3}}, Stock{Metres: 3}, hours)
	assert.Equal(t, 6.0, metres.Most.Value)
	assert.Equal(t, 3.0, metres.More, "as the longest takes")
	assert.InDelta(t, 1.42, metres.Saves.Mean, 1e-12)

	none := WantCovers(plan, make([]Need, 3), make([]bool, 3), []Cover{exact}, nil, hours)[0]
	assert.Equal(t, 3.0, none.Most.Value, "what is wanted is known, whatever is owned")
	assert.False(t, none.Short.Known || none.Saves.Known || none.Counted)
	kinds := []Cover{{Name: "a"}, {Name: "b"}, {Name: "c"}, {Name: "d"}, {Name: "e"}, {Name: "f"}, exact}
	many := WantCovers(plan, make([]Need, 3), make([]bool, 3), kinds, map[string]Stock{"fleece": {Pieces: 2}}, hours)
	require.Len(t, many, 7, "every kind is counted")
	assert.Equal(t, got, many[6])
	unknown := hours
	unknown.Lost = math.NaN()
	assert.False(t, want(make([]Need, 3), Stock{Pieces: 2}, unknown).Saves.Known)
	assert.Equal(t, 0.5, want(make([]Need, 3), Stock{Pieces: 2}, unknown).Short.Share)
}

// The more is owned, the more seldom it would not do, and what is wanted does not hang on it.
func TestWantCoversLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var seasons []climate.Season
		for range 6 {
			seasons = append(seasons, someSeason(t))
		}
		plan, last := three(seasons), 1.0
		var most float64
		for pieces := range 4 {
			w := WantCovers(plan, make([]Need, 3), make([]bool, 3), []Cover{Fleece}, map[string]Stock{"fleece": {Pieces: float64(pieces)}}, hours)[0]
			if !w.Short.Known {
				return
			}
			require.LessOrEqual(t, w.Short.Share, last)
			if pieces > 0 {
				require.Equal(t, most, w.Most.Value)
			}
			require.GreaterOrEqual(t, w.Saves.Mean, 0.0)
			last, most = w.Short.Share, w.Most.Value
		}
		require.Zero(t, last, "one for each is enough")
	})
}
