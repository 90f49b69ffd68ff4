package stat

import (
	"testing"

	"github.com/montanaflynn/stats"
	"github.com/stretchr/testify/assert"
)

// NIST Statistical Reference Datasets, univariate: certified mean, standard deviation (n-1)
// and lag-1 autocorrelation, against montanaflynn/stats, which gives the program its
// descriptive figures. Its StandardDeviation divides by n: the sample form is the one to use.
func TestDescriptivesAgainstNIST(t *testing.T) {
	mavro := []float64{2.00180, 2.00170, 2.00180, 2.00190, 2.00180, 2.00170, 2.00150, 2.00140, 2.00150,
		2.00150, 2.00170, 2.00180, 2.00180, 2.00190, 2.00190, 2.00210, 2.00200, 2.00160, 2.00140, 2.00130,
		2.00130, 2.00150, 2.00150, 2.00160, 2.00150, 2.00140, 2.00130, 2.00140, 2.00150, 2.00140, 2.00150,
		2.00160, 2.00150, 2.00160, 2.00190, 2.00200, 2.00200, 2.00210, 2.00220, 2.00230, 2.00240, 2.00250,
		2.00270, 2.00260, 2.00260, 2.00260, 2.00270, 2.00260, 2.00250, 2.00240}
	numAcc1 := []float64{10000001, 10000003, 10000002}
	for _, c := range []struct {
		name         string
		x            []float64
		mean, sd, r1 float64
	}{
		{"Mavro", mavro, 2.00185600000000, 0.000429123454003053, 0.937989183438248},
		{"NumAcc1", numAcc1, 10000002, 1, -0.5},
		{"NumAcc2", alternating(1.2, 1.1, 1.3, 500), 1.2, 0.1, -0.999},
		{"NumAcc3", alternating(1000000.2, 1000000.1, 1000000.3, 500), 1000000.2, 0.1, -0.999},
		{"NumAcc4", alternating(10000000.2, 10000000.1, 10000000.3, 500), 10000000.2, 0.1, -0.999},
	} {
		mean, err := stats.Mean(c.x)
		assert.NoError(t, err)
		assert.InEpsilon(t, c.mean, mean, 1e-14, c.name)
		sd, err := stats.StandardDeviationSample(c.x)
		assert.NoError(t, err)
		// NumAcc4 leaves eight digits of ten million for a deviation of 0.1.
		assert.InEpsilon(t, c.sd, sd, 1e-7, c.name)
		r1, err := stats.AutoCorrelation(c.x, 1)
		assert.NoError(t, err)
		assert.InDelta(t, c.r1, r1, 1e-7, c.name)
		assert.InEpsilon(t, c.sd, FitMixed(c.x).SD, 1e-7, c.name)
	}
}

// alternating is the layout of NIST's NumAcc2 to 4: one middle value, then low and high n
// times over.
func alternating(mid, low, high float64, n int) []float64 {
	x := []float64{mid}
	for range n {
		x = append(x, low, high)
	}
	return x
}
