package quality

import "math"

// chain foretells each day's two values from those of the day before: the maximum first, then
// the minimum with the maximum known. In it the likelihood of a record can be worked out, and
// that of other readings of some of its values.
type chain struct {
	r      *record
	z      standard
	months *[13]expect
	tails  [2][13]*tails
	stands []float64 // log of each day as it stands after the one before as it stands
}

// reading is one way to read the two values of a day, standardised; NaN where missing.
type reading [2]float64

// chain fits it; nil where a month has too few days.
func (r *record) chain() *chain {
	b := r.hoods()
	for m := 1; m <= 12; m++ {
		if b.months[m].n < outlierValues {
			return nil
		}
	}
	c := &chain{r: r, z: b.z, months: &b.months}
	var count [2][13][tailBins]float64
	for i := 1; i < r.len(); i++ {
		for e, v := range c.rests(i, c.reading(i-1), c.reading(i)) {
			if v.off == v.off {
				count[e][r.month[i]][tailBin(v.off)]++
			}
		}
	}
	for e := range c.tails {
		c.tails[e] = seasonalTails(&count[e])
	}
	c.stands = make([]float64, r.len())
	was := reading{math.NaN(), math.NaN()}
	for i := range c.stands {
		is := c.reading(i)
		c.stands[i] = c.log(i, was, is)
		was = is
	}
	return c
}

// reading reads a day as it stands.
func (c *chain) reading(i int) reading { return reading{c.z[Tmin][i], c.z[Tmax][i]} }

// rest is how far a value is from what is foretold, in the standard deviations that are usual of
// that, and the logarithm of those.
type rest struct{ off, logSD float64 }

// rests returns them for a day read one way after a day read one way; NaN where missing.
func (c *chain) rests(i int, was, is reading) (out [2]rest) {
	x, none := &c.months[c.r.month[i]], math.NaN()
	out[Tmax] = x.rest(Tmax, [hood]float64{was[Tmin], was[Tmax], none, is[Tmax], none, none})
	out[Tmin] = x.rest(Tmin, [hood]float64{was[Tmin], was[Tmax], is[Tmin], is[Tmax], none, none})
	return out
}

// rest is as off, for a value of which nothing else need be known.
func (x *expect) rest(e Element, h [hood]float64) rest {
	w := x.from(e, known(h, e))
	return rest{w.off(h, e), math.Log(w.sd)}
}

// log returns the logarithm of the density of a day's values after those of the day before.
func (c *chain) log(i int, was, is reading) (sum float64) {
	for e, v := range c.rests(i, was, is) {
		if v.off == v.off {
			sum += c.tails[e][c.r.month[i]].at(v.off) - v.logSD
		}
	}
	return sum
}

// mostWays is in how many ways a day may be read at most.
const mostWays = 4

// read works out the likelihood of a record whose days may each be read in some ways, as they
// stand and in others, whichever of them is the right one: the logarithm of what each day adds (the forward pass over a hidden
// Markov chain, Baum et al. 1970, Ann. Math. Stat. 41, 164-171, from memory). To go from the
// first way to another has a chance of turn.
func (c *chain) read(turn float64, ways func(i int, to []reading) []reading) []float64 {
	out := make([]float64, c.r.len())
	var memory [2][mostWays]reading
	var weights [2][mostWays]float64
	was, weight := []reading{{math.NaN(), math.NaN()}}, []float64{1}
	for i := range out {
		is := ways(i, memory[i%2][:0])
		next := weights[i%2][:len(is)]
		if len(was) == 1 && len(is) == 1 { // most days
			next[0] = 1
			out[i], was, weight = c.stands[i], is, next
			continue
		}
		all := 0.0
		for k, v := range is {
			next[k] = 0
			for j, u := range was {
				p := weight[j]
				switch {
				case j > 0:
					p *= math.Exp(c.log(i, u, v))
				case k > 0:
					p *= math.Exp(c.log(i, u, v)) * turn
				default:
					p *= math.Exp(c.stands[i])
				}
				next[k] += p
			}
			all += next[k]
		}
		for k := range next {
			next[k] /= all
		}
		out[i], was, weight = math.Log(all), is, next
	}
	return out
}
