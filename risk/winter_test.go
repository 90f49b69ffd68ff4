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

// hardy is the test crop as one that stands frost, by hand: set back at -6, killed at -9 °C.
func hardy() crops.Crop {
	c := testCrop()
	c.SetBackSeedling, c.KillSeedling, c.SetBackHardened, c.KillHardened = fact(-6), fact(-9), fact(-6), fact(-9)
	c.Chill = fact(0)
	return c
}

// Twenty days of 0 to 7 °C harden a crop to -15 °C; a night of -12 that comes without them kills.
func TestWinterHardens(t *testing.T) {
	c := hardy()
	c.KillWinter = fact(-15)
	start := on(time.October, 1)
	night := start + 40
	for _, cold := range []bool{false, true} {
		s := even(5, 12)
		if cold {
			for d := night - 20; d < night; d++ {
				s.Tmin[d-climate.SpanFrom], s.Tmax[d-climate.SpanFrom] = 0, 7
			}
		}
		set(s, night, -12)
		got := field(c, true, s).Play(0, out(c, start))
		assert.Equal(t, !cold, got.Lost, "hardened %v", cold)
	}
}

// What lives below ground meets the soil: one night of -20 °C does not reach it, three weeks do.
func TestBelowGround(t *testing.T) {
	c := hardy()
	c.BelowCm = fact(5)
	start := on(time.October, 20)
	for days, dies := range map[climate.SeasonDay]bool{1: false, 25: true} {
		s := even(0, 6)
		for d := start + 60; d < start+60+days; d++ {
			s.Tmin[d-climate.SpanFrom], s.Tmax[d-climate.SpanFrom] = -20, -14
		}
		assert.Equal(t, dies, field(c, true, s).Play(0, out(c, start)).Lost, "%d days", days)
	}
}

// Frost spoils a head at -3 °C that would leave the plant alive; before there is one it does not.
func TestHeadsAreSpoiltFirst(t *testing.T) {
	c := hardy()
	c.KillReady = fact(-3)
	start := on(time.May, 20)
	ready := start + 39 // 200 °C-days at 5 a day, by hand; the cold day itself costs it one
	for after, ends := range map[climate.SeasonDay]climate.SeasonDay{-5: ready + 31, 5: ready + 5} {
		s := even(10, 20)
		set(s, ready+after, -4)
		f := field(c, true, s).Play(0, out(c, start))
		assert.Equal(t, ends, f.EndsOn, "%d days after it is ready", after)
	}
}

// Sprouting broccoli planted in May or in July waits for the same winter: it is picked within days
// of the same date, early before late (the wrong way round was what gardeners saw).
func TestColdComesFirst(t *testing.T) {
	e := southernEngland(20)
	at := func(class string, m time.Month, d int) float64 {
		return scoreIn(t, e, "sprouting broccoli", class, true, on(m, d)).Harvest[1].Value
	}
	may, july := at("early", time.May, 25), at("early", time.July, 10)
	assert.InDelta(t, may, july, 45)
	assert.Greater(t, may, float64(climate.YearDays), "never before New Year")
	late := at("late", time.June, 25)
	assert.Greater(t, late, at("early", time.June, 25))
	assert.InDelta(t, float64(on(time.April, 5)+climate.YearDays), late, 25)
}

