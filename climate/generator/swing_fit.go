package generator

import (
	"math"
	"math/rand/v2"

	"frostward/climate"
)

// swings are what whole half-years stand off their climate, over and above what runs of
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
			if a, b := m.z[0][i], m.z[1][i]; !math.IsNaN(a + b) {
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
	record, made, surprise := m.halfVariance(), m.trialVariance(), m.surprise()
	// One share for both temperatures, since each alone is known poorly.
	// Without half-years to go by it is NaN, and the swing stays out.
	var lack float64
	for v := range 2 {
		want := 1.0
		if r := surprise[v] / record[v]; r > 1 { // false for NaN
			want = r
		}
		lack += (want - made[v]/record[v] + m.opts.Drift) / 2
	}
	if lack > 0 {
		w.scale = math.Sqrt(min(lack, mostSwing))
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

// mostSwing bounds the variance that swings may add, in terms of the record's.
const mostSwing = 1.5

// surpriseAfter is how many years come before the first whose level is foretold.
const surpriseAfter = 10

// surprise returns the variance of half-years about the level foretold for them from the years
// before, less the part of it that comes of not knowing that level, which worlds carry. In a
// climate that changes it exceeds halfVariance: the level of today is foretold from years that
// lie behind it. NaN where fewer than surpriseAfter half-years can be foretold.
func (m *Model) surprise() (out [2]float64) {
	var n float64
	for y := surpriseAfter; y < m.rec.years; y++ {
		var at [2][3]float64
		var sum, square float64
		for v := range 2 {
			at[v], sum, square = m.levelAt(v, y-1, nil)
		}
		for h := 2 * y; h < 2*y+2; h++ {
			if !m.swings.known[h] {
				continue
			}
			for v := range 2 {
				d := m.swings.off[v][h] + m.halfShift(v, h, m.level.slow[v][y], at[v])
				out[v] += d * d / (1 + square/(sum*sum))
			}
			n++
		}
	}
	for v := range 2 {
		out[v] /= n
		if n < surpriseAfter {
			out[v] = math.NaN()
		}
	}
	return out
}

// halfShift returns the difference of two levels over half-year h, in residuals.
func (m *Model) halfShift(v, h int, a, b [3]float64) float64 {
	from, to := h%2*half, half+h%2*(year-half)
	var sum float64
	for d := from; d < to; d++ {
		row := m.level.shape.row(d)
		sum += (a[0] - b[0] + (a[1]-b[1])*row[1] + (a[2]-b[2])*row[2]) / m.spread[v][d]
	}
	return sum / float64(to-from)
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
