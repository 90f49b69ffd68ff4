package quality

import (
	"math"

	"frostward/climate"
)

// record is a series with what every rule asks for: its months. Its values are a copy, from
// which rules take away what they flag.
type record struct {
	first  climate.Day
	v      [2][]float64 // tmin, tmax
	month  []int8       // 1 to 12, by day
	day    []int16      // season day of the northern year, by day
	months []monthSpan
	known  *usuals // see usuals
}

// monthSpan is one month of the record, cut at the record's ends.
type monthSpan struct {
	year, month int
	from, to    int // indexes, to not included
}

func newRecord(s climate.Series) *record {
	n := s.Len()
	c := s.Clone()
	r := &record{first: s.First, v: [2][]float64{c.Tmin, c.Tmax}, month: make([]int8, n), day: make([]int16, n)}
	if n == 0 {
		return r
	}
	y, m, d := s.First.Date()
	for i := 0; i < n; {
		left := climate.DaysIn(y, m) - d + 1
		to := min(n, i+left)
		r.months = append(r.months, monthSpan{y, int(m), i, to})
		for ; i < to; i++ {
			r.month[i] = int8(m)
			r.day[i] = int16(climate.Calendar{}.Of(m, d))
			d++
		}
		d = 1
		if m++; m > 12 {
			m, y = 1, y+1
		}
	}
	return r
}

func (r *record) len() int { return len(r.month) }

// at returns a value, NaN outside the record.
func (r *record) at(e Element, i int) float64 {
	if i < 0 || i >= r.len() {
		return math.NaN()
	}
	return r.v[e][i]
}

// mask takes flagged values away.
func (r *record) mask(flags []Flag) {
	for _, f := range flags {
		i := int(f.Day - r.first)
		if f.Element != Tmax {
			r.v[Tmin][i] = math.NaN()
		}
		if f.Element != Tmin {
			r.v[Tmax][i] = math.NaN()
		}
	}
}

// flag makes a flag of the day at an index.
func (r *record) flag(i int, e Element, why string) Flag {
	return Flag{Day: r.first + climate.Day(i), Element: e, Why: why}
}
