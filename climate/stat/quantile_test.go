package stat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

var inf = math.Inf(1)

// Ten invented frost dates, used through the package's tests.
var dates = []float64{118, 121, 97, 130, 125, 110, 140, 115, 122, 128}

// Expected values: R 4.2.2, quantile(x, c(.05,.1,.2,.5,.8,.9,.95), type=7).
func TestQuantile(t *testing.T) {
	for _, c := range []struct{ p, want float64 }{
		{.05, 102.85}, {.1, 108.7}, {.2, 114}, {.5, 121.5}, {.8, 128.4}, {.9, 131}, {.95, 135.5},
		{0, 97}, {1, 140},
	} {
		assert.InDelta(t, c.want, Quantile(dates, c.p), 1e-9, "p = %v", c.p)
	}
	assert.Equal(t, 118.0, dates[0], "the caller's slice is not sorted")
}

func TestQuantileKeepsNeverInOrder(t *testing.T) {
	x := []float64{inf, 3, 1, 2, inf}
	assert.Equal(t, 3.0, Quantile(x, .5))
	assert.Equal(t, inf, Quantile(x, .6), "half way to never is never")
	y := []float64{-inf, 3, 1, 2, -inf}
	assert.Equal(t, -inf, Quantile(y, .4))
	assert.Equal(t, 1.0, Quantile(y, .5))
	assert.True(t, math.IsNaN(Quantile(nil, .5)))
	assert.Panics(t, func() { Quantile([]float64{1, math.NaN()}, .5) })
}

// p*(n-1) rounds to just above a whole number here: 0.7*10 = 7.000000000000001 in some
// orders of evaluation. The neighbour is infinite and must not leak in.
func TestQuantileRounding(t *testing.T) {
	for n := 2; n < 60; n++ {
		for k := 0; k < n-1; k++ {
			x := make([]float64, n)
			for i := range x {
				x[i] = float64(i)
				if i > k {
					x[i] = inf
				}
			}
			p := float64(k) / float64(n-1)
			assert.Equal(t, float64(k), QuantileSorted(x, p), "n = %d, k = %d", n, k)
		}
	}
}
