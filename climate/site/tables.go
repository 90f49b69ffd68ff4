package site

import "math"

// Table is what many records say of the gap between a station's screen and a bed of low
// plants, before anything is measured in this garden. A row a coefficient of Terms.
type Table struct {
	Mean  [Terms]float64 // °C, °C per °C, °C, °C per °C, °C per °C
	PerV  [Terms]float64 // for each °C of Variability
	PerZ  [Terms]float64 // for each 100 m that the garden lies above the station, up to 250 m
	PerZ2 [Terms]float64 // for each 100 m beyond
	SD    [Terms]float64 // from place to place, what the above leaves
	Corr  [Terms][Terms]float64
	Night [2]float64 // logarithm of the standard deviation of a clear night (°C), and its change for each °C of Variability
}

// The tables, fitted by testdata/bench/siteprior to open data: 5 cm minima over grass of 12 stations
// of the Deutscher Wetterdienst and of 3 of Met Éireann, 10 cm minima of KNMI station 283
// (same place); 14 pairs of German stations 5 to 25 km apart and 53 pairs of one upland
// at 0.3 of a pair's weight, as they share stations (elsewhere). The pairs span rises of
// -212 to +165 m, the upland -1,290 to +1,290 m.
var (
	samePlace = Table{
		Mean: [Terms]float64{-1.625, -0.166, -0.257, 0.015, 0.101},
		PerV: [Terms]float64{0.672, 0.087, 0.018, -0.029, -0.086},
		SD:   [Terms]float64{0.507, 0.070, 0.182, 0.016, 0.050},
		Corr: [Terms][Terms]float64{
			{1, .886, .375, -.851, -.520},
			{.886, 1, .539, -.838, -.496},
			{.375, .539, 1, -.455, -.753},
			{-.851, -.838, -.455, 1, .477},
			{-.520, -.496, -.753, .477, 1}},
		Night: [2]float64{0.311, -0.189},
	}
	elsewhere = Table{
		Mean:  [Terms]float64{-1.342, -0.103, -0.055, -0.041, 0.162},
		PerV:  [Terms]float64{0.943, 0.149, -0.117, 0.049, -0.199},
		PerZ:  [Terms]float64{-0.080, 0.103, 0.241, -0.003, -0.038},
		PerZ2: [Terms]float64{-0.625, -0.009, -0.018, 0.011, 0},
		SD:    [Terms]float64{0.872, 0.129, 0.366, 0.081, 0.104},
		Corr: [Terms][Terms]float64{
			{1, .775, .409, -.069, -.256},
			{.775, 1, .712, .080, -.602},
			{.409, .712, 1, -.144, -.323},
			{-.069, .080, -.144, 1, -.657},
			{-.256, -.602, -.323, -.657, 1}},
		Night: [2]float64{0.604, -0.236},
	}
)

const (
	levelSpread = 0.6 // °C, more spread of the level than the tables': two of the 14 pairs are far off
	worth       = 6   // readings that the spread of a night is worth
	unknownV    = 1.0 // °C, spread of the level where the record has no maxima to know its Variability by
)

// belief is a table with the station and the place known.
type belief struct {
	mean  [Terms]float64
	cov   [Terms][Terms]float64
	night float64 // °C
}

func (t Table) at(v float64, w Place) belief {
	if math.IsNaN(v) {
		v = 0
	}
	z := math.Max(-2.5, math.Min(2.5, w.Rise/100))
	z2 := w.Rise/100 - z
	b := belief{night: math.Exp(t.Night[0] + t.Night[1]*v)}
	for i := range b.mean {
		b.mean[i] = t.Mean[i] + t.PerV[i]*v + t.PerZ[i]*z + t.PerZ2[i]*z2
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

// Tables returns the tables of the same place and of another.
func Tables() (same, other Table) { return samePlace, elsewhere }
