package stat

import (
	"math"
	"slices"
)

// Normality is the Anderson-Darling test of whether values come from a normal
// distribution whose mean and variance are not known beforehand.
type Normality struct {
	N        int
	A2       float64 // the statistic, from the standard deviation with n-1
	Adjusted float64 // A2 (1 + 0.75/n + 2.25/n^2)
	P        float64 // the chance of so large a statistic from a normal distribution
}

// AndersonDarling tests x (Anderson and Darling 1954, J. Am. Stat. Assoc. 49, 765-769;
// chance from Stephens 1986, in Goodness-of-Fit Techniques, table 4.9, from memory). ok is
// false with fewer than eight values, below which the adjustment has not been tabulated, or
// when all are the same.
func AndersonDarling(x []float64) (a Normality, ok bool) {
	m := FitMixed(x)
	a.N = len(x)
	if m.Finite() != len(x) || len(x) < 8 || m.SD == 0 {
		return a, false
	}
	s := slices.Clone(x)
	slices.Sort(s)
	n := len(s)
	var sum float64
	for i := range s {
		// The upper tail from its own side, so that log(1-F) keeps its digits.
		lower := normalCDF(s[i], m.Mean, m.SD)
		upper := normalCDF(-s[n-1-i], -m.Mean, m.SD)
		sum += float64(2*i+1) * (math.Log(lower) + math.Log(upper))
	}
	f := float64(n)
	a.A2 = -f - sum/f
	a.Adjusted = a.A2 * (1 + 0.75/f + 2.25/(f*f))
	switch v := a.Adjusted; {
	case v < 0.2:
		a.P = 1 - math.Exp(-13.436+101.14*v-223.73*v*v)
	case v < 0.34:
		a.P = 1 - math.Exp(-8.318+42.796*v-59.938*v*v)
	case v < 0.6:
		a.P = math.Exp(0.9177 - 4.279*v - 1.38*v*v)
	case v < 13:
		a.P = math.Exp(1.2937 - 5.709*v + 0.0186*v*v)
	}
	return a, true
}
