package stat

import (
	"math"
	"slices"
)

// Quantile returns the p-quantile of x by type 7 of Hyndman and Fan 1996 (the default
// of R and numpy). Infinite values are allowed, so that events that never happen keep
// their place in the order. It is NaN for an empty x.
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
	h := p * float64(len(s)-1)
	i := int(h)
	if i >= len(s)-1 {
		return s[len(s)-1]
	}
	f := h - float64(i)
	if f == 0 || s[i] == s[i+1] {
		return s[i] // also keeps Inf - Inf out of the sum
	}
	return s[i] + f*(s[i+1]-s[i])
}
