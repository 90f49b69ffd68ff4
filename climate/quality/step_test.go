package quality

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"frostward/climate"
)

// By hand: 0 five times, then 1 five times. Mean 0.5, s.d. sqrt(10·0.25/9) = 0.527046; the
// standardised values are ∓0.948683, so T(5) = 5·0.9 + 5·0.9 = 9.
func TestStepByHand(t *testing.T) {
	s := snht([]float64{0, 0, 0, 0, 0, 1, 1, 1, 1, 1})
	assert.InDelta(t, 9, s.Statistic, 1e-12)
	assert.Equal(t, 5, s.Before)
	assert.InDelta(t, 1, s.Size, 1e-12)
	assert.True(t, s.Kept())
	assert.Equal(t, 5.70, s.Critical)
}

func TestSteadyChangeIsNoStep(t *testing.T) {
	y := make([]float64, 40)
	for i := range y {
		y[i] = 0.05*float64(i) + 0.3*math.Sin(7*float64(i))
	}
	s := snht(y)
	assert.True(t, s.Significant, "the test alone takes a slope for a step")
	assert.True(t, s.Gradual)
	assert.False(t, s.Kept())
	assert.InDelta(t, 0.5, s.Trend, 0.03)
}

func TestNoYearsAndSameYears(t *testing.T) {
	assert.Empty(t, Homogeneity(climate.Series{}))
	assert.Empty(t, Homogeneity(clean(9)), "nine years are too few")
	s := snht(make([]float64, 20))
	assert.False(t, s.Significant)
}

// The tables from memory against a simulation: the share of unchanged normal series above the
// 5 % and the 1 % limit. With 20,000 series the standard error of the first is 0.15 %, of the
// second 0.07 %; places within stepEnd of the ends are not looked at here, so the shares are a
// little below nominal.
func TestCriticalValues(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	for _, n := range []int{20, 40, 60} {
		const many = 20000
		above95, above99 := 0, 0
		y := make([]float64, n)
		for range many {
			for i := range y {
				y[i] = rng.NormFloat64()
			}
			t := statistic(y)
			if t > critical(n, critical95) {
				above95++
			}
			if t > critical(n, critical99) {
				above99++
			}
		}
		t.Logf("%d years: %.2f %% above the 5 %% limit, %.2f %% above the 1 %% limit", n, 100*float64(above95)/many, 100*float64(above99)/many)
		assert.InDelta(t, 0.05, float64(above95)/many, 0.007, "%d years", n)
		assert.InDelta(t, 0.01, float64(above99)/many, 0.003, "%d years", n)
	}
}

// statistic is the test's without our limit at the ends, as the tables have it.
func statistic(y []float64) float64 {
	mean, sd := meanSD(y)
	sum, best := 0.0, 0.0
	for a := 1; a < len(y); a++ {
		sum += (y[a-1] - mean) / sd
		best = max(best, sum*sum/float64(a)+sum*sum/float64(len(y)-a))
	}
	return best
}

// A step planted in the minima of one day in June 1995 is found there, in size too.
func TestStepIsPlaced(t *testing.T) {
	s := clean(30)
	at := climate.NewDay(1995, 6, 15)
	for i := int(at - s.First); i < s.Len(); i++ {
		s.Tmin[i] -= 1.5
	}
	for _, step := range Homogeneity(s) {
		switch step.Of {
		case "tmin":
			assert.True(t, step.Kept())
			assert.InDelta(t, -1.5, step.Size, 0.3)
			assert.InDelta(t, float64(at), float64(step.Date), 60)
		case "tmax":
			assert.False(t, step.Kept())
		case "range":
			assert.True(t, step.Kept())
			assert.InDelta(t, 1.5, step.Size, 0.3)
		}
	}
}

// How often a step is reported where there is none, and where there is one, in 40 yearly values
// with a spread of 0.6 °C, common for yearly temperatures: without memory and with a lag-one
// correlation of 0.2, without and with a warming, and with a step in the 6th to 35th year, to be
// placed within three years. 2,000 series each: standard errors below 1 %.
func TestStepsReported(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	for _, c := range []struct {
		memory, slope, step float64 // slope in °C a year
		least, most         float64 // reported, share of the series
	}{
		{0, 0, 0, 0, 0.05}, {0.2, 0, 0, 0, 0.08}, {0, 0.03, 0, 0, 0.08}, {0.2, 0.03, 0, 0, 0.15},
		{0.2, 0, 2, 0.95, 1}, {0.2, 0.03, 2, 0.80, 1}, {0.2, 0.03, -2, 0.95, 1}, {0.2, 0.03, -1, 0.08, 1},
	} {
		const many = 2000
		kept := 0
		y := make([]float64, 40)
		for range many {
			level, at := 0.0, 5+rng.IntN(30)
			for i := range y {
				level = c.memory*level + 0.6*rng.NormFloat64()*math.Sqrt(1-c.memory*c.memory)
				y[i] = level + c.slope*float64(i)
				if i >= at {
					y[i] += c.step
				}
			}
			if s := snht(y); s.Kept() && (c.step == 0 || s.Before >= at-3 && s.Before <= at+3) {
				kept++
			}
		}
		share := float64(kept) / many
		t.Logf("memory %.1f, warming %.1f °C a decade, step %+.0f °C: reported in %.1f %%", c.memory, 10*c.slope, c.step, 100*share)
		assert.GreaterOrEqual(t, share, c.least)
		assert.LessOrEqual(t, share, c.most)
	}
}
