package quality

import "math"

// noBin stands in the bins of a record for a value that is missing or outside the world's bounds.
const noBin = -1

// sight is what one look over a record sees of what the simple rules doubt. Each is false only
// where no value, and no value left when others are taken away, can give its rule a find; values
// outside the world's bounds are looked at as missing, which they are after their own rule.
type sight struct {
	wild    bool // a value outside the world's bounds
	naught  bool // a day as the rule has it
	equal   bool // a month with so many equal days
	swapped bool // a maximum below its minimum
	crossed bool // that, or a night warmer than the day before by more than is allowed
	jump    bool // a step between two days as large as a spike's
	apart   bool // a maximum, and a minimum of its day or beside, as far apart as the rule has it
	taken   int  // record.taken at the time
}

// look looks over the record once: eight rules that each went over it cost four times as much,
// and nearly always for nothing. It fills the bins as well.
func (r *record) look() *sight {
	if r.seen {
		return &r.looked
	}
	r.seen = true
	s := sight{taken: r.taken}
	for e := range r.bins {
		r.bins[e] = sized(r.bins[e], r.len())
	}
	var swapped, crossed, jump, apart bool
	before, above := math.NaN(), math.NaN() // the day before's values
	for _, m := range r.months {
		vn := r.v[Tmin][m.from:m.to]
		vx, bn, bx := r.v[Tmax][m.from:][:len(vn)], r.bins[Tmin][m.from:][:len(vn)], r.bins[Tmax][m.from:][:len(vn)]
		equal := 0
		for i, n := range vn {
			x := vx[i]
			b, ok := quickBin(n)
			if !ok {
				if b, ok = slowBin(n); !ok {
					s.wild = s.wild || n == n
					n = math.NaN()
				}
			}
			bn[i] = b
			if b, ok = quickBin(x); !ok {
				if b, ok = slowBin(x); !ok {
					s.wild = s.wild || x == x
					x = math.NaN()
				}
			}
			bx[i] = b
			// Comparisons with a missing value are false, here as in the rules.
			if x-n < 0.2 { // rare, and the only days for these
				if x == n {
					equal++
				}
				if x < n {
					swapped, crossed = true, true
				}
				s.naught = s.naught || isNaught(n, x)
			}
			if n > above+crossAllow {
				crossed = true
			}
			if math.Abs(n-before) >= spikeSize || math.Abs(x-above) >= spikeSize {
				jump = true
			}
			// The rule's additions are rounded, so a little less is looked for.
			if x-n > laggedRange-0.1 || x-before > laggedRange-0.1 || above-n > laggedRange-0.1 {
				apart = true
			}
			before, above = n, x
		}
		s.equal = s.equal || equal >= equalDays
	}
	s.swapped, s.crossed, s.jump, s.apart = swapped, crossed, jump, apart
	r.looked = s
	return &r.looked
}

// quickBin returns the bin of a value, or noBin where it cannot tell: it is bin for values well
// within the world's bounds, and takes a third of the time. Adding a number whose last binary
// place is worth 1 rounds to a whole number. It rounds halves to the even one, where bin rounds
// them away from naught, so that it does not tell of halves.
func quickBin(v float64) (b int16, ok bool) {
	const ones = 3 << 51
	x := float64(v * 10) // rounded here, so that a machine that multiplies and adds at once does as bin does
	y := x + ones
	k := math.Float64bits(y) - (math.Float64bits(ones) - tenthsOffset) // for large values, far outside
	if math.Abs(x-(y-ones)) < 0.5 && k-lowBin < highBin-lowBin {
		return int16(k), true
	}
	return noBin, false
}

// lowBin and highBin are the bins of the world's bounds, in which lie values outside too.
const (
	lowBin  = tenthsOffset + worldLow*10 + 1
	highBin = tenthsOffset + worldHigh*10
)

// slowBin is quickBin for all values.
func slowBin(v float64) (b int16, ok bool) {
	if !inWorld(v) {
		return noBin, false
	}
	return int16(bin(v)), true
}
