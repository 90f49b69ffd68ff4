package daily

import (
	"fmt"
	"math"
	"slices"

	"frostward/climate"
)

// reading is a temperature at a moment, or the lowest and highest over some hours before it.
type reading struct {
	at    int32 // minutes from the start of windowFirst, by the clock of the file
	hours int16 // over which the values were taken; 0 is at the moment
	pair
}

// maxReadings bounds what is kept: 20 years of a reading each minute.
const maxReadings = 12_000_000

// Days are made of readings where they cover it: some reading in 20 of its hours and no gap above 3 hours. The WMO
// leaves a day's mean out where more than 4 of 24 hours are missing (WMO-No. 100, from memory); the gap is common
// practice, no source: a night's lowest hour must not fall into it.
const (
	hoursWanted = 20
	longestGap  = 3 * 60
)

const minutesADay = 24 * 60

// dayEnds says when a climatological day ends: at an hour by the file's clock; 0 is midnight. Where it ends in the
// morning, the minimum is that of the day it ends on and the maximum that of the day before, as observers enter them.
type dayEnds int

// days returns the day, counted from windowFirst, to which a moment's minimum and maximum belong.
func (e dayEnds) days(minute int32) (ofMin, ofMax int) {
	if e == 0 {
		d := int(minute) / minutesADay
		return d, d
	}
	end := int(minute) - int(e)*60
	d := (end + minutesADay - 1) / minutesADay // the end that comes next
	if e <= 12 {
		return d, d - 1
	}
	return d, d
}

func (e dayEnds) String() string {
	if e == 0 {
		return "midnight to midnight"
	}
	return fmt.Sprintf("the 24 hours to %02d:00", int(e))
}

// someDay gathers one day's readings of an element.
type someDay struct {
	value float64
	n     int    // readings
	hours uint32 // a bit for each hour of the day that has one
	last  int32  // minute of the last
	gap   int32  // the longest between two
}

func (d *someDay) take(at int32, v float64, better func(a, b float64) float64) {
	if d.n == 0 {
		d.value = v
	} else {
		d.value = better(d.value, v)
		d.gap = max(d.gap, at-d.last)
	}
	d.n++
	d.last = at
	d.hours |= 1 << (at % minutesADay / 60)
}

func (d *someDay) covered() bool {
	hours := 0
	for h := d.hours; h != 0; h &= h - 1 {
		hours++
	}
	return hours >= hoursWanted && d.gap <= longestGap
}

// fold makes days of a table's readings, and counts them in its report.
func (t *table) fold(ends dayEnds, shift int, rep *Report) {
	slices.SortStableFunc(t.readings, func(a, b reading) int { return int(a.at) - int(b.at) })
	from, to := math.MaxInt, 0
	for i := range t.readings {
		t.readings[i].at += int32(shift)
		a, b := ends.days(t.readings[i].at)
		from, to = min(from, a, b), max(to, a+1, b+1)
	}
	from = max(from, 0)
	to = min(to, windowDays)
	if from >= to {
		return
	}
	lows, highs := make([]someDay, to-from), make([]someDay, to-from)
	night, whole := make([]bool, to-from), make([]bool, to-from)
	periods := false
	for _, r := range t.readings {
		a, b := ends.days(r.at)
		if a < from || b < from || a >= to || b >= to {
			continue
		}
		if r.tmin == r.tmin {
			lows[a-from].take(r.at, r.tmin, math.Min)
		}
		if r.tmax == r.tmax {
			highs[b-from].take(r.at, r.tmax, math.Max)
		}
		if r.hours > 0 {
			// A night's period ends in the morning; a day's maximum wants the whole day or its afternoon.
			hour := int(r.at) % minutesADay / 60
			periods = true
			night[a-from] = night[a-from] || hour <= 12
			whole[b-from] = whole[b-from] || r.hours >= 23 || hour > 14
		}
	}
	t.counts = make(map[int]int, len(lows))
	for k := range lows {
		v := pair{math.NaN(), math.NaN()}
		if lows[k].n > 0 && (periods && night[k] || !periods && lows[k].covered()) {
			v.tmin = lows[k].value
		}
		if highs[k].n > 0 && (periods && whole[k] || !periods && highs[k].covered()) {
			v.tmax = highs[k].value
		}
		if v.tmin != v.tmin && v.tmax != v.tmax {
			if lows[k].n+highs[k].n > 0 {
				rep.Incomplete++
			}
			continue
		}
		i := from + k
		t.counts[i] = lows[k].n
		c := t.cell(i)
		*c = cell{v, isListed}
		t.from, t.to = min(t.from, i), max(t.to, i+1)
	}
	t.readings = nil
}

// several says whether most days have more than one reading, as a file of one element has not.
func (t *table) several() bool {
	days := map[int]int{}
	for _, r := range t.readings {
		days[int(r.at)/minutesADay]++
	}
	more := 0
	for _, n := range days {
		if n > 1 {
			more++
		}
	}
	return 2*more > len(days)
}

// alone puts a table's readings, one a day, in the place of one element.
func (t *table) alone(e Element) {
	for _, r := range t.readings {
		t.addOne(e, windowFirst+climate.Day(int(r.at)/minutesADay), r.tmin, int(r.hours))
	}
	t.readings = nil
}
