package climate

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// By hand: at a mean of 3.5 °C a tenth a day, so 1 after ten days; then 0.083 a day of frost; a
// day of 15 °C takes 0.02 x 5, or twice that once hardened.
func TestHardening(t *testing.T) {
	s := spell(Calendar{}, SpanFrom, SpanTo, 20)
	put := func(i int, tmin, tmax float64) { s.Tmin[i], s.Tmax[i] = tmin, tmax }
	for i := 100; i < 110; i++ {
		put(i, 0, 7)
	}
	put(110, -4, 0)
	put(111, -4, 0)
	put(112, 3, 15) // a mean of 9: no gain
	s.Tmax[113] = math.NaN()
	h := Hardening(nil, s)
	require.Len(t, h, SpanLen)
	assert.Zero(t, h[99], "20 °C hardens nothing")
	assert.InDelta(t, 0.5, h[104], 1e-9)
	assert.InDelta(t, 1, h[109], 1e-9)
	assert.InDelta(t, 1.166, h[111], 1e-9)
	assert.InDelta(t, 1.166-0.2, h[112], 1e-9)
	assert.Equal(t, h[112], h[113], "a missing day changes nothing")
}

func TestGroundTemperatures(t *testing.T) {
	s := spell(Calendar{}, SpanFrom, SpanTo, 5)
	for i := 200; i < 210; i++ {
		s.Tmin[i], s.Tmax[i] = -25, -15
	}
	g := GroundTemperatures(nil, s)
	assert.InDelta(t, 5, g[199], 1e-9)
	assert.InDelta(t, 5+0.56*-25, g[200], 1e-9, "while it is above 0 °C it follows")
	assert.InDelta(t, g[200]+0.112*(-20-g[200]), g[201], 1e-9, "and once frozen a fifth as fast")
	assert.Greater(t, g[209], -20.0)
	s.Tmin[205] = math.NaN()
	g = GroundTemperatures(g, s)
	assert.True(t, math.IsNaN(g[205]) && !math.IsNaN(g[206]))
}

func TestChilling(t *testing.T) {
	for at, want := range map[float64]float64{-5: 0, 2: 0, 4.5: 0.5, 7: 1, 9.5: 0.5, 12: 0, 20: 0} {
		assert.InDelta(t, want, Chilling(at), 1e-12, "%g °C", at)
	}
	assert.Zero(t, Chilling(math.NaN()))
}
