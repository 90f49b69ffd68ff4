package chart

import (
	"math"
	"strconv"

	"frostward/climate"
)

// axis maps values to pixels along one side of a picture.
type axis struct {
	from, to float64 // values at its ends
	label    string
	ticks    []tick
}

type tick struct {
	at    float64 // where the line stands
	label string
	to    float64 // the label stands in the middle between at and to
	faint bool    // a line without a label
}

// dates is an axis of season days with a tick at the start of each month.
func dates(c climate.Calendar, from, to climate.SeasonDay, pixels float64) axis {
	a := axis{from: float64(from), to: float64(to)}
	start := from
	flush := func(end climate.SeasonDay) {
		t := tick{at: float64(start), to: float64(end)}
		wide := float64(end-start) * pixels / max(a.to-a.from, 1)
		m, _ := c.MonthDay(start)
		switch name := m.String(); {
		case wide >= 28:
			t.label = name[:3]
		case wide >= 12:
			t.label = name[:1]
		}
		a.ticks = append(a.ticks, t)
	}
	for d := from + 1; d <= to; d++ {
		if _, day := c.MonthDay(d); day == 1 && d < to {
			flush(d)
			start = d
		}
	}
	flush(to)
	return a
}

// numbers is an axis with round steps that spans the values, some four to six of them.
func numbers(label string, low, high float64) axis {
	if !(low < high) { // equal, or NaN
		if math.IsNaN(low) || math.IsNaN(high) {
			low, high = 0, 1
		}
		low, high = low-1, high+1
	}
	step := niceStep((high - low) / 4)
	first, last := math.Floor(low/step+1e-9), math.Ceil(high/step-1e-9)
	a := axis{from: first * step, to: last * step, label: label}
	for k := first; k <= last; k++ {
		v := k * step
		a.ticks = append(a.ticks, tick{at: v, to: v, label: number(v)})
	}
	return a
}

// niceStep is the least of 1, 2 and 5 times a power of ten that is not below v.
func niceStep(v float64) float64 {
	p := math.Pow(10, math.Floor(math.Log10(v)))
	for _, m := range []float64{1, 2, 5} {
		if m*p >= v*(1-1e-9) {
			return m * p
		}
	}
	return 10 * p
}

// number writes a value with at most two decimals and no zeros at the end.
func number(v float64) string {
	v = math.Round(v*100) / 100
	if v == 0 {
		v = 0 // not -0
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// chances is an axis of shares, said as years in 10.
func chances(label string) axis {
	a := axis{from: 0, to: 1, label: label}
	for _, t := range []struct {
		share float64
		words string
	}{{0, "never"}, {0.1, "1 in 10"}, {0.2, ""}, {0.5, "5 in 10"}, {0.8, ""}, {0.9, "9 in 10"}, {1, "always"}} {
		a.ticks = append(a.ticks, tick{at: t.share, to: t.share, label: t.words, faint: t.words == ""})
	}
	return a
}

// span returns the least and greatest of some values; NaN when there are none.
func span(lists ...[]float64) (low, high float64) {
	low, high = math.NaN(), math.NaN()
	for _, l := range lists {
		for _, v := range l {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				continue
			}
			if !(v >= low) {
				low = v
			}
			if !(v <= high) {
				high = v
			}
		}
	}
	return low, high
}
