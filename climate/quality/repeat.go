package quality

import (
	"fmt"
	"math"
	"slices"

	"frostward/climate"
)

// Our rules for values copied from elsewhere in the record, or held on to.
const (
	sameDays     = 6    // days in a row with the same two values
	sameChance   = 1e-4 // chance that a record has one run of one value as long as is flagged
	sameLeast    = 8    // days that such a run has at least
	stretchDays  = 15   // days in a row that are those of another time over again
	stretchBlock = 8    // how long a piece of one is looked up: each stretch of twice this less one has a whole one of those kept
	stretchKinds = 6    // different days among them
	stretchLeast = 3    // different days in a block that is looked up
)

// pair is a day's two values as one thing to compare; ok is false where one is missing.
func (r *record) pair(i int) (p [2]float64, ok bool) {
	p = [2]float64{r.v[Tmin][i], r.v[Tmax][i]}
	return p, !math.IsNaN(p[0]) && !math.IsNaN(p[1])
}

// sameDay flags days in a row with the same two values.
func sameDay(r *record) []Flag {
	var out []Flag
	n := r.len()
	for i := 0; i < n; {
		p, ok := r.pair(i)
		j := i + 1
		for ok && j < n && r.v[Tmin][j] == p[0] && r.v[Tmax][j] == p[1] {
			j++
		}
		if j-i >= sameDays {
			for k := i; k < j; k++ {
				out = append(out, r.flag(k, Both, fmt.Sprintf("%.1f and %.1f °C on %d days in a row", p[0], p[1], j-i)))
			}
		}
		i = j
	}
	return out
}

// sameValue flags runs of one value, shorter than the published rule's, that chance would hardly
// make even once in a record of this length: with a share p of days like the day before, a run
// of k days starts on any day with a chance of about p^(k-1). The longest runs of the real
// records tried are as short as that says: five days in 45,000 with p = 0.076.
func sameValue(r *record) []Flag {
	var out []Flag
	for _, e := range []Element{Tmin, Tmax} {
		v := r.v[e]
		same, days := 0.0, 0.0
		for i := 1; i < len(v); i++ {
			switch {
			case v[i] == v[i-1]:
				same++
				days++
			case v[i] != v[i-1] && v[i] == v[i] && v[i-1] == v[i-1]:
				days++
			}
		}
		if days < outlierValues || same == days { // where nothing ever changes no run is out of the ordinary
			continue
		}
		p := max(same, 1) / days
		long := max(sameLeast, 1+int(math.Ceil(math.Log(sameChance/days)/math.Log(p))))
		for i := 0; i < len(v); {
			j := i + 1
			for j < len(v) && v[j] == v[i] {
				j++
			}
			if j-i >= long {
				for k := i; k < j; k++ {
					out = append(out, r.flag(k, e, fmt.Sprintf("%.1f °C on %d days in a row, where %d would be out of the ordinary", v[k], j-i, long)))
				}
			}
			i = j
		}
	}
	return out
}

// repeatedStretch flags stretches of days whose values are those of another stretch over
// again, anywhere in the record. Both are flagged, since which came first cannot be told.
func repeatedStretch(r *record) []Flag {
	var out []Flag
	flagged := map[int]bool{}
	add := func(from, n, other int) {
		for i := from; i < from+n; i++ {
			if !flagged[i] {
				flagged[i] = true
				out = append(out, r.flag(i, Both, fmt.Sprintf("%d days are those from %v over again", n, r.first+climate.Day(other))))
			}
		}
	}
	for _, lag := range r.lags() {
		for a := 0; a+lag < r.len(); a++ {
			n := 0
			for r.sameDays(a+n, a+n+lag) {
				n++
			}
			if n >= stretchDays && r.kinds(a, n) >= stretchKinds {
				add(a, n, a+lag)
				add(a+lag, n, a)
			}
			a += n
		}
	}
	return out
}

// lags returns how many days apart two blocks of days lie that are the same, each number once:
// what is copied, however often and in whatever pieces, has one of few. Blocks that hardly
// change are not looked up, as in a record that stands still each is like all others.
func (r *record) lags() (out []int) {
	keys := r.blockKeys()
	places := map[uint64][]int{}
	var might [1 << 16]bool // by the key's low bits: nearly always tells that none was seen
	for i := 0; i < len(keys); i += stretchBlock {
		if k := keys[i]; k != 0 && r.kinds(i, stretchBlock) >= stretchLeast {
			places[k] = append(places[k], i)
			might[k&0xffff] = true
		}
	}
	tried := make([]bool, r.len())
	for i, k := range keys {
		if k == 0 || !might[k&0xffff] {
			continue
		}
		for _, j := range places[k] {
			if lag := max(i, j) - min(i, j); lag > 0 && !tried[lag] {
				tried[lag] = true
				out = append(out, lag)
			}
		}
	}
	return out
}

// sameDays tells whether two days have the same two values.
func (r *record) sameDays(i, j int) bool {
	if j >= r.len() {
		return false
	}
	p, ok := r.pair(i)
	q, _ := r.pair(j)
	return ok && p == q
}

// kinds counts the different days among n from one on, up to stretchKinds.
func (r *record) kinds(from, n int) int {
	var seen [stretchKinds][2]float64
	k := 0
	for i := from; i < from+n && k < stretchKinds; i++ {
		if p, _ := r.pair(i); !slices.Contains(seen[:k], p) {
			seen[k] = p
			k++
		}
	}
	return k
}

// blockKeys returns a number for each block of days that starts at an index, the same for the
// same values; 0 where a value is missing. Different values may share one, so a match is looked
// at again.
func (r *record) blockKeys() []uint64 {
	if r.len() < stretchBlock {
		return nil
	}
	const base = 0x9e3779b97f4a7c15
	out := uint64(1) // base to the power of stretchBlock
	for range stretchBlock {
		out *= base
	}
	day := make([]uint64, r.len())
	keys := make([]uint64, r.len()-stretchBlock+1)
	sum, known := uint64(0), 0
	for i := range day {
		if p, ok := r.pair(i); ok {
			day[i] = math.Float64bits(p[0])*31 + math.Float64bits(p[1])
			day[i] ^= day[i] >> 29
			day[i] *= base
			known++
		} else {
			known = 0
		}
		sum = sum*base + day[i]
		if i >= stretchBlock {
			sum -= day[i-stretchBlock] * out
		}
		if known >= stretchBlock {
			k := sum ^ sum>>31
			keys[i-stretchBlock+1] = max(k, 1)
		}
	}
	return keys
}
