package night

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

func TestCombine(t *testing.T) {
	// Bates & Granger 1969: k = (s2^2 - r s1 s2)/(s1^2 + s2^2 - 2 r s1 s2). By hand, with
	// s1 = 1, s2 = 2, r = 0.25: k = (4-0.5)/(1+4-1) = 0.875.
	w, sd := Combine(mat.NewSymDense(2, []float64{1, 0.5, 0.5, 4}))
	require.InDeltaSlice(t, []float64{0.875, 0.125}, w, 1e-12)
	// By hand: 0.875^2 + 4*0.125^2 + 2*0.875*0.125*0.5 = 0.9375.
	require.InDelta(t, math.Sqrt(0.9375), sd, 1e-12)
	// Independent errors: inverse variances.
	w, _ = Combine(mat.NewSymDense(2, []float64{1, 0, 0, 4}))
	require.InDeltaSlice(t, []float64{0.8, 0.2}, w, 1e-12)
	// One that would be taken off is left out: r s1 above s2's share.
	w, sd = Combine(mat.NewSymDense(2, []float64{1, 1.5, 1.5, 9}))
	require.Equal(t, []float64{1, 0}, w)
	require.Equal(t, 1.0, sd)
	w, sd = Combine(mat.NewSymDense(1, []float64{4}))
	require.Equal(t, []float64{1}, w)
	require.Equal(t, 2.0, sd)
	require.Panics(t, func() { Combine(mat.NewSymDense(2, []float64{1, 1, 1, 1})) })
}

// Weights always sum to 1, none is negative, and the sum is never worse than the best.
func TestCombineLaws(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	for range 500 {
		n := 1 + rng.IntN(5)
		cov := mat.NewSymDense(n, nil)
		best := math.Inf(1)
		sd := make([]float64, n)
		for i := range sd {
			sd[i] = 0.5 + 3*rng.Float64()
			best = min(best, sd[i])
		}
		r := rng.Float64() * 0.9
		for i := range n {
			for j := range n {
				v := r * sd[i] * sd[j]
				if i == j {
					v = sd[i] * sd[i]
				}
				cov.SetSym(i, j, v)
			}
		}
		w, s := Combine(cov)
		sum := 0.0
		for _, v := range w {
			require.GreaterOrEqual(t, v, 0.0)
			sum += v
		}
		require.InDelta(t, 1, sum, 1e-9)
		require.LessOrEqual(t, s, best+1e-9)
	}
}

func TestCorrect(t *testing.T) {
	said := []float64{2.1, 4.0, -0.5, 3.3, 6.1, 1.0}
	came := []float64{1.0, 3.9, -2.2, 2.0, 6.4, -0.7}
	usual := []float64{4, 4.2, 4.4, 4.6, 4.8, 5}
	var past []Past
	for i := range said {
		past = append(past, Past{said[i], came[i], usual[i]})
	}
	b := Belief{Bias: 1, Slope: 0.15, Spread: 1.8, Worth: 10}
	c := Correct(past, b)
	// R 4.2.2, three rounds: A = diag(1/c(1,.15)^2) + X'X/s^2, b = solve(A, c(0,1/.15^2) +
	// X'y/s^2), s^2 = (10*1.8^2 + sum((y-Xb)^2))/16.
	require.InDelta(t, -0.5620271629, c.Bias, 1e-9)
	require.InDelta(t, 1.0914422326, c.Slope, 1e-9)
	require.InDelta(t, 1.4741776314, c.Spread, 1e-9)
	tmin, sd, open := c.Apply(0.5, 4.5)
	require.InDelta(t, -0.4277960931, tmin, 1e-9)
	require.InDelta(t, 1.5993906782, sd, 1e-9)
	require.InDelta(t, math.Sqrt(1.5993906782*1.5993906782-1.4741776314*1.4741776314), open, 1e-7)

	// Nothing logged: as said, with the belief's errors.
	c = Correct(nil, b)
	tmin, sd, _ = c.Apply(0.5, 0.5)
	require.Equal(t, 0.5, tmin)
	require.InDelta(t, math.Hypot(1.8, 1), sd, 1e-12)
	require.Zero(t, c.Nights)
	// Nights where either is missing teach nothing.
	nan := math.NaN()
	require.Equal(t, c, Correct([]Past{{nan, 1, 1}, {1, nan, 1}}, b))
	// Without the usual, the bias is learned alone: by hand, 200 nights 2 °C too warm.
	past = nil
	for range 200 {
		past = append(past, Past{3, 1, nan})
	}
	c = Correct(past, b)
	require.InDelta(t, -2, c.Bias, 0.01)
	require.Equal(t, 1.0, c.Slope)
	tmin, sd, _ = c.Apply(3, nan)
	require.InDelta(t, 1, tmin, 0.01)
	require.Less(t, sd, 0.5)
}

// A forecast that overdoes its departures is drawn toward the usual, the more so the
// more nights have shown it.
func TestCorrectLearnsTheSlope(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 2))
	var past []Past
	for range 150 {
		x := 3 * rng.NormFloat64()
		past = append(past, Past{Said: 5 + x, Came: 5 + 0.5*x + 0.7*rng.NormFloat64(), Usual: 5})
	}
	b := Belief{Bias: 1, Slope: 0.15, Spread: 1.8, Worth: 10}
	few, many := Correct(past[:10], b), Correct(past, b)
	require.InDelta(t, 0.5, many.Slope, 0.06)
	require.Greater(t, few.Slope, many.Slope)
	require.InDelta(t, 0.7, many.Spread, 0.2)
}
