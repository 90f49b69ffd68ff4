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
	h := Hardening(nil, s, 0)
	require.Len(t, h, SpanLen)
	assert.Zero(t, h[99], "20 °C hardens nothing")
	assert.InDelta(t, 0.5, h[104], 1e-9)
	assert.InDelta(t, 1, h[109], 1e-9)
	assert.InDelta(t, 1.166, h[111], 1e-9)
	assert.InDelta(t, 1.166-0.2, h[112], 1e-9)
	assert.Equal(t, h[112], h[113], "a missing day changes nothing")
	h = Hardening(h, s, 105)
	assert.Zero(t, h[104], "it is not out yet")
	assert.InDelta(t, 0.5, h[109], 1e-9)
}

func TestGroundTemperatures(t *testing.T) {
	s := spell(Calendar{}, SpanFrom, SpanTo, 5)
	for i := 200; i < 210; i++ {
		s.Tmin[i], s.Tmax[i] = -25, -15
	}
	g := GroundTemperatures(nil, s, 0)
	assert.InDelta(t, 5, g[199], 1e-9)
	assert.InDelta(t, 5+0.56*-25, g[200], 1e-9, "while it is above 0 °C it follows")
	assert.InDelta(t, g[200]+0.112*(-20-g[200]), g[201], 1e-9, "and once frozen a fifth as fast")
	assert.Greater(t, g[209], -20.0)
	s.Tmin[205] = math.NaN()
	g = GroundTemperatures(g, s, 0)
	assert.True(t, math.IsNaN(g[205]) && !math.IsNaN(g[206]))
}

// A mulch keeps the cold out: 10 cm of it let 0.55 of the way through (exp(-0.6), by hand), and a step turned round is the step.
func TestGroundUnderMulch(t *testing.T) {
	s := spell(Calendar{}, SpanFrom, SpanTo, 5)
	for i := 200; i < 220; i++ {
		s.Tmin[i], s.Tmax[i] = -25, -15
	}
	bare, under := GroundTemperatures(nil, s, 0), GroundTemperatures(nil, s, 10)
	assert.InDelta(t, 5-25*0.56*0.5488, under[200], 1e-3)
	assert.Greater(t, under[219], bare[219]+3)
	for _, mulch := range []float64{0, 10} {
		g := GroundTemperatures(nil, s, mulch)
		for i := 199; i < 219; i++ {
			if (g[i] <= 0) == (AirForGround(g[i], g[i+1], mulch) < 0) { // but for the day on which it freezes
				assert.InDelta(t, -20, AirForGround(g[i], g[i+1], mulch), 1e-9)
			}
		}
	}
}

func TestChilling(t *testing.T) {
	for at, want := range map[float64]float64{-5: 0, 2: 0, 4.5: 0.5, 7: 1, 9.5: 0.5, 12: 0, 20: 0} {
		assert.InDelta(t, want, Chilling(at), 1e-12, "%g °C", at)
	}
	assert.Zero(t, Chilling(math.NaN()))
}

// Snow is as good as a mulch as deep (both exp(-0.06 cm)), on the days on which it lies.
func TestGroundUnderSnow(t *testing.T) {
	s := spell(Calendar{}, SpanFrom, SpanTo, 5)
	for i := 200; i < 220; i++ {
		s.Tmin[i], s.Tmax[i] = -25, -15
	}
	want := GroundTemperatures(nil, s, 10)
	s.Snow = make([]float64, SpanLen)
	for i := 200; i < 210; i++ {
		s.Snow[i] = 10
	}
	got := GroundTemperatures(nil, s, 0)
	assert.Equal(t, want[:210], got[:210])
	assert.Less(t, got[211], want[211]-0.3, "bare again")
}

// The snow of a record comes into its seasons on its day: 1 March 2000 is the day after a 29 February that is folded away.
func TestSeasonsKeepTheSnow(t *testing.T) {
	rec := NewSeries(NewDay(1999, 1, 1), 1200)
	assert.Nil(t, Recorded(rec, 50, 2000, 2000).Seasons[0].Snow)
	rec.Snow = make([]float64, rec.Len())
	rec.Snow[NewDay(2000, 2, 29)-rec.First], rec.Snow[NewDay(2000, 3, 1)-rec.First] = 7, 9
	part := rec.Between(NewDay(2000, 1, 1), NewDay(2001, 12, 31)).Clone()
	for _, s := range []Season{Recorded(part, 50, 1999, 2000).Seasons[1], SeasonOf(part, Calendar{}, 2000)} {
		require.Len(t, s.Snow, SpanLen)
		for i, cm := range s.Snow {
			assert.Equal(t, map[bool]float64{true: 9}[SpanFrom+SeasonDay(i) == 59], cm)
		}
	}
}
