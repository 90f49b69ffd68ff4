package quality

import (
	"fmt"
	"math"
	"slices"
)

// way is a way in which the values of days in a row may have been written or converted wrongly:
// in another unit, or without their minus signs. It says of every day how much likelier its
// values are when put right; where the sum over some days is beyond doubt, they are left out and
// asked about.
//
// The evidence of neighbouring days is not independent: with a lag-one correlation of 0.65,
// common for daily temperatures, n days are worth about n(1-0.65)/(1+0.65) = n/4.7 independent
// ones. What is wanted of a unit is about twice the most that a record without known faults
// showed; for signs see lost_signs.go.
type way struct {
	kind     string
	about    string // see Answer
	name     string // what the values seem to be
	ask      string
	scale    float64 // what a value would be in °C: scale times it, plus offset
	offset   float64
	wanted   float64
	drop     float64                                           // see segments
	join     int                                               // likewise, days
	evidence func(w *way, r *record, e Element, out []float64) // by day, NaN where there is none
}

var ways = []way{
	{"units", "fahrenheit", "°F in a file of °C", "are these days in °F?", 1 / 1.8, -32 / 1.8, 70, 25, 30, (*way).usual},
	{"units", "tenths", "tenths of °C not divided by 10", "are these days in tenths of °C?", 0.1, 0, 70, 25, 30, (*way).usual},
	{"units", "celsius", "°C in a file of °F", "are these days in °C, and were they taken for °F?", 1.8, 32, 150, 25, 30, (*way).usual}, // a long hard frost looks like it
	{"units", "divided", "°C divided by 10", "were these days divided by 10 once too often?", 10, 0, 70, 25, 30, (*way).usual},
	{"sign", "no-signs", "°C without minus signs", "has the minus sign been lost?", -1, 0, signWanted, signDrop, 120, (*way).signless},
}

// signs is the last of them.
var signs = &ways[len(ways)-1]

// usual works out how much closer to the usual the values of an element are when put right, by day.
func (w *way) usual(r *record, e Element, out []float64) {
	log, z := math.Log(math.Abs(w.scale)), r.standardised()[e] // densities change by the scale
	mean, per := &r.usuals().mean[e], &r.usuals().per[e]
	for i, v := range r.v[e] {
		d := r.day[i]
		out[i] = logDensity((w.scale*v+w.offset-mean[d])*per[d]) - logDensity(z[i]) + log
	}
}

// misread is some days in a row to be put right in a way, and how much closer to the usual that
// makes them.
type misread struct {
	segment
	element Element
	way     *way
}

// misreads finds such days; of finds that overlap, the one that comes closest to the usual.
func (r *record) misreads() []misread {
	var all []misread
	var memory [3][]float64 // for one way after another
	for k := range ways {
		w := &ways[k]
		for e, evidence := range w.byElement(r, w.evidence, &memory) {
			for _, s := range segments(evidence, w.wanted, w.drop, w.join) {
				if w == signs {
					if Element(e) == Tmax { // alone they keep theirs
						continue
					}
					s.score = r.closerSigned(s, Element(e))
				}
				all = append(all, misread{s, Element(e), w})
			}
		}
	}
	for e := Tmin; e <= Tmax; e++ {
		if r.noSigns(e) {
			all = append(all, misread{segment{0, r.len() - 1, math.Inf(1)}, e, signs})
		}
	}
	slices.SortStableFunc(all, func(a, b misread) int { return compare(b.score, a.score) })
	var out []misread
	for _, m := range all {
		if !slices.ContainsFunc(out, func(o misread) bool { return o.overlaps(m.segment) }) {
			out = append(out, m)
		}
	}
	return out
}

// byElement works out the evidence of the minima, of the maxima, and of both together.
func (w *way) byElement(r *record, of func(*way, *record, Element, []float64), out *[3][]float64) *[3][]float64 {
	for e := range out {
		if out[e] == nil {
			out[e] = make([]float64, r.len())
		}
	}
	a, b := out[Tmin], out[Tmax]
	of(w, r, Tmin, a)
	of(w, r, Tmax, b)
	for i := range a {
		switch {
		case a[i] != a[i]:
			out[Both][i] = b[i]
		case b[i] != b[i]:
			out[Both][i] = a[i]
		default:
			out[Both][i] = a[i] + b[i]
		}
	}
	return out
}

// misreadDays flags the values of such days, and keeps them for Ask.
func misreadDays(r *record) []Flag {
	var out []Flag
	r.found = r.misreads()
	for _, m := range r.found {
		for i := m.from; i <= m.to; i++ {
			for e := Tmin; e <= Tmax; e++ {
				if v := r.v[e][i]; !math.IsNaN(v) && (m.element == Both || m.element == e) {
					out = append(out, r.flag(i, e, fmt.Sprintf("%.1f °C, in %d days that look like %s", v, m.days(), m.way.name)))
				}
			}
		}
	}
	return out
}
