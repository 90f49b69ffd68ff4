package daily

import (
	"math"

	"frostward/climate"
)

// table gathers one station's days as they come, in any order. It has a cell for every day
// of a range that grows as needed, so that adding a day is an index and sorting is not needed.
//
// Whether a day clashes depends on the set of its rows and not on their order.
type table struct {
	cells    []cell
	base     int // index of the first cell, in days from windowFirst
	from, to int // the range of indices touched, to excluded

	rows     int // rows seen, faulty ones included
	listed   int // rows with a readable day
	repeats  int // values for an element that had one, where elements are listed apart
	coded    int
	flagged  int
	unsorted int
	last     int // index of the row above, -1 before the first

	faults faultList

	readings []reading       // within the day, until fold makes days of them
	counts   map[int]int     // of readings, by the index of their day
	snow     map[int]float64 // cm where there is any, or mm or inches, by the index of the day
	snowUnit bool            // it is in mm, or in inches where temperatures are in °F
	minus99  bool            // -99 is a missing code, which is not known before the unit is
	stamps   stamps

	placed                         bool // the place below has been looked for
	name                           string
	latitude, longitude, elevation float64
}

// pair is a day's temperatures in the units of the file, NaN where missing.
type pair struct{ tmin, tmax float64 }

// cell is what is known of a day. Its temperatures are valid if it is listed.
type cell struct {
	pair
	state uint8
}

// The bits of a state.
const (
	isListed  uint8 = 1 << iota
	clashTmin       // two values for the minimum
	clashTmax
)

func newTable(faults faultList) *table {
	t := &table{faults: faultList{file: faults.file, limit: faults.limit}}
	t.reset()
	return t
}

// cell returns that of an index, the range being widened where it lies outside.
func (t *table) cell(i int) *cell {
	if k := i - t.base; k >= 0 && k < len(t.cells) {
		return &t.cells[k]
	}
	t.grow(i)
	return &t.cells[i-t.base]
}

// grow widens the range to an index, by 20 years and by half of what it has at least.
func (t *table) grow(i int) {
	room := max(20*366, len(t.cells)/2)
	from, to := i, i+room
	if len(t.cells) > 0 {
		from, to = t.base, t.base+len(t.cells)
		if i < from {
			from = min(i, from-room)
		} else {
			to = max(i+1, to+room)
		}
	}
	from, to = max(from, 0), min(to, windowDays)
	cells := make([]cell, to-from)
	if len(t.cells) > 0 {
		copy(cells[t.base-from:], t.cells)
	}
	t.base, t.cells = from, cells
}

// reset empties the table for the next station.
func (t *table) reset() {
	if t.from < t.to {
		clear(t.cells[t.from-t.base : t.to-t.base])
	}
	t.from, t.to, t.last = windowDays, 0, -1
	t.rows, t.listed, t.repeats, t.coded, t.flagged, t.unsorted = 0, 0, 0, 0, 0, 0
	t.faults.reset()
	t.readings, t.counts, t.minus99, t.stamps = nil, nil, false, stamps{}
	t.snow, t.snowUnit = nil, false
	nan := math.NaN()
	t.placed, t.name, t.latitude, t.longitude, t.elevation = false, "", nan, nan, nan
}

// add puts a row in. Rows for one day must agree wherever both have a value; if they
// do not, the whole day is out, since there is no telling which row is the right one.
func (t *table) add(d climate.Day, v pair, line int) {
	i := int(d - windowFirst)
	t.touch(i)
	c := t.cell(i)
	if c.state == 0 {
		*c = cell{v, isListed}
		return
	}
	a, okA := agreed(c.tmin, v.tmin)
	b, okB := agreed(c.tmax, v.tmax)
	c.pair = pair{a, b}
	if !okA || !okB {
		if c.state == isListed {
			t.clash(d, line)
		}
		c.state |= clashTmin | clashTmax
	}
}

// addOne puts one element in, for formats that list them apart. A clash puts only
// that element out.
func (t *table) addOne(e Element, d climate.Day, v float64, line int) {
	i := int(d - windowFirst)
	t.from, t.to = min(t.from, i), max(t.to, i+1)
	c := t.cell(i)
	if c.state == 0 {
		*c = cell{pair{math.NaN(), math.NaN()}, isListed}
	}
	p, bit := &c.tmin, clashTmin
	if e == Tmax {
		p, bit = &c.tmax, clashTmax
	}
	if !math.IsNaN(*p) {
		t.repeats++
	}
	var ok bool
	if *p, ok = agreed(*p, v); !ok && c.state&bit == 0 {
		c.state |= bit
		t.clash(d, line)
	}
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

// days are the cells of the range touched.
func (t *table) days() []cell {
	if t.from >= t.to {
		return nil
	}
	return t.cells[t.from-t.base : t.to-t.base]
}

// at returns what the table holds for an index, clashes taken out.
func (t *table) at(i int) pair { return t.value(t.cell(i)) }

func (t *table) value(c *cell) pair {
	v := c.pair
	if c.state == isListed && v.tmin != -99 && v.tmax != -99 {
		return v
	}
	if c.state&isListed == 0 || c.state&clashTmin != 0 || t.minus99 && v.tmin == -99 {
		v.tmin = math.NaN()
	}
	if c.state&isListed == 0 || c.state&clashTmax != 0 || t.minus99 && v.tmax == -99 {
		v.tmax = math.NaN()
	}
	return v
}

// span returns the range of indices from the first to the last day with a value.
func (t *table) span() (from, to int) {
	some := func(i int) bool {
		v := t.at(i)
		return !math.IsNaN(v.tmin) || !math.IsNaN(v.tmax)
	}
	from, to = t.from, t.to
	for from < to && !some(from) {
		from++
	}
	for to > from && !some(to-1) {
		to--
	}
	if from >= to {
		return 0, 0
	}
	return from, to
}

// series returns the days from the first to the last value, in °C, and counts them. The days are moved by so many.
func (t *table) series(u Units, shift int, rep *Report) climate.Series {
	t.minus99 = u != TenthsCelsius
	from, to := t.span()
	s := climate.Series{First: windowFirst + climate.Day(from+shift), Tmin: make([]float64, to-from), Tmax: make([]float64, to-from)}
	cells := t.days()
	for i := range s.Tmin {
		c := &cells[from-t.from+i]
		v := t.value(c)
		s.Tmin[i], s.Tmax[i] = u.celsius(v.tmin), u.celsius(v.tmax)
		if t.minus99 && (c.tmin == -99 || c.tmax == -99) {
			rep.Coded++
		}
	}
	t.lay(&s, u, from, rep)
	count(s, rep)
	if t.counts != nil {
		rep.Readings = make([]int, len(s.Tmin))
		for i := range rep.Readings {
			rep.Readings[i] = t.counts[from+i]
		}
	}
	rep.Rows, rep.Flagged, rep.Unsorted = t.rows, t.flagged, t.unsorted
	rep.Coded += t.coded
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
	for _, c := range t.days() {
		days += int(c.state & isListed)
	}
	return t.listed - days
}

// touch notes a row for the day of an index.
func (t *table) touch(i int) {
	t.listed++
	t.from, t.to = min(t.from, i), max(t.to, i+1)
	if i < t.last {
		t.unsorted++
	}
	t.last = i
}
