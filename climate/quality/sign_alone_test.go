package quality

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// Frosts that lost their signs, one night and two in a row, are flagged with what they would be;
// nights as far off on the other side, and those near naught, are left to the other rules.
func TestLostSignAlone(t *testing.T) {
	s := clean(20)
	for i := range s.Tmin {
		s.Tmin[i] -= 3.5
	}
	require.Empty(t, Check(s))
	nights, found, flagged := 0, 0, 0
	for i := 400; i+400 < s.Len(); i += 40 {
		for _, lost := range []int{1, 2} {
			if s.Tmin[i] > -5 || s.Tmin[i+1] > -5 {
				continue
			}
			l := s.Clone()
			for j := i; j < i+lost; j++ {
				l.Tmin[j] = math.Abs(s.Tmin[j])
			}
			nights += lost
			flags := Check(l)
			require.NotEmpty(t, flags)
			flagged += len(flags)
			for _, f := range byRule(flags, "lost sign") { // others, that come before, find the rest
				found++
				assert.True(t, f.Day >= l.First+climate.Day(i) && f.Day < l.First+climate.Day(i+lost))
				assert.Equal(t, Tmin, f.Element)
				assert.Contains(t, f.Why, "what the values beside lead to expect, and -")
			}
		}
	}
	assert.Greater(t, nights, 40)
	assert.GreaterOrEqual(t, flagged*10, nights*9, "%d of %d", flagged, nights)
	assert.Greater(t, found*2, nights, "%d of %d", found, nights)

	at := 410
	for !(s.Tmin[at] < 0 && s.Tmin[at] > -0.5) {
		at++
	}
	l := s.Clone()
	l.Tmin[at] = -l.Tmin[at]
	assert.Empty(t, Check(l), "near naught there is nothing to see")
}

// What is as far off and would be no better below naught is not taken for a lost sign.
func TestWarmSpikeIsNoLostSign(t *testing.T) {
	s := clean(20)
	at := int(climate.NewDay(1990, 7, 15) - s.First)
	s.Tmin[at] += 9
	flags := Check(s)
	require.NotEmpty(t, flags)
	assert.Empty(t, byRule(flags, "lost sign"))
}
