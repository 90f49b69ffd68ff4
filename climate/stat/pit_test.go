package stat

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestPIT(t *testing.T) {
	assert.Equal(t, PIT{0.25, 0.75}, EnsemblePIT([]float64{1, 2, 2, inf}, 2))
	assert.Equal(t, PIT{0.75, 1}, EnsemblePIT([]float64{1, 2, 2, inf}, inf))
	assert.Equal(t, PIT{0.6, 0.8}, EnsemblePIT([]float64{1, 2, 2, inf}, 3))
	assert.Equal(t, PIT{0, 0.2}, EnsemblePIT([]float64{1, 2, 2, inf}, 0))
	m := FitMixed([]float64{-inf, 1, 2, 3})
	assert.Equal(t, PIT{0, 0.25}, m.PIT(-inf))
	assert.Equal(t, PIT{0.625, 0.625}, m.PIT(2))
	assert.Equal(t, PIT{1, 1}, m.PIT(inf), "the curve gave it no chance")
}

func TestPITHistogram(t *testing.T) {
	assert.InDeltaSlice(t, []float64{0.5, 0.5, 0, 0}, PITHistogram([]PIT{{0.125, 0.375}}, 4), 1e-12)
	assert.InDeltaSlice(t, []float64{0, 0, 0, 1}, PITHistogram([]PIT{{1, 1}}, 4), 1e-12)
	rapid.Check(t, func(t *rapid.T) {
		var pits []PIT
		for range rapid.IntRange(1, 30).Draw(t, "n") {
			a, b := rapid.Float64Range(0, 1).Draw(t, "a"), rapid.Float64Range(0, 1).Draw(t, "b")
			pits = append(pits, PIT{min(a, b), max(a, b)})
		}
		var sum float64
		for _, v := range PITHistogram(pits, 10) {
			sum += v
		}
		if sum < 1-1e-9 || sum > 1+1e-9 {
			t.Fatalf("shares add up to %v", sum)
		}
	})
}
