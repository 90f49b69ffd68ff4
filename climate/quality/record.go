package quality

import (
	"math"

	"frostward/climate"
)

// record is a series with what the rules ask for. Its values are a copy, from which flagged
// ones are taken away. What is worked out from all of them is worked out when first asked for,
// and kept: the values that later rules take away are few, and all of it is robust.
type record struct {
	first  climate.Day
	v      [2][]float64 // tmin, tmax
	month  []int8       // 1 to 12, by day
	day    []int16      // season day of the northern year, by day
	months []monthSpan
	usual  *usuals         // see usuals
	zs     standard        // see standardised
	expect *[13]covariance // see expectations
	found  []misread       // see misreadDays
}

// monthSpan is one month of the record, cut at the record's ends.
type monthSpan struct {
	year, month int
	day         int // of the month, where it starts
	from, to    int // indexes, to not included
}

// at returns the index of a day of the month, which may lie outside.
func (m monthSpan) at(day int) int { return m.from + day - m.day }

func (m monthSpan) days() segment { return segment{from: m.from, to: m.to - 1} }

func newRecord(s climate.Series) *record {
	s = s.Clone()
	n := s.Len()
	r := &record{first: s.First, v: [2][]float64{s.Tmin, s.Tmax}, month: make([]int8, n), day: make([]int16, n)}
	y, m, d := s.First.Date()
	for i := 0; i < n; {
		days := climate.DaysIn(y, m)
		to := min(n, i+days-d+1)
		r.months = append(r.months, monthSpan{y, int(m), d, i, to})
		first, last := climate.Calendar{}.Of(m, 1), climate.Calendar{}.Of(m, days) // 29 February is folded
		for ; i < to; i++ {
			r.month[i], r.day[i] = int8(m), int16(min(first+climate.SeasonDay(d-1), last))
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
		for e := Tmin; e <= Tmax; e++ {
			if f.Element != e && f.Element != Both {
				continue
			}
			r.v[e][i] = math.NaN()
			if r.zs[e] != nil {
				r.zs[e][i] = math.NaN()
			}
		}
	}
}

// flag makes a flag of the day at an index.
func (r *record) flag(i int, e Element, why string) Flag {
	return Flag{Day: r.first + climate.Day(i), Element: e, Why: why}
}
