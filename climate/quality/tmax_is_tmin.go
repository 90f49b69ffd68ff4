package quality

import "fmt"

const equalDays = 10 // days of a month with tmax = tmin

// equalMonths flags months in which the two values agree on many days.
func equalMonths(r *record) []Flag {
	var out []Flag
	for _, m := range r.months {
		n := 0
		for i := m.from; i < m.to; i++ {
			if r.v[Tmin][i] == r.v[Tmax][i] {
				n++
			}
		}
		if n < equalDays {
			continue
		}
		for i := m.from; i < m.to; i++ {
			if r.v[Tmin][i] == r.v[Tmax][i] {
				out = append(out, r.flag(i, Both, fmt.Sprintf("both are %.1f °C, as on %d days of the month", r.v[Tmin][i], n)))
			}
		}
	}
	return out
}
