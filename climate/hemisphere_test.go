package climate

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Made records: a yearly wave that is highest in January or in July, and one too flat to tell.
func TestIsSouthern(t *testing.T) {
	wave := func(peak, swing float64, days int) Series {
		s := Series{First: NewDay(2001, 1, 1), Tmin: make([]float64, days), Tmax: make([]float64, days)}
		for i := range s.Tmin {
			v := 10 + swing*math.Cos(2*math.Pi*(float64(i)-peak)/365.25)
			s.Tmin[i], s.Tmax[i] = v-5, v+5
		}
		return s
	}
	for _, c := range []struct {
		s         Series
		south, ok bool
	}{{wave(200, 9, 730), false, true}, {wave(15, 9, 730), true, true}, {wave(15, 1, 730), true, false}, {wave(15, 9, 40), false, false}} {
		south, ok := IsSouthern(c.s)
		assert.Equal(t, c.ok, ok)
		if ok {
			assert.Equal(t, c.south, south)
		}
	}
}
