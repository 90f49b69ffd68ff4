package risk

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/crops"
)

// In an even season of 10 to 20 °C the crop gets 5 degree-days a day, and as many effective
// ones as light supports: by hand on 21 June at 52°, Ra 41.6 and 0.16 root 10 of it 21 MJ, so
// 5 x 21/(21+5) = 4.04; on 21 December Ra 6.3, 3.2 MJ, 1.95.
func TestLightSlowsGrowth(t *testing.T) {
	c := litCrop()
	took := func(m time.Month, d int) climate.SeasonDay {
		return field(c, true, even(10, 20)).Play(0, out(c, on(m, d))).ReadyOn - on(m, d)
	}
	assert.InDelta(t, 150/4.04, float64(took(time.June, 3)), 1.5)
	assert.InDelta(t, 150/1.97, float64(took(time.November, 14)), 6, "and a little less, as January comes")
	start := on(time.October, 1)
	c.LightHours = fact(10)
	g := field(c, true, even(10, 20)).Play(0, out(c, start))
	assert.Greater(t, g.ReadyOn, climate.YearDays, "a leaf crop waits for the light")
	// A crop of which only plain degree-days are known hangs on no light.
	plain := testCrop()
	f := field(plain, true, even(10, 20))
	assert.Equal(t, f.Play(0, out(plain, on(time.June, 3))).ReadyOn-on(time.June, 3), f.Play(0, out(plain, start)).ReadyOn-start)
}

// A leaf crop that is a few degree-days short when the 10-hour line comes is a few days late.
func TestTheLineIsNoWall(t *testing.T) {
	c := litCrop()
	c.LightHours = fact(10)
	f := field(c, true, even(10, 20))
	line := north.DaysOfLight(52, 10).Last
	before := climate.SeasonDay(-1)
	for start := on(time.August, 1); start < on(time.October, 1); start++ {
		ready := f.Play(0, out(c, start)).ReadyOn
		if ready <= line {
			before = start
		}
	}
	require.Positive(t, before)
	next := f.Play(0, out(c, before+1)).ReadyOn
	assert.Greater(t, next, line)
	assert.Less(t, next, line+5, "one day later in, at most days later out")
}

// The line's ends: all growth on a day of just LightHours, none on one a lightFade shorter.
func TestLineEnds(t *testing.T) {
	c := testCrop()
	c.LightHours = fact(10)
	e := climate.Ensemble{Latitude: 52}
	hours := north.DayLengths(52)
	line := lineOf(e, c)
	for d, h := range hours {
		switch {
		case h >= 10:
			assert.Equal(t, 1.0, line[d])
		case h <= 10-lightFade:
			assert.Equal(t, 0.0, line[d])
		default:
			assert.InDelta(t, h-9, line[d], 1e-9)
		}
	}
	c.LightHours = crops.Unknown()
	for _, v := range lineOf(e, c) {
		require.Equal(t, 1.0, v)
	}
}

// A crop that fails by light and not by warmth says so.
func TestFailsForLight(t *testing.T) {
	c := litCrop()
	c.LightHours = fact(10)
	s := even(10, 20)
	for d := on(time.December, 20); d < climate.SpanTo; d++ {
		set(s, d, -1)
	}
	f := field(c, true, s).Play(0, out(c, on(time.October, 5)))
	assert.False(t, f.Ripens)
	assert.True(t, f.Light, "in full light it is ready by 11 November, and has a month to pick")
	c.LightHours = crops.Unknown()
	c.GrowthPlanted = fact(500)
	assert.False(t, field(c, true, s).Play(0, out(c, on(time.October, 5))).Light, "by warmth neither")
}

// The south has the north's light half a year on, but for the 3 % by which the sun is nearer in
// January.
func TestLightInTheSouth(t *testing.T) {
	c := litCrop()
	north := field(c, true, even(10, 20)).Play(0, out(c, on(time.June, 3))).ReadyOn
	south := NewField(climate.Ensemble{Latitude: -52, Calendar: climate.CalendarAt(-52), Seasons: []climate.Season{even(10, 20)}}, c, true, 1)
	assert.InDelta(t, float64(north), float64(south.Play(0, out(c, on(time.June, 3))).ReadyOn), 2)
}
