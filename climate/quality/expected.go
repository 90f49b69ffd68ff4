package quality

import "math"

// around is a day and those beside it: the standardised values of the day before, of the day,
// and of the day after, each tmin and tmax, NaN where not known. The day's own are at 2 and 3.
type around [6]float64

const (
	enoughDays  = 20000 // about how many days the expectations rest on, evenly spread
	countableZ  = 5     // how far from the usual a value may be that is counted: beyond, it may itself be wrong
	everyAround = 1<<6 - 1
)

// covariance holds, for one month of the year, how the standardised values of a day and of those
// beside it go together, and the expectations worked out so far.
type covariance struct {
	sum  [6][6]float64
	n    float64
	done [2][everyAround + 1]expectation // by the element, and a bit for each value that is known
	side [2][2]float64                   // by the element and whether above: how large what is left usually is, of 1 on the whole
}

// expectation is the linear one of a value from those known: weights, and the spread left, both
// in standard deviations of what is usual. It is the conditional mean and standard deviation of
// a multivariate normal distribution (any textbook).
type expectation struct {
	weight around
	sd     float64 // 0 before it is worked out, never after
}

// expectations counts how the values go together, by month, when first asked for.
func (r *record) expectations() *[13]covariance {
	if r.expect != nil {
		return r.expect
	}
	r.expect = new([13]covariance)
	z, a := r.standardised(), new(around)
	for i := 1; i+1 < r.len(); i += max(1, r.len()/enoughDays) {
		r.expect[r.month[i]].take(z.around(i, a))
	}
	for m := range r.expect {
		for j := range r.expect[m].sum {
			for k := range j {
				r.expect[m].sum[k][j] = r.expect[m].sum[j][k]
			}
		}
	}
	r.sides()
	return r.expect
}

// sides finds how far values usually are above and below their expectation: cold nights and warm
// ones are not equally far.
func (r *record) sides() {
	var n [13][2][2]float64
	z, a := r.standardised(), new(around)
	for i := 1; i+1 < r.len(); i += max(1, 4*r.len()/enoughDays) {
		m := r.month[i]
		c := &r.expect[m]
		z.around(i, a)
		for e := range c.side {
			if off, _ := c.offSD(a, Element(e)); math.Abs(off) < countableZ {
				c.side[e][side(off)] += off * off
				n[m][e][side(off)]++
			}
		}
	}
	for m := range n {
		for e := range 2 {
			for k, n := range n[m][e] {
				s := &r.expect[m].side[e][k]
				*s = math.Sqrt((*s + 1) / (n + 1))
			}
		}
	}
}

// around puts a day and those beside it into a.
func (s standard) around(i int, a *around) *around {
	if n, x := s[Tmin], s[Tmax]; i > 0 && i+1 < len(n) {
		*a = around{n[i-1], x[i-1], n[i], x[i], n[i+1], x[i+1]}
		return a
	}
	return s.shifted(i, 0, a)
}

// shifted is around with the minima taken from k days on.
func (s standard) shifted(i, k int, a *around) *around {
	for j := range a {
		day := i - 1 + j/2
		if j%2 == int(Tmin) {
			day += k
		}
		a[j] = math.NaN()
		if day >= 0 && day < len(s[Tmin]) {
			a[j] = s[j%2][day]
		}
	}
	return a
}

// take counts a day, if all is known and nothing may itself be wrong.
func (c *covariance) take(a *around) {
	for _, v := range a {
		if !(math.Abs(v) < countableZ) {
			return
		}
	}
	c.n++
	for j, v := range a {
		sum := &c.sum[j]
		for k, u := range a[:j+1] {
			sum[k] += v * u
		}
	}
}

// off returns how far the day's value is from its expectation, in what is usual of that above or
// below; NaN where the value is missing, or too little else is known.
func (c *covariance) off(a *around, e Element) float64 {
	off, _ := c.offSD(a, e)
	return off / c.side[e][side(off)]
}

func side(off float64) int {
	if off > 0 {
		return 1
	}
	return 0
}

// offSD returns how far it is in standard deviations, and such a one. Every value of a record is asked, most with all
// beside it known, so that nothing is copied.
func (c *covariance) offSD(a *around, e Element) (off, sd float64) {
	own, have := 2+int(e), everyAround&^(1<<(2+e))
	v := a[own]
	for k, u := range a {
		if u != u {
			have &^= 1 << k
		}
	}
	if v != v || have == 0 || c.n < outlierValues {
		return math.NaN(), math.NaN()
	}
	x := &c.done[e][have]
	if x.sd == 0 {
		*x = c.solve(own, have)
	}
	for k, w := range &x.weight {
		if w != 0 {
			v -= w * a[k]
		}
	}
	return v / x.sd, x.sd
}

// solve works out an expectation: weights = C⁻¹c, variance = c₀ - c·weights, by Gauss's
// elimination, which needs no exchange of rows as C is positive definite.
func (c *covariance) solve(own, have int) (out expectation) {
	var rows [][7]float64 // the last column is the right side
	var at []int
	for k := range out.weight {
		if have&(1<<k) != 0 {
			at = append(at, k)
		}
	}
	n := len(at)
	for a, i := range at {
		var row [7]float64
		for b, j := range at {
			row[b] = c.sum[i][j] / c.n
		}
		row[a] += 1e-6 // two values that always agree must not stop it
		row[n] = c.sum[i][own] / c.n
		rows = append(rows, row)
	}
	for a := range n {
		for b := range n {
			if a == b {
				continue
			}
			f := rows[b][a] / rows[a][a]
			for k := a; k <= n; k++ {
				rows[b][k] -= f * rows[a][k]
			}
		}
	}
	left := c.sum[own][own] / c.n
	for a, k := range at {
		out.weight[k] = rows[a][n] / rows[a][a]
		left -= out.weight[k] * c.sum[k][own] / c.n
	}
	out.sd = math.Sqrt(max(left, 1e-6))
	return out
}

// logDensity is the logarithm of a normal density with a tail that stops falling at six
// standard deviations, so that one wild value cannot outweigh all others.
func logDensity(z float64) float64 {
	if z = z * z / 2; z > 18 {
		return -18
	}
	return -z
}
