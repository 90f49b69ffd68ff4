package generator

import "math"

// level is where each year of record stood off the mean course, as sums from which the level
// of the present can be had for any weights of the years.
type level struct {
	shape basis           // 1 and the first harmonic
	sums  [2][]normal     // by year
	count []int           // days by year
	slow  [2][][3]float64 // the slowly changing level of each year, coefficients of shape
}

// fitLevels smooths the years' levels with a bell of SmoothYears, so that residuals are swings
// about the climate of their own time.
func (m *Model) fitLevels() {
	for v := range 2 {
		m.level.slow[v] = make([][3]float64, m.rec.years)
		for y := range m.rec.years {
			q := newNormal(m.level.shape)
			for o := range m.rec.years {
				u := float64(o-y) / m.opts.SmoothYears
				if u > -4 && u < 4 {
					q.add(m.level.sums[v][o], math.Exp(-u*u/2))
				}
			}
			copy(m.level.slow[v][y][:], q.solve(ridgeDays))
		}
	}
}

// ridgeDays is the evidence, in days, that the shape of the level has not changed.
const ridgeDays = 365

// present returns the coefficients of the present level, each year weighted by its age and by
// weight (nil: 1 each).
func (m *Model) present(v int, weight []float64) [3]float64 {
	var c [3]float64
	last := m.rec.years - 1
	for j, memory := range []float64{m.opts.LevelMemory, m.opts.ShapeMemory} {
		q := newNormal(m.level.shape)
		for y := range m.rec.years {
			w := math.Exp(-float64(last-y) / memory)
			if weight != nil {
				w *= weight[y]
			}
			q.add(m.level.sums[v][y], w)
		}
		s := q.solve(ridgeDays)
		if j == 0 {
			c[0] = s[0]
		} else {
			c[1], c[2] = s[1], s[2]
		}
	}
	return c
}
