package quality

import (
	"math"

	"frostward/climate"
)

// usual returns the biweight mean and standard deviation for each day of the year; NaN where
// too few values lie within the window.
func (r *record) usual(e Element) (mean, sd [climate.YearDays]float64) {
	byDay := r.byDay(e)
	t := &r.work.counts
	t.reset()
	of := func(d int) []int16 { return byDay[(d+climate.YearDays)%climate.YearDays] }
	for d := -outlierWindow; d < outlierWindow; d++ {
		t.put(of(d))
	}
	for d := range mean {
		t.put(of(d + outlierWindow))
		mean[d], sd[d] = math.NaN(), math.NaN()
		if t.n >= outlierValues {
			mean[d], sd[d] = t.biweight(&r.work.bell)
		}
		t.take(of(d - outlierWindow))
	}
	return mean, sd
}

// byDay gathers the bins of an element's values within the world's bounds by day of the year.
func (r *record) byDay(e Element) (byDay [climate.YearDays][]int16) {
	r.look()
	var count, at [climate.YearDays]int32
	for _, d := range r.day {
		count[d]++
	}
	r.work.byDay = sized(r.work.byDay, r.len())
	all := r.work.byDay
	for d := 1; d < len(at); d++ {
		at[d] = at[d-1] + count[d-1]
	}
	start := at
	for i, b := range r.bins[e] {
		if b >= 0 {
			d := r.day[i]
			all[at[d]] = b
			at[d]++
		}
	}
	for d := range byDay {
		byDay[d] = all[start[d]:at[d]]
	}
	return byDay
}

// biweight returns the biweight mean and standard deviation (Lanzante 1996, Int. J. Climatol.
// 16, 1197-1226, from memory): values weighted by (1-u²)² with u their distance from the
// median over c median absolute deviations. The deviation is NaN where more than half the
// values are the same.
func (t *tenths) biweight(known *bells) (mean, sd float64) {
	mid := t.median()
	mad := t.mad(mid)
	if mad == 0 {
		return value(mid), math.NaN()
	}
	bell := known.of(mad)
	// The two bins at a distance together, as far as either side has values.
	reach := min(len(bell)-1, max(t.to-1-mid, mid-t.from))
	both := min(reach, mid, tenthsBins-1-mid)
	bell = bell[:reach+1]
	up, down := t.count[mid:mid+both+1], t.count[mid-both:mid+1]
	n := float64(up[0])
	sw, swx, num, den := n, 0.0, 0.0, n
	for k := 1; k <= both; k++ { // an empty bin adds naught: cheaper than to ask
		b, above, below := &bell[k], up[k], down[both-k]
		v, n := b.v, float64(above+below)
		nv, vv := n*v, v*v
		sw += nv * v
		swx += float64(above-below) * vv * b.x
		num += n * b.xx * vv * vv // xx is whole, so that nothing is rounded before v
		den += nv * b.w
	}
	for k := both + 1; k <= reach; k++ { // one side ends with the world's bounds
		b, side, sign := &bell[k], mid-k, -1.0
		if side < 0 {
			side, sign = mid+k, 1
		}
		v, n := b.v, float64(t.count[side])
		sw, swx, num, den = sw+n*v*v, swx+sign*n*v*v*b.x, num+n*b.xx*v*v*v*v, den+n*v*b.w
	}
	return value(mid) + swx/sw/10, math.Sqrt(float64(t.n)*num) / math.Abs(den) / 10
}

// bells keeps what the biweight makes of a distance from the median, by the median absolute
// deviation, both in bins: the days of a year, and most records, share a few dozen of them.
type bells struct{ by [][]bell }

// bell is a distance, its square, 1-u² and 1-5u².
type bell struct{ x, xx, v, w float64 }

// of returns those of the distances that count, from the median's own on.
func (b *bells) of(mad int) []bell {
	if len(b.by) == 0 {
		b.by = make([][]bell, tenthsBins)
	}
	if b.by[mad] == nil {
		all := make([]bell, min(int(biweightC*float64(mad)), tenthsBins)+1)
		for k := range all {
			x := float64(k)
			u := x / (biweightC * float64(mad))
			all[k] = bell{x, x * x, 1 - u*u, 1 - 5*u*u}
		}
		b.by[mad] = all
	}
	return b.by[mad]
}