// Garlic planted in October lives where it is grown: in a Milwaukee, a Fort Collins and, under straw, a Minneapolis, whose
// bare soil leaves it in doubt, as growers there have it (means 1991-2020, from memory). The air there kills it in most
// winters, at -15 °C.
func TestGarlicLivesInTheSoil(t *testing.T) {
	milwaukee := monthly{[12]float64{-9.6, -7.9, -2.7, 3, 8.4, 14.3, 17.8, 17.3, 13.1, 6.6, 0.5, -6.1},
		[12]float64{-1.1, 0.4, 5.6, 11.8, 18.4, 23.9, 26.8, 26, 22.2, 15.3, 8, 1.7}}
	fortCollins := monthly{[12]float64{-8.9, -7.6, -3.1, 0.5, 5.6, 10.7, 14.2, 13.1, 8.1, 1.6, -4.2, -8.8},
		[12]float64{6.7, 7.7, 13, 16.6, 21.8, 27.9, 31.2, 29.8, 25.7, 18.3, 11.3, 6.4}}
	straw := Cover{Name: "straw", Mulch: 15}
	lives := func(e climate.Ensemble, below bool, cover Cover) float64 {
		c, err := crops.Builtin().Find("garlic", "autumn")
		require.NoError(t, err)
		if !below {
			c.BelowCm = crops.Unknown()
		}
		return score(NewField(e, c, false, 1), Planting{Crop: c, Start: on(time.October, 15), Cover: cover}).Survives.Share
	}
	for name, e := range map[string]climate.Ensemble{"Milwaukee": weatherAbout(60, 43, 4.5, milwaukee.day), "Fort Collins": weatherAbout(60, 40.6, 4.5, fortCollins.day)} {
		air, bare, mulched := lives(e, false, Cover{}), lives(e, true, Cover{}), lives(e, true, straw)
		t.Logf("%s: by the air %.2f, bare soil %.2f, straw %.2f", name, air, bare, mulched)
		assert.Less(t, air, 0.5, name)
		assert.Greater(t, bare, 0.85, name)
		assert.GreaterOrEqual(t, mulched, bare, name)
	}
	e := weatherAbout(60, 45, 4.5, minnesota.day)
	bare, mulched := lives(e, true, Cover{}), lives(e, true, straw)
	t.Logf("Minneapolis: bare soil %.2f, straw %.2f", bare, mulched)
	assert.Less(t, bare, mulched)
	assert.Greater(t, mulched, 0.9)
	for i := range e.Seasons { // 20 cm of snow from December to mid March
		e.Seasons[i].Snow = make([]float64, climate.SpanLen)
		for sd := on(time.December, 1); sd < on(time.March, 15)+climate.YearDays; sd++ {
			e.Seasons[i].Snow[sd-climate.SpanFrom] = 20
		}
	}
	assert.Greater(t, lives(e, true, Cover{}), bare+0.05, "snow is a mulch")
}

// What stood indoors through the cold is as soft as any when it goes out: a night of -12 °C a day later kills it. One that
// was out before the cold lives through it; so does the sweep say, and the story.
func TestHardeningBeginsOutside(t *testing.T) {
	c := hardy()
	c.KillWinter = fact(-15)
	night := on(time.March, 10)
	s := even(5, 12)
	for d := night - 30; d < night; d++ {
		s.Tmin[d-climate.SpanFrom], s.Tmax[d-climate.SpanFrom] = 0, 7
	}
	set(s, night, -12)
	for start, lost := range map[climate.SeasonDay]bool{night - 2: true, night - 35: false, night - 25: false} {
		f := field(c, true, s)
		p := out(c, start)
		assert.Equal(t, lost, f.Play(0, p).Lost, "%d days before", night-start)
		_, story := f.Story(0, p, math.Inf(-1))
		assert.Equal(t, lost, story[len(story)-1].Kind == Killed)
		x, ok := f.Exposed(0, p, night, false)
		assert.True(t, ok)
		assert.Equal(t, lost, x.Kill >= -12, x.Kill)
	}
}

// Potato tops killed in May grow again, 18 days later; killed in August, before there is a crop, that is its end; once it is
// ready, frost leaves the tubers as they are; and one that reaches the tubers in spring kills them.
func TestTopsGrowAgain(t *testing.T) {
	c := hardy()
	c.SetBackSeedling, c.KillSeedling, c.SetBackHardened, c.KillHardened = fact(-0.5), fact(-2.2), fact(-0.5), fact(-2.2)
	c.SetBackDays = fact(18)
	start := on(time.May, 1)
	play := func(night climate.SeasonDay, low float64) Outcome {
		s := even(10, 20)
		set(s, night, low)
		return field(c, true, s).Play(0, out(c, start))
	}
	assert.True(t, play(start+10, -5).Lost)
	c.RegrowsTo = fact(-10)
	none := play(start-20, 5)
	may := play(start+10, -5)
	assert.False(t, may.Lost)
	assert.True(t, may.Ripens)
	assert.Equal(t, 1, may.SetBacks)
	assert.InDelta(t, 18, float64(may.ReadyOn-none.ReadyOn), 2)
	assert.True(t, play(start+10, -12).Lost, "that reaches the tubers")
	assert.Equal(t, none.EndsOn, play(none.ReadyOn+3, -5).EndsOn)
	start = on(time.July, 20)
	august := play(on(time.August, 10), -5)
	assert.Equal(t, on(time.August, 10), august.EndsOn)
	assert.False(t, august.Ripens)
}
