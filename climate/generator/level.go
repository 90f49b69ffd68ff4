package generator

import (
	"math"
	"math/rand/v2"

	"frostward/climate/stat"
)

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
// weight (nil: 1 each), with some of the whole record mixed in.
func (m *Model) present(v int, weight []float64) [3]float64 {
	c, _, _ := m.levelAt(v, m.rec.years-1, weight)
	return c
}

// levelAt is present as it would have been at the end of year last, with the sum of the
// weights of its seasons and of their squares.
func (m *Model) levelAt(v, last int, weight []float64) (c [3]float64, sum, square float64) {
	for j, memory := range []float64{m.opts.ShapeMemory, m.opts.LevelMemory} {
		q := newNormal(m.level.shape)
		sum, square = 0, 0
		for y := range last + 1 {
			w := m.ageWeight(last-y, memory)
			if weight != nil {
				w *= weight[y]
			}
			q.add(m.level.sums[v][y], w)
			w *= float64(m.level.count[y])
			sum += w
			square += w * w
		}
		s := q.solve(ridgeDays)
		if j == 0 {
			c[1], c[2] = s[1], s[2]
		} else {
			c[0] = s[0]
		}
	}
	return c, sum, square
}

// ageWeight is the weight in the level of a year some years back.
func (m *Model) ageWeight(age int, memory float64) float64 {
	return math.Exp(-float64(age)/memory) + m.opts.Shrinkage/float64(m.seasons)
}

// Present is where a record's climate stands now, against the mean of the whole record.
type Present struct {
	Value, Low, High float64 // °C warmer, mean of Tmin and Tmax over the year; 90 % interval
	HalfLife         float64 // the last so many seasons have as much weight as all before them, in a long record
	Seasons          float64 // how many equally weighted seasons would know the level as well
}

// Present returns the present level that generated seasons are put at, with its uncertainty.
func (m *Model) Present() Present {
	shift := func(weight []float64) float64 {
		return (m.present(0, weight)[0] + m.present(1, weight)[0]) / 2
	}
	x := make([]float64, levelWorlds)
	for i := range x {
		w, _ := m.weights(rand.New(rand.NewPCG(1, uint64(i))))
		x[i] = shift(w)
	}
	_, sum, square := m.levelAt(0, m.rec.years-1, nil)
	return Present{Value: shift(nil), Low: stat.Quantile(x, 0.05), High: stat.Quantile(x, 0.95),
		HalfLife: math.Ln2 * m.opts.LevelMemory, Seasons: sum * sum / square}
}

// levelWorlds is how many resamples the interval of the level is taken from.
const levelWorlds = 200
