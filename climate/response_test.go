package climate

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The shape, at one temperature, by hand: base 4, optimum 21, level to 27, ceiling 36.
func TestResponseShape(t *testing.T) {
	r := Response{Base: 4, Optimum: 21, Ceiling: 36, Light: 1}
	for _, c := range []struct{ at, want float64 }{{3, 0}, {4, 0}, {10, 6}, {21, 17}, {24, 17}, {27, 17}, {31.5, 8.5}, {36, 0}, {45, 0}} {
		assert.InDelta(t, c.want, r.Warmth(c.at, c.at), 1e-9, "%g °C", c.at)
	}
	never := Response{Base: 4, Optimum: 24, Ceiling: math.Inf(1)}
	assert.Equal(t, 20.0, never.Warmth(50, 50), "a crop without a ceiling stays level")
	assert.True(t, math.IsNaN(r.Warmth(math.NaN(), 10)) && math.IsNaN(r.Effective(1, math.NaN(), 10)))
	assert.Equal(t, r.Warmth(5, 30), r.Warmth(30, 5))
	assert.Equal(t, r.Warmth(8, 20), Response{Base: 4, Optimum: 21, Ceiling: 36}.Effective(8, 20, 3), "without light's weight it is the warmth")
	assert.InDelta(t, 1/(1/r.Warmth(8, 20)+1./9), r.Effective(8, 20, 9), 1e-9)
}

// Over the day: the closed form against 20,000 points of the sine.
func TestResponseOverTheDay(t *testing.T) {
	r := Response{Base: 6, Optimum: 22, Ceiling: 40}
	for _, c := range [][2]float64{{0, 5}, {0, 12}, {8, 20}, {10, 26}, {18, 34}, {20, 44}, {30, 50}, {41, 48}, {-5, 42}} {
		sum := 0.0
		const n = 20000
		for i := range n {
			v := (c[0]+c[1])/2 + (c[1]-c[0])/2*math.Sin(2*math.Pi*(float64(i)+0.5)/n)
			sum += max(0, min(v-6, 16, 16*(40-v)/12)) / n
		}
		require.InDelta(t, sum, r.Warmth(c[0], c[1]), 2e-4, "%v", c)
	}
	// Below the optimum it is the plain degree-days.
	assert.Equal(t, DegreeDays{Base: 6}.Day(2, 19, math.NaN()), r.Warmth(2, 19))
}
