package quality

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"frostward/climate"
)

// invented draws a record of some climate, its values rounded in some way, with gaps and with
// values that no thermometer shows.
func invented(t *rapid.T) climate.Series {
	years := rapid.IntRange(0, 9).Draw(t, "years")
	s := climate.NewSeries(climate.Day(rapid.IntRange(-90000, 90000).Draw(t, "first")), 366*years+rapid.IntRange(0, 400).Draw(t, "days"))
	mean, wave := rapid.Float64Range(-25, 30).Draw(t, "mean"), rapid.Float64Range(0, 20).Draw(t, "wave")
	rough, half := rapid.Float64Range(0, 5).Draw(t, "rough"), rapid.Float64Range(0, 8).Draw(t, "half")
	step := rapid.SampledFrom([]float64{0, 0.05, 0.1, 0.1, 1, 5. / 9}).Draw(t, "step")
	miss := rapid.SampledFrom([]float64{0, 0, 0.003, 0.1, 0.6}).Draw(t, "missing")
	round := func(v float64) float64 {
		if step > 0 {
			v = math.Round(v/step) * step
		}
		return v
	}
	rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
	anomaly := 0.0
	for i := range s.Tmin {
		anomaly = 0.7*anomaly + rough*rng.NormFloat64()
		mid, h := mean-wave*math.Cos(2*math.Pi*float64(i)/365.25)+anomaly, half*rng.Float64()
		if rng.Float64() >= miss {
			s.Tmin[i] = round(mid - h)
		}
		if rng.Float64() >= miss {
			s.Tmax[i] = round(mid + h)
		}
	}
	odd := rapid.SampledFrom([]float64{math.NaN(), 0, math.Copysign(0, -1), -17.8, 57.7, 57.8, -89.4, -99.9, 300, -1e300, 1e300, math.Inf(1), math.Inf(-1)})
	for range rapid.IntRange(0, 30).Draw(t, "odd") {
		if n := s.Len(); n > 0 {
			i := rapid.IntRange(0, n-1).Draw(t, "at")
			length := min(n-i, rapid.SampledFrom([]int{1, 1, 1, 7, 21, 60}).Draw(t, "for"))
			e := rapid.IntRange(0, 5).Draw(t, "how")
			a, b := odd.Draw(t, "a"), odd.Draw(t, "b")
			from := rapid.IntRange(0, n-length).Draw(t, "from")
			for k := range length {
				switch e {
				case 0:
					s.Tmin[i+k] = a
				case 1:
					s.Tmax[i+k] = b
				case 2:
					s.Tmin[i+k], s.Tmax[i+k] = a, b
				case 3:
					s.Tmin[i+k], s.Tmax[i+k] = s.Tmin[from+k], s.Tmax[from+k]
				case 4:
					s.Tmin[i+k], s.Tmax[i+k] = climate.Fahrenheit(s.Tmin[i+k]), climate.Fahrenheit(s.Tmax[i+k])
				case 5:
					s.Tmax[i+k] += mean
				}
			}
		}
	}
	return s
}

// Whatever a record holds, a checker that has seen others flags what the plain rules flag.
func TestCheckerIsThePlainRules(t *testing.T) {
	var c Checker
	quiet := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		if why := Disagreement(&c, invented(t), quiet); why != "" {
			t.Fatal(why)
		}
	})
}

// The bins of quick rounding are those of rounding, or it does not tell: on halves, beside
// them, and for values that are none.
func TestQuickBin(t *testing.T) {
	tells, of := 0, 0
	check := func(v float64) {
		b, ok := quickBin(v)
		slow, is := slowBin(v)
		if ok && (b != slow || !is) {
			t.Fatal(v, b, slow)
		}
		if is {
			of++
		}
		if ok {
			tells++
		}
	}
	for b := -900; b <= 600; b++ {
		for _, off := range []float64{-0.5, -0.3, 0, 0.25, 0.5} {
			mid := (float64(b) + off) / 10
			for _, v := range []float64{math.Nextafter(mid, -100), mid, math.Nextafter(mid, 100)} {
				check(v)
			}
		}
	}
	assert.Greater(t, tells, of*4/5, "all but the halves, of which there are many here")
	for e := -1074; e < 1024; e++ {
		for _, f := range []float64{1, 1.25, 1.5, 1.9} {
			check(math.Ldexp(f, e))
			check(-math.Ldexp(f, e))
		}
	}
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), math.Copysign(0, -1)} {
		check(v)
	}
	rapid.Check(t, func(t *rapid.T) { check(rapid.Float64().Draw(t, "v")) })
}

// A checker that has seen a record as long needs no more memory for a record without faults.
func TestCheckerKeepsItsMemory(t *testing.T) {
	var c Checker
	s := clean(20)
	c.Check(s)
	assert.Zero(t, testing.AllocsPerRun(3, func() { c.Masked(s) }))
}
