package generator

import (
	"math"
	"math/rand/v2"

	"frostward/climate"
)

// swings are what whole half-years stand off their climate, over and above what stretches of
// a month joined in their states add up to: some summers are warm from end to end.
type swings struct {
	off   [2][]float64 // by half-year of record: mean residual; half h of year y is 2y+h
	known []bool       // both have enough days
	scale float64      // the part of it that the pieces lack
}

// half is the length of a half-year. The halves of a season's year are winter and spring up
// to midsummer's day, and the rest.
const half = 182

// trialSeasons is how many seasons are made to see what the pieces give: the standard
// deviation of half-years is then known to about 5 %.
const trialSeasons = 100

// fitSwings compares the half-years of the record with those of seasons made without swings,
// and keeps the part of the variance that those lack.
func (m *Model) fitSwings() {
	w := &m.swings
	n := 2 * m.rec.years
	w.known = make([]bool, n)
	for v := range 2 {
		w.off[v] = make([]float64, n)
	}
	for h := range n {
		from, to := h/2*year+h%2*half, h/2*year+half+h%2*(year-half)
		var sum [2]float64
		var days int
		for i := from; i < to; i++ {
			if a, b := m.z[0][i], m.z[1][i]; a+b == a+b { // neither is NaN
				sum[0] += a
				sum[1] += b
				days++
			}
		}
		if w.known[h] = days > half*3/4; w.known[h] {
			for v := range 2 {
				w.off[v][h] = sum[v] / float64(days)
			}
		}
	}
	record, made := m.halfVariance(), m.trialVariance()
	// One share for both temperatures, since each alone is known poorly.
	// Without half-years to go by it is NaN, and the swing stays out.
	if lack := 1 - (made[0]/record[0]+made[1]/record[1])/2; lack > 0 {
		w.scale = math.Sqrt(lack)
	}
}

// halfVariance returns the variance of the record's half-years about 0.
func (m *Model) halfVariance() (out [2]float64) {
	for v := range 2 {
		var n float64
		for h, known := range m.swings.known {
			if known {
				out[v] += m.swings.off[v][h] * m.swings.off[v][h]
				n++
			}
		}
		out[v] /= max(n-1, 1)
	}
	return out
}

// trialVariance is halfVariance of seasons made from equally weighted years.
func (m *Model) trialVariance() (out [2]float64) {
	w := &world{rng: rand.New(rand.NewPCG(1, 1)), pick: make([]float64, m.rec.years)}
	var sum float64
	for y := range w.pick {
		sum += float64(m.level.count[y])
		w.pick[y] = sum
	}
	s := climate.NewSeason(0)
	var n float64
	for range trialSeasons {
		m.fill(w, s, 0, climate.SpanLen, false)
		for from := half / 2; from+half <= climate.SpanLen; from += half {
			for v, t := range [2][]float64{s.Tmin, s.Tmax} {
				var mean float64
				for _, z := range t[from : from+half] {
					mean += z / half
				}
				out[v] += mean * mean
			}
			n++
		}
	}
	for v := range 2 {
		out[v] /= n
	}
	return out
}

// spanHalves is how many half-years a season's span touches, from that in which it begins.
const spanHalves = 5

// passage is the part of a half-year over which a swing passes into the next, either side of
// the day on which the half ends.
const passage = 1. / 6

// mix says which half-year's swing a day of the span has, and how much of the next one's.
type mix struct {
	half int
	next float64
}

func newMixes() (out [climate.SpanLen]mix) {
	for i := range out {
		// Half-years from the one before the season's first day, in which the span begins.
		x := float64(int(climate.SpanFrom)+i+year-half) / half
		end := math.Round(x)
		if d := x - end; end >= 1 && math.Abs(d) < passage {
			out[i] = mix{int(end) - 1, 0.5 + d/(2*passage)}
		} else {
			out[i] = mix{int(x), 0}
		}
	}
	return out
}

var mixes = newMixes()

// swing adds to a season's residuals, from a day on, the swings of successive half-years of
// record beginning in a year drawn for the world. Over the first rise days they come in by
// degrees: where days before are known, their state already carries what is to be seen of
// this year's swing.
func (m *Model) swing(w *world, s climate.Season, from, rise int) {
	if m.swings.scale == 0 {
		return
	}
	var off [2][spanHalves + 1]float64
	start := 2*w.year() - 1
	for k := range spanHalves {
		if h, ok := m.swings.pick(w, start+k); ok {
			for v := range 2 {
				off[v][k] = m.swings.scale * m.swings.off[v][h]
			}
		}
	}
	for v, t := range [2][]float64{s.Tmin, s.Tmax} {
		o := &off[v]
		for i := from; i < len(t); i++ {
			x := mixes[i]
			add := o[x.half] + x.next*(o[x.half+1]-o[x.half])
			if i-from < rise {
				add *= float64(i-from) / float64(rise)
			}
			t[i] += add
		}
	}
}

// pick returns half-year h of record, or where that is not known another of the same half,
// drawn for the world.
func (s *swings) pick(w *world, h int) (int, bool) {
	for range 20 {
		if h >= 0 && h < len(s.known) && s.known[h] {
			return h, true
		}
		h = 2*w.year() + (h+2)%2
	}
	return 0, false
}
