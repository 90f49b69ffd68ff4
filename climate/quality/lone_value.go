package quality

import (
	"fmt"
	"math"

	"frostward/climate"
)

const (
	// loneZ is how many standard deviations a value may be from what the other value of its day
	// and those of the days beside lead to expect (our rule; set so that clean records of several
	// climates keep all but a few values in 10,000).
	loneZ = 5.5

	// slipFits is how far off, likewise, a value may be when a slip of the pen is put right, to be
	// taken for one.
	slipFits = 3
)

// slip is a way to write a single value wrongly. The evidence wanted for it, the natural
// logarithm of how much likelier the value is when put right, is less than a value is wanted to
// be off that may be wrong in any way (our rule; seeded_test.go shows what it finds and costs).
type slip struct {
	name     string
	evidence float64
	right    func(e Element, v float64) float64 // NaN where the value cannot be such a one
}

var slips = []slip{
	{"without its minus sign", 6, func(e Element, v float64) float64 {
		if e == Tmax || v <= 0 {
			return math.NaN()
		}
		return -v
	}},
	{"divided by 10", 6, func(_ Element, v float64) float64 { return 10 * v }},
}

// loneValues flags values that neither the other value of their day nor the days beside bear
// out, and those that they would bear out with a slip put right: the farthest off first, after
// which those beside are looked at again without it.
func loneValues(r *record) []Flag {
	type doubt struct {
		off float64
		why string // "" where it is not enough
	}
	z, doubts, beside := r.standardised(), map[place]doubt{}, around{}
	least := loneZ
	for _, s := range slips {
		least = min(least, math.Sqrt(2*s.evidence)) // put right, it could at best be as expected
	}
	look := func(p place) {
		a, c := z.around(p.i, &beside), &r.expectations()[r.month[p.i]]
		off := c.off(a, p.e)
		if !(math.Abs(off) >= least) {
			return
		}
		v, why := r.v[p.e][p.i], ""
		for _, s := range slips {
			right := s.right(p.e, v)
			a[2+p.e] = r.z(p.e, p.i, right)
			if as := c.off(a, p.e); (off*off-as*as)/2 >= s.evidence && math.Abs(as) <= slipFits {
				why = fmt.Sprintf(", and %.1f °C, if it was written %s, would be %.1f", right, s.name, as)
			}
		}
		if why != "" || math.Abs(off) >= loneZ {
			doubts[p] = doubt{off, fmt.Sprintf("%.1f °C is %.1f s.d. from what the values beside lead to expect", v, off) + why}
		}
	}
	for i := range r.len() {
		look(place{i, Tmin})
		look(place{i, Tmax})
	}
	var out []Flag
	for len(doubts) > 0 {
		var worst place
		most := 0.0
		for p, d := range doubts { // of equals the earlier, so that the order of a map does not matter
			if off := math.Abs(d.off); off > most || off == most && (p.i < worst.i || p.i == worst.i && p.e < worst.e) {
				worst, most = p, off
			}
		}
		out = append(out, r.flag(worst.i, worst.e, doubts[worst].why))
		z[worst.e][worst.i] = math.NaN()
		for i := max(0, worst.i-1); i <= min(r.len()-1, worst.i+1); i++ {
			for e := Tmin; e <= Tmax; e++ {
				delete(doubts, place{i, e})
				look(place{i, e})
			}
		}
	}
	return out
}

// UnborneZ is how far from its expectation a value that decides a frost date is worth a question
// (our rule): of 4,093 such dates of 44 records, 21 lie beyond.
const UnborneZ = 3.5

// Unborne returns how many standard deviations the minima of some days are from what the other
// values of those days and of the days beside lead to expect: what the rule "lone value" looks
// at, for values that it lets pass but on which more rests than on others. NaN where that is
// not known.
func Unborne(s climate.Series, days []climate.Day) []float64 {
	r := newRecord(s)
	z, c := r.standardised(), r.expectations()
	out := make([]float64, len(days))
	for k, d := range days {
		out[k] = math.NaN()
		if i := int(d - s.First); i >= 0 && i < s.Len() {
			out[k] = c[r.month[i]].off(z.around(i, new(around)), Tmin)
		}
	}
	return out
}

func compare(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}
