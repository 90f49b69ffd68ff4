package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A sum that comes to a half but for rounding is rounded as a half, whatever units it was
// added up in (found by TestLawUnitsChangeNothing: 3457.5 crop heat units).
func TestNumberRoundsHalves(t *testing.T) {
	for _, v := range []float64{3457.5, 3457.4999999999, 3457.50000001} {
		assert.Equal(t, 3458.0, *number(v, 0), "%.10f", v)
	}
	assert.Equal(t, 3457.0, *number(3457.49, 0))
	assert.Equal(t, 0.13, *number(0.125-1e-12, 2))
}
