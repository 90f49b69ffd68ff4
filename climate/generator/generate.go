package generator

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat/distuv"

	"frostward/climate"
)

// world is one resample of the record's seasons, and the level that it gives.
type world struct {
	number int
	rng    *rand.Rand
	pick   []float64        // cumulative weights of the years
	level  [2][year]float64 // °C off the mean course, by day of the year
}

// newWorld resamples the seasons for one world.
func (m *Model) newWorld(seed uint64, number int) *world {
	w := &world{number: number, rng: rand.New(rand.NewPCG(seed, uint64(number)))}
	var weight []float64
	weight, w.pick = m.weights(w.rng)
	for v := range 2 {
		c := m.present(v, weight)
		drift := m.drift(v, weight)
		for d := range year {
			row := m.level.shape.row(d)
			w.level[v][d] = c[0] + c[1]*row[1] + c[2]*row[2] - drift[0] - drift[1]*row[1] - drift[2]*row[2]
		}
	}
	return w
}

// weights resamples the seasons: each gets a weight drawn from a gamma distribution (the
// Bayesian bootstrap, Rubin 1981, Ann. Stat. 9, 130-134, from memory), which keeps every
// season in and so fills the gaps that leaving seasons out would make. With Rubin's
// exponential weights the mean of n values varies from world to world by s^2/n times
// (n-1)/(n+1), which matters for 10; a gamma of shape (n-2)/n gives back s^2/n.
//
// pick are the weights times the days of each season, summed up.
func (m *Model) weights(rng *rand.Rand) (weight, pick []float64) {
	weight, pick = make([]float64, m.rec.years), make([]float64, m.rec.years)
	n := float64(m.seasons)
	gamma := distuv.Gamma{Alpha: (n - 2) / n, Beta: 1, Src: rng}
	var sum float64
	for y := range weight {
		weight[y] = gamma.Rand()
		sum += weight[y] * float64(m.level.count[y])
		pick[y] = sum
	}
	return weight, pick
}

// drift returns the mean of the residuals that a world draws, so that its level is what
// present says and not that plus what its favoured seasons happened to be.
func (m *Model) drift(v int, weight []float64) [3]float64 {
	q := newNormal(m.level.shape)
	var off [3]float64
	var total float64
	for y := range m.rec.years {
		q.add(m.level.sums[v][y], weight[y])
		w := weight[y] * float64(m.level.count[y])
		total += w
		for j := range off {
			off[j] += w * m.level.slow[v][y][j]
		}
	}
	s := q.solve(ridgeDays)
	for j := range off {
		off[j] = s[j] - off[j]/total
	}
	return off
}

