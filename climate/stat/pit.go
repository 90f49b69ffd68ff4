package stat

import "math"

// PIT is where what came fell in the distribution issued for it: the chance issued for
// anything below it, and for it or anything below (the probability integral transform of
// a distribution with steps, Czado, Gneiting and Held 2009, Biometrics 65, 1254-1261). The
// two are the same for a smooth curve.
type PIT struct{ Below, UpTo float64 }

// EnsemblePIT places y among the members x.
func EnsemblePIT(x []float64, y float64) PIT {
	var below, same float64
	for _, v := range x {
		switch {
		case v < y:
			below++
		case v == y:
			same++
		}
	}
	n := float64(len(x))
	if same > 0 {
		return PIT{below / n, (below + same) / n}
	}
	// Between members: n members cut the line into n+1 parts of equal chance.
	return PIT{below / (n + 1), (below + 1) / (n + 1)}
}

// PIT places y on the curve. At an infinite y it is the whole of the atom.
func (m Mixed) PIT(y float64) PIT {
	below, finite := m.shares()
	switch {
	case math.IsInf(y, -1):
		return PIT{0, below}
	case math.IsInf(y, 1):
		return PIT{below + finite, 1}
	}
	c := m.CDF(y)
	return PIT{c, c}
}

// PITHistogram shares out each PIT evenly between its two ends over bins of equal width,
// and returns the share of each; all 1/bins for a method whose chances are right. Low in
// the middle: too sure; high in the middle: not sure enough; leaning: too early or late.
func PITHistogram(pits []PIT, bins int) []float64 {
	h := make([]float64, bins)
	w := 1 / float64(len(pits))
	for _, p := range pits {
		if p.UpTo <= p.Below {
			h[min(int(p.Below*float64(bins)), bins-1)] += w
			continue
		}
		for b := range h {
			lo, hi := float64(b)/float64(bins), float64(b+1)/float64(bins)
			if part := min(hi, p.UpTo) - max(lo, p.Below); part > 0 {
				h[b] += w * part / (p.UpTo - p.Below)
			}
		}
	}
	return h
}
