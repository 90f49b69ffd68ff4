package quality

import (
	"fmt"
	"math"
)

// A stretch is taken to be in other units when the evidence is beyond doubt. The evidence of
// neighbouring days is not independent: with a lag-one correlation of 0.65, common for daily
// temperatures, n days are worth about n(1-0.65)/(1+0.65) = n/4.7 independent ones. The limits
// are about twice the most that a record without known faults showed (34 for the first and
// second; 74 for the third, in Boulder's cold of February 1899; 21 for the fourth; 40 for the
// last).
const (
	unitsEvidence = 70
	coldEvidence  = 150 // a long hard frost looks like °C read as °F
	signsEvidence = 100
	unitsDrop     = 25
	unitsJoin     = 30 // days between two stretches of one unit that are taken for part of it
)

// otherUnit is a way in which values may have been written or converted wrongly.
type otherUnit struct {
	name     string // what the values seem to be
	ask      string
	scale    float64 // what a value would be in °C: scale times it, plus offset
	offset   float64
	evidence float64 // wanted
}

var otherUnits = [5]otherUnit{
	{"°F in a file of °C", "are these days in °F?", 1 / 1.8, -32 / 1.8, unitsEvidence},
	{"tenths of °C not divided by 10", "are these days in tenths of °C?", 0.1, 0, unitsEvidence},
	{"°C in a file of °F", "are these days in °C, and were they taken for °F?", 1.8, 32, coldEvidence},
	{"°C divided by 10", "were these days divided by 10 once too often?", 10, 0, unitsEvidence},
	{"°C that lost their minus sign", "has the minus sign been lost?", -1, 0, signsEvidence},
}

// unitStretch is a stretch of values that other units explain better.
type unitStretch struct {
	segment
	element Element
	unit    *otherUnit
}

// stretches are the logarithms of the scales: densities change by them.
var stretches = func() (out [len(otherUnits)]float64) {
	for k := range out {
		out[k] = math.Log(math.Abs(otherUnits[k].scale))
	}
	return out
}()

// unitStretches finds them, where there are any.
func (r *record) unitStretches() []unitStretch {
	if !r.anyUnitStretch() {
		return nil
	}
	return r.allUnitStretches()
}

// allUnitStretches finds them, in both elements together and then in each alone.
func (r *record) allUnitStretches() []unitStretch {
	evidence := [3][]([]float64){}
	for e := range evidence {
		for range otherUnits {
			evidence[e] = append(evidence[e], make([]float64, r.len()))
		}
	}
	u := r.usuals()
	for k, o := range otherUnits {
		for _, e := range []Element{Tmin, Tmax} {
			own, both := evidence[e][k], evidence[Both][k]
			for i, v := range r.v[e] {
				d := r.day[i]
				mean, per := u.mean[e][d], u.per[e][d]
				as, is := (o.scale*v+o.offset-mean)*per, (v-mean)*per
				x := logDensity(as) - logDensity(is) + stretches[k]
				if o.scale < 0 && v < 0 {
					x = -18
				}
				if x == x { // not missing
					own[i] = x
					both[i] += x
				}
			}
		}
	}
	var out []unitStretch
	for _, e := range []Element{Both, Tmin, Tmax} {
		var found []unitStretch
		for k := range otherUnits {
			n := len(found)
			for _, s := range segments(evidence[e][k], otherUnits[k].evidence, unitsDrop) {
				if last := len(found) - 1; last >= n && s.from-found[last].to <= unitsJoin {
					found[last].to = s.to
					found[last].score += s.score
					continue
				}
				found = append(found, unitStretch{s, e, &otherUnits[k]})
			}
		}
		for _, f := range found {
			best := true
			for _, o := range found { // of two readings of the same days, the likelier
				best = best && (!o.overlaps(f.segment) || o.score <= f.score)
			}
			for _, o := range out {
				best = best && !o.overlaps(f.segment)
			}
			if best {
				out = append(out, f)
			}
		}
	}
	return out
}

// otherUnitValues flags the values of such stretches.
func otherUnitValues(r *record) []Flag {
	var out []Flag
	for _, s := range r.allUnitStretches() {
		for i := s.from; i <= s.to; i++ {
			for _, e := range []Element{Tmin, Tmax} {
				if v := r.v[e][i]; !math.IsNaN(v) && (s.element == Both || s.element == e) {
					out = append(out, r.flag(i, e, fmt.Sprintf("%.1f °C, in %d days that look like %s", v, s.to-s.from+1, s.unit.name)))
				}
			}
		}
	}
	return out
}
