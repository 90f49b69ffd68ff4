package daily

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A record read into another's memory is as if it had its own, days missing and all; one that
// was not given back is left alone.
func TestRelease(t *testing.T) {
	read := func(text string) (tmin, tmax []float64) {
		s, _, err := Read(strings.NewReader("date,tmin,tmax\n"+text), "a.csv", Options{Units: Celsius})
		require.NoError(t, err)
		defer Release(s)
		return append([]float64(nil), s.Tmin...), append([]float64(nil), s.Tmax...)
	}
	kept, _, err := Read(strings.NewReader("date,tmin,tmax\n2020-01-01,1,2\n"), "b.csv", Options{Units: Celsius})
	require.NoError(t, err)
	for range 3 {
		tmin, tmax := read("2019-01-01,1,11\n2019-01-02,2,12\n2019-01-03,3,13\n2019-01-04,4,14\n2019-01-05,5,15\n")
		assert.Equal(t, []float64{1, 2, 3, 4, 5}, tmin)
		assert.Equal(t, []float64{11, 12, 13, 14, 15}, tmax)
		tmin, tmax = read("2021-01-01,7,\n2021-01-04,,9\n")
		require.Len(t, tmin, 4)
		assert.Equal(t, 7.0, tmin[0])
		for _, v := range append(tmin[1:], tmax[:3]...) {
			assert.True(t, math.IsNaN(v))
		}
		assert.Equal(t, 9.0, tmax[3])
	}
	assert.Equal(t, []float64{1}, kept.Tmin)
}
