package stat

import (
	"math"
	"slices"
)

// Quantile returns the p-quantile of x by type 7 of Hyndman and Fan 1996 (Am. Stat.
// 50, 361-365; the default of R and numpy). Infinite values are allowed, so that
// events that never happen keep their place in the order. It is NaN for an empty x.
// A NaN in x is a programming fault.
func Quantile(x []float64, p float64) float64 {
	s := slices.Clone(x)
	slices.Sort(s)
	return QuantileSorted(s, p)
}

// QuantileSorted is Quantile for values already in rising order.
func QuantileSorted(s []float64, p float64) float64 {
	if len(s) == 0 {
		return math.NaN()
	}
	if math.IsNaN(s[0]) { // slices.Sort puts NaN first
		panic("stat: NaN among the values of a quantile")
	}
	return orderStatistic(s, p*float64(len(s)-1)+1)
}

// orderStatistic returns the k-th smallest value, k counted from 1 and cut to the
// range of s; between two whole k it interpolates. Next to an infinite value it does
// not: half way to never is never.
func orderStatistic(s []float64, k float64) float64 {
	n := len(s)
	if k <= 1 {
		return s[0]
	}
	if k >= float64(n) {
		return s[n-1]
	}
	i := int(k)
	f := k - float64(i)
	// 1e-9 takes up the rounding of p*(n-1), which would drag in a neighbour that may
	// be infinite.
	lo, hi := s[i-1], s[i]
	switch {
	case f < 1e-9 || lo == hi:
		return lo
	case f > 1-1e-9:
		return hi
	case math.IsInf(lo, -1):
		return lo
	}
	return lo + f*(hi-lo)
}
