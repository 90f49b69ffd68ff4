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

// A night to come is judged as the seasons' nights are: an air a tenth below the limit that Exposed gives does, in the
// day loop, what Exposed says it does, and a tenth above it does not. The nights are a hardened crop's in December, the
// same after a warm spell, one freshly planted in May, seedlings, a head once it is ready, and cloves in the soil.
func TestExposedJudgesAsPlayDoes(t *testing.T) {
	cold := func(s climate.Season, from, to climate.SeasonDay, low, high float64) {
		for d := from; d < to; d++ {
			s.Tmin[d-climate.SpanFrom], s.Tmax[d-climate.SpanFrom] = low, high
		}
	}
	year := func() climate.Season {
		s := even(9, 19)
		cold(s, on(time.October, 15), on(time.October, 1)+180, 1, 7)
		return s
	}
	warmSpell := func() climate.Season {
		s := year()
		cold(s, on(time.December, 12), on(time.December, 20), 6, 14)
		return s
	}
	frozen := func() climate.Season {
		s := year()
		cold(s, on(time.December, 1), on(time.December, 30), -4, -1)
		return s
	}
	type limits struct{ setBack, kill float64 }
	got := map[string]limits{}
	for _, x := range []struct {
		about, crop, class string
		raised             bool
		season             climate.Season
		start, night       climate.SeasonDay
	}{
		{"hardened", "kale", "", true, year(), on(time.July, 10), on(time.December, 20)},
		{"after a warm spell", "kale", "", true, warmSpell(), on(time.July, 10), on(time.December, 20)},
		{"fresh in May", "kale", "", true, year(), on(time.May, 10), on(time.May, 14)},
		{"tender", "courgette", "", true, year(), on(time.May, 20), on(time.May, 25)},
		{"seedlings", "potato", "first early", false, year(), on(time.April, 5), on(time.May, 8)},
		{"a head", "calabrese", "", true, year(), on(time.May, 1), on(time.August, 9)},
		{"a young head", "calabrese", "", true, year(), on(time.May, 1), on(time.May, 20)},
		{"cloves", "garlic", "autumn", false, year(), on(time.October, 25), on(time.December, 31)},
		{"cloves in frozen soil", "garlic", "autumn", false, frozen(), on(time.October, 25), on(time.December, 30)},
	} {
		c, err := crops.Builtin().Find(x.crop, x.class)
		require.NoError(t, err)
		p := Planting{Crop: c, Start: x.start, Sow: x.start, Raised: x.raised}
		e, up := field(c, x.raised, x.season).Exposed(0, p, x.night, false)
		require.True(t, up, x.about)
		got[x.about] = limits{e.SetBack, e.Kill}
		d := x.night - climate.SpanFrom
		half := (x.season.Tmax[d-1] - x.season.Tmin[d-1]) / 2
		play := func(low float64) Outcome {
			s := climate.Season{Year: x.season.Year, Tmin: append([]float64(nil), x.season.Tmin...), Tmax: append([]float64(nil), x.season.Tmax...)}
			s.Tmin[d] = low
			if c.BelowCm.Known() {
				s.Tmax[d] = low + 2*half
			}
			return field(c, x.raised, s).Play(0, p)
		}
		dies := func(o Outcome) bool { return o.KilledOn == x.night || o.EndsOn == x.night }
		assert.True(t, dies(play(e.Kill-0.1)), "%s: killed at %.1f", x.about, e.Kill)
		assert.False(t, dies(play(e.Kill+0.1)), "%s: lives above %.1f", x.about, e.Kill)
		if e.SetBack > e.Kill && play(e.SetBack).ReadyOn > x.night {
			assert.Equal(t, x.night, play(max(e.SetBack-0.1, e.Kill+0.05)).SetBackOn, x.about)
			assert.NotEqual(t, x.night, play(e.SetBack+0.1).SetBackOn, x.about)
		}
	}
	assert.Less(t, got["hardened"].kill, got["after a warm spell"].kill)
	assert.Less(t, got["after a warm spell"].kill, got["fresh in May"].kill)
	assert.Greater(t, got["a head"].kill, got["a young head"].kill)
	assert.Less(t, got["cloves"].kill, -25.0, "air of one night does not reach what is below ground")

	// What is picked is ready, whatever its sum says; seed that is not up is not exposed.
	c, err := crops.Builtin().Find("calabrese", "")
	require.NoError(t, err)
	p := Planting{Crop: c, Start: on(time.May, 1), Raised: true}
	e, _ := field(c, true, year()).Exposed(0, p, on(time.May, 20), true)
	assert.Equal(t, c.KillReady.Value, e.Kill)
	c, err = crops.Builtin().Find("potato", "first early")
	require.NoError(t, err)
	p = Planting{Crop: c, Start: on(time.April, 5)}
	_, up := field(c, false, year()).Exposed(0, p, on(time.April, 8), false)
	assert.False(t, up)
	// A record that ends before the night leaves it to the usual days to come up.
	s := year()
	cold(s, on(time.April, 6), climate.SpanTo, math.NaN(), math.NaN())
	_, up = field(c, false, s).Exposed(0, p, on(time.April, 14), false)
	assert.False(t, up)
	e, up = field(c, false, s).Exposed(0, p, on(time.April, 20), false)
	assert.True(t, up)
	assert.Equal(t, c.RegrowsTo.Value, e.Kill, "its shoots grow again")
}
