package quality

import (
	"fmt"
	"math"
	"math/bits"
	"slices"

	"frostward/climate"
)

// Our rule for days copied from elsewhere in the record.
const (
	repeatedRun   = 15 // days in a row that are those of another time over again
	repeatedBlock = 8  // how long a piece of one is looked up: each run of twice this less one has a whole one of those kept
	repeatedKinds = 6  // different days among them
	repeatedLeast = 3  // different days in a block that is looked up
)

// pair is a day's two values as one thing to compare; ok is false where one is missing.
func (r *record) pair(i int) (p [2]float64, ok bool) {
	p = [2]float64{r.v[Tmin][i], r.v[Tmax][i]}
	return p, !math.IsNaN(p[0]) && !math.IsNaN(p[1])
}

// repeatedDays flags days in a row whose values are those of other days over again, anywhere in
// the record: the copy, see copies.
func repeatedDays(r *record) []Flag {
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
			if n >= repeatedRun && r.kinds(a, n) >= repeatedKinds {
				one, other := segment{from: a, to: a + n - 1}, segment{from: a + lag, to: a + lag + n - 1}
				for _, c := range r.copies(one, other) {
					add(c.from, n, one.from+other.from-c.from)
				}
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
	for i := 0; i < len(keys); i += repeatedBlock {
		if k := keys[i]; k != 0 {
			places[k] = append(places[k], i)
		}
	}
	tried := make([]bool, r.len())
	for i, k := range keys {
		of := places[k]
		if k == 0 || len(of) == 0 || len(of) == 1 && of[0] == i || r.kinds(i, repeatedBlock) < repeatedLeast {
			continue
		}
		for _, j := range of {
			if lag := max(i, j) - min(i, j); lag > 0 && !tried[lag] {
				tried[lag] = true
				out = append(out, lag)
			}
		}
	}
	return out
}

// sameDays says whether two days have the same two values.
func (r *record) sameDays(i, j int) bool {
	if j >= r.len() {
		return false
	}
	p, ok := r.pair(i)
	q, _ := r.pair(j)
	return ok && p == q
}

// kinds counts the different days among n from one on, up to repeatedKinds.
func (r *record) kinds(from, n int) int {
	var seen [repeatedKinds][2]float64
	k := 0
	for i := from; i < from+n && k < repeatedKinds; i++ {
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
	keys := make([]uint64, max(0, r.len()-repeatedBlock+1))
	day := make([]uint64, r.len())
	key, known := uint64(0), 0
	for i := range day {
		known++
		for e := range r.v {
			v := r.v[e][i]
			if v != v {
				known = 0
			}
			day[i] = (day[i] ^ math.Float64bits(v)) * 0x9e3779b97f4a7c15 // an odd number that mixes well
			day[i] ^= day[i] >> 29
		}
		key = bits.RotateLeft64(key, 7) ^ day[i]
		if i >= repeatedBlock {
			key ^= bits.RotateLeft64(day[i-repeatedBlock], 7*repeatedBlock) // leaves the block
		}
		if known >= repeatedBlock {
			keys[i-repeatedBlock+1] = max(key, 1)
		}
	}
	return keys
}
