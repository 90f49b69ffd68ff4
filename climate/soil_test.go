package climate

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSoilStepPublished(t *testing.T) {
	// One step from 5 °C under a surface of 10 °C, bare; the published formula computed
	// apart from this code, for topsoils of 50 and 100 mm (Z = 2.5 and 5 cm).
	assert.InDelta(t, 6.1501, soilStep(5, 10, soilRate(2.5)), 0.00005)
	assert.InDelta(t, 6.1022, soilStep(5, 10, soilRate(5)), 0.00005)
	assert.InDelta(t, -0.4, surfaceTemperature(-2, 0), 1e-12, "0.20 T below freezing")
	assert.InDelta(t, 11.160058, surfaceTemperature(10, 0), 1e-6, "by hand: 10 (0.95 + 0.05 e^1.2), e^1.2 = 3.3201169")
	assert.InDelta(t, 10, surfaceTemperature(10, 3/0.8), 1e-12, "at LAI 3 the surface is as warm as the air")
}

func TestSoilTemperatures(t *testing.T) {
	s := NewSeason(2000)
	for i := range s.Tmin {
		m := 10 - 9*math.Cos(2*math.Pi*float64(int(SpanFrom)+i-25)/YearDays)
		s.Tmin[i], s.Tmax[i] = m-5, m+5
	}
	got := SoilTemperatures(nil, s, 2.5)
	require.Len(t, got, SpanLen)
	// The slow way, step by step.
	soil := surfaceTemperature((s.Tmin[0]+s.Tmax[0])/2, 0)
	for i := range got {
		soil = soilStep(soil, surfaceTemperature((s.Tmin[i]+s.Tmax[i])/2, 0), soilRate(2.5))
		if i < soilWarmUp {
			require.True(t, math.IsNaN(got[i]))
			continue
		}
		require.InDelta(t, soil, got[i], 1e-9)
	}
	// The warm-up is long enough: a start 5 °C off is 0.2 °C off by the first day told.
	off := 5.0
	for range soilWarmUp {
		off = soilStep(off, 0, soilRate(2.5))
	}
	assert.Less(t, off, 0.2)

	// A gap of soilGap days is bridged, one more is not, and what follows needs warming up.
	for _, gap := range []int{soilGap, soilGap + 1} {
		g := NewSeason(2000)
		copy(g.Tmin, s.Tmin)
		copy(g.Tmax, s.Tmax)
		for i := 300; i < 300+gap; i++ {
			g.Tmax[i] = math.NaN()
		}
		b := SoilTemperatures(nil, g, 2.5)
		for i := 300; i < 300+soilGap; i++ {
			require.False(t, math.IsNaN(b[i]), "%d", i)
		}
		if gap == soilGap {
			require.InDelta(t, got[300+gap], b[300+gap], 0.5)
			continue
		}
		for i := 300 + soilGap; i < 300+gap+soilWarmUp; i++ {
			require.True(t, math.IsNaN(b[i]), "%d", i)
		}
		require.InDelta(t, got[300+gap+soilWarmUp], b[300+gap+soilWarmUp], 0.3)
	}
	for _, v := range SoilTemperatures(got, NewSeason(1), 2.5) {
		require.True(t, math.IsNaN(v))
	}
	assert.Zero(t, testing.AllocsPerRun(10, func() { SoilTemperatures(got, s, 2.5) }))
}

func BenchmarkSoilTemperatures(b *testing.B) {
	s := spell(Calendar{}, 100, 250, 12)
	dst := make([]float64, SpanLen)
	for i := 0; i < b.N; i++ {
		SoilTemperatures(dst, s, 2.5)
	}
}
