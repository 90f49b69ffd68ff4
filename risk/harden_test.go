package risk

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/crops"
)

// The test crop hardens for 7 days: planted out on 20 May, its nights end on 14 to 20 May. A
// seedling is set back at 1 °C, a hardened plant at 0 °C: the limits fall by a sixth a night.
func TestHardeningNightByNight(t *testing.T) {
	p := out(testCrop(), on(time.May, 20))
	var seasons []climate.Season
	for range 5 {
		seasons = append(seasons, even(10, 20))
	}
	set(seasons[0], on(time.May, 13), -5)  // the night before they stand out
	set(seasons[1], on(time.May, 14), 1)   // at the limit of the first night
	set(seasons[2], on(time.May, 17), 0.5) // at the limit of the fourth
	set(seasons[2], on(time.May, 18), 0.4) // above that of the fifth, 1/3
	set(seasons[3], on(time.May, 20), 0)   // at that of the last
	set(seasons[3], on(time.May, 14), 0.9) // and of the first
	set(seasons[4], on(time.May, 21), -5)  // planted by then
	h := Harden(climate.Ensemble{Latitude: 52, Seasons: seasons, Rests: 5}, p)
	require.Len(t, h.Nights, 7)
	assert.Equal(t, on(time.May, 13), h.From)
	assert.Equal(t, on(time.May, 14), h.Nights[0].Day)
	assert.Equal(t, on(time.May, 20), h.Nights[6].Day)
	var shares []float64
	for _, n := range h.Nights {
		shares = append(shares, n.Harm.Share)
	}
	assert.Equal(t, []float64{0.4, 0, 0, 0.2, 0, 0, 0.2}, shares)
	assert.InDelta(t, 1, h.Nights[0].Limit, 1e-12)
	assert.InDelta(t, 0.5, h.Nights[3].Limit, 1e-12)
	assert.InDelta(t, 0, h.Nights[6].Limit, 1e-12)
	assert.Equal(t, 0.6, h.Any.Share)
	assert.Equal(t, 1.0, h.Inside[0].Value, "nights inside: 0 1 1 2 0")
	assert.Equal(t, 0, h.Worst())
}

func TestNothingToHarden(t *testing.T) {
	c := testCrop()
	e := climate.Ensemble{Latitude: 52, Seasons: []climate.Season{even(1, 9)}, Rests: 1}
	assert.Empty(t, Harden(e, Planting{Crop: c, Start: 100}).Nights, "sown in place")
	assert.Equal(t, -1, Harden(e, Planting{Crop: c, Start: 100}).Worst())
	c.HardeningDays = crops.Unknown()
	assert.Empty(t, Harden(e, out(c, 100)).Nights, "days of it not known")
	c.HardeningDays = fact(1)
	one := Harden(e, out(c, 100))
	require.Len(t, one.Nights, 1)
	assert.Equal(t, 0.0, one.Nights[0].Limit, "one night: the hardened plant's limit")
	assert.False(t, one.Any.Known, "one season is too few")
}
