package stat

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Constructed from Thom's formulas, not published: mean day 118, s.d. 10, frost in 8 seasons
// of 10. The chance of a frost after day 118 is 0.4; the date with a chance of 0.1 of a later
// frost is 118 + 10*1.1503 = 129.5; and no date has a chance of 0.9.
func ExampleMixed() {
	m := Mixed{N: 10, Below: 2, Mean: 118, SD: 10}
	fmt.Printf("%.3f\n", 1-m.CDF(118))
	fmt.Printf("%.1f\n", m.Quantile(1-0.1))
	fmt.Println(m.Quantile(1 - 0.9))
	// Output:
	// 0.400
	// 129.5
	// -Inf
}

func TestFitMixed(t *testing.T) {
	m := FitMixed([]float64{-inf, 1, 2, 3, inf, inf})
	assert.Equal(t, Mixed{N: 6, Below: 1, Above: 2, Mean: 2, SD: 1}, m)
	assert.Equal(t, inf, m.Quantile(.7))
	assert.InDelta(t, 2, m.Quantile(1./6+.25), 1e-12)
	assert.Equal(t, -inf, m.Quantile(.1))
	assert.False(t, FitMixed([]float64{1, inf}).Known(), "one date has no spread")
	assert.True(t, FitMixed([]float64{inf, inf}).Known())
	assert.Equal(t, inf, FitMixed([]float64{inf, inf}).Quantile(.5))
	assert.False(t, FitMixed(nil).Known())
	assert.Panics(t, func() { FitMixed([]float64{math.NaN()}) })
}

// fitdistrplus 1.1-8 fits the normal by maximum likelihood, which divides by n: mean 120.6, s.d.
// 11.17318218 (testdata/check.R).
func TestFitMixedAgainstMaximumLikelihood(t *testing.T) {
	m := FitMixed(dates)
	assert.InDelta(t, 120.6, m.Mean, 1e-9)
	assert.InDelta(t, 11.17318218, m.SD*math.Sqrt(9./10), 1e-7)
}

func TestMixedIntervalReachesNever(t *testing.T) {
	x := append([]float64{inf, inf, inf}, dates...)
	m := FitMixed(x)
	low, high := m.Interval(.7, .9)
	assert.Less(t, low, m.Quantile(.7))
	assert.Equal(t, inf, high, "at most 10 of 13 seasons have it, and perhaps fewer than 7 in 10")
	low, high = m.Interval(.3, .9)
	assert.Greater(t, low, 80.0)
	assert.Less(t, high, 140.0)
	wide := high - low
	l, h := FitMixed(dates).Interval(.39, .9)
	assert.Greater(t, wide, h-l, "the uncertainty of the share comes on top")
	low, high = FitMixed([]float64{inf, inf, inf, inf, inf}).Interval(.5, .9)
	assert.Equal(t, [2]float64{inf, inf}, [2]float64{low, high})
}
