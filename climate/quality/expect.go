package quality

import "math"

// hood is the neighbourhood of a day: the two values of the day before, of the day, and of the
// day after, in this order.
const hood = 6

// enoughHoods is about how many neighbourhoods are counted, evenly spread: more would not make
// the expectations better by anything that matters against loneZ.
const enoughHoods = 20000

// expect holds, for one month of the year, how the standardised values of a neighbourhood go
// together, and the expectations worked out so far.
type expect struct {
	cov  [hood][hood]float64
	n    float64
	done [2][1 << hood]*expectation
}

// expectation is the linear one of a value from those known: weights, and the spread left.
type expectation struct {
	weight [hood]float64
	sd     float64
}

// hoods is what loneValues looks at: the standardised values and how they go together.
type hoods struct {
	r      *record
	z      standard
	months [13]expect
}

func (r *record) hoods() *hoods {
	b := &hoods{r: r, z: r.standardised()}
	for i := 1; i+1 < r.len(); i += max(1, r.len()/enoughHoods) {
		b.months[r.month[i]].take(b.z.around(i))
	}
	return b
}

// off returns how far a value is from its expectation, in standard deviations.
func (b *hoods) off(e Element, i int) float64 { return b.months[b.r.month[i]].off(b.z.around(i), e) }

// standard holds the standardised values, NaN where missing.
type standard [2][]float64

func (r *record) standardised() standard {
	var s standard
	for e := range s {
		s[e] = make([]float64, r.len())
		for i, v := range r.v[e] {
			s[e][i] = r.z(Element(e), i, v)
		}
	}
	return s
}

// around returns a day's neighbourhood.
func (s standard) around(i int) (h [hood]float64) {
	if n, x := s[Tmin], s[Tmax]; i > 0 && i+1 < len(n) {
		return [hood]float64{n[i-1], x[i-1], n[i], x[i], n[i+1], x[i+1]}
	}
	for k := range h {
		j := i - 1 + k/2
		h[k] = math.NaN()
		if j >= 0 && j < len(s[0]) {
			h[k] = s[k%2][j]
		}
	}
	return h
}

// take counts a neighbourhood, if it is whole and without a value that may itself be wrong.
func (x *expect) take(h [hood]float64) {
	for _, v := range h {
		if !(math.Abs(v) < 5) {
			return
		}
	}
	x.n++
	for a := range h {
		for b := range a + 1 {
			x.cov[a][b] += h[a] * h[b]
			x.cov[b][a] = x.cov[a][b]
		}
	}
}

// off returns how far the day's value is from its expectation, in standard deviations; NaN
// where the value is missing, or too little else is known.
func (x *expect) off(h [hood]float64, e Element) float64 {
	own := 2 + int(e)
	if math.IsNaN(h[own]) || x.n < outlierValues {
		return math.NaN()
	}
	if w := x.done[e][(1<<hood-1)&^(1<<own)]; w != nil { // nothing missing: nearly always
		// The weight of the value itself is naught.
		v := h[own] - w.weight[0]*h[0] - w.weight[1]*h[1] - w.weight[2]*h[2] - w.weight[3]*h[3] - w.weight[4]*h[4] - w.weight[5]*h[5]
		if v == v {
			return v / w.sd
		}
	}
	have := 0
	for k, v := range h {
		if k != own && !math.IsNaN(v) {
			have |= 1 << k
		}
	}
	if have == 0 {
		return math.NaN()
	}
	if x.done[e][have] == nil {
		x.done[e][have] = x.solve(own, have)
	}
	w := x.done[e][have]
	v := h[own]
	for k := range h {
		if have&(1<<k) != 0 {
			v -= w.weight[k] * h[k]
		}
	}
	return v / w.sd
}

// solve works out an expectation: weights = C⁻¹c, variance = c₀ - c·weights.
func (x *expect) solve(own, have int) *expectation {
	var at []int
	for k := range hood {
		if have&(1<<k) != 0 {
			at = append(at, k)
		}
	}
	m := make([][]float64, len(at))
	for a, i := range at {
		for _, j := range at {
			m[a] = append(m[a], x.cov[i][j]/x.n)
		}
		m[a][a] += 1e-6 // two values that always agree must not stop it
		m[a] = append(m[a], x.cov[i][own]/x.n)
	}
	w := gauss(m)
	out := &expectation{}
	left := x.cov[own][own] / x.n
	for a, k := range at {
		out.weight[k] = w[a]
		left -= w[a] * x.cov[k][own] / x.n
	}
	out.sd = math.Sqrt(max(left, 1e-6))
	return out
}

// gauss solves a symmetric positive definite system, the right side being the last column.
func gauss(m [][]float64) []float64 {
	n := len(m)
	for i := range n {
		for j := i + 1; j < n; j++ {
			f := m[j][i] / m[i][i]
			for k := i; k <= n; k++ {
				m[j][k] -= f * m[i][k]
			}
		}
	}
	x := make([]float64, n)
	for i := n - 1; i >= 0; i-- {
		x[i] = m[i][n]
		for k := i + 1; k < n; k++ {
			x[i] -= m[i][k] * x[k]
		}
		x[i] /= m[i][i]
	}
	return x
}
