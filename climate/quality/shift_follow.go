package quality

import (
	"math"

	"frostward/climate"
)

// pairs is a record as the question of a shift looks at it: one element, its own here, is
// expected from what it was before and from the other around it.
type pairs struct {
	z     standard                   // the other, its own
	v     [2][]float64               // the same, °C
	per   *[climate.YearDays]float64 // 1 / standard deviation of its own, 1/°C
	month []int8
	day   []int16
}

// pairs expects the maxima from the minima.
func (r *record) pairs() *pairs {
	return &pairs{r.standardised(), r.v, &r.usuals().per[Tmax], r.month, r.day}
}

// mirror expects the minima from the maxima, with all signs changed: minima, too, are above
// maxima then.
func (r *record) mirror(p *pairs) *pairs {
	negative := func(v []float64) []float64 {
		out := make([]float64, len(v))
		for i := range v {
			out[i] = -v[i]
		}
		return out
	}
	return &pairs{standard{negative(p.z[1]), negative(p.z[0])}, [2][]float64{negative(p.v[1]), negative(p.v[0])},
		&r.usuals().per[Tmin], r.month, r.day}
}

const (
	meanRidge   = 3     // days, of the fit of the expectation
	spreadRidge = 100   // and of its spread, which is known less well
	fewestDays  = 600   // of a month and its neighbours that a fit rests on: seven years
	fittedDays  = 10000 // about how many are fitted to, evenly spread
	usualZ      = 5     // further off a value may itself be wrong
)

// follow returns how well an element goes with the other as they stand, and with the other's
// days before and after: by k+1, the logarithm of each value's density with the other taken k
// days on; NaN where not all it rests on is known. It fits the expectation, the logarithm of
// its squared error (Harvey 1976, Econometrica 44, 461-465, from memory), and the density of
// what is left. It returns nil for a record too short.
func (p *pairs) follow() *[3][]float64 {
	mean, spread, ok := p.fit()
	if !ok {
		return nil
	}
	var by [3]left
	for k := range by {
		by[k] = p.left(k-1, mean, spread)
	}
	scale := by[1].scale()
	for k := range by {
		for i := range by[k].sd {
			by[k].sd[i] *= scale
		}
	}
	of := p.tails(&by[1])
	bounds := p.bounds(&by[1], &of)
	out := new([3][]float64)
	for k, l := range by {
		out[k] = make([]float64, len(l.off))
		for i, m := range p.month {
			out[k][i] = math.NaN()
			if l.off[i] == l.off[i] {
				out[k][i] = of[m].at(l.off[i]/l.sd[i]) - math.Log(l.sd[i]) + p.beyond(i, k-1, bounds)
			}
		}
	}
	return out
}

// fit fits both to the terms of the usual days, by month; false where a month has too few.
func (p *pairs) fit() (mean, spread *[13]terms, ok bool) {
	mean, spread = new([13]terms), new([13]terms)
	var t terms
	var by [13]leastSquares
	every := max(1, len(p.month)/fittedDays)
	each := func(take func(m int8, x float64)) {
		for i := 0; i < len(p.month); i += every {
			if x := p.z[1][i]; math.Abs(x) < usualZ && t.take(p.z, i, 0) && t.usual() {
				take(p.month[i], x)
			}
		}
	}
	each(func(m int8, x float64) {
		by[m].take(&t)
		by[m].of(&t, x)
	})
	if !seasonal(mean, &by, meanRidge, fewestDays/float64(every)) {
		return nil, nil, false
	}
	for m := range by {
		by[m].y = terms{}
	}
	each(func(m int8, x float64) {
		x -= t.dot(&mean[m])
		by[m].of(&t, math.Log(x*x+0.02)) // a perfect guess is chance
	})
	return mean, spread, seasonal(spread, &by, spreadRidge, 0)
}

// left is what is left of the standardised values when what is expected is taken away, and how
// much that usually is.
type left struct{ off, sd []float64 }

func (p *pairs) left(k int, mean, spread *[13]terms) left {
	var t terms
	l := left{make([]float64, len(p.month)), make([]float64, len(p.month))}
	for i, m := range p.month {
		l.off[i] = math.NaN()
		if x := p.z[1][i]; x == x && t.take(p.z, i, k) {
			l.off[i] = x - t.dot(&mean[m])
			l.sd[i] = math.Exp(min(max(t.dot(&spread[m]), -5), 2) / 2)
		}
	}
	return l
}

// scale is what the spread must be multiplied by for the squares to be 1 in the mean: it was
// fitted to their logarithms, whose mean is lower.
func (l *left) scale() float64 {
	sum, n := 0.0, 0.0
	for i, d := range l.off {
		if d == d {
			d /= l.sd[i]
			sum += min(d*d, usualZ*usualZ)
			n++
		}
	}
	return math.Sqrt(sum / n)
}
