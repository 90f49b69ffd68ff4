package risk

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

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
