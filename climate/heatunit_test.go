package climate

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestHeatUnitsPublished(t *testing.T) {
	for _, r := range published(t, "crop-heat-units.csv") {
		got := heatUnitsFrom(number(t, r["night_base"]), number(t, r["tmin"]), number(t, r["tmax"]))
		assert.InDelta(t, number(t, r["units"]), got, 0.0005, "%v", r)
	}
}

func TestHeatUnitsShape(t *testing.T) {
	best, at := 0.0, 0.0
	for x := -20.0; x < 60; x += 0.1 {
		u := HeatUnits(-10, x)
		require.GreaterOrEqual(t, u, 0.0)
		if u > best {
			best, at = u, x
		}
	}
	assert.InDelta(t, 30, at, 0.3, "the day half peaks near 30 °C (Ontario's agronomists)")
	assert.Zero(t, HeatUnits(0, 55), "the parabola must not go below 0 in great heat")
	assert.True(t, math.IsNaN(HeatUnits(math.NaN(), 20)) && math.IsNaN(HeatUnits(10, math.NaN())))
}

func TestHeatUnitSeason(t *testing.T) {
	c := Calendar{}
	rec := flat(NewDay(1999, 1, 1), NewDay(2001, 12, 31), 10, 20) // 17.49 a day
	rec.Tmin[NewDay(2000, time.May, 20)-rec.First] = -3           // spring frosts do not end it
	rec.Tmin[NewDay(2000, time.October, 1)-rec.First] = -1.9
	rec.Tmin[NewDay(2000, time.October, 11)-rec.First] = -2
	e := Recorded(rec, 45, 2000, 2000)
	sums, ends := e.HeatUnits(FillShort)
	assert.Equal(t, c.Of(time.October, 10), ends[0])
	// by hand: 1 May to 10 October is 163 days; 20 May and 1 October have the day half alone
	day := (3.33*10 - 0.084*100) / 2
	assert.InDelta(t, 161*17.49+2*day, sums[0].Sum, 1e-6)

	// From 16 September on the long-term mean is below 12: with 15 days around, the mean of
	// 15 and 9 °C falls below 12 once 8 of the 15 are cool, on 16 September itself.
	for d := NewDay(2000, time.September, 16); d <= rec.Last(); d++ {
		rec.Tmin[d-rec.First], rec.Tmax[d-rec.First] = 6, 12
	}
	e = Recorded(rec, 45, 2000, 2000)
	cool, ok := meanFallsBelow(e, HeatUnitMean)
	require.True(t, ok)
	assert.Equal(t, c.Of(time.September, 16), cool)
	_, ends = e.HeatUnits(FillShort)
	assert.Equal(t, c.Of(time.September, 15), ends[0])
	_, ok = meanFallsBelow(e, 2)
	assert.False(t, ok)
}
