package quality

import (
	"math"

	"frostward/climate"
)

// record is a series with what every rule asks for: its months. Its values are a copy, from
// which rules take away what they flag. The rest is worked out when first asked for. A record is
// used for one series after another, as its memory costs more to make than most rules do.
type record struct {
	first   climate.Day
	v       [2][]float64 // tmin, tmax
	month   []int8       // 1 to 12, by day
	day     []int16      // season day of the northern year, by day
	months  []monthSpan
	taken   int        // values taken away so far, a day's two for one
	known   *usuals    // see usuals
	zs      standard   // see standardised; empty until then
	far     bool       // one of zs is an outlier
	seen    bool       // whether looked is of this series
	looked  sight      // see look
	bins    [2][]int16 // see look
	printed bool       // whether work.prints is of this series
	work    scratch
}

// scratch is memory that is kept for the next series. What is in it is of use only to those who
// name it.
type scratch struct {
	usuals usuals
	byDay  []int16
	bell   bells
	counts tenths
	hoods  hoods
	prints prints
	spread spread
	calm   calms
}

// monthSpan is one month of the record, cut at the record's ends.
type monthSpan struct {
	year, month int
	day         int // of the month, where it starts
	from, to    int // indexes, to not included
}

// at returns the index of a day of the month, which may lie outside.
func (m monthSpan) at(day int) int { return m.from + day - m.day }

func newRecord(s climate.Series) *record {
	r := new(record)
	r.reset(s)
	return r
}

// reset makes it the record of another series.
func (r *record) reset(s climate.Series) {
	n := s.Len()
	r.first, r.taken, r.known, r.months = s.First, 0, nil, r.months[:0]
	r.seen, r.printed, r.work.spread.taken, r.work.hoods.counted = false, false, -1, false
	for e, v := range [2][]float64{s.Tmin, s.Tmax} {
		r.v[e] = append(r.v[e][:0], v...)
		r.zs[e] = r.zs[e][:0]
	}
	r.month, r.day = sized(r.month, n), sized(r.day, n)
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
}

// sized returns memory for n values, whatever is in it.
func sized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}

func (r *record) len() int { return len(r.month) }

// at returns a value, NaN outside the record.
func (r *record) at(e Element, i int) float64 {
	if i < 0 || i >= r.len() {
		return math.NaN()
	}
	return r.v[e][i]
}

// mask takes flagged values away, and what was worked out from them alone.
func (r *record) mask(flags []Flag) {
	for _, f := range flags {
		i := int(f.Day - r.first)
		for e := Tmin; e <= Tmax; e++ {
			if f.Element != e && f.Element != Both {
				continue
			}
			r.v[e][i] = math.NaN()
			if r.seen {
				r.bins[e][i] = noBin
			}
			if len(r.zs[e]) > 0 {
				r.zs[e][i] = math.NaN()
			}
		}
	}
	r.taken += len(flags)
}

// flag makes a flag of the day at an index.
func (r *record) flag(i int, e Element, why string) Flag {
	return Flag{Day: r.first + climate.Day(i), Element: e, Why: why}
}
