package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A growing day has a mean above its base; a day at the base is none.
func TestGrowingDay(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct{ tmin, tmax, base, want float64 }{
		{2, 10, 6, 0}, {2, 10.1, 6, 1}, {2, 9.9, 6, 0},
		{0, 10, nan, 0}, {0, 10.1, nan, 1}, {0, 9.9, nan, 0}, // 5 °C where the crop has no base
	} {
		assert.Equal(t, c.want, growingDay(c.tmin, c.tmax, c.base), "%+v", c)
	}
	assert.True(t, math.IsNaN(growingDay(nan, 10, 5)) && math.IsNaN(growingDay(0, nan, 5)), "a day missing is not known")
}
