package generator

import (
	"fmt"
	"math"

	"frostward/climate"
)

// Model is the daily weather of one record, ready to make seasons from. It is not changed by
// making them and may be used from many goroutines.
type Model struct {
	opts    Options
	cal     climate.Calendar
	rec     folded
	seasons int              // seasons of record with enough days to count
	mean    [2][year]float64 // °C
	spread  [2][year]float64 // °C
	z       [2][]float64     // residuals in units of the spread, about the slowly changing level
	run     []int32          // days from here on that have both residuals
	state   []state          // where the residuals stand before each day
	fade    fade
	level   level
	starts  []int32 // days of record from which at least a few days run on
	grid    grid
	swings  swings
}

// state is where the weather stands before a day: the residuals of the day before and their
// mean over the weeks before that. The latter changes slowly and carries a warm or a cold
// month into the next.
type state struct{ last, slow [2]float64 }

// few is the fewest seasons of record that a model is fitted to.
const few = climate.MinSeasons

// Fit fits the model to a record. It is an error if fewer than few seasons have most of their
// days.
func Fit(rec climate.Series, cal climate.Calendar, opts Options) (*Model, error) {
	m := &Model{opts: opts, cal: cal, rec: fold(rec, cal)}
	counts := m.countSeasons()
	if m.seasons < few {
		return nil, fmt.Errorf("%d seasons have most of their days, wanted at least %d to resample daily weather from", m.seasons, few)
	}
	first := newBasis(opts.MeanHarmonics)
	second := newBasis(opts.SpreadHarmonics)
	shape := newBasis(1)
	for v := range 2 {
		m.fitMean(v, first)
		m.level.sums[v] = m.yearSums(v, shape)
	}
	m.level.count = counts
	m.level.shape = shape
	m.fitLevels()
	for v := range 2 {
		m.fitSpread(v, second)
		fillShort(m.z[v], 3)
	}
	m.findRuns()
	m.findStates()
	m.fitFade()
	if len(m.starts) == 0 {
		return nil, fmt.Errorf("no five days on end have both temperatures, wanted runs of days to resample")
	}
	m.findGrid()
	m.fitSwings()
	return m, nil
}

// countSeasons counts the days with both temperatures, season by season.
func (m *Model) countSeasons() []int {
	counts := make([]int, m.rec.years)
	for y := range counts {
		for i := y * year; i < (y+1)*year; i++ {
			if !math.IsNaN(m.rec.t[0][i]) && !math.IsNaN(m.rec.t[1][i]) {
				counts[y]++
			}
		}
		if counts[y] > year/2 {
			m.seasons++
		}
	}
	return counts
}

// fitMean fits the mean's course through the year to all days.
func (m *Model) fitMean(v int, b basis) {
	var count, sum [year]float64
	for i, d := 0, 0; i < len(m.rec.t[v]); i++ {
		if t := m.rec.t[v][i]; !math.IsNaN(t) {
			count[d]++
			sum[d] += t
		}
		if d++; d == year {
			d = 0
		}
	}
	q := newNormal(b)
	q.addSums(&count, &sum)
	m.mean[v] = b.curve(q.solve(1))
}

// yearSums returns, for each year of record, the normal equations of what the year stood off
// the mean course.
func (m *Model) yearSums(v int, shape basis) []normal {
	sums := make([]normal, m.rec.years)
	var count, sum [year]float64
	for y := range sums {
		for d, t := range m.rec.t[v][y*year : (y+1)*year] {
			count[d], sum[d] = 0, 0
			if !math.IsNaN(t) {
				count[d], sum[d] = 1, t-m.mean[v][d]
			}
		}
		sums[y] = newNormal(shape)
		sums[y].addSums(&count, &sum)
	}
	return sums
}

// fitSpread fits the spread's course through the year to the squares of what is left once the
// level of each year is taken off, and makes the residuals. The fit is to the mean square,
// which is what a spread has to give back.
func (m *Model) fitSpread(v int, b basis) {
	z := make([]float64, len(m.rec.t[v]))
	var count, sum [year]float64
	for y := range m.rec.years {
		off := m.level.slow[v][y]
		for d := range year {
			i := y*year + d
			row := m.level.shape.row(d)
			r := m.rec.t[v][i] - m.mean[v][d] - off[0] - off[1]*row[1] - off[2]*row[2]
			z[i] = r
			if !math.IsNaN(r) {
				count[d]++
				sum[d] += r * r
			}
		}
	}
	q := newNormal(b)
	q.addSums(&count, &sum)
	square := b.curve(q.solve(1))
	m.spread[v] = spreadOf(square)
	for i := range z {
		z[i] /= m.spread[v][i%year]
	}
	m.z[v] = z
}

// spreadOf returns the spread whose square is a fitted course. A harmonic may dip too low, or
// below 0, in the stillest weeks; no day's spread is taken to be below a fifth of that of the
// mean square.
func spreadOf(square [year]float64) (spread [year]float64) {
	mean := 0.0
	for _, s := range square {
		mean += s / year
	}
	for d, s := range square {
		spread[d] = math.Sqrt(max(s, mean/25))
	}
	return spread
}

// findRuns notes for each day how many days from it on have both residuals.
func (m *Model) findRuns() {
	n := len(m.z[0])
	m.run = make([]int32, n+1)
	for i := n - 1; i >= 0; i-- {
		if !math.IsNaN(m.z[0][i]) && !math.IsNaN(m.z[1][i]) {
			m.run[i] = m.run[i+1] + 1
		}
	}
	for i, r := range m.run {
		if r >= 5 {
			m.starts = append(m.starts, int32(i))
		}
	}
}
