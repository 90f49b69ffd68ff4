package quality

import "math"

// tenths counts values by tenths of a degree over the world's bounds. Records are kept in
// tenths or coarser, and the rules that use it have thresholds of degrees, so that nothing is
// lost by rounding, while medians of a moving window need no sorting.
type tenths struct {
	count    []int32
	n        int
	from, to int // bins outside this range are empty; to not included
}

const (
	tenthsOffset = 900 // bin of 0.0 °C
	tenthsBins   = tenthsOffset + 600
)

func newTenths() *tenths {
	t := new(tenths)
	t.reset()
	return t
}

// reset empties it.
func (t *tenths) reset() {
	t.count = sized(t.count, tenthsBins)
	clear(t.count)
	t.n, t.from, t.to = 0, math.MaxInt, 0
}

// bin returns the bin of a value within the world's bounds.
func bin(v float64) int { return int(math.Round(v*10)) + tenthsOffset }

// value returns the middle of a bin, °C.
func value(b int) float64 { return float64(b-tenthsOffset) / 10 }

// add takes a value in (by 1) or out (by -1).
func (t *tenths) add(v float64, by int32) {
	b := bin(v)
	t.count[b] += by
	t.n += int(by)
	t.from, t.to = min(t.from, b), max(t.to, b+1)
}

// put takes the values of some bins in.
func (t *tenths) put(bins []int16) {
	count, from, to := t.count[:tenthsBins], t.from, t.to
	for _, b := range bins {
		count[b]++
		from, to = min(from, int(b)), max(to, int(b)+1)
	}
	t.n, t.from, t.to = t.n+len(bins), from, to
}

// putKnown is put for bins of which some may be noBin.
func (t *tenths) putKnown(bins []int16) {
	for _, b := range bins {
		if b >= 0 {
			t.count[b]++
			t.n++
			t.from, t.to = min(t.from, int(b)), max(t.to, int(b)+1)
		}
	}
}

// take takes them out again, and closes in on those left, so that nobody walks over the bins of
// another time of the year.
func (t *tenths) take(bins []int16) {
	count := t.count[:tenthsBins]
	for _, b := range bins {
		count[b]--
	}
	t.n -= len(bins)
	if t.n == 0 {
		t.from, t.to = math.MaxInt, 0
		return
	}
	for count[t.from] == 0 {
		t.from++
	}
	for count[t.to-1] == 0 {
		t.to--
	}
}

// median returns the bin of the upper median.
func (t *tenths) median() int {
	left := t.n/2 + 1
	for b := t.from; b < t.to; b++ {
		if left -= int(t.count[b]); left <= 0 {
			return b
		}
	}
	return t.to
}

// mad returns the upper median of the distances from a bin, in bins.
func (t *tenths) mad(mid int) int {
	left := t.n/2 + 1 - int(t.count[mid])
	d := 0
	for left > 0 {
		d++
		if mid-d >= t.from {
			left -= int(t.count[mid-d])
		}
		if mid+d < t.to {
			left -= int(t.count[mid+d])
		}
	}
	return d
}
