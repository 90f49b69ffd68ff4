package climate

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNightShares(t *testing.T) {
	a, b := NewSeason(2001), NewSeason(2002)
	at := func(d SeasonDay) int { return int(d - SpanFrom) }
	for d := SeasonDay(100); d < 105; d++ {
		a.Tmin[at(d)], b.Tmin[at(d)] = 5, 5
	}
	a.Tmin[at(102)] = 0          // at the threshold counts
	b.Tmin[at(103)] = 0.01       // above it does not
	b.Tmin[at(104)] = math.NaN() // is left out
	e := Ensemble{Seasons: []Season{a, b}}
	s := e.NightShares(0, 1)
	// By hand: days 101-103 have 6 known nights, one of them a frost; 103-105 have 3, none.
	assert.InDelta(t, 1.0/6, s[at(102)], 1e-12)
	assert.InDelta(t, 0.0, s[at(104)], 1e-12)
	assert.InDelta(t, 1.0/6, s[at(101)], 1e-12, "100-102: 6 known, one frost")
	assert.InDelta(t, 1.0/5, s[at(103)], 1e-12, "102-104: 5 known, one frost")
	assert.True(t, math.IsNaN(s[at(110)]))
	// A spot's nights stand in the place of the screen's.
	a.Night = make([]float64, SpanLen)
	e = Ensemble{Seasons: []Season{a}}
	assert.Equal(t, 1.0, e.NightShares(0, 0)[at(300)])
}
