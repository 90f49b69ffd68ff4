package stat

import (
	"math"
	"slices"

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
	return max(0, mid-half), min(1, mid+half)
}

// Worlds returns the interval of a share that was counted over generated seasons:
// shares has one value a world, each world made from its own resample of the n
// seasons of record, and p is the share over all. It is the wider, on each side, of
// the spread between worlds and Wilson's interval for twice n seasons: a daily model
// draws more from n seasons than a count does, but never all the way to certainty.
func Worlds(shares []float64, p float64, n int, level float64) (low, high float64) {
	low, high = WilsonShare(p, 2*float64(n), level)
	if len(shares) < 2 {
		return WilsonShare(p, float64(n), level)
	}
	s := slices.Clone(shares)
	slices.Sort(s)
	a := (1 - level) / 2
	return min(low, QuantileSorted(s, a)), max(high, QuantileSorted(s, 1-a))
}
