package quality

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// TestSignsAreFew holds the questions about signs to few in records that have theirs.
func TestSignsAreFew(t *testing.T) {
	fewAsked(t, checked(t, ships), countSigns, 3, 3)
}

func countSigns(s climate.Series) int { return len(lostSigns(s, Check(s), nil)) }

// A winter without its signs is one question, although its minima lie above its maxima on days
// in a row, and its days go with each other as if they had been moved.
func TestLostSignIsAskedAboutOnce(t *testing.T) {
	s := clean(20)
	for i := range s.Tmin { // cold enough for maxima below naught
		s.Tmin[i], s.Tmax[i] = s.Tmin[i]-8, s.Tmax[i]-8
	}
	require.Empty(t, Ask(s))
	from := int(climate.NewDay(1990, 11, 20) - s.First)
	for _, lost := range [][2]bool{{true, false}, {true, true}} {
		l := s.Clone()
		for i := from; i < from+110; i++ {
			l.Tmin[i] = math.Abs(l.Tmin[i])
			if lost[1] {
				l.Tmax[i] = math.Abs(l.Tmax[i])
			}
		}
		require.NotEmpty(t, byRule(Check(l), "tmax below tmin"))
		qs := Ask(l)
		require.Len(t, qs, 1, "%v", qs)
		assert.Equal(t, "has the minus sign been lost?", qs[0].Ask)
		assert.Equal(t, lost[1], qs[0].Element == Both)
		assert.InDelta(t, from, int(qs[0].From-s.First), 10)
		assert.InDelta(t, from+109, int(qs[0].To-s.First), 10)
	}
}

// Columns that changed places in winter are not taken for lost signs.
func TestSwappedIsNotLostSigns(t *testing.T) {
	s := clean(20)
	from := int(climate.NewDay(1990, 12, 10) - s.First)
	for i := from; i < from+60; i++ {
		s.Tmin[i], s.Tmax[i] = s.Tmax[i], s.Tmin[i]
	}
	qs := Ask(s)
	require.Len(t, qs, 1, "%v", qs)
	assert.Equal(t, "swapped", qs[0].Kind)
}

// A record that has lost its signs from some day on is one question from there to its end.
func TestSignsLostFromADayOn(t *testing.T) {
	s := clean(20)
	for i := range s.Tmin {
		s.Tmin[i] -= 3.5
	}
	from := s.Len() / 2
	for i := from; i < s.Len(); i++ {
		s.Tmin[i] = math.Abs(s.Tmin[i])
	}
	qs := Ask(s)
	require.Len(t, qs, 1, "%v", qs)
	assert.Equal(t, "has the minus sign been lost?", qs[0].Ask)
	assert.InDelta(t, from, int(qs[0].From-s.First), 200, "up to a summer late")
	assert.InDelta(t, s.Len(), int(qs[0].To-s.First), 300)
}
