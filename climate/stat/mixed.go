package stat

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Mixed is a normal curve with an atom at either end: a share of seasons in which the
// event comes before every date (-Inf) or never comes (+Inf), and a normal curve for
// the rest (Thom 1959, Mon. Wea. Rev. 87, 136-144, from memory). For a last spring frost,
// a season without frost is -Inf; for a first autumn frost it is +Inf.
type Mixed struct {
	N     int     // values fitted to
	Below int     // of them -Inf
	Above int     // of them +Inf
	Mean  float64 // of the finite ones; NaN when there are none
	SD    float64 // of the finite ones, with n-1; NaN when there are fewer than two
}

// FitMixed fits the curve to x, which must not hold NaN.
func FitMixed(x []float64) Mixed {
	m := Mixed{N: len(x)}
	var sum float64
	for _, v := range x {
		switch {
		case math.IsNaN(v):
			panic("stat: NaN among the values of a curve")
		case math.IsInf(v, -1):
			m.Below++
		case math.IsInf(v, 1):
			m.Above++
		default:
			sum += v
		}
	}
	n := float64(m.finite())
	m.Mean = sum / n // 0/0 is the NaN that is wanted
	var ss float64
	for _, v := range x {
		if !math.IsInf(v, 0) {
			ss += (v - m.Mean) * (v - m.Mean)
		}
	}
	m.SD = math.NaN()
	if n > 1 {
		m.SD = math.Sqrt(ss / (n - 1))
	}
	return m
}

// finite returns the number of finite values.
func (m Mixed) finite() int { return m.N - m.Below - m.Above }

// Known says whether the curve can be used: it wants two finite values, or none but
// infinite ones.
func (m Mixed) Known() bool { return m.N > 0 && m.finite() != 1 }

func (m Mixed) shares() (below, finite float64) {
	n := float64(m.N)
	return float64(m.Below) / n, float64(m.finite()) / n
}

// CDF returns the chance of a value at or below x.
func (m Mixed) CDF(x float64) float64 {
	below, finite := m.shares()
	if finite == 0 {
		return below
	}
	return below + finite*normalCDF(x, m.Mean, m.SD)
}

// Quantile returns the p-quantile. It is -Inf or +Inf where p falls within an atom:
// then no date has that chance.
func (m Mixed) Quantile(p float64) float64 {
	below, finite := m.shares()
	return m.at(p, below, finite)
}

func (m Mixed) at(p, below, finite float64) float64 {
	switch u := (p - below) / finite; {
	case finite == 0 && p >= below, u >= 1:
		return math.Inf(1)
	case finite == 0, u <= 0:
		return math.Inf(-1)
	default:
		return m.Mean + m.SD*distuv.UnitNormal.Quantile(u)
	}
}

// Interval returns a confidence interval for the p-quantile.
//
// With no infinite values it is exact for a normal population, from the noncentral t
// (normalQuantileInterval). The uncertainty of an atom's share is Wilson's; the two are
// joined side by side as squares (Zou and Donner 2008, Stat. Med. 27, 1693-1702, from
// memory). Where the share's own interval takes the quantile into the atom, that end is
// infinite.
func (m Mixed) Interval(p, level float64) (low, high float64) {
	q := m.Quantile(p)
	below, finite := m.shares()
	if !m.Known() {
		return math.NaN(), math.NaN()
	}
	if m.finite() < 2 {
		return m.atomsOnly(p, level)
	}
	low, high = q, q
	if !math.IsInf(q, 0) {
		u := (p - below) / finite
		low, high = normalQuantileInterval(m.Mean, m.SD, m.finite(), u, level)
	}
	if m.Below == 0 && m.Above == 0 {
		return low, high
	}
	for _, end := range m.shareEnds(level) {
		v := m.at(p, end[0], end[1])
		switch {
		case math.IsInf(v, -1):
			low = v
		case math.IsInf(v, 1):
			high = v
		case math.IsInf(q, 0): // the date may exist after all
			l, h := normalQuantileInterval(m.Mean, m.SD, m.finite(), (p-end[0])/end[1], level)
			low, high = min(low, l), max(high, h)
		case v < q:
			low = q - math.Hypot(q-low, q-v)
		case v > q:
			high = q + math.Hypot(high-q, v-q)
		}
	}
	return low, high
}

// shareEnds returns the shares below and finite at the ends of Wilson's interval for
// each atom in turn, the other held at its estimate.
func (m Mixed) shareEnds(level float64) [][2]float64 {
	below, finite := m.shares()
	above := 1 - below - finite
	var ends [][2]float64
	add := func(b, a float64) { ends = append(ends, [2]float64{b, max(0, 1-a-b)}) }
	if m.Below > 0 {
		l, h := Wilson(m.Below, m.N, level)
		add(l, above)
		add(h, above)
	}
	if m.Above > 0 {
		l, h := Wilson(m.Above, m.N, level)
		add(below, l)
		add(below, h)
	}
	return ends
}

// atomsOnly is Interval when there is no date to go by: infinite on the side of the
// atom that p is in, and on both when it might be in either.
func (m Mixed) atomsOnly(p, level float64) (low, high float64) {
	l, h := Wilson(m.Below, m.N, level)
	low, high = math.Inf(1), math.Inf(-1)
	if p < h {
		low, high = math.Inf(-1), math.Inf(-1)
	}
	if p >= l {
		high = math.Inf(1)
	}
	return low, high
}

func normalCDF(x, mean, sd float64) float64 {
	if sd == 0 {
		if x < mean {
			return 0
		}
		return 1
	}
	return math.Erfc((mean-x)/(sd*math.Sqrt2)) / 2
}
