package night

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestWords(t *testing.T) {
	for _, w := range Clouds() {
		c, err := ParseCloud(w)
		require.NoError(t, err)
		require.Equal(t, w, c.String())
	}
	for _, w := range Winds() {
		c, err := ParseWind(w)
		require.NoError(t, err)
		require.Equal(t, w, c.String())
	}
	c, err := ParseCloud(" Clear ")
	require.NoError(t, err)
	require.Equal(t, Clear, c)
	_, err = ParseWind("gale")
	require.EqualError(t, err, `"gale" is not known; wanted calm, light, moderate, brisk`)
}

// The ranges of K as forecasters pass on the Met Office's practice of 1944
// (weatherfaqs.org.uk/node/149), for a maximum of 15 and a dew point of 5 °C.
func TestMcKenzie(t *testing.T) {
	for _, c := range []struct {
		cloud     Cloud
		wind      Wind
		low, high float64 // of K
	}{
		{Clear, Calm, 8, 9}, {Little, Light, 6, 8}, {Broken, Light, 4, 7}, {Overcast, Light, 2, 3},
		{Little, Moderate, 3, 5}, {Broken, Moderate, 2, 4}, {Overcast, Moderate, 1, 2}, {Broken, Brisk, 1, 2},
	} {
		tmin, sd := McKenzie(15, 5, c.cloud, c.wind)
		require.InDelta(t, 10-(c.low+c.high)/2, tmin, 1e-9, "%v %v", c.cloud, c.wind)
		require.Greater(t, sd, (c.high-c.low)/2)
	}
	tmin, _ := McKenzie(15, 5, CloudUnknown, Calm)
	require.True(t, math.IsNaN(tmin))
	// More cloud or more wind never makes the night colder.
	for w := Calm; w <= Brisk; w++ {
		for c := Clear; c <= Overcast; c++ {
			here, _ := McKenzie(15, 5, c, w)
			if c < Overcast {
				more, _ := McKenzie(15, 5, c+1, w)
				require.GreaterOrEqual(t, more, here)
			}
			if w < Brisk {
				more, _ := McKenzie(15, 5, c, w+1)
				require.GreaterOrEqual(t, more, here)
			}
		}
	}
}

func TestCraddockPritchard(t *testing.T) {
	// By hand: 0.316*12 + 0.548*5 - 1.24 = 5.292, and K = -2.2 for calm and clear.
	tmin, _ := CraddockPritchard(12, 5, Clear, Calm)
	require.InDelta(t, 5.292-2.2, tmin, 1e-9)
	tmin, _ = CraddockPritchard(12, 5, Overcast, Brisk)
	require.InDelta(t, 5.292+2.5, tmin, 1e-9)
	tmin, _ = CraddockPritchard(12, 5, Clear, WindUnknown)
	require.True(t, math.IsNaN(tmin))
}
