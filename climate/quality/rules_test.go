package quality

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// clean is an invented record of some years without faults: a yearly wave, and seeded daily
// anomalies with a memory of some days.
func clean(years int) climate.Series {
	first := climate.NewDay(1981, 1, 1)
	s := climate.NewSeries(first, int(climate.NewDay(1981+years, 1, 1)-first))
	rng := rand.New(rand.NewPCG(1, 1))
	anomaly, half := 0.0, 0.0
	for i := range s.Tmin {
		wave := -8 * math.Cos(2*math.Pi*float64(i)/365.25)
		anomaly = 0.7*anomaly + 1.7*rng.NormFloat64()
		half = 5.5 + 0.9*math.Tanh(rng.NormFloat64())
		s.Tmin[i] = math.Round(10*(11+wave+anomaly-half)) / 10
		s.Tmax[i] = math.Round(10*(11+wave+anomaly+half)) / 10
		if i > 0 { // no night warmer than the day before
			s.Tmin[i] = min(s.Tmin[i], s.Tmax[i-1])
		}
	}
	return s
}

func TestCleanRecordPasses(t *testing.T) { assert.Empty(t, Check(clean(20))) }

// Each rule on both sides of its threshold: the numbers are Durre et al. 2010's, as in the
// program's Rules.
func TestRulesAtTheirLimits(t *testing.T) {
	at := 4000 // a day in mid-December 1991
	for _, c := range []struct {
		name  string
		plant func(s climate.Series)
		rule  string // "" when nothing is to be flagged
		flags int
	}{
		{"both zero", func(s climate.Series) { s.Tmin[at], s.Tmax[at] = 0, 0 }, "both zero", 1},
		{"one zero", func(s climate.Series) { s.Tmin[at], s.Tmax[at] = 0, 0.1 }, "", 0},
		{"both 0 °F", func(s climate.Series) { s.Tmin[at], s.Tmax[at] = -17.78, -17.78 }, "both zero", 1},
		{"a month twice", func(s climate.Series) {
			copy(s.Tmin[at:at+120], s.Tmin[at-1461:at-1461+120]) // four years before: whole months between match
		}, "repeated month", -1},
		{"above the world", func(s climate.Series) { s.Tmax[at] = 57.8 }, "world bounds", 1},
		{"19 alike", func(s climate.Series) { alike(s, at, 19) }, "", 0},
		{"20 alike", func(s climate.Series) { alike(s, at, 20) }, "streak", 20},
		{"tmax below tmin", func(s climate.Series) { s.Tmax[at] = s.Tmin[at] - 0.1 }, "tmax below tmin", -1},
		{"night above the day before", func(s climate.Series) { s.Tmin[at] = s.Tmax[at-1] + 1.1; s.Tmax[at] = s.Tmin[at] + 1 }, "tmax below tmin", -1},
		{"night just above it", func(s climate.Series) { s.Tmin[at] = s.Tmax[at-1] + 0.9; s.Tmax[at] = s.Tmin[at] + 1 }, "", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := clean(20)
			c.plant(s)
			flags := slices.DeleteFunc(Check(s), func(f Flag) bool { return !published(f.Rule) }) // ours may doubt more
			if c.rule == "" {
				require.Empty(t, flags)
				return
			}
			require.NotEmpty(t, flags)
			for _, f := range flags {
				require.Equal(t, c.rule, f.Rule, "%v", f)
			}
			if c.flags > 0 {
				require.Len(t, flags, c.flags)
			}
			m := Mask(s, flags)
			for _, f := range flags {
				n, x := m.At(f.Day)
				require.True(t, f.Element == Tmax || math.IsNaN(n))
				require.True(t, f.Element == Tmin || math.IsNaN(x))
			}
			n, x := s.At(flags[0].Day)
			require.False(t, math.IsNaN(n) && math.IsNaN(x), "the record itself is as it was")
		})
	}
}

