package batch

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNumbers(t *testing.T) {
	l := line{columns: make([]string, 9)}
	for _, v := range []float64{-0.4, -0.6, 0, math.Copysign(0, -1), 0.4, -10, nan, math.Inf(1)} {
		l.number(v, 0)
	}
	l.number(-0.004, 2)
	assert.Equal(t, "0,-1,0,0,0,-10,,,0.00", string(l.end()))
}
