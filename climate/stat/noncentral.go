package stat

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// normalQuantileInterval returns the exact confidence interval for the p-quantile of a
// normal population from the mean and standard deviation (with n-1) of n values: the
// mean plus t(n-1, delta)/sqrt(n) standard deviations at the two tail chances, delta =
// z_p sqrt(n) (Johnson and Welch 1940, Biometrika 31, 362-389, from memory; it is the
// tolerance factor of the NIST handbook 7.2.6.3).
func normalQuantileInterval(mean, sd float64, n int, p, level float64) (low, high float64) {
	a := (1 - level) / 2
	root := math.Sqrt(float64(n))
	delta := distuv.UnitNormal.Quantile(p) * root
	nu := float64(n - 1)
	return mean + sd*noncentralT(a, nu, delta)/root, mean + sd*noncentralT(1-a, nu, delta)/root
}

// noncentralT returns the quantile of Student's t with nu degrees of freedom and
// noncentrality delta. gonum has the central one only.
func noncentralT(prob, nu, delta float64) float64 {
	return noncentrals.of(prob, nu, delta, findNoncentralT)
}

func findNoncentralT(prob, nu, delta float64) float64 {
	cdf := noncentralTCDF(nu, delta)
	// Start from the normal approximation of Abramowitz and Stegun 26.7.10 and widen
	// until the root is enclosed.
	spread := 3 * math.Sqrt(1+delta*delta/(2*nu))
	lo, hi := delta-spread, delta+spread
	for cdf(lo) > prob {
		hi, lo = lo, lo-spread
		spread *= 2
	}
	for cdf(hi) < prob {
		lo, hi = hi, hi+spread
		spread *= 2
	}
	for hi-lo > 1e-6*(1+math.Abs(hi)) {
		mid := (lo + hi) / 2
		if cdf(mid) < prob {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// legendre are the nodes and weights of Gauss and Legendre for -1 to 1; 60 give nine digits
// over the range below for nu from 1 to 10,000.
var legendre = sync.OnceValues(func() (x, w []float64) {
	x, w = make([]float64, 60), make([]float64, 60)
	quad.Legendre{}.FixedLocations(x, w, -1, 1)
	return x, w
})

// noncentralTCDF returns the function P((Z+delta)/S <= t), S the root of a chi-squared over
// nu: the integral over s of Phi(t s - delta) times the density of S.
func noncentralTCDF(nu, delta float64) func(t float64) float64 {
	lg, _ := math.Lgamma(nu / 2)
	c := math.Ln2 + nu/2*math.Log(nu/2) - lg
	// S has mean near 1 and standard deviation near 1/sqrt(2 nu); seven of them, or down
	// to 0, leave less than 1e-9 out.
	w := 7 / math.Sqrt(2*nu)
	lo, hi := max(0, 1-w), 1+w
	x, weight := legendre()
	s, mass := make([]float64, len(x)), make([]float64, len(x))
	for i := range x {
		s[i] = (lo+hi)/2 + x[i]*(hi-lo)/2
		mass[i] = weight[i] * (hi - lo) / 2 * math.Exp(c+(nu-1)*math.Log(s[i])-nu*s[i]*s[i]/2)
	}
	return func(t float64) float64 {
		var sum float64
		for i := range s {
			sum += mass[i] * normalCDF(t*s[i], delta, 1)
		}
		return sum
	}
}
