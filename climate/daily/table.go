package daily

import (
	"math"
	"slices"

	"frostward/climate"
)

// table gathers one station's days as they come, in any order. It is an array over
// every day that a record may have, so that adding a day is an index and sorting is
// not needed; memory that is never touched is never paid for.
//
// Whether a day clashes depends on the set of its rows and not on their order, so
// tables filled from the parts of a file can be merged in any order.
type table struct {
	tmin, tmax []float64 // in the units of the file; NaN for missing; valid where listed
	state      []uint8
	from, to   int // the range touched, to excluded

	rows     int // rows seen, faulty ones included
	listed   int // rows with a readable day
	repeats  int // values for an element that had one, where elements are listed apart
	coded    int
	flagged  int
	unsorted int
	last     int // index of the row above, -1 before the first

	faults faultList

	placed                         bool // the place below has been looked for
	name                           string
	latitude, longitude, elevation float64
}

const (
	isListed  uint8 = 1 << iota
	clashTmin       // two values for the minimum
	clashTmax
)

func newTable(faults faultList) *table {
	t := &table{
		tmin: make([]float64, windowDays), tmax: make([]float64, windowDays),
		state: make([]uint8, windowDays), faults: faults,
	}
	t.reset()
	return t
}

// reset empties the table for the next station.
func (t *table) reset() {
	if t.from < t.to {
		clear(t.state[t.from:t.to])
	}
	t.from, t.to, t.last = len(t.state), 0, -1
	t.rows, t.listed, t.repeats, t.coded, t.flagged, t.unsorted = 0, 0, 0, 0, 0, 0
	t.faults.reset()
	nan := math.NaN()
	t.placed, t.name, t.latitude, t.longitude, t.elevation = false, "", nan, nan, nan
}

// add puts a row in. Rows for one day must agree wherever both have a value; if they
// do not, the whole day is out, since there is no telling which row is the right one.
func (t *table) add(d climate.Day, tmin, tmax float64, line int) {
	i := int(d - windowFirst)
	t.sees(i)
	if t.state[i] == 0 {
		t.tmin[i], t.tmax[i], t.state[i] = tmin, tmax, isListed
		return
	}
	if t.again(i, tmin, tmax) {
		t.clash(d, line)
	}
}

// again merges a further row of a listed day; it tells whether that is a new clash.
func (t *table) again(i int, tmin, tmax float64) bool {
	a, okA := agreed(t.tmin[i], tmin)
	b, okB := agreed(t.tmax[i], tmax)
	t.tmin[i], t.tmax[i] = a, b
	if okA && okB {
		return false
	}
	fresh := t.state[i] == isListed
	t.state[i] |= clashTmin | clashTmax
	return fresh
}

// addOne puts one element in, for formats that list them apart. A clash puts only
// that element out.
func (t *table) addOne(e Element, d climate.Day, v float64, line int) {
	i := int(d - windowFirst)
	t.from, t.to = min(t.from, i), max(t.to, i+1)
	if t.state[i] == 0 {
		t.tmin[i], t.tmax[i], t.state[i] = math.NaN(), math.NaN(), isListed
	}
	p, bit := &t.tmin[i], clashTmin
	if e == Tmax {
		p, bit = &t.tmax[i], clashTmax
	}
	if !math.IsNaN(*p) {
		t.repeats++
	}
	var ok bool
	if *p, ok = agreed(*p, v); !ok && t.state[i]&bit == 0 {
		t.state[i] |= bit
		t.clash(d, line)
	}
}

// sees notes that a row for a day has come.
func (t *table) sees(i int) {
	t.from, t.to = min(t.from, i), max(t.to, i+1)
	t.listed++
	if i < t.last {
		t.unsorted++
	}
	t.last = i
}

func (t *table) clash(d climate.Day, line int) {
	t.faults.addText(line, "date", d.String(), "is given twice, with different values; neither is used")
}

// agreed merges two values for one thing. NaN agrees with everything.
func agreed(a, b float64) (float64, bool) {
	switch {
	case a == b || math.IsNaN(b):
		return a, true
	case math.IsNaN(a):
		return b, true
	}
	return a, false
}

func (t *table) fault(line int, field string, text []byte, want string) {
	t.faults.add(line, field, text, want)
}

// values returns what the table holds for an index, clashes taken out.
func (t *table) values(i int) (tmin, tmax float64) {
	tmin, tmax = math.NaN(), math.NaN()
	if s := t.state[i]; s&isListed != 0 {
		if s&clashTmin == 0 {
			tmin = t.tmin[i]
		}
		if s&clashTmax == 0 {
			tmax = t.tmax[i]
		}
	}
	return tmin, tmax
}

// span returns the range of indices from the first to the last day with a value.
func (t *table) span() (from, to int) {
	some := func(i int) bool {
		a, b := t.values(i)
		return !math.IsNaN(a) || !math.IsNaN(b)
	}
	from, to = t.from, t.to
	for from < to && !some(from) {
		from++
	}
	for to > from && !some(to-1) {
		to--
	}
	return from, to
}

// series returns the days from the first to the last value, in °C, and counts them.
func (t *table) series(u Units, rep *Report) climate.Series {
	from, to := t.span()
	s := climate.NewSeries(windowFirst+climate.Day(from), to-from)
	for i := range s.Tmin {
		a, b := t.values(from + i)
		s.Tmin[i], s.Tmax[i] = u.celsius(a), u.celsius(b)
		noMin, noMax := math.IsNaN(a), math.IsNaN(b)
		if noMin {
			rep.MissingTmin++
		}
		if noMax {
			rep.MissingTmax++
		}
		if !noMin || !noMax {
			rep.Days++
		}
	}
	rep.First, rep.Last = s.First, s.Last()
	rep.Rows, rep.Coded, rep.Flagged, rep.Unsorted = t.rows, t.coded, t.flagged, t.unsorted
	rep.Repeated = t.repeated()
	rep.FaultCount, rep.Faults = t.faults.count, t.faults.kept
	return s
}

// repeated counts the rows beyond the first of each day, or the values beyond the
// first of each element.
func (t *table) repeated() int {
	if t.listed == 0 {
		return t.repeats
	}
	days := 0
	for i := t.from; i < t.to; i++ {
		days += int(t.state[i] & isListed)
	}
	return t.listed - days
}

// faultList keeps the first faults and counts all.
type faultList struct {
	file  string
	limit int
	kept  []Fault
	count int
}

func (l *faultList) reset() { l.kept, l.count = nil, 0 }

func (l *faultList) add(line int, field string, text []byte, want string) {
	l.count++
	if len(l.kept) < l.limit {
		l.kept = append(l.kept, Fault{File: l.file, Line: line, Field: field, Text: quoted(text), Want: want})
	}
}

func (l *faultList) addText(line int, field, text, want string) {
	l.add(line, field, []byte(text), want)
}

// join takes in the faults of another list, in the order of their lines.
func (l *faultList) join(o faultList) {
	l.count += o.count
	l.kept = append(l.kept, o.kept...)
	slices.SortStableFunc(l.kept, func(a, b Fault) int { return a.Line - b.Line })
	l.kept = l.kept[:min(len(l.kept), l.limit)]
}
