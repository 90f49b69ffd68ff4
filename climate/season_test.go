package climate

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// A season asks for the date of no day; each still is the day that the calendar says, with 29
// February folded into the 28th, across a century that has none.
func TestSeasonOfIsTheCalendar(t *testing.T) {
	first, last := NewDay(1895, 1, 1), NewDay(2006, 12, 31)
	rec := NewSeries(first, int(last-first)+1)
	for i := range rec.Tmin {
		rec.Tmin[i], rec.Tmax[i] = float64(i), float64(i)
	}
	for _, c := range []Calendar{{}, {South: true}} {
		for y := 1896; y <= 2005; y++ {
			s := SeasonOf(rec, c, y)
			for i := range s.Tmin {
				d := c.Day(y, SpanFrom+SeasonDay(i))
				lo, _ := rec.At(d)
				_, hi := rec.At(d)
				if year, m, md := d.Date(); m == 2 && md == 28 && IsLeap(year) {
					_, hi = rec.At(d + 1) // the warmer: values rise by the day
				}
				same := func(want, got float64) bool { return want == got || math.IsNaN(want) && math.IsNaN(got) }
				require.True(t, same(lo, s.Tmin[i]) && same(hi, s.Tmax[i]), "season %d, day %d", y, i)
			}
		}
	}
}

// The seasons of an ensemble are those cut one by one, though they share memory.
func TestRecordedIsSeasonOf(t *testing.T) {
	first, last := NewDay(1969, 3, 1), NewDay(1980, 10, 31)
	rec := NewSeries(first, int(last-first)+1)
	for i := range rec.Tmin {
		if i%97 > 0 {
			rec.Tmin[i], rec.Tmax[i] = float64(i), float64(i+1)
		}
	}
	for _, latitude := range []float64{52, -40} {
		e := Recorded(rec, latitude, 1968, 1982)
		require.Len(t, e.Seasons, 15)
		for i, got := range e.Seasons {
			want := SeasonOf(rec, e.Calendar, 1968+i)
			require.Equal(t, want.Year, got.Year)
			require.Len(t, got.Tmax, SpanLen)
			for d := range want.Tmin {
				require.InDelta(t, want.Tmin[d], got.Tmin[d], 0)
				require.InDelta(t, want.Tmax[d], got.Tmax[d], 0)
			}
		}
	}
	require.Empty(t, Recorded(rec, 52, 1980, 1979).Seasons)
}
