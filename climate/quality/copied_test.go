package quality

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// copyDays writes days of a record over others.
func copyDays(s climate.Series, from, to, n int) {
	copy(s.Tmin[to:to+n], s.Tmin[from:from+n])
	copy(s.Tmax[to:to+n], s.Tmax[from:from+n])
}

// A run copied is found wherever a piece of it has been copied to as well.
func TestCopiedTwice(t *testing.T) {
	for _, days := range []int{0, 8, 12} {
		s := clean(10)
		copyDays(s, 1603, 2401, 15)
		copyDays(s, 1603, 801, days)
		flags := byRule(Check(s), "repeated days")
		require.NotEmpty(t, flags, "%d days to a third place", days)
		n := 0
		for _, f := range flags {
			if i := int(f.Day - s.First); i >= 1603 && i < 1618 || i >= 2401 && i < 2416 {
				n++
			}
		}
		assert.Equal(t, 30, n, "%d days to a third place", days)
	}
}

// A record that stands still, or goes to and fro, is the same everywhere: its blocks are not
// compared each with all others, which for decades of it would never end.
func TestStandingStill(t *testing.T) {
	for period := 1; period <= 12; period++ {
		s := climate.NewSeries(climate.NewDay(1960, 1, 1), 8000)
		for i := range s.Tmin {
			s.Tmin[i], s.Tmax[i] = float64(i%period), float64(20+i%period)
		}
		r := newRecord(s)
		lags := r.lags()
		flags := repeatedDays(r)
		switch {
		case period < repeatedLeast:
			assert.Empty(t, lags, "period of %d days", period)
		case period < repeatedKinds:
			assert.Empty(t, flags, "period of %d days", period)
		default:
			assert.Equal(t, s.Len(), len(flags), "period of %d days", period)
		}
		assert.LessOrEqual(t, len(lags), s.Len()/period)
	}
}

// Where a value never changes but by gaps, a run of it is nothing out of the ordinary.
func TestSameValueOfOneKind(t *testing.T) {
	s := clean(10)
	for i := range s.Tmin {
		s.Tmin[i] = float64(i / 11 % 7)
		if i%11 == 10 {
			s.Tmin[i] = math.NaN()
		}
	}
	assert.Empty(t, sameValue(newRecord(s)))
}

// Months are compared by the day of the month, also where the record starts within one.
func TestRepeatedMonthFromWithin(t *testing.T) {
	whole := clean(4)
	from := int(climate.NewDay(whole.First.Year()+1, 1, 10) - whole.First)
	s := climate.Series{First: whole.First + climate.Day(from), Tmin: whole.Tmin[from:], Tmax: whole.Tmax[from:]}.Clone()
	next := int(climate.NewDay(s.First.Year()+1, 1, 1) - s.First)
	for i := range 9 {
		s.Tmin[next+i], s.Tmax[next+i] = math.NaN(), math.NaN()
	}
	copyDays(s, 0, next+9, 22)
	assert.Len(t, repeatedMonths(newRecord(s)), 2*2*22, "two elements of two months")
	assert.Len(t, byRule(Check(s), "repeated month"), 2*2*22)
}
