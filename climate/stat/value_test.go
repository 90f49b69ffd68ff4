package stat

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The relative value is greatest at cost/loss = how often the event comes, and there it is
// hit rate less false alarm rate (WWRP/WGNE verification pages). With base rate 0.1, hit
// rate 0.8 and false alarm rate 0.2 it is 0.6.
func TestRelativeValue(t *testing.T) {
	var chance []float64
	var came []bool
	add := func(n int, c float64, y bool) {
		for range n {
			chance, came = append(chance, c), append(came, y)
		}
	}
	add(80, 1, true)
	add(20, 0, true)
	add(180, 1, false)
	add(720, 0, false)
	assert.InDelta(t, 0.6, CostLoss(chance, came, 0.1).Value(), 1e-12)
	assert.Less(t, CostLoss(chance, came, 0.08).Value(), 0.6)
	assert.Less(t, CostLoss(chance, came, 0.12).Value(), 0.6)
}

func TestPerfectKnowledgeHasValueOne(t *testing.T) {
	came := []bool{true, false, false, true, false}
	chance := []float64{1, 0, 0, 1, 0}
	for _, r := range []float64{0.05, 0.4, 0.9} {
		assert.InDelta(t, 1, CostLoss(chance, came, r).Value(), 1e-12)
	}
}

func TestCoverage(t *testing.T) {
	nan := math.NaN()
	assert.Equal(t, 0.5, Coverage([]float64{1, 1, 1, nan}, []float64{2, 2, inf, 3}, []float64{2, 3, nan, 2}))
	assert.True(t, math.IsNaN(Coverage(nil, nil, nil)))
}

// Against trying every forecast as the rule.
func TestBestRule(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	for range 200 {
		n := 1 + rng.IntN(12)
		f, came := make([]float64, n), make([]bool, n)
		for i := range f {
			f[i], came[i] = float64(rng.IntN(6)), rng.IntN(2) == 0
		}
		ratio := rng.Float64()
		cost := func(rule float64) (c float64) {
			for i := range f {
				switch {
				case f[i] <= rule:
					c += ratio
				case came[i]:
					c++
				}
			}
			return c / float64(n)
		}
		want := cost(math.Inf(-1))
		for _, rule := range f {
			want = min(want, cost(rule))
		}
		got, rule := BestRule(f, came, ratio)
		require.InDelta(t, want, got, 1e-12)
		require.InDelta(t, want, cost(rule), 1e-12)
	}
}
