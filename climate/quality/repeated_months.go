package quality

import (
	"fmt"
	"math"
	"time"
)

// monthDays is how many measured days two months must share to be called the same: with
// fewer a short broken month could match by chance (our rule).
const monthDays = 15

// repeatedMonths flags months that are another month over again: the same month of another
// year, or another month of the same year, value by value, in both elements (Durre et al.
// 2010 compare within those two groups). The copy is flagged, see copies.
func repeatedMonths(r *record) []Flag {
	var out []Flag
	flagged := map[int]bool{}
	for _, e := range []Element{Tmin, Tmax} {
		clear(flagged)
		// Months with the same sum are few, so only those are compared value by value.
		bySum := map[[2]float64][]int{}
		for k, m := range r.months {
			sum, n := 0.0, 0
			for _, v := range r.v[e][m.from:max(m.from, min(m.to, m.at(29)))] { // February has no more
				if !math.IsNaN(v) {
					sum += v
					n++
				}
			}
			if n < monthDays {
				continue
			}
			key := [2]float64{float64(n), math.Round(sum * 1000)} // the order of summing must not matter
			for _, o := range bySum[key] {
				if other := r.months[o]; m.month != other.month && m.year != other.year || !r.same(e, m, other) {
					continue
				}
				for _, c := range r.copies(m.days(), r.months[o].days()) {
					j, other := k, o
					if c.from != m.from {
						j, other = o, k
					}
					if !flagged[j] {
						flagged[j] = true
						out = append(out, r.flagMonth(e, r.months[j], r.months[other])...)
					}
				}
			}
			bySum[key] = append(bySum[key], k)
		}
	}
	return out
}

// same says whether two months agree on every day that either has measured, over the days
// that both have, with enough values and not all one value.
func (r *record) same(e Element, a, b monthSpan) bool {
	from := max(a.day, b.day)
	n := min(a.to-a.at(from), b.to-b.at(from))
	shared, varied := 0, false
	first := math.NaN()
	for d := range n {
		x, y := r.v[e][a.at(from)+d], r.v[e][b.at(from)+d]
		if math.IsNaN(x) != math.IsNaN(y) || x != y && !math.IsNaN(x) {
			return false
		}
		if math.IsNaN(x) {
			continue
		}
		if math.IsNaN(first) {
			first = x
		}
		varied = varied || x != first
		shared++
	}
	return shared >= monthDays && varied
}

func (r *record) flagMonth(e Element, m, other monthSpan) []Flag {
	why := fmt.Sprintf("the month is that of %s %d over again", time.Month(other.month), other.year)
	var out []Flag
	for i := m.from; i < m.to; i++ {
		if !math.IsNaN(r.v[e][i]) {
			out = append(out, r.flag(i, e, why))
		}
	}
	return out
}