// year draws a year of record.
func (w *world) year() int {
	u := w.rng.Float64() * w.pick[len(w.pick)-1]
	lo, hi := 0, len(w.pick)-1
	for lo < hi {
		mid := (lo + hi) / 2
		if w.pick[mid] > u {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	return lo
}

// Ensemble makes worlds times perWorld seasons. It is the same, bit for bit, for the same
// model, seed and numbers.
func (m *Model) Ensemble(seed uint64, worlds, perWorld int, latitude float64) climate.Ensemble {
	e := m.empty(worlds, perWorld, latitude)
	climate.InParallel(worlds, func(next func() int) { // each world has its own random numbers
		for k := next(); k < worlds; k = next() {
			w := m.newWorld(seed, k)
			for _, s := range e.Seasons[k*perWorld : (k+1)*perWorld] {
				m.fill(w, s, 0, climate.SpanLen, false)
				m.swing(w, s, 0, 0)
				m.lay(w, s, 0)
				m.grid.round(s, 0)
			}
		}
	})
	return e
}

// empty returns an ensemble whose seasons are all zeros.
func (m *Model) empty(worlds, perWorld int, latitude float64) climate.Ensemble {
	e := climate.Ensemble{Calendar: m.cal, Latitude: latitude, By: climate.ByWeather, Rests: m.seasons}
	n := worlds * perWorld
	e.Seasons = make([]climate.Season, n)
	// One allocation for all: the seasons of an ensemble are used together.
	all := make([]float64, 2*n*climate.SpanLen)
	for i := range e.Seasons {
		a := all[2*i*climate.SpanLen:]
		e.Seasons[i] = climate.Season{Year: i, World: i / perWorld,
			Tmin: a[:climate.SpanLen:climate.SpanLen],
			Tmax: a[climate.SpanLen : 2*climate.SpanLen : 2*climate.SpanLen]}
		if m.rec.snow != nil {
			e.Seasons[i].Snow = make([]float64, climate.SpanLen)
		}
	}
	return e
}

// fill puts residuals into a season from one day up to another. With joined, the first piece
// begins in the state that the days before have left.
func (m *Model) fill(w *world, s climate.Season, from, to int, joined bool) {
	for at := from; at < to; {
		src, n := m.piece(w, at)
		n = min(n, to-at)
		z0, z1 := m.z[0][src:src+n], m.z[1][src:src+n]
		copy(s.Tmin[at:], z0)
		copy(s.Tmax[at:], z1)
		if s.Snow != nil { // that of the days drawn
			copy(s.Snow[at:], m.rec.snow[src:src+n])
		}
		if joined {
			m.join(s, at, n, src)
		}
		joined = true
		at += n
	}
}

// join adds to a piece what its new beginning would have made of it: the difference between
// the state that it begins in and the state it began in on record, as that difference fades.
func (m *Model) join(s climate.Season, at, n, src int) {
	for v, t := range [2][]float64{s.Tmin, s.Tmax} {
		was := m.state[src]
		var slow float64
		back := min(at, slowDays)
		for _, z := range t[at-back : at] {
			slow += z
		}
		last := t[at-1] - was.last[v]
		slow = slow/float64(back) - was.slow[v]
		if math.IsNaN(last) {
			last = 0
		}
		if math.IsNaN(slow) || back < slowDays/2 {
			slow = 0
		}
		for k := range min(n, fadeDays) {
			t[at+k] += last*m.fade.last[v][k] + slow*m.fade.slow[v][k]
		}
	}
}

// piece draws a run of the record for a day of the span: its first day in the record and
// its length.
func (m *Model) piece(w *world, at int) (src, n int) {
	d := yearDay(at)
	want := m.opts.Block*2/3 + w.rng.IntN(m.opts.Block*2/3+1)
	for range 40 {
		src = w.year()*year + d + w.rng.IntN(2*m.opts.Shift+1) - m.opts.Shift
		if src < 0 || src >= len(m.z[0]) {
			continue
		}
		if n = min(want, int(m.run[src])); n >= min(want, 10) {
			return src, n
		}
	}
	// A time of the year that the record hardly has: residuals from any other.
	src = int(m.starts[w.rng.IntN(len(m.starts))])
	return src, min(want, int(m.run[src]))
}

// lay turns residuals into temperatures from a day of the span on.
func (m *Model) lay(w *world, s climate.Season, from int) {
	d := yearDay(from)
	for i := from; i < climate.SpanLen; i++ {
		tmin := m.mean[0][d] + w.level[0][d] + s.Tmin[i]*m.spread[0][d]
		tmax := m.mean[1][d] + w.level[1][d] + s.Tmax[i]*m.spread[1][d]
		if tmin > tmax { // moved in the year or joined, a cloudy day may cross: both at their mean
			tmin = (tmin + tmax) / 2
			tmax = tmin
		}
		s.Tmin[i], s.Tmax[i] = tmin, tmax
		if d++; d == year {
			d = 0
		}
	}
}

// yearDay returns the day of the season's year, 0 to 364, of a day of the span.
func yearDay(i int) int { return (int(climate.SpanFrom) + i + year) % year }
