package night

import "math"

// Past is what a method said for an earlier night, and what came, °C.
type Past struct {
	Said, Came float64
	Usual      float64 // the usual minimum for the date; NaN where not known
}

// Belief is what is known of a method's errors before any is logged.
type Belief struct {
	Bias  float64 // standard deviation of its mean error, °C
	Slope float64 // standard deviation of its slope about 1 less Overdone
	// Overdone is the share of its departures from the usual that are believed to be too much.
	Overdone float64
	Spread   float64 // standard deviation of one night's error, °C
	Worth    float64 // the number of nights that Spread is worth
}

// Correction is how a method has erred: what comes is, on average,
//
//	Usual + Bias + Slope*(Said - Usual)
//
// A slope below 1 says that the method overdoes warm and cold alike, and is best drawn
// toward the usual.
type Correction struct {
	Bias, Slope float64
	Spread      float64 // of one night about that, °C
	Nights      int

	cov [2][2]float64
}

// Correct learns a method's errors from its past nights: a regression with a normal
// prior, no bias and a slope of 1 less Overdone with the spreads of the belief, and the same
// spread for each night. Where the usual is not known, only the bias is learned.
func Correct(past []Past, b Belief) Correction {
	c := Correction{Slope: 1, Spread: b.Spread}
	// Three rounds: the spread that weighs the nights against the belief is itself learned.
	for range 3 {
		p00, p11, p01 := 1/(b.Bias*b.Bias), 1/(b.Slope*b.Slope), 0.0
		r0, r1 := 0.0, p11*(1-b.Overdone)
		w := 1 / (c.Spread * c.Spread)
		n := 0
		for _, q := range past {
			x, y, ok := q.departures()
			if !ok {
				continue
			}
			n++
			if math.IsNaN(q.Usual) {
				p00 += w
				r0 += w * (y - x)
				continue
			}
			p00, p01, p11 = p00+w, p01+w*x, p11+w*x*x
			r0, r1 = r0+w*y, r1+w*x*y
		}
		det := p00*p11 - p01*p01
		c.cov = [2][2]float64{{p11 / det, -p01 / det}, {-p01 / det, p00 / det}}
		c.Bias = (p11*r0 - p01*r1) / det
		c.Slope = (p00*r1 - p01*r0) / det
		ss := b.Worth * b.Spread * b.Spread
		for _, q := range past {
			if x, y, ok := q.departures(); ok {
				e := y - c.Bias - c.Slope*x
				if math.IsNaN(q.Usual) {
					e = y - c.Bias - x
				}
				ss += e * e
			}
		}
		c.Spread = math.Sqrt(ss / (b.Worth + float64(n)))
		c.Nights = n
	}
	return c
}

// departures are what was said and what came, from the usual or from 0.
func (q Past) departures() (x, y float64, ok bool) {
	u := q.Usual
	if math.IsNaN(u) {
		u = 0
	}
	x, y = q.Said-u, q.Came-u
	return x, y, !math.IsNaN(x) && !math.IsNaN(y)
}

// Apply returns the corrected minimum, the standard deviation of what comes about it,
// and the part of that which more logged nights would take away, °C.
func (c Correction) Apply(said, usual float64) (tmin, sd, open float64) {
	if math.IsNaN(usual) {
		return said + c.Bias, math.Hypot(c.Spread, math.Sqrt(c.cov[0][0])), math.Sqrt(c.cov[0][0])
	}
	x := said - usual
	open = math.Sqrt(c.cov[0][0] + 2*x*c.cov[0][1] + x*x*c.cov[1][1])
	return usual + c.Bias + c.Slope*x, math.Hypot(c.Spread, open), open
}
