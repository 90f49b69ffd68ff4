package site

import "math"

// Table is what many records say of the gap between a station's screen and a bed of low
// plants, before anything is measured in this garden. A row a coefficient of Terms.
type Table struct {
	Mean  [Terms]float64 // °C, °C per °C, °C, °C per °C, °C per °C
	PerV  [Terms]float64 // for each °C of Habit.Spread
	PerC  [Terms]float64 // for each unit of Habit.Clear
	PerZ  [Terms]float64 // for each 100 m that the garden lies above the station, up to 250 m
	PerZ2 [Terms]float64 // for each 100 m beyond
	SD    [Terms]float64 // from place to place, what the above leaves
	Corr  [Terms][Terms]float64
	Night [3]float64 // logarithm of the standard deviation of a clear night (°C), and its change for each °C of Habit.Spread and unit of Habit.Clear
}

// The tables, fitted by testdata/bench/siteprior to open data: 5 cm minima over grass of 19 stations
// of the Deutscher Wetterdienst and of 3 of Met Éireann, 10 cm minima of KNMI station 283
// (same place); 14 pairs of German stations 5 to 25 km apart and 53 pairs of one upland
// at 0.3 of a pair's weight, as they share stations (elsewhere). The pairs span rises of
// -212 to +165 m, the upland -1,290 to +1,290 m.
var (
	samePlace = Table{
		Mean: [Terms]float64{-1.584, -0.169, -0.238, 0.005, 0.111},
		PerV: [Terms]float64{0.399, 0.077, -0.070, -0.013, -0.115},
		PerC: [Terms]float64{2.067, 0.202, 0.676, -0.109, -0.043},
		SD:   [Terms]float64{0.339, 0.049, 0.167, 0.020, 0.043},
		Corr: [Terms][Terms]float64{
			{1, .786, .277, .104, -.015},
			{.786, 1, .400, .081, -.188},
			{.277, .400, 1, .155, -.257},
			{.104, .081, .155, 1, -.488},
			{-.015, -.188, -.257, -.488, 1}},
		Night: [3]float64{0.314, -0.221, -0.491},
	}
	elsewhere = Table{
		Mean:  [Terms]float64{-1.092, -0.062, 0.021, -0.034, 0.144},
		PerV:  [Terms]float64{0.089, 0.012, -0.397},
		PerC:  [Terms]float64{-4.577, -0.693, -1.556},
		PerZ:  [Terms]float64{-0.180, 0.084, 0.202},
		PerZ2: [Terms]float64{-0.564, 0.003, 0.013},
		SD:    [Terms]float64{0.784, 0.111, 0.358, 0.085, 0.183},
		Corr: [Terms][Terms]float64{
			{1, .661, .260, -.102, -.040},
			{.661, 1, .645, .101, -.305},
			{.260, .645, 1, -.144, -.138},
			{-.102, .101, -.144, 1, -.634},
			{-.040, -.305, -.138, -.634, 1}},
		Night: [3]float64{0.596, -0.215, 0.120},
	}
)

const (
	levelSpread = 0.5 // °C, more spread of the level than the tables': two of the 14 pairs are far off
	worth       = 12  // readings that the spread of a night is worth
	unknownV    = 1.0 // °C, spread of the level where the record has no maxima to know its Habit by
)

// belief is a table with the station and the place known.
type belief struct {
	mean  [Terms]float64
	cov   [Terms][Terms]float64
	night float64 // °C
}

func (t Table) at(h Habit, w Place) belief {
	z := math.Max(-2.5, math.Min(2.5, w.Rise/100))
	z2 := w.Rise/100 - z
	b := belief{night: math.Exp(t.Night[0] + t.Night[1]*h.Spread + t.Night[2]*h.Clear)}
	for i := range b.mean {
		b.mean[i] = t.Mean[i] + t.PerV[i]*h.Spread + t.PerC[i]*h.Clear + t.PerZ[i]*z + t.PerZ2[i]*z2
		for j := range b.mean {
			b.cov[i][j] = t.SD[i] * t.SD[j] * t.Corr[i][j]
		}
	}
	return b
}

// mix is (1-f) a + f b, the spreads of the nights by their squares.
func mix(a, b belief, f float64) belief {
	m := belief{night: math.Sqrt((1-f)*sq(a.night) + f*sq(b.night))}
	for i := range m.mean {
		m.mean[i] = (1-f)*a.mean[i] + f*b.mean[i]
		for j := range m.mean {
			m.cov[i][j] = (1-f)*a.cov[i][j] + f*b.cov[i][j]
		}
	}
	return m
}
