package risk

import (
	"math"
	"sync"

	"frostward/climate"
	"frostward/crops"
)

// growthKey is how a crop's days are counted.
type growthKey struct {
	days     bool // a day is worth 1 above the base: where only days to picking are known
	response climate.Response
}

// growthOf says how a crop's days are counted, and what they must come to by its first picking: in
// effective day-degrees; where the catalogue has no sum of those, in plain degree-days, which hang
// on no light; else in days.
func growthOf(c crops.Crop, raised bool) (growthKey, crops.Fact) {
	growth, warmth, days := c.GrowthSown, c.WarmthSown, c.DaysSown
	if raised {
		growth, warmth, days = c.GrowthPlanted, c.WarmthPlanted, c.DaysPlanted
	}
	if growth.Known() {
		return growthKey{response: climate.Response{Base: c.GrowFrom.Value, Optimum: c.GrowBest.Value, Ceiling: c.GrowMax.Value, Light: c.GrowLight.Value}}, growth
	}
	plain := climate.Response{Base: orElse(c.Base.Value, 5), Optimum: orElse(c.Upper.Value, math.Inf(1)), Ceiling: math.Inf(1)}
	if warmth.Known() {
		return growthKey{false, plain}, warmth
	}
	return growthKey{true, plain}, days
}

// growth works out what the days are worth to a crop, season by season, as far as it is
// wanted. It may be asked from several goroutines at once.
type growth struct {
	key     growthKey
	ra      *[climate.YearDays]float64 // the sun above the air, MJ/m2 a day, by season day
	seasons []climate.Season
	rows    [][]float64
	filled  []filled
	memory  []float64
}

// filled says which days of a season are worked out: from one up to another, not included.
type filled struct {
	mu       sync.Mutex
	from, to int
}

func (g *growth) reset(seasons []climate.Season, ra *[climate.YearDays]float64) {
	n := len(seasons)
	if cap(g.memory) < n*climate.SpanLen {
		g.memory = make([]float64, n*climate.SpanLen)
	}
	g.ra, g.seasons, g.rows, g.filled = ra, seasons, g.rows[:0], make([]filled, n)
	for i := range n {
		g.rows = append(g.rows, g.memory[i*climate.SpanLen:(i+1)*climate.SpanLen:(i+1)*climate.SpanLen])
	}
}

// row returns the growth of season i, of which the days from one up to another, not included,
// are worked out. What is there stays one run of days: those between it and what is wanted
// come with it.
func (g *growth) row(i, from, to int) []float64 {
	f := &g.filled[i]
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.from == f.to {
		f.from, f.to = from, from
	}
	if from < f.from {
		g.work(i, from, f.from)
		f.from = from
	}
	if to > f.to {
		g.work(i, f.to, to)
		f.to = to
	}
	return g.rows[i]
}

func (g *growth) work(i, from, to int) {
	s := &g.seasons[i]
	row, tmin, tmax := g.rows[i][from:to], s.Tmin[from:to], s.Tmax[from:to] // the sky is the station's
	lows, highs := s.Air()
	lows, highs = lows[from:to], highs[from:to]
	if g.key.days {
		for d := range row {
			row[d] = growingDay(lows[d], highs[d], g.key.response.Base)
		}
		return
	}
	r, j := g.key.response, onDay(from).Fold()
	for d := range row {
		row[d] = r.Warmth(lows[d], highs[d])
		if row[d] > 0 && r.Light > 0 {
			row[d] = climate.EffectiveDegreeDay(row[d], climate.SolarRadiation(climate.Inland, tmin[d], tmax[d], g.ra[j]), r.Light)
		}
		if j++; j == climate.YearDays {
			j = 0
		}
	}
}

// inFullLight is what a day's growth would have been under an early summer's light.
func (g *growth) inFullLight(i, d int, worth float64) float64 {
	if g.key.days || g.key.response.Light == 0 {
		return worth
	}
	s := &g.seasons[i]
	return g.key.response.InFullLight(worth, climate.SolarRadiation(climate.Inland, s.Tmin[d], s.Tmax[d], g.ra[onDay(d).Fold()]))
}

// growingDay is 1 for a day whose mean is above the base, 5 °C where the crop has none: days to
// maturity are published for the growing season, not for winter.
func growingDay(tmin, tmax, base float64) float64 {
	if math.IsNaN(base) {
		base = 5
	}
	m := (tmin + tmax) / 2
	if math.IsNaN(m) || m > base {
		return 1 + 0*m // NaN stays NaN
	}
	return 0
}
