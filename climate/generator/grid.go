package generator

import (
	"math"

	"frostward/climate"
)

// grid is what the record's temperatures are rounded to. A thermometer read to whole °F that
// shows 32 has frost at 0 °C by every count, though the air was anywhere below 32.5 °F:
// seasons that were not rounded in the same way would have their last frost some two days
// earlier than the record has it.
type grid struct {
	step     float64 // in °C; 0: fine enough not to matter
	zero     float64 // a temperature on the grid, in °C
	decimals float64 // what the record was rounded to when it was written down: 10 or 100 for 0.1 or 0.01 °C
}

var grids = []grid{
	{step: 1, zero: 0},
	{step: 5. / 9, zero: 0}, // whole °F: 32 °F is 0 °C
	{step: 0.5, zero: 0},
}

// gridSeasons is how many of the last seasons are looked at: instruments change.
const gridSeasons = 15

// findGrid finds the coarsest grid that nearly all of the recent minima lie on. Of values in
// tenths of a degree about a fifth lie on the grid of whole °F by chance.
func (m *Model) findGrid() {
	t := m.rec.t[0][max(0, m.rec.years-gridSeasons)*year:]
	tenths := share(t, grid{step: 0.1})
	for _, g := range grids {
		if share(t, g) > 0.95 {
			m.grid = g
			break
		}
	}
	m.grid.decimals = 100
	if tenths > 0.99 {
		m.grid.decimals = 10
	}
}

// share returns the share of values within rounding of a grid: a twentieth of a degree, or a
// two-hundredth for the grid of tenths itself.
func share(t []float64, g grid) float64 {
	near := 0.051
	if g.step < 0.2 {
		near = 0.001
	}
	var on, n float64
	for _, v := range t {
		if math.IsNaN(v) {
			continue
		}
		n++
		if u := (v - g.zero) / g.step; math.Abs(u-math.Round(u))*g.step < near {
			on++
		}
	}
	return on / n
}

// round puts the days of a season from a day on upon the grid.
func (g grid) round(s climate.Season, from int) {
	if g.step == 0 {
		return
	}
	for _, t := range [2][]float64{s.Tmin[from:], s.Tmax[from:]} {
		for i, v := range t {
			v = math.Floor((v-g.zero)/g.step+0.5)*g.step + g.zero
			t[i] = math.Floor(v*g.decimals+0.5) / g.decimals
		}
	}
}
