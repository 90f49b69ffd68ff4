package daily

import (
	"fmt"
	"math"
	"strings"

	"frostward/climate"
)

// evidence is what the values of a file say of their unit, in the numbers of the file. It may be gathered from
// several files of one layout.
//
// A unit is possible if the values, read in it, could have been measured where somebody gardens. Where just one
// unit is possible it is taken; where two are, the user is asked. The bounds are wide on purpose, from memory of
// the world's extremes: hottest day 56.7 °C (Death Valley, 1913), hottest month 49 °C by day (there, July 2018) and
// about 36 °C by night (the Gulf), coldest month about -50 °C (Oymyakon). Where a whole year is there, its warmest
// month has 10 °C by day at least: below that is tundra (Köppen's limit, there for the daily mean).
type evidence struct {
	sum, square [2][13]float64 // of minima and maxima, by month
	n           [2][13]int
	counts      [2][histogram]int32 // of values, in whole numbers from histogramFrom
	rangeSum    float64             // maximum less minimum
	ranges      int
	whole       bool // all values are whole numbers
	days        int
}

const (
	histogramFrom = -1000
	histogram     = 5000
	// monthEnough is the number of days from which a month of the year counts.
	monthEnough = 15
)

// add takes in the values of a table.
func (e *evidence) add(t *table) {
	if e.days == 0 {
		e.whole = true
	}
	month, left := 0, 0
	days := t.days()
	for i := range days {
		if left == 0 {
			y, m, d := (windowFirst + climate.Day(t.from+i)).Date()
			month, left = int(m), daysIn(y, int(m))-d+1
		}
		left--
		day := t.value(&days[i])
		if day.tmin == day.tmin {
			e.value(0, month, day.tmin)
		}
		if day.tmax == day.tmax {
			e.value(1, month, day.tmax)
			if day.tmin == day.tmin {
				e.rangeSum += day.tmax - day.tmin
				e.ranges++
			}
		}
		if day.tmax == day.tmax || day.tmin == day.tmin {
			e.days++
		}
	}
}

func (e *evidence) value(k, month int, v float64) {
	e.sum[k][month] += v
	e.square[k][month] += v * v
	e.n[k][month]++
	floor := math.Floor(v)
	e.counts[k][max(0, min(histogram-1, int(floor)-histogramFrom))]++
	e.whole = e.whole && v == floor
}

// quantile is the whole number below which a share of an element's values lies.
func (e *evidence) quantile(k int, share float64) float64 {
	total := int32(0)
	for _, n := range e.counts[k] {
		total += n
	}
	sum := int32(0)
	for i, n := range e.counts[k] {
		if sum += n; float64(sum) > share*float64(total) {
			return float64(i + histogramFrom)
		}
	}
	return math.NaN()
}

// monthly returns an element's warmest and coldest month and the standard deviation of days within months, in the
// unit of the file; months is how many have days enough. With fewer days than make a month, all are one.
func (e *evidence) monthly(k int) (warm, cold, deviation float64, months int) {
	warm, cold = math.Inf(-1), math.Inf(1)
	var within float64
	var n int
	sum, count := 0.0, 0
	for m := 1; m <= 12; m++ {
		sum, count = sum+e.sum[k][m], count+e.n[k][m]
		if e.n[k][m] < monthEnough {
			continue
		}
		months++
		mean := e.sum[k][m] / float64(e.n[k][m])
		warm, cold = max(warm, mean), min(cold, mean)
		within += e.square[k][m] - float64(e.n[k][m])*mean*mean
		n += e.n[k][m] - 1
	}
	if months == 0 && count > 0 {
		return sum / float64(count), sum / float64(count), math.NaN(), 0
	}
	return warm, cold, math.Sqrt(max(within, 0) / float64(n)), months
}

// impossible says why the values cannot be in a unit, or "". With gross set it looks only at what no faulty
// instrument would do to a whole record, for a unit that the file states.
func (e *evidence) impossible(u Units, gross bool) string {
	degree := u.celsius(1) - u.celsius(0) // a difference of 1 in °C
	hottest := [2]float64{42, 54}         // of 199 days in 200, by night and by day
	warmest := [2]float64{38, 51}         // month
	garden := [2]float64{0.5, 10}         // the warmest month of the year has at least
	words := [2]string{"by night", "by day"}
	for k := range 2 {
		warm, cold, deviation, months := e.monthly(k)
		if math.IsInf(warm, 0) {
			continue
		}
		hot, frost := u.celsius(e.quantile(k, 0.995)), u.celsius(e.quantile(k, 0.005)+1)
		w, c := u.celsius(warm), u.celsius(cold)
		switch {
		case w > warmest[k] || hot > hottest[k]:
			return fmt.Sprintf("%.0f °C %s in the warmest month", w, words[k])
		case c < -58 || frost < -66:
			return fmt.Sprintf("%.0f °C %s in the coldest month", c, words[k])
		case gross:
		case months == 12 && w < garden[k], months >= 6 && k == 1 && w < 0:
			return fmt.Sprintf("no more than %.0f °C %s in the warmest month", w, words[k])
		case u == TenthsCelsius && (deviation*degree < 0.6 || months == 12 && deviation*degree < 1):
			return "days that hardly differ"
		}
	}
	if mean := e.rangeSum / float64(e.ranges) * degree; !gross && e.ranges >= 20 {
		switch few := e.ranges < 300; {
		case mean < 1.5, !few && mean < 3:
			return fmt.Sprintf("days and nights %.1f °C apart", mean)
		case mean > 26, !few && mean > 22:
			return fmt.Sprintf("days and nights %.0f °C apart", mean)
		}
	}
	return ""
}

// unit finds the unit from the values, or says why it cannot be known. The units to choose from may be fewer where
// the layout rules some out.
func (e *evidence) unit(from ...Units) (Units, error) {
	if e.days == 0 {
		return Celsius, nil // nothing to convert
	}
	if len(from) == 0 {
		from = []Units{Celsius, Fahrenheit, TenthsCelsius, Kelvin}
	}
	var possible []Units
	var names, reasons []string
	for _, u := range from {
		if u == TenthsCelsius && !e.whole {
			continue
		}
		if why := e.impossible(u, false); why != "" {
			reasons = append(reasons, fmt.Sprintf("in %s it would have %s", u, why))
			continue
		}
		possible = append(possible, u)
		names = append(names, u.String())
	}
	switch len(possible) {
	case 1:
		return possible[0], nil
	case 0:
		return "", fmt.Errorf("does not say its unit, and its values fit none: %s; state it (--units c, f, tenths or k)", strings.Join(reasons, ", "))
	}
	return "", fmt.Errorf("does not say its unit, and its values (%d days) could be in %s; state it (--units c, f, tenths or k)",
		e.days, strings.Join(names, " or "))
}

// contradicts says why a file cannot be in the unit that it states, or "".
func (e *evidence) contradicts(u Units) string {
	if e.days < 20 {
		return ""
	}
	why := e.impossible(u, true)
	if why == "" {
		return ""
	}
	for _, other := range []Units{Celsius, Fahrenheit, TenthsCelsius, Kelvin} {
		if other != u && e.impossible(other, false) == "" {
			return fmt.Sprintf("in %s it would have %s, and in %s not", u, why, other)
		}
	}
	return ""
}
