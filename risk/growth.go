package risk

import (
	"math"

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

// growth is what the days are worth to a crop.
type growth struct {
	rows
	key     growthKey
	ra      *[climate.YearDays]float64 // the sun above the air, MJ/m2 a day, by season day
	seasons []climate.Season
}

func newGrowth(key growthKey) *growth {
	g := &growth{key: key}
	g.rows.work = g.worth
	return g
}

func (g *growth) reset(seasons []climate.Season, ra *[climate.YearDays]float64) {
	g.ra, g.seasons = ra, seasons
	g.rows.reset(len(seasons))
}

func (g *growth) worth(row []float64, i, from, to int) {
	s := &g.seasons[i]
	tmin, tmax := s.Tmin[from:to], s.Tmax[from:to] // the sky is the station's
	row = row[from:to]
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
