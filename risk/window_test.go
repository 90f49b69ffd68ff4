package risk

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/crops"
)

// custom is a test crop that customarily goes out from 1 June to 15 July.
func custom() crops.Crop {
	c := testCrop() // ready 40 days after planting out at a mean of 15 °C, killed at 0 °C
	c.OutFrom = fact(float64(on(time.June, 1)))
	c.OutTo = fact(float64(on(time.July, 15)))
	return c
}

func frosty(c crops.Crop, of ...[]climate.SeasonDay) *Field {
	var all []climate.Season
	for _, frosts := range of {
		s := even(10, 20)
		for _, sd := range frosts {
			set(s, sd, -1)
		}
		all = append(all, s)
	}
	return field(c, true, all...)
}

// times repeats the frosts of a season.
func times(n int, frosts ...climate.SeasonDay) (out [][]climate.SeasonDay) {
	for range n {
		out = append(out, frosts)
	}
	return out
}

func bestOf(t *testing.T, f *Field, c crops.Crop, aim float64) climate.SeasonDay {
	w := WindowOf(f, out(c, on(time.June, 10)), nil, aim)
	require.GreaterOrEqual(t, w.Best, 0)
	return w.Starts[w.Best].Day
}

// The best day is the earliest in the customary span that does not do clearly worse than the surest; by hand.
func TestBestDay(t *testing.T) {
	c := custom()
	// No frost: every day is as good, and the first customary one is best, not the first tried.
	assert.Equal(t, on(time.June, 1), bestOf(t, frosty(c, times(20)...), c, 0.6))
	// A killing frost on 9 June in 12 seasons of 20 is clear; that day, after its night, is as good as any.
	half := append(times(12, on(time.June, 9)), times(8)...)
	assert.Equal(t, on(time.June, 9), bestOf(t, frosty(c, half...), c, 0.6))
	// In 2 of 20 it is not: 2 seasons of 20 lie within what chance does (1.64 sqrt(0.09/20) = 0.11).
	few := append(times(2, on(time.June, 9)), times(18)...)
	assert.Equal(t, on(time.June, 1), bestOf(t, frosty(c, few...), c, 0.6))
	// But where days meet the aim at the lower end of the interval, the best is one of them.
	assert.Equal(t, on(time.June, 9), bestOf(t, frosty(c, few...), c, 0.85))
	// Where no day in the span does as well as one before it, the nearest before it: frost on 12 July and
	// 16 August in every season kills what stands then, and leaves what is over by 11 July.
	ends := times(20, on(time.July, 12), on(time.August, 16))
	best := bestOf(t, frosty(c, ends...), c, 0.6)
	assert.Less(t, best, on(time.June, 1))
	assert.Greater(t, best, on(time.May, 2))
}

func TestCustomary(t *testing.T) {
	span, w := Customary(custom())
	assert.Equal(t, climate.Window{From: on(time.June, 1), To: on(time.July, 15)}, span)
	assert.Equal(t, climate.Window{From: on(time.June, 1) - 30, To: on(time.July, 15) + 30}, w)
	c := custom()
	c.OutFrom, c.OutTo = fact(330), fact(20) // over midwinter
	span, _ = Customary(c)
	assert.Equal(t, climate.Window{From: 330, To: 20 + climate.YearDays}, span)
	c.OutFrom = crops.Unknown()
	span, w = Customary(c)
	assert.Equal(t, span, w, "without a custom the span is the window")
}
