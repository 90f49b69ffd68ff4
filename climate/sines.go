package climate

import (
	"math"
	"slices"
)

// Sines are days laid out for degree-days by the single sine above one base after another: what
// does not hang on the base is worked out once, and what is left is a line's two numbers and a
// look at the sine's table, without a branch that a processor would have to guess.
//
// The zero Sines is ready for Lay.
type Sines struct {
	// A temperature T stands at T*scale+shift on wideSine.
	scale, shift []float64
	half, high   []float64 // half of the day's range, and its maximum
}

// Lay lays out the days from day from on, of which none may be missing. What is laid out for days
// before it stays; what was for those after is of no more use.
func (s *Sines) Lay(from int, tmin, tmax []float64) {
	to := from + len(tmin)
	for _, v := range []*[]float64{&s.scale, &s.shift, &s.half, &s.high} {
		*v = slices.Grow((*v)[:min(len(*v), from)], to-min(len(*v), from))[:to]
	}
	scale, shift, half, high := s.scale[from:to], s.shift[from:to], s.half[from:to], s.high[from:to]
	tmax = tmax[:len(tmin)]
	for i, low := range tmin {
		top := tmax[i]
		if low > top {
			low, top = top, low
		}
		h := max((top-low)/2, 1e-9) // a day that stands still has a place too
		per := sineCells / 2 / h
		scale[i], shift[i] = per, sineCells/2+1-per*((low+top)/2)
		half[i], high[i] = h, top
	}
}

// Sum adds degree-days up: sum[d+1] is sum[d] and those of day d, times its weight, for the days
// from one up to another, not included. Each is Day's but for rounding. It is for the single sine
// without a limit or with a horizontal one.
func (g DegreeDays) Sum(sum []float64, s *Sines, weight []float64, from, to int) {
	if g.Method != SingleSine || g.Limit > Horizontal {
		panic("climate: Sum is for the single sine, its limit horizontal")
	}
	total := sum[from]
	out := sum[from+1 : to+1]
	scale, shift := s.scale[from:][:len(out)], s.shift[from:][:len(out)]
	half, high, weight := s.half[from:][:len(out)], s.high[from:][:len(out)], weight[from:][:len(out)]
	base, upper := g.Base, g.Upper
	if g.Limit == NoLimit {
		upper = math.Inf(1) // no day is above it
	}
	if upper < oftenReached && slices.ContainsFunc(high, func(t float64) bool { return t > upper }) {
		// Without a branch, as above the limit there is nothing on most days.
		for i := range out {
			d := sineAt(base*scale[i]+shift[i]) - sineAt(upper*scale[i]+shift[i])
			total += d * half[i] * weight[i]
			out[i] = total
		}
		return
	}
	for i := range out {
		d := sineAt(base*scale[i] + shift[i])
		if high[i] > upper {
			d -= sineAt(upper*scale[i] + shift[i])
		}
		total += d * half[i] * weight[i]
		out[i] = total
	}
}

// oftenReached is a limit, °C, below which looking at it on every day is quicker than asking on
// which days it is reached, in a cool climate.
const oftenReached = 28.0

// wideSine is sineTable with a cell on either side that goes on in a straight line: the mean of a
// sine above what it never falls below, and above what it never reaches.
var wideSine = func() (t [sineCells + 3]float64) {
	t[0] = 1 + 2./sineCells
	copy(t[1:], sineTable[:])
	return t
}()

// sineAt is wideSine at a place, which may lie far outside. A min and a max of whole numbers are
// compiled to jumps that no processor can foretell, so they are done by bits here: a third of the
// time on real days.
func sineAt(u float64) float64 {
	k := int(u)
	k &^= k >> 63 // at least 0
	k -= sineCells + 1
	k = k&(k>>63) + sineCells + 1 // at most the last cell
	v := wideSine[k]
	return v + (u-float64(k))*(wideSine[k+1]-v)
}
