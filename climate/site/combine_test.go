package site

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// Three invented stations of one weather: each differs from it by a level of its own and by its nights' luck.
func threeStations(seed uint64) (weather climate.Series, all []Station) {
	rng := rand.New(rand.NewPCG(seed, 0))
	weather = invented(2000, seed)
	for _, x := range []struct{ level, luck, km, rise float64 }{{0.5, 0.4, 10, 20}, {-1, 2.5, 11, 10}, {2, 0.6, 25, 120}} {
		s := climate.NewSeries(weather.First, weather.Len())
		for d := range s.Tmin {
			s.Tmin[d] = weather.Tmin[d] + x.level + x.luck*rng.NormFloat64()
			s.Tmax[d] = weather.Tmax[d] + x.level
		}
		all = append(all, Station{Record: s, Place: Place{Km: x.km, Rise: x.rise}})
	}
	return weather, all
}

func TestCombine(t *testing.T) {
	_, all := threeStations(3)
	w := Weights(all, climate.Calendar{}, nil, OpenBed)
	require.InDelta(t, 1, w[0]+w[1]+w[2], 1e-12)
	require.Greater(t, w[0], w[2], "the nearer counts more")
	one := Combine(all, climate.Calendar{}, []float64{0.5, 0.3, 0.2})
	require.InDelta(t, 0.5*10+0.3*11+0.2*25, one.Place.Km, 1e-12)
	require.InDelta(t, 0.5*20+0.3*10+0.2*120, one.Place.Rise, 1e-12)
	// A day that all have is their weighted mean, but for the waves' own small errors, which cancel.
	var want float64
	for i, k := range []float64{0.5, 0.3, 0.2} {
		want += k * all[i].Record.Tmin[700]
	}
	require.InDelta(t, want, one.Record.Tmin[700], 1e-9)
	require.Equal(t, all[0], Combine(all[:1], climate.Calendar{}, []float64{1}))
	require.Nil(t, one.Record.Snow)
	snowy := []Station{all[0], all[1], all[2]}
	snowy[1].Record = snowy[1].Record.Between(snowy[1].Record.First+100, snowy[1].Record.Last())
	for i := range snowy[1:] {
		snowy[i+1].Record.Snow = make([]float64, snowy[i+1].Record.Len())
		snowy[i+1].Record.Snow[50] = float64(10 * (i + 1))
	}
	snow := Combine(snowy, climate.Calendar{}, []float64{0.5, 0.3, 0.2}).Record.Snow
	require.Equal(t, []float64{0, 10}, []float64{snow[50], snow[150]}, "that of the weightiest station that has any, on its day")

	// A gap in the heaviest is filled at the right level: without the correction the mean of 200 days
	// would be 1.2 °C lower or higher than where all have them.
	filled := make([]Station, 3)
	copy(filled, all)
	filled[0].Record.Tmin = append([]float64(nil), all[0].Record.Tmin...)
	for d := 600; d < 800; d++ {
		filled[0].Record.Tmin[d] = math.NaN()
	}
	two := Combine(filled, climate.Calendar{}, []float64{0.5, 0.3, 0.2})
	var off float64
	for d := 600; d < 800; d++ {
		off += (two.Record.Tmin[d] - one.Record.Tmin[d]) / 200
	}
	require.InDelta(t, 0, off, 0.3)
	for _, s := range filled { // a day that none has stays missing
		s.Record.Tmin[900] = math.NaN()
	}
	require.True(t, math.IsNaN(Combine(filled, climate.Calendar{}, w).Record.Tmin[900]))
}

// The log tells a station that follows the garden from one that does not, though it is as near.
func TestWeightsAreLearned(t *testing.T) {
	weather, all := threeStations(4)
	before := Weights(all, climate.Calendar{}, nil, OpenBed)
	var log []Reading
	for k := range 60 {
		d := climate.NewDay(2022, 3, 1) + climate.Day(k)
		t, _ := weather.At(d)
		log = append(log, Reading{d, t - 2})
	}
	after := Weights(all, climate.Calendar{}, log, OpenBed)
	require.Less(t, after[1], 0.6*before[1])
	require.Greater(t, after[0], before[0])
}
