package stat

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// QuantileIntervalSorted returns a confidence interval for the p-quantile of the population
// that s, in rising order, was drawn from, at a level such as 0.90.
//
// Where the sample reaches far enough it is free of any distribution: the ends are
// fractional order statistics (Hutson 1999, J. Appl. Stat. 26, 343-353, from memory),
// the k for which P(X_(k) <= q) is (1+level)/2 and (1-level)/2. Fractional k keep the
// coverage near the level, where whole ones miss it by several points in small
// samples. Where k would fall outside the sample, as it does for the 0.1-quantile of
// ten values, the end is that of a normal curve fitted to s (Mixed.Interval), but never
// inside the sample's own extreme.
//
// Infinite values count as events that never happen, below or above every number. For
// an empty s it is NaN, NaN.
func QuantileIntervalSorted(s []float64, p, level float64) (low, high float64) {
	n := float64(len(s))
	if n == 0 {
		return math.NaN(), math.NaN()
	}
	a := (1 - level) / 2
	kLow, kHigh := fractionalRank(n, p, 1-a), fractionalRank(n, p, a)
	low, high = orderStatistic(s, kLow), orderStatistic(s, kHigh)
	if kLow >= 1 && kHigh <= n {
		return low, high
	}
	curve := FitMixed(s)
	l, h := curve.Interval(p, level)
	if kLow < 1 && l < low {
		low = l
	}
	if kHigh > n && h > high {
		high = h
	}
	return low, high
}

// fractionalRank returns the k between 0 and n+1 for which the chance that the k-th of
// n values lies at or below the p-quantile, I_p(k, n+1-k), is prob.
func fractionalRank(n, p, prob float64) float64 { return ranks.of(n, p, prob, findRank) }

func findRank(n, p, prob float64) float64 {
	lo, hi := 0.0, n+1
	for range 50 { // halving: n+1 times 2^-50 is far below any use
		k := (lo + hi) / 2
		if mathext.RegIncBeta(k, n+1-k, p) > prob {
			lo = k // falls as k rises
		} else {
			hi = k
		}
	}
	return (lo + hi) / 2
}
