package stat

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/integrate/quad"
)

// N(0,1), y = -3 and its rescaling: printed in the tests of the R package scoringRules.
// The others: the closed form evaluated apart from this code (for y = 2 a list of check
// values has ...7217; R 4.2.2, integrate() of the definition, has ...8217, as here).
func TestNormalCRPS(t *testing.T) {
	assert.InDelta(t, 2.43657473, normalCRPS(0, 1, -3), 1e-8)
	assert.InDelta(t, 2.43657473*0.9, normalCRPS(0, 0.9, -2.7), 1e-8)
	assert.InDelta(t, 0.2336949773, normalCRPS(0, 1, 0), 1e-10)
	assert.InDelta(t, 0.6024413576, normalCRPS(0, 1, 1), 1e-10)
	assert.InDelta(t, 1.4527918217, normalCRPS(0, 1, 2), 1e-10)
	assert.InDelta(t, 0.6628070625, normalCRPS(0, 2, 1), 1e-10)
	assert.Equal(t, 3.0, normalCRPS(1, 0, 4))
}

// By hand, x = {1, 2, 4}, y = 3: mean |x-y| = 4/3, mean |x-x'| over nine ordered pairs =
// 12/9, over six = 2. So 4/3 - 2/3 and 4/3 - 1.
func TestCRPSByHand(t *testing.T) {
	assert.InDelta(t, 2.0/3, CRPS([]float64{4, 1, 2}, 3), 1e-12)
	assert.InDelta(t, 1.0/3, FairCRPS([]float64{4, 1, 2}, 3), 1e-12)
	assert.InDelta(t, 2, CRPS([]float64{5}, 3), 1e-12, "one member: the absolute error")
}

// CRPS of an ensemble of a Gumbel distribution's own quantiles, against the definition integrated
// with evd's pgumbel (testdata/check.R).
func TestCRPSOfAGumbel(t *testing.T) {
	x := make([]float64, 20000)
	for i := range x {
		x[i] = 2 - 3*math.Log(-math.Log((float64(i)+0.5)/float64(len(x))))
	}
	for _, c := range []struct{ y, want float64 }{{-1, 2.76460027}, {2, 0.9685090594}, {9, 3.756936446}} {
		assert.InDelta(t, c.want, CRPS(x, c.y), 2e-4, "y = %v", c.y)
	}
}

// An ensemble of the curve's own quantiles scores as the curve does; and so does the curve
// without atoms over a range so wide that its ends do not matter.
func TestCurveCRPSAgrees(t *testing.T) {
	m := Mixed{N: 30, Mean: 120, SD: 11}
	for _, y := range []float64{70, 100, 120, 133, 180} {
		assert.InDelta(t, normalCRPS(120, 11, y), m.CRPS(y, -1000, 1000), 1e-8, "y = %v", y)
	}
	m = Mixed{N: 30, Below: 6, Above: 3, Mean: 20, SD: 25}
	x := make([]float64, 40000)
	for _, y := range []float64{-40, 0, 5, 44, 90, 120} {
		for i := range x {
			x[i] = Clamp(m.Quantile((float64(i)+0.5)/float64(len(x))), 0, 100)
		}
		assert.InDelta(t, CRPS(x, Clamp(y, 0, 100)), m.CRPS(y, 0, 100), 2e-4, "y = %v", y)
		area := quad.Fixed(func(v float64) float64 { return m.CDF(v) * m.CDF(v) }, 0, Clamp(y, 0, 100), 60, nil, 0) +
			quad.Fixed(func(v float64) float64 { return (1 - m.CDF(v)) * (1 - m.CDF(v)) }, Clamp(y, 0, 100), 100, 60, nil, 0)
		assert.InDelta(t, area, m.CRPS(y, 0, 100), 1e-9, "y = %v by quadrature", y)
	}
}

func TestCurveWithoutSpread(t *testing.T) {
	m := FitMixed([]float64{50, 50, 50})
	assert.InDelta(t, 7, m.CRPS(57, 0, 100), 1e-12)
	m = FitMixed([]float64{math.Inf(1), math.Inf(1)})
	assert.InDelta(t, 43, m.CRPS(57, 0, 100), 1e-12, "never is at the end")
}

// The fair score of a small ensemble is, on average, the score of a large one from the
// same distribution; the plain one is higher by the mean |x-x'|/(2n), here 2/sqrt(pi)/10 =
// 0.1128. Standard error of the mean over 20,000 draws: 0.4/sqrt(20000) = 0.003; tolerance
// four of them.
func TestFairCRPSIsFair(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	var fair, plain float64
	const draws = 20000
	for range draws {
		x := make([]float64, 5)
		for i := range x {
			x[i] = rng.NormFloat64()
		}
		fair += FairCRPS(x, 0.5) / draws
		plain += CRPS(x, 0.5) / draws
	}
	assert.InDelta(t, normalCRPS(0, 1, 0.5), fair, 0.012)
	assert.InDelta(t, fair+1/math.Sqrt(math.Pi)/5, plain, 0.012)
}

// normalCRPS is the CRPS of a normal distribution in closed form (Gneiting and Raftery
// 2007, section 4.2). With sd 0 it is the absolute error.
func normalCRPS(mean, sd, y float64) float64 {
	if sd == 0 {
		return math.Abs(y - mean)
	}
	z := (y - mean) / sd
	return sd * (z*(2*normalCDF(z, 0, 1)-1) + 2*normalDensity(z) - 1/math.Sqrt(math.Pi))
}
