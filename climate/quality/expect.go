package quality

import "math"

// hood is the neighbourhood of a day: the two values of the day before, of the day, and of the
// day after, in this order.
const hood = 6

// enoughHoods is about how many neighbourhoods are counted, evenly spread: more would not make
// the expectations better by anything that matters against loneZ.
const enoughHoods = 20000

// hoodZ is how far from the usual a value may be that is counted: beyond, it may itself be wrong.
const hoodZ = 5

// expect holds, for one month of the year, how the standardised values of a neighbourhood go
// together, and the expectations worked out so far.
type expect struct {
	cov  [hood][hood]float64
	n    float64
	done [2][1 << hood]expectation // by the element, and a bit for each value that is known
}

// expectation is the linear one of a value from those known: weights, and the spread left.
type expectation struct {
	weight [hood]float64
	sd     float64 // 0 before it is worked out, never after
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
		if !(math.Abs(v) < hoodZ) {
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
	have := known(h, e)
	if math.IsNaN(h[2+e]) || x.n < outlierValues || have == 0 {
		return math.NaN()
	}
	return x.from(e, have).off(h, e)
}

// known returns a bit for each value that is known, but for the day's own.
func known(h [hood]float64, e Element) (have int) {
	for k, v := range h {
		if k != 2+int(e) && v == v {
			have |= 1 << k
		}
	}
	return have
}

// off returns how far the day's value is from its expectation, in standard deviations.
func (w *expectation) off(h [hood]float64, e Element) float64 {
	own := 2 + int(e)
	v := h[own]
	for k, u := range h {
		if k != own && u == u {
			v -= w.weight[k] * u
		}
	}
	return v / w.sd
}

// from returns the expectation of the day's value from those known.
func (x *expect) from(e Element, have int) *expectation {
	w := &x.done[e][have]
	if w.sd == 0 {
		*w = x.solve(2+int(e), have)
	}
	return w
}

// solve works out an expectation: weights = C⁻¹c, variance = c₀ - c·weights.
func (x *expect) solve(own, have int) (out expectation) {
	var memory [hood][hood]float64
	var rows [hood][]float64
	var at [hood]int
	n := 0
	for k := range hood {
		if have&(1<<k) != 0 {
			at[n] = k
			n++
		}
	}
	for a, i := range at[:n] {
		row := memory[a][:n+1]
		for b, j := range at[:n] {
			row[b] = x.cov[i][j] / x.n
		}
		row[a] += 1e-6 // two values that always agree must not stop it
		row[n] = x.cov[i][own] / x.n
		rows[a] = row
	}
	var w [hood]float64
	solve(rows[:n], w[:n])
	left := x.cov[own][own] / x.n
	for a, k := range at[:n] {
		out.weight[k] = w[a]
		left -= w[a] * x.cov[k][own] / x.n
	}
	out.sd = math.Sqrt(max(left, 1e-6))
	return out
}

// solve solves a symmetric positive definite system into x, the right side being the last column.
func solve(m [][]float64, x []float64) {
	n := len(m)
	for i := range n {
		for j := i + 1; j < n; j++ {
			f := m[j][i] / m[i][i]
			for k := i; k <= n; k++ {
				m[j][k] -= f * m[i][k]
			}
		}
	}
	for i := n - 1; i >= 0; i-- {
		x[i] = m[i][n]
		for k := i + 1; k < n; k++ {
			x[i] -= m[i][k] * x[k]
		}
		x[i] /= m[i][i]
	}
}
