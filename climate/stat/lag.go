package stat

import "math"

// Lag1 returns the lag-1 autocorrelation, sum (x_i-m)(x_(i+1)-m) / sum (x_i-m)^2 (the form
// that NIST certifies). A NaN breaks the chain: pairs with it are left out, and the sums are
// scaled to the number of terms they hold. It is NaN with fewer than three values or without
// spread.
func Lag1(x []float64) float64 {
	var sum, n float64
	for _, v := range x {
		if !math.IsNaN(v) {
			sum += v
			n++
		}
	}
	mean := sum / n
	var square, product, pairs float64
	last := math.NaN()
	for _, v := range x {
		if !math.IsNaN(v) {
			square += (v - mean) * (v - mean)
			if !math.IsNaN(last) {
				product += (v - mean) * (last - mean)
				pairs++
			}
		}
		last = v
	}
	if n < 3 || pairs == 0 || square == 0 {
		return math.NaN()
	}
	// Without gaps the factor is 1.
	return product / square * (n - 1) / pairs
}
