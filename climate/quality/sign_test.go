package quality

import (
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// TestSignsAreFew holds the questions about signs to few in records that have theirs.
func TestSignsAreFew(t *testing.T) {
	fewSigns(t, checked(t, map[string]string{
		"Badajoz":  "../../testdata/stations/badajoz.csv",
		"invented": "../../cmd/internal/demo/garden/record.csv",
	}), 3, 3)
}

// fewSigns counts the questions in the records and in ones made of their pieces, and holds the
// latter's to a number in a hundred years.
func fewSigns(t *testing.T, records map[string]climate.Series, times int, most float64) {
	count := func(s climate.Series) int { return len(lostSigns(s, Check(s), nil)) }
	years, asked, made := 0.0, 0, 0
	for _, name := range slices.Sorted(maps.Keys(records)) {
		s := records[name]
		y, a, m := float64(measured(s, 0, s.Len()))/365.25, count(s), 0
		for k := range times {
			m += count(pieces(s, rand.New(rand.NewPCG(uint64(k), 7))))
		}
		t.Logf("%-12s %3.0f years: %d questions; of pieces: %.2f in a hundred years", name, y, a, 100*float64(m)/y/float64(times))
		years, asked, made = years+y, asked+a, made+m
	}
	rate := 100 * float64(made) / years / float64(times)
	t.Logf("%.0f years: %d questions; of pieces, %d in %.0f years: %.2f in a hundred", years, asked, made, years*float64(times), rate)
	assert.LessOrEqual(t, rate, most)
	assert.LessOrEqual(t, float64(asked), 1+most*years/100)
}

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
