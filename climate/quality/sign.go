package quality

import (
	"fmt"
	"math"
)

// A lost sign turns frosts into mild nights, one of the worst things that can happen to a
// record of frosts, and leaves values that are usual in themselves. What tells is a winter
// without any below naught where winters have many (our rules; the limits are from the records
// without known faults, whose mildest winters reached 34).
const (
	signEvidence = 45
	signDrop     = 17 // less than one value below naught
	nearNaught   = 60 // values within 1 °C above naught, and none below
)

// lostSigns asks about stretches of such winters, and about a record that has nothing else.
func (r *record) lostSigns() []Question {
	const ask = "has the minus sign been lost?"
	var out []Question
	for _, e := range []Element{Tmin, Tmax} {
		evidence := make([]float64, r.len())
		below, near, from, to := 0, 0, -1, 0
		for i, v := range r.v[e] {
			evidence[i] = math.NaN()
			if math.IsNaN(v) {
				continue
			}
			if from < 0 {
				from = i
			}
			to = i
			switch {
			case v < 0:
				below++
				evidence[i] = -18
				continue
			case v < 1:
				near++
			}
			// The density of |v| against that of v.
			evidence[i] = math.Log1p(math.Exp(logDensity(r.z(e, i, -v)) - logDensity(r.z(e, i, v))))
		}
		if below == 0 && near >= nearNaught {
			out = append(out, r.question(segment{from, to, 0}, e, "sign",
				fmt.Sprintf("%d values lie between 0 and 1 °C and none below 0", near), ask))
			continue
		}
		for _, s := range segments(evidence, signEvidence, signDrop) {
			n, usual := r.frostsIn(e, s)
			out = append(out, r.question(s, e, "sign",
				fmt.Sprintf("%d values below 0 °C in %d days, where about %.0f are usual", n, s.to-s.from+1, usual), ask))
		}
	}
	return out
}

// frostsIn counts the values below naught in a stretch, and how many are usual in such a one.
func (r *record) frostsIn(e Element, s segment) (n int, usual float64) {
	for i := s.from; i <= s.to; i++ {
		v := r.v[e][i]
		if math.IsNaN(v) {
			continue
		}
		if v < 0 {
			n++
		}
		if z := r.z(e, i, 0); !math.IsNaN(z) {
			usual += 0.5 * math.Erfc(-z/math.Sqrt2)
		}
	}
	return n, usual
}
