package risk

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/crops"
)

// In an even season of 10 to 20 °C the test crop gets 5 degree-days a day and wants 200: 40
// days by warmth alone. At 52° north the almanac's day is 10 hours long until 28 October and
// 9 hours until 15 November (checkvalues 8 for the first, SunAt for the second).
func TestLightSlowsGrowth(t *testing.T) {
	c := testCrop()
	start := on(time.October, 1)
	f := field(c, true, even(10, 20)).Play(0, out(c, start))
	assert.Greater(t, f.ReadyOn, start+39+5, "slower in autumn than by warmth")
	assert.Less(t, f.ReadyOn, start+39+40, "but it goes on")

	c.LightHours = fact(10)
	g := field(c, true, even(10, 20)).Play(0, out(c, start))
	assert.Greater(t, g.ReadyOn, climate.YearDays, "a leaf crop waits for the light")
}

// A leaf crop that is a few degree-days short when the 10-hour line comes is a few days late.
func TestTheLineIsNoWall(t *testing.T) {
	c := testCrop()
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

// The line's ends: all growth on a day of just LightHours, none on one a LightFade shorter.
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
		case h <= 10-LightFade:
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

// Sums and light agree: at the catalogue's own climate and the crop's own time the light
// changes the day of picking by no more than two days, or 2 % of its days, from what the sum alone gives, for
// every crop, by construction of usualLight. Sunnier than that no day counts for much more.
func TestLightKeepsTheCataloguesSums(t *testing.T) {
	s := climate.NewSeason(2001)
	for i := range s.Tmin {
		d := (climate.SpanFrom + climate.SeasonDay(i)).Fold()
		s.Tmin[i], s.Tmax[i] = southern[d].tmin, southern[d].tmax
	}
	e := climate.Ensemble{Latitude: 51, Seasons: []climate.Season{s}}
	n := 0
	for _, c := range crops.Builtin().All() {
		for _, raised := range []bool{false, true} {
			need, worth := warmthOf(c, raised)
			if math.IsNaN(need) || !c.OutFrom.Known() {
				continue
			}
			n++
			home := homeOf(c, raised).light
			assert.True(t, home > 0.7 && home <= 1, "%s: %.3f", c.Label(), home)
			c.LightHours = crops.Unknown()
			light := lightOf(e, c, raised)
			bolts := homeOf(c, raised).bolts
			start := climate.SeasonDay(c.OutFrom.Value) + climate.SeasonDay(climate.SeasonDay(c.OutTo.Value-c.OutFrom.Value).Fold()/2)
			day := func(light []float64) int {
				var sum float64
				for d := int(start - climate.SpanFrom); d < climate.SpanLen; d++ {
					l := 1.0
					if light != nil {
						l = light[d]
					}
					if sum += worth(s.Tmin[d], s.Tmax[d]) * l; sum >= need {
						return d
					}
				}
				return -1
			}
			if day(nil) < 0 || day(nil) >= int(bolts-climate.SpanFrom) {
				continue // never in that climate: greenhouse crops of warm countries
			}
			took := day(nil) - int(start-climate.SpanFrom)
			assert.InDelta(t, day(nil), day(light), max(2, 0.02*float64(took)), "%s raised %v", c.Label(), raised)
		}
	}
	assert.Greater(t, n, 100)
}

// A crop that fails by light and not by warmth says so.
func TestFailsForLight(t *testing.T) {
	c := testCrop()
	c.LightHours = fact(10)
	s := even(10, 20)
	for d := on(time.December, 20); d < climate.SpanTo; d++ {
		set(s, d, -1)
	}
	f := field(c, true, s).Play(0, out(c, on(time.October, 5)))
	assert.False(t, f.Ripens)
	assert.True(t, f.Light, "by warmth it is ready by 14 November, and has a month to pick")
	c.LightHours = crops.Unknown()
	c.WarmthPlanted = fact(500)
	assert.False(t, field(c, true, s).Play(0, out(c, on(time.October, 5))).Light, "by warmth neither")
}

// The south has the north's light half a year on, and light does not hang on the seasons at hand.
func TestLightIsOfTheLatitude(t *testing.T) {
	c, err := crops.Builtin().Find("lettuce", "main")
	require.NoError(t, err)
	north := lightOf(climate.Ensemble{Latitude: 52}, c, true)
	south := lightOf(climate.Ensemble{Latitude: -52, Calendar: climate.CalendarAt(-52), Seasons: []climate.Season{even(1, 30)}}, c, true)
	assert.Equal(t, north, south)
	farther := lightOf(climate.Ensemble{Latitude: 60}, c, true)
	december := on(time.December, 21) - climate.SpanFrom
	assert.Less(t, usualLightAt(60)[on(time.December, 21)], usualLightAt(52)[on(time.December, 21)])
	assert.Equal(t, 0.0, farther[december], "a leaf crop stands still there")
	assert.InDelta(t, 1, usualLightAt(52)[on(time.June, 21)], 0.01)
}
