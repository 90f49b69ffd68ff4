package quality

import (
	"math"

	"frostward/climate"
)

const (
	biweightC     = 7.5 // Lanzante 1996's constant, as Durre et al. use
	outlierValues = 100 // values wanted for a climatology
	outlierWindow = 7   // days to either side
)

// usuals is what is usual for both elements on each day of the year: the biweight mean of the
// days within a week, and one over the biweight standard deviation, 1/°C; NaN where too few
// values are known.
type usuals struct{ mean, per [2][climate.YearDays]float64 }

func (r *record) usuals() *usuals {
	if r.usual != nil {
		return r.usual
	}
	r.usual = new(usuals)
	for e, values := range r.v {
		var byDay [climate.YearDays][]int16
		for i, v := range values {
			if inWorld(v) {
				byDay[r.day[i]] = append(byDay[r.day[i]], int16(tenth(v)))
			}
		}
		var t tenths
		put := func(d int, by int) {
			for _, k := range byDay[(d+climate.YearDays)%climate.YearDays] {
				t.add(int(k), by)
			}
		}
		for d := -outlierWindow; d < outlierWindow; d++ {
			put(d, 1)
		}
		for d := range byDay {
			put(d+outlierWindow, 1)
			mean, sd := t.biweight()
			r.usual.mean[e][d], r.usual.per[e][d] = mean, 1/sd
			put(d-outlierWindow, -1)
		}
	}
	return r.usual
}

// z returns how far a value is from the usual of a day, in standard deviations; NaN where that
// is not known.
func (r *record) z(e Element, i int, v float64) float64 {
	u, d := r.usuals(), r.day[i]
	return (v - u.mean[e][d]) * u.per[e][d]
}

// standard holds the standardised values of both elements, NaN where missing.
type standard [2][]float64

// standardised is kept in step by mask.
func (r *record) standardised() standard {
	for e, values := range r.v {
		if r.zs[e] == nil {
			r.zs[e] = make([]float64, r.len())
			mean, per := &r.usuals().mean[e], &r.usuals().per[e]
			for i, v := range values {
				r.zs[e][i] = (v - mean[r.day[i]]) * per[r.day[i]]
			}
		}
	}
	return r.zs
}

// tenths counts values within the world's bounds by tenths of a degree. Records are kept in
// tenths or coarser, and the rules that use it have thresholds of degrees, so that nothing is
// lost by rounding, while medians of a moving window need no sorting.
type tenths struct {
	count [tenthsZero + 600]int
	n     int
	mid   int // a place, the median's when last asked for
	lower int // values below it
}

const tenthsZero = 900 // the place of 0.0 °C

// tenth returns the place of a value.
func tenth(v float64) int { return int(math.Round(v*10)) + tenthsZero }

// add takes a value in (by 1) or out (by -1).
func (t *tenths) add(place, by int) {
	t.count[place] += by
	t.n += by
	if place < t.mid {
		t.lower += by
	}
}

// value returns the value that a place stands for, °C.
func (t *tenths) value(k int) float64 { return float64(k-tenthsZero) / 10 }

// median returns the place of the upper median of some values.
func (t *tenths) median() int {
	for ; t.lower > t.n/2; t.lower -= t.count[t.mid] {
		t.mid--
	}
	for ; t.lower+t.count[t.mid] <= t.n/2; t.mid++ {
		t.lower += t.count[t.mid]
	}
	return t.mid
}

// both returns how many values lie at a distance to either side of a place.
func (t *tenths) both(mid, off int) (below, above int) {
	if mid-off >= 0 {
		below = t.count[mid-off]
	}
	if mid+off < len(t.count) {
		above = t.count[mid+off]
	}
	return below, above
}

// biweight returns the biweight mean and standard deviation (Lanzante 1996, Int. J. Climatol.
// 16, 1197-1226, from memory): values weighted by (1-u²)² with u their distance from the
// median over c median absolute deviations. NaN where there are too few values, and the
// deviation where more than half of them are the same.
func (t *tenths) biweight() (mean, sd float64) {
	if t.n < outlierValues {
		return math.NaN(), math.NaN()
	}
	mid, mad := t.median(), 0
	for left := t.n/2 + 1 - t.count[mid]; left > 0; {
		mad++
		below, above := t.both(mid, mad)
		left -= below + above
	}
	if mad == 0 {
		return t.value(mid), math.NaN()
	}
	n := float64(t.count[mid])
	sw, swx, num, den := n, 0.0, 0.0, n
	for off := 1; float64(off) < biweightC*float64(mad); off++ {
		below, above := t.both(mid, off)
		if below+above == 0 {
			continue
		}
		n, x := float64(below+above), float64(off)
		u := x / (biweightC * float64(mad))
		v := 1 - u*u
		sw += n * v * v
		swx += float64(above-below) * v * v * x
		num += n * x * x * v * v * v * v
		den += n * v * (1 - 5*u*u)
	}
	return t.value(mid) + swx/sw/10, math.Sqrt(float64(t.n)*num) / math.Abs(den) / 10
}
