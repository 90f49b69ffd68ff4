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
