package stat

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// NormalQuantileInterval returns the exact confidence interval for the p-quantile of a
// normal population from the mean and standard deviation (with n-1) of n values: the
// mean plus t(n-1, delta)/sqrt(n) standard deviations at the two tail chances, delta =
// z_p sqrt(n) (Johnson and Welch 1940, Biometrika 31, 362-389, from memory; it is the
// tolerance factor of the NIST handbook 7.2.6.3).
func NormalQuantileInterval(mean, sd float64, n int, p, level float64) (low, high float64) {
	a := (1 - level) / 2
	root := math.Sqrt(float64(n))
	delta := distuv.UnitNormal.Quantile(p) * root
	nu := float64(n - 1)
	return mean + sd*noncentralT(a, nu, delta)/root, mean + sd*noncentralT(1-a, nu, delta)/root
}

// noncentralT returns the quantile of Student's t with nu degrees of freedom and
// noncentrality delta. gonum has the central one only.
func noncentralT(prob, nu, delta float64) float64 {
	// Start from the normal approximation of Abramowitz and Stegun 26.7.10 and widen
	// until the root is enclosed.
	spread := 3 * math.Sqrt(1+delta*delta/(2*nu))
	lo, hi := delta-spread, delta+spread
	for noncentralTCDF(lo, nu, delta) > prob {
		lo -= spread
	}
	for noncentralTCDF(hi, nu, delta) < prob {
		hi += spread
		spread *= 2
	}
	for hi-lo > 1e-7*(1+math.Abs(hi)) {
		mid := (lo + hi) / 2
		if noncentralTCDF(mid, nu, delta) < prob {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// noncentralTCDF is P((Z+delta)/S <= t), S the root of a chi-squared over nu:
// integral over s of Phi(t s - delta) times the density of S.
func noncentralTCDF(t, nu, delta float64) float64 {
	lg, _ := math.Lgamma(nu / 2)
	c := math.Ln2 + nu/2*math.Log(nu/2) - lg
	density := func(s float64) float64 {
		return math.Exp(c + (nu-1)*math.Log(s) - nu*s*s/2)
	}
	// S has mean near 1 and standard deviation near 1/sqrt(2 nu); eight of them, or
	// down to nearly 0, leave less than 1e-9 out.
	w := 8 / math.Sqrt(2*nu)
	lo, hi := max(1e-9, 1-w), 1+w
	return quad.Fixed(func(s float64) float64 {
		return density(s) * normalCDF(t*s, delta, 1)
	}, lo, hi, 80, nil, 0)
}
