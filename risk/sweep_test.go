package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"frostward/climate"
	"frostward/crops"
)

// roughSeason is someSeason with faults: days missing alone, in runs and to the end, and
// temperatures in whole degrees, so that nights stand exactly at the limits.
func roughSeason(t *rapid.T) climate.Season {
	s := someSeason(t)
	if rapid.Bool().Draw(t, "whole") {
		for i := range s.Tmin {
			s.Tmin[i], s.Tmax[i] = math.Round(s.Tmin[i]), math.Round(s.Tmax[i])
		}
	}
	miss := func(from, n int, both bool) {
		for i := from; i < min(from+n, len(s.Tmin)); i++ {
			s.Tmin[i] = math.NaN()
			if both {
				s.Tmax[i] = math.NaN()
			}
		}
	}
	for range rapid.IntRange(0, 12).Draw(t, "gaps") {
		miss(rapid.IntRange(150, 700).Draw(t, "gap"), rapid.SampledFrom([]int{1, 1, 1, 2, 4, 5, 12}).Draw(t, "days"), rapid.Bool().Draw(t, "both"))
	}
	if rapid.IntRange(0, 3).Draw(t, "cut") == 0 {
		miss(rapid.IntRange(250, 700).Draw(t, "cut at"), climate.SpanLen, true)
	}
	return s
}

// roughCrop is the invented crop with its facts moved about.
func roughCrop(t *rapid.T) crops.Crop {
	c := testCrop()
	draw := func(name string, low, high float64) crops.Fact {
		return fact(rapid.Float64Range(low, high).Draw(t, name))
	}
	c.KillHardened = draw("kill", -8, 2)
	c.SetBackHardened = draw("set back", -6, 3) // at times below the killing temperature
	c.SetBackDays = fact(float64(rapid.IntRange(0, 20).Draw(t, "delay")))
	c.Chill = rapid.SampledFrom([]crops.Fact{crops.Unknown(), fact(5), fact(9)}).Draw(t, "chill")
	c.Base = draw("base", 0, 12)
	c.Upper = rapid.SampledFrom([]crops.Fact{crops.Unknown(), fact(22)}).Draw(t, "upper")
	c.WarmthPlanted, c.WarmthSown = draw("warmth", 60, 1500), draw("warmth sown", 60, 1500)
	c.KillSeedling, c.SetBackSeedling = draw("kill seedling", -6, 3), draw("set back seedling", -6, 4)
	c.GerminationMin = rapid.SampledFrom([]crops.Fact{crops.Unknown(), fact(5), fact(12), fact(30)}).Draw(t, "germination")
	c.EmergenceSum = rapid.SampledFrom([]crops.Fact{crops.Unknown(), fact(50), fact(150)}).Draw(t, "emergence")
	if rapid.Bool().Draw(t, "effective") {
		c.GrowFrom, c.GrowBest, c.GrowMax, c.GrowLight = c.Base, fact(18), fact(34), draw("light wanted", 0, 2)
		c.GrowthPlanted, c.GrowthSown = draw("growth", 40, 900), draw("growth sown", 40, 900)
		if rapid.Bool().Draw(t, "doubt") {
			for _, f := range []*crops.Fact{&c.GrowthPlanted, &c.GrowthSown} {
				f.Low, f.High = f.Value*0.8, f.Value*1.25
			}
			c.KillHardened.Low, c.KillHardened.High = c.KillHardened.Value-2, c.KillHardened.Value+2
		}
		c.GerminationMax = rapid.SampledFrom([]crops.Fact{crops.Unknown(), fact(20)}).Draw(t, "too hot")
	} else if rapid.IntRange(0, 4).Draw(t, "days only") == 0 {
		c.WarmthPlanted, c.WarmthSown = crops.Unknown(), crops.Unknown()
		c.DaysSown, c.DaysPlanted = fact(80), fact(float64(rapid.IntRange(20, 150).Draw(t, "need")))
	}
	c.PickingDays = fact(rapid.SampledFrom([]float64{3, 10.5, 14, 30, 120}).Draw(t, "picking"))
	if rapid.Bool().Draw(t, "leaf") { // which runs to seed in its second year
		c.Kind, c.OutFrom, c.OutTo = crops.Leaf, fact(90), fact(150)
	}
	switch rapid.IntRange(0, 6).Draw(t, "winter") {
	case 0:
		c.KillWinter = fact(c.KillHardened.Value - 6)
	case 1:
		c.BelowCm = fact(5)
	case 2:
		c.KillReady = fact(c.KillHardened.Value + 2)
	case 3:
		c.ColdDays, c.GrowthAfterCold = fact(20), fact(30)
	case 4:
		c.RegrowsTo = fact(c.KillHardened.Value - 4)
	}
	c.LightHours = rapid.SampledFrom([]crops.Fact{crops.Unknown(), fact(10), fact(13)}).Draw(t, "light")
	return c
}

// play returns how season i ends from each day of a window, step days apart.
func (s *Sweep) play(i int, w climate.Window, step int) (out []finish) {
	s.begin(i, w.From)
	for sd := w.From; sd <= w.To; sd += climate.SeasonDay(step) {
		out = append(out, s.start(sd))
	}
	return out
}

// The fast form ends as Play does, for every start, of any crop under any cover in any
// season.
func TestSweepIsTheDayLoop(t *testing.T) {
	var sweep Sweep // one for all, as it is used: nothing of a season may reach the next
	played := 0
	rapid.Check(t, func(t *rapid.T) {
		c := roughCrop(t)
		raised := rapid.IntRange(0, 2).Draw(t, "sown") > 0
		f := field(c, raised, roughSeason(t), roughSeason(t))
		from := climate.SeasonDay(rapid.IntRange(-150, 400).Draw(t, "from"))
		w := climate.Window{From: from, To: from + climate.SeasonDay(rapid.IntRange(0, 175).Draw(t, "days"))}
		p := out(c, from)
		p.Raised = raised
		if rapid.Bool().Draw(t, "covered") {
			p.Cover = Cover{Name: "a", Gain: rapid.Float64Range(-1, 3).Draw(t, "gain"), Spread: rapid.Float64Range(0, 2).Draw(t, "spread")}
		}
		step := rapid.SampledFrom([]int{1, 1, 3}).Draw(t, "step")
		sweep.set(f, p)
		for i := range f.Ensemble.Seasons {
			outcomes := sweep.play(i, w, step)
			require.Len(t, outcomes, int(w.To-w.From)/step+1)
			for k, got := range outcomes {
				sd := from + climate.SeasonDay(k*step)
				want := finishOf(f.Play(i, p.At(sd)))
				if got != want {
					t.Fatalf("season %d, start %d:\n%+v\n%+v", i, sd, got, want)
				}
			}
		}
		// The counts are those of the outcomes.
		counts := sweep.count(w, step, nil, nil)
		for k, got := range counts {
			var want Counts
			for i := range f.Ensemble.Seasons {
				if f := f.Play(i, p.At(from+climate.SeasonDay(k*step))); f.Known {
					want.add(!f.Lost, f.Ripens)
				}
			}
			if got != want {
				t.Fatalf("start %d: counted %+v, wanted %+v", k*step, got, want)
			}
		}
		played++
	})
	require.Positive(t, played)
}
