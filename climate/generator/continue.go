package generator

import (
	"math"

	"frostward/climate"
)

// riseDays is how long the swing of the half-years takes to come in after the last known day.
const riseDays = 90

// Continue makes seasons that begin as a season under way has begun: up to and with the day
// upTo they are as measured, gaps filled with what might have been; the rest is made. The
// first piece begins in the state that the known days leave off in, so that a warm or cold
// spell, and a warm or cold month, fade as they do on the record.
//
// The record that the model was fitted to should not reach past upTo. With upTo before the
// span it is Ensemble; with upTo at its end only gaps are made.
func (m *Model) Continue(season climate.Season, upTo climate.SeasonDay, seed uint64, worlds, perWorld int, latitude float64) climate.Ensemble {
	e := m.empty(worlds, perWorld, latitude)
	known := min(max(int(upTo-climate.SpanFrom)+1, 0), climate.SpanLen)
	for k := range worlds {
		w := m.newWorld(seed, k)
		for i, s := range e.Seasons[k*perWorld : (k+1)*perWorld] {
			e.Seasons[k*perWorld+i].Year = season.Year
			m.begin(w, s, season, known)
			m.fill(w, s, known, climate.SpanLen, known > 0)
			m.swing(w, s, known, riseDays)
			m.lay(w, s, 0)
			m.grid.round(s, 0)
			keep(s, season, known)
		}
	}
	return e
}

// begin puts in the residuals of the known days, and makes those of days that were not
// measured.
func (m *Model) begin(w *world, s, season climate.Season, known int) {
	for i := 0; i < known; {
		z0, z1, ok := m.residual(w, season, i)
		if ok {
			s.Tmin[i], s.Tmax[i] = z0, z1
			i++
			continue
		}
		end := i + 1
		for end < known {
			if _, _, ok := m.residual(w, season, end); ok {
				break
			}
			end++
		}
		m.fill(w, s, i, end, i > 0)
		i = end
	}
}

// residual returns the residuals of a measured day about the level of a world.
func (m *Model) residual(w *world, season climate.Season, i int) (z0, z1 float64, ok bool) {
	d := yearDay(i)
	z0 = (season.Tmin[i] - m.mean[0][d] - w.level[0][d]) / m.spread[0][d]
	z1 = (season.Tmax[i] - m.mean[1][d] - w.level[1][d]) / m.spread[1][d]
	return z0, z1, !math.IsNaN(z0 + z1)
}

// keep puts back what was measured, also of a day of which only one temperature was.
func keep(s, season climate.Season, known int) {
	if season.Snow != nil && s.Snow != nil {
		copy(s.Snow[:known], season.Snow)
	}
	for i := range known {
		tmin, tmax := season.Tmin[i], season.Tmax[i]
		switch {
		case math.IsNaN(tmin) && math.IsNaN(tmax):
			continue
		case math.IsNaN(tmin):
			tmin = min(s.Tmin[i], tmax)
		case math.IsNaN(tmax):
			tmax = max(s.Tmax[i], tmin)
		}
		s.Tmin[i], s.Tmax[i] = tmin, tmax
	}
}
