package night

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Combine returns the weights, summing to 1, with which predictions of one temperature
// have the least error when added, given the covariance of their errors (Bates &
// Granger 1969, Operational Research Quarterly 20, 451-468), and the standard
// deviation of the sum's error. Weights are never below 0: a prediction whose weight
// would be is left out. It panics when the covariance is not that of anything.
func Combine(cov *mat.SymDense) (weights []float64, sd float64) {
	n := cov.SymmetricDim()
	keep := make([]int, n)
	for i := range keep {
		keep[i] = i
	}
	for {
		k := len(keep)
		sub := mat.NewSymDense(k, nil)
		for i, a := range keep {
			for j, b := range keep {
				if i <= j {
					sub.SetSym(i, j, cov.At(a, b))
				}
			}
		}
		var ch mat.Cholesky
		var w mat.VecDense
		one := mat.NewVecDense(k, nil)
		for i := range k {
			one.SetVec(i, 1)
		}
		if !ch.Factorize(sub) || ch.SolveVecTo(&w, one) != nil {
			panic("night: errors that are certain, or one the double of another")
		}
		sum := mat.Sum(&w)
		worst := 0
		for i := range k {
			if w.AtVec(i) < w.AtVec(worst) {
				worst = i
			}
		}
		if k > 1 && w.AtVec(worst) < 0 {
			keep = append(keep[:worst], keep[worst+1:]...)
			continue
		}
		weights = make([]float64, n)
		for i, a := range keep {
			weights[a] = w.AtVec(i) / sum
		}
		return weights, math.Sqrt(1 / sum)
	}
}
