package stat

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Wilson returns the score interval for k successes in n trials at a confidence level
// such as 0.90 (Wilson 1927, J. Am. Stat. Assoc. 22, 209-212). For n = 0 it is 0 to 1.
func Wilson(k, n int, level float64) (low, high float64) {
	if n == 0 {
		return 0, 1
	}
	return WilsonShare(float64(k)/float64(n), float64(n), level)
}

// WilsonShare is Wilson for a share p and a sample size n that need not be whole.
func WilsonShare(p, n, level float64) (low, high float64) {
	z := distuv.UnitNormal.Quantile(0.5 + level/2)
	mid := (p + z*z/(2*n)) / (1 + z*z/n)
	half := z / (1 + z*z/n) * math.Sqrt(p*(1-p)/n+z*z/(4*n*n))
	low, high = max(0, mid-half), min(1, mid+half)
	if p == 0 {
		low = 0 // which rounding would miss
	}
	if p == 1 {
		high = 1
	}
	return low, high
}
