package stat

import (
	"fmt"
	"math"
	"testing"

	"github.com/montanaflynn/stats"
	"github.com/stretchr/testify/assert"
)

// NAG Library Manual, g08ck, example data and results: mean 0.563876, variance 1.1386, A2
// 0.165956, adjusted 0.171296, p 0.931155. With the divisor n for the variance A2 would be
// 0.182541.
func ExampleAndersonDarling() {
	x := []float64{0.3131132, 0.2520412, 1.5788841, 1.4416712, -0.8246043, -1.6466685, 0.7943184,
		1.2874915, -0.8347250, 0.3352505, 0.9434467, 2.1099520, -0.2801654, -0.7843009, 0.6218187,
		2.0963809, 1.7170403, -0.1350142, 0.7982763, -0.2980977, 1.2283043, 1.5576090, -0.4828757,
		2.6070754, 0.1213996, 0.1431621}
	a, _ := AndersonDarling(x)
	fmt.Printf("A2 %.6f, adjusted %.6f, p %.6f\n", a.A2, a.Adjusted, a.P)
	// Output: A2 0.165956, adjusted 0.171296, p 0.931155
}

// R 4.2.2, the definition and Stephens's formulas written out by hand, x = (1:20)^k with k =
// 1.2, 1.8 and 2.5, which fall in the other three ranges of the statistic.
func TestAndersonDarlingBranches(t *testing.T) {
	for _, c := range andersonCases {
		a, ok := AndersonDarling(c.x)
		assert.True(t, ok)
		assert.InDelta(t, c.a2, a.A2, 1e-6)
		assert.InDelta(t, c.p, a.P, 1e-6)
	}
	_, ok := AndersonDarling([]float64{1, 1, 1, 1, 1, 1, 1, 1})
	assert.False(t, ok)
	_, ok = AndersonDarling([]float64{1, 2, 3})
	assert.False(t, ok)
}

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
		assert.InDelta(t, c.r1, Lag1(c.x), 1e-7, c.name)
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

var andersonCases = []struct {
	x     []float64
	a2, p float64
}{
	{powers(1.2), 0.262652265, 0.664458230},
	{powers(1.8), 0.516555778, 0.167188620},
	{powers(2.5), 0.916257573, 0.015830662},
}

func powers(k float64) []float64 {
	x := make([]float64, 20)
	for i := range x {
		x[i] = math.Pow(float64(i+1), k)
	}
	return x
}
