package quality

import "math"

// What is wanted finds of winters that lost the signs of more than 30 minima all, of 16 to 30
// three in four, and asks about none in 2,150 years of clean records, which have 12.8 at most
// (see measure_long_test.go).
const (
	signWanted = 14
	signDrop   = 17    // less than what one value below zero is worth
	signThere  = -18   // evidence of a value below zero
	signMost   = 3     // of one value: what is far off may be wrong in another way
	signDay    = -0.02 // of every day, so that they do not begin with a summer, which says nothing
)

// nearZero is how many values within 1 °C above zero, and none below, a whole record must have to
// be taken for one without minus signs (our rule).
const nearZero = 60

// noSigns says whether an element has lost its minus signs in all of the record: there is
// nothing else to go by then.
func (r *record) noSigns(e Element) bool {
	near := 0
	for _, v := range r.v[e] {
		if v < 0 {
			return false
		}
		if v < 1 {
			near++
		}
	}
	return near >= nearZero
}

// signless works out the evidence that each value of an element is one of days that lost their
// minus signs: with the rest of its day and the day before known, it is as likely as it and its
// negative are together. The day before is read in the likelier of its two ways.
func (*way) signless(r *record, e Element, out []float64) {
	z, c, a := r.standardised(), r.expectations(), new(around)
	none := math.NaN()
	before := none // yesterday's value as read, standardised
	for i, v := range r.v[e] {
		was := before
		before = z[e][i]
		if v < 0 {
			out[i] = signThere
			continue
		}
		minus := r.z(e, i, -v)
		if minus < -countableZ { // no reading
			out[i] = signDay
			continue
		}
		z.around(i, a)
		a[4], a[5] = none, none
		off, sd := c[r.month[i]].offSD(a, e)
		is := logDensity(off)
		if was != a[e] && was == was && a[e] == a[e] {
			a[e] = was
			off, sd = c[r.month[i]].offSD(a, e)
		}
		plus, without := logDensity(off), logDensity(off+(minus-before)/sd)
		if without > plus {
			before = minus
		}
		out[i] = signDay + min(signMost, math.Log(math.Exp(plus)+math.Exp(without))-is)
	}
}

// closerSigned is how much closer to the usual signs bring the values of some days that have
// none, to compare with what other ways do.
func (r *record) closerSigned(s segment, e Element) (sum float64) {
	for k, v := range signs.byElement(r, (*way).usual, new([3][]float64))[e][s.from : s.to+1] {
		if v == v && v > 0 && r.v[Tmin][s.from+k] > 0 {
			sum += v
		}
	}
	return sum
}
