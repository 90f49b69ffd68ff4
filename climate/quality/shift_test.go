package quality

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// later moves the maxima of some days by a number of days.
func later(s climate.Series, from, days, by int) climate.Series {
	out := s.Clone()
	copy(out.Tmax[from:from+days], s.Tmax[from-by:from-by+days])
	return out
}

// One question a direction and stretch, with its days; stretches within two years of each other
// are asked about once, together.
func TestMovedMaximaAreAskedAboutOnce(t *testing.T) {
	s := clean(20)
	require.Empty(t, Ask(s))
	qs := Ask(later(s, 3000, 120, 1))
	require.Len(t, qs, 1)
	assert.Equal(t, "shift", qs[0].Kind)
	assert.Equal(t, Tmax, qs[0].Element)
	assert.Contains(t, qs[0].Why, "a day later than")
	assert.Contains(t, qs[0].Why, "chance does less than once in")
	assert.InDelta(t, float64(s.First)+3000, float64(qs[0].From), 5)
	assert.InDelta(t, float64(s.First)+3119, float64(qs[0].To), 5)

	qs = Ask(later(later(s, 3000, 120, -1), 3300, 100, -1))
	require.Len(t, qs, 1)
	assert.Contains(t, qs[0].Why, "days in 2 stretches the maxima")
	assert.Contains(t, qs[0].Why, "a day earlier than")
	assert.InDelta(t, float64(s.First)+3399, float64(qs[0].To), 5)

	assert.Len(t, Ask(later(later(s, 3000, 120, -1), 5000, 100, -1)), 2, "years apart")
	assert.Len(t, Ask(later(later(s, 3000, 120, -1), 3300, 100, 1)), 2, "two ways")

	both := later(s, 3000, 120, 1)
	copy(both.Tmin[3000:3120], s.Tmin[2999:])
	assert.Empty(t, Ask(both), "both moved together leave nothing to see")
	assert.Empty(t, Ask(later(clean(4), 500, 300, 1)), "too short to know what is usual")
}

// What chance brings is said with two digits.
func TestSeldom(t *testing.T) {
	assert.Equal(t, "about once in 110 years", seldom(110))
	assert.Equal(t, "about once in 2700 years", seldom(2666))
	assert.Equal(t, "less than once in 10000 years", seldom(math.Inf(1)))
}

// narrow is an invented record with little between day and night, in which no night is warmer
// than the day before it, but for the odd one that is warmer than the day after.
func narrow() climate.Series {
	s := clean(20)
	for i := range s.Tmin {
		s.Tmax[i] = s.Tmin[i] + 0.35*(s.Tmax[i]-s.Tmin[i])
		if i > 0 {
			s.Tmin[i] = min(s.Tmin[i], s.Tmax[i-1])
		}
	}
	return s
}

// Days on which a moved maximum lies below a minimum are evidence, although they are left out.
func TestContradictionsAreEvidence(t *testing.T) {
	s := later(narrow(), 3000, 700, 1)
	sum := func(flags []Flag) (sum float64) {
		r := newRecord(s)
		r.mask(flags)
		for _, v := range r.shiftEvidence()[0][3000:3700] {
			if v == v {
				sum += v
			}
		}
		return sum
	}
	crossed := byRule(Check(s), "tmax below tmin")
	require.NotEmpty(t, crossed)
	assert.Greater(t, sum(nil), sum(crossed)+float64(len(crossed)))
}

// A record shows which contradictions it has: in the invented one no night is warmer than the
// day before it, but the night before that may be.
func TestBoundsAreTheRecordsOwn(t *testing.T) {
	s := narrow()
	p := newRecord(s).pairs()
	mean, spread, ok := p.fit()
	require.True(t, ok)
	l := p.left(0, mean, spread)
	of := p.tails(&l)
	b := p.bounds(&l, &of)
	assert.Greater(t, b[0], math.Log(0.3), "a warmer night before")
	assert.Less(t, b[2], math.Log(0.02), "a warmer night after")
	for i := range p.month {
		if i > 0 && i+1 < len(p.month) && s.Tmax[i] >= max(s.Tmin[i-1], s.Tmin[i], s.Tmin[i+1]) {
			assert.Zero(t, p.beyond(i, 0, b))
		}
	}
	assert.Zero(t, p.beyond(0, -1, b)+p.beyond(len(p.month)-1, 1, b), "nothing is beyond the record's ends")
}

// Without a ridge the weights that made the values come back.
func TestLeastSquares(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	var want, x terms
	for a := range want {
		want[a] = rng.NormFloat64()
	}
	var s leastSquares
	for range 200 {
		for a := range x {
			x[a] = rng.NormFloat64()
		}
		s.take(&x)
		s.of(&x, x.dot(&want))
	}
	got := s.weights(0)
	assert.InDeltaSlice(t, want[:], got[:], 1e-9)
	small := s.weights(1e12)
	assert.InDelta(t, 0, small[5], 1e-6)
	assert.Greater(t, math.Abs(small[0]), 1e-4, "the first is not drawn to naught")
}

// The density sums to one, is that of the values counted, and leaves no value impossible.
func TestTails(t *testing.T) {
	var count [tailBins]float64
	rng := rand.New(rand.NewPCG(5, 6))
	for range 5000 {
		count[tailBin(rng.NormFloat64())]++
	}
	of := newTails(&count)
	sum := 0.0
	for _, v := range of.log {
		sum += math.Exp(v) / tailPer
	}
	assert.InDelta(t, 1, sum, 0.03, "but for the smoothing, which widens outwards")
	assert.InDelta(t, -0.5*math.Log(2*math.Pi), of.at(0), 0.06, "a normal density, a little smoothed")
	assert.InDelta(t, 0.5, of.below(0), 0.03)
	assert.InDelta(t, 0.159, of.below(-1), 0.03)
	for _, z := range []float64{-1e300, math.Inf(-1), -8, 8, 1e300, math.Inf(1)} {
		assert.InDelta(t, -8.5, of.at(z), 2, z)
	}
}
