package stat

import (
	"math"
	"slices"
)

// CRPS is the continuous ranked probability score of an ensemble x against what came, y:
// the area between the ensemble's distribution and the step at y, in the unit of y, 0
// being perfect (Gneiting and Raftery 2007, J. Am. Stat. Assoc. 102, 359-378, equation
// 21: mean |x-y| less half the mean |x-x'|, over all pairs with those of a member and
// itself). The values must be finite: see Clamp. It sorts x.
func CRPS(x []float64, y float64) float64 {
	to, between := crpsTerms(x, y)
	n := float64(len(x))
	return to/n - between/(n*n)
}

// FairCRPS is CRPS as it would be on average for an ensemble without end of the same kind
// (Ferro 2014, Q. J. R. Meteorol. Soc. 140, 1917-1923, from memory: pairs of a member
// and itself left out). It may be negative. It sorts x, and wants two members.
func FairCRPS(x []float64, y float64) float64 {
	to, between := crpsTerms(x, y)
	n := float64(len(x))
	return to/n - between/(n*(n-1))
}

// crpsTerms returns the sum of |x-y| and half the sum of |x-x'| over all ordered pairs.
func crpsTerms(x []float64, y float64) (to, between float64) {
	slices.Sort(x)
	n := len(x)
	for i, v := range x {
		to += math.Abs(v - y)
		between += v * float64(2*i+1-n) // of sorted values: each pair once
	}
	return to, between
}

// Clamp returns x brought within low and high. Scores of dates are taken between two
// stated days: a season without the event, and one with it outside them, count alike as
// being at the end, for every method and for what came. The CRPS of clamped values is
// the area between low and high only, a proper score (the threshold-weighted CRPS of
// Gneiting and Ranjan 2011, J. Bus. Econ. Stat. 29, 411-422, from memory).
func Clamp(x, low, high float64) float64 { return min(max(x, low), high) }

// CRPS is the score of the curve between low and high, in closed form: the area between
// its distribution and the step at y within them. See Clamp.
func (m Mixed) CRPS(y, low, high float64) float64 {
	y = Clamp(y, low, high)
	f := m.squareIntegral
	// Below y the step is 0 and the area is that of F^2; above it is (1-F)^2 =
	// 1 - 2F + F^2.
	return f(y) - f(low) + (high - y) - 2*(m.integral(high)-m.integral(y)) + f(high) - f(y)
}

// integral is an antiderivative of the CDF: of Phi it is z Phi + phi.
func (m Mixed) integral(x float64) float64 {
	below, finite := m.shares()
	return below*x + finite*m.spread(x, func(z float64) float64 {
		return z*normalCDF(z, 0, 1) + normalDensity(z)
	})
}

// squareIntegral is an antiderivative of the square of the CDF: of Phi^2 it is
// z Phi^2 + 2 Phi phi - Phi(z sqrt 2)/sqrt pi (differentiate to check).
func (m Mixed) squareIntegral(x float64) float64 {
	below, finite := m.shares()
	return below*below*x + 2*below*finite*m.spread(x, func(z float64) float64 {
		return z*normalCDF(z, 0, 1) + normalDensity(z)
	}) + finite*finite*m.spread(x, func(z float64) float64 {
		c := normalCDF(z, 0, 1)
		return z*c*c + 2*c*normalDensity(z) - normalCDF(z*math.Sqrt2, 0, 1)/math.Sqrt(math.Pi)
	})
}

// spread scales an antiderivative of the unit normal to the curve's mean and spread. A
// curve without spread is a step at its mean.
func (m Mixed) spread(x float64, f func(z float64) float64) float64 {
	if m.finite() == 0 {
		return 0
	}
	if !(m.SD > 0) {
		return max(0, x-m.Mean)
	}
	return m.SD * f((x-m.Mean)/m.SD)
}

func normalDensity(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }
