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
	before, above := math.NaN(), math.NaN() // the day before's values
	for _, m := range r.months {
		vn, vx := r.v[Tmin][m.from:m.to], r.v[Tmax][m.from:m.to]
		bn, bx := r.bins[Tmin][m.from:m.to], r.bins[Tmax][m.from:m.to]
		equal := 0
		for i, n := range vn {
			x := vx[i]
			if inWorld(n) {
				bn[i] = int16(quickBin(n))
			} else {
				s.wild = s.wild || n == n
				n, bn[i] = math.NaN(), noBin
			}
			if inWorld(x) {
				bx[i] = int16(quickBin(x))
			} else {
				s.wild = s.wild || x == x
				x, bx[i] = math.NaN(), noBin
			}
			// Comparisons with a missing value are false, here as in the rules.
			if x-n < 0.2 { // rare, and the only days for these
				switch {
				case x == n:
					equal++
				case x < n:
					s.swapped, s.crossed = true, true
				}
				s.naught = s.naught || isNaught(n, x)
			}
			s.crossed = s.crossed || n > above+crossAllow
			s.jump = s.jump || math.Abs(n-before) >= spikeSize || math.Abs(x-above) >= spikeSize
			// The rule's additions are rounded, so a little less is looked for.
			s.apart = s.apart || x-n > laggedRange-0.1 || x-before > laggedRange-0.1 || above-n > laggedRange-0.1
			before, above = n, x
		}
		s.equal = s.equal || equal >= equalDays
	}
	r.looked = s
	return &r.looked
}

// quickBin is bin for values within the world's bounds, in a third of the time: adding a number
// whose last binary place is worth 1 rounds to a whole number, halves to the even one, where bin
// rounds them away from naught.
func quickBin(v float64) int {
	const ones = 3 << 51
	x := float64(v * 10) // rounded here, so that a machine that multiplies and adds at once does as bin does
	y := x + ones
	if d := x - (y - ones); d >= 0.5 || d <= -0.5 {
		return bin(v)
	}
	return int(int32(math.Float64bits(y))) + tenthsOffset
}