// published says whether a rule is one of the published ones.
func published(rule string) bool {
	i := slices.IndexFunc(Rules, func(r Rule) bool { return r.Name == rule })
	return Rules[i].Source == durre
}

// alike sets n minima to one value that neither neighbour has.
func alike(s climate.Series, at, n int) {
	for i := at; i < at+n; i++ {
		s.Tmin[i] = -1.95
	}
}

// Spikes, gaps and outliers overlap, so each rule is asked alone.
func TestSingleRules(t *testing.T) {
	at := 4000
	find := func(rule string, plant func(s climate.Series)) int {
		s := clean(20)
		plant(s)
		for _, r := range Rules {
			if r.Name == rule {
				return len(r.find(newRecord(s)))
			}
		}
		t.Fatalf("no rule %q", rule)
		return 0
	}
	spike := func(by float64) func(climate.Series) {
		return func(s climate.Series) { s.Tmax[at] = max(s.Tmax[at-1], s.Tmax[at+1]) + by }
	}
	assert.Equal(t, 0, find("spike", spike(24.9)))
	assert.Equal(t, 1, find("spike", spike(25)))
	assert.Equal(t, 1, find("gap", func(s climate.Series) { s.Tmax[at] = 40 }))
	assert.Equal(t, 0, find("gap", func(s climate.Series) {}))
	lag := func(by float64) func(climate.Series) {
		return func(s climate.Series) { s.Tmax[at] = max(s.Tmin[at-1], s.Tmin[at], s.Tmin[at+1]) + by }
	}
	assert.Equal(t, 0, find("lagged range", lag(39.9)))
	assert.Equal(t, 1, find("lagged range", lag(40)))
	assert.Equal(t, 1, find("mega", func(s climate.Series) { s.Tmin[at] = 30 }))
	assert.Equal(t, 10, find("tmax is tmin", func(s climate.Series) {
		for i := 0; i < 10; i++ {
			s.Tmax[at-10+i] = s.Tmin[at-10+i]
		}
	}))
	assert.Equal(t, 0, find("tmax is tmin", func(s climate.Series) {
		for i := 0; i < 9; i++ {
			s.Tmax[at-10+i] = s.Tmin[at-10+i]
		}
	}))

	r := newRecord(clean(20))
	mean, sd, d := r.usuals().mean[Tmax], 1/r.usuals().per[Tmax][r.day[at]], r.day[at]
	for z, want := range map[float64]int{5.9: 0, 6.2: 1} { // planting it moves the s.d. a little
		assert.Equal(t, want, find("outlier", func(s climate.Series) { s.Tmax[at] = mean[d] + z*sd }), "z = %v", z)
	}
}

// The biweight of normal values is close to their mean and standard deviation; an
// outlier moves the mean little. By hand, 25 times from Lanzante's formula for -2..2: median 0, MAD 1,
// weights (1-(x/7.5)²)²: mean 0; s.d. sqrt(5 Σx²(1-u²)^4)/Σ(1-u²)(1-5u²) = sqrt(5*8.5588)/4.1212.
func TestBiweight(t *testing.T) {
	tn := new(tenths)
	for x := -2.0; x <= 2; x++ {
		tn.add(tenth(x), 25)
	}
	mean, sd := tn.biweight()
	num, den := 0.0, 0.0
	for x := -2.0; x <= 2; x++ {
		u := x / 7.5
		num += x * x * math.Pow(1-u*u, 4)
		den += (1 - u*u) * (1 - 5*u*u)
	}
	assert.InDelta(t, 0, mean, 1e-12)
	assert.InDelta(t, math.Sqrt(5*num)/den, sd, 1e-9)
	tn.add(tenth(50), 1)
	mean, _ = tn.biweight()
	assert.InDelta(t, 0, mean, 0.5)
}

func BenchmarkCheck(b *testing.B) {
	s := clean(60)
	b.ReportAllocs()
	for b.Loop() {
		Check(s)
	}
}

func BenchmarkAsk(b *testing.B) {
	s := clean(60)
	for b.Loop() {
		Ask(s)
	}
}
