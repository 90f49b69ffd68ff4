package stat

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// Trend is a monotonic trend in a series of yearly values: the Mann-Kendall test and
// Sen's slope. It wants no distribution and no straight line.
type Trend struct {
	N     int     // values used
	S     int     // Mann-Kendall statistic
	Var   float64 // its variance, corrected for ties
	Z     float64 // standard normal score, continuity corrected
	P     float64 // two-sided, by the normal approximation, which is good from n = 10 on
	Slope float64 // Sen's: the median of all pairwise slopes, per unit of time
	Low   float64 // confidence interval of the slope
	High  float64
}

// MannKendall tests y at times t for a trend (Mann 1945, Econometrica 13, 245-259;
// Kendall 1975, Rank Correlation Methods; as in Gilbert 1987, Statistical Methods for
// Environmental Pollution Monitoring, chapter 16, all from memory). Pairs whose y is NaN
// are left out. Infinite y take part in the test by their order, and in the slope as
// slopes without end. ok is false with fewer than three values, or when all are the same.
func MannKendall(t, y []float64, level float64) (tr Trend, ok bool) {
	if len(t) != len(y) {
		panic("stat: MannKendall wants one time a value")
	}
	var ts, ys []float64
	for i, v := range y {
		if !math.IsNaN(v) {
			ts, ys = append(ts, t[i]), append(ys, v)
		}
	}
	n := len(ys)
	tr.N = n
	if n < 3 {
		return tr, false
	}
	slopes := make([]float64, 0, n*(n-1)/2)
	for i := range ys {
		for j := i + 1; j < n; j++ {
			dt := ts[j] - ts[i]
			switch sign := compare(ys[j], ys[i]) * compare(ts[j], ts[i]); {
			case dt == 0: // two values at one time show no trend
			case sign == 0: // so that never minus never is 0, not NaN
				slopes = append(slopes, 0)
			default:
				tr.S += sign
				slopes = append(slopes, (ys[j]-ys[i])/dt)
			}
		}
	}
	tr.Var = mannKendallVariance(ys)
	if tr.Var <= 0 || len(slopes) == 0 {
		return tr, false
	}
	sd := math.Sqrt(tr.Var)
	tr.Z = float64(tr.S-compare(float64(tr.S), 0)) / sd
	tr.P = math.Erfc(math.Abs(tr.Z) / math.Sqrt2)

	slices.Sort(slopes)
	tr.Slope = QuantileSorted(slopes, 0.5)
	// Gilbert 1987, section 16.4.2: the slopes of rank (N'-C)/2 and (N'+C)/2 + 1, C the
	// normal score times the standard deviation of S; between ranks by interpolation.
	c := distuv.UnitNormal.Quantile(0.5+level/2) * sd
	np := float64(len(slopes))
	tr.Low = orderStatistic(slopes, (np-c)/2)
	tr.High = orderStatistic(slopes, (np+c)/2+1)
	return tr, true
}

func compare(a, b float64) int {
	switch {
	case a > b:
		return 1
	case a < b:
		return -1
	}
	return 0
}

// mannKendallVariance is [n(n-1)(2n+5) - sum t(t-1)(2t+5)]/18 over the sizes t of the
// groups of equal values (Gilbert 1987, equation 16.2).
func mannKendallVariance(y []float64) float64 {
	f := func(n int) float64 { m := float64(n); return m * (m - 1) * (2*m + 5) }
	s := slices.Clone(y)
	slices.Sort(s)
	v := f(len(s))
	for i := 0; i < len(s); {
		j := i
		for j < len(s) && s[j] == s[i] {
			j++
		}
		v -= f(j - i)
		i = j
	}
	return v / 18
}
