package replay

import (
	"math"
	"math/rand/v2"

	"frostward/climate"
)

// madeUp issues forecasts of the minimum in the screen with a stated error. It knows the date,
// the maximum of the day before, and of what the night departs from that as much as leaves the
// error, and no more: so what came is on average what it says, whatever the maximum was. Real
// forecasts are so: at 84 cities of the US in the springs and autumns of 2021, what came less
// what was forecast rose by -0.01 °C for each °C of the maximum. A forecast that does not know
// of the maximum makes the night's range, taken from it, too wide after every warm day, and a
// chance reckoned from that range dearer to act on than a plain rule on the forecast.
type madeUp struct {
	before climate.Ensemble // at the station
	error  float64          // °C
	rng    *rand.Rand
	dates  map[climate.SeasonDay]line
}

func newMadeUp(before climate.Ensemble, error float64, rng *rand.Rand) *madeUp {
	return &madeUp{before, error, rng, map[climate.SeasonDay]line{}}
}

// line is the minimum by the maximum of the day before, about one date.
type line struct {
	n            float64
	tmin, tmax   float64 // means, °C
	slope, about float64 // and the standard deviation about the line, °C
}

func (m *madeUp) forecast(sd climate.SeasonDay, tmin, tmax float64) float64 {
	l, ok := m.dates[sd]
	if !ok {
		l = lineAt(m.before, sd)
		m.dates[sd] = l
	}
	z := m.rng.NormFloat64()
	if l.n < 15 || !(l.about > m.error) {
		return tmin + m.error*z
	}
	// Of a variance about^2 it leaves error^2: the share known is 1 - (error/about)^2, and noise
	// of that share of error^2 makes E(came | forecast) = forecast.
	known := 1 - (m.error/l.about)*(m.error/l.about)
	expected := l.tmin + l.slope*(tmax-l.tmax)
	return expected + known*(tmin-expected) + math.Sqrt(known)*m.error*z
}

// lineAt fits the line to the nights within a week of a date.
func lineAt(e climate.Ensemble, sd climate.SeasonDay) line {
	var l line
	var x, y, xx, xy, yy float64
	day := sd.Fold() - int(climate.SpanFrom)
	for _, s := range e.Seasons {
		for d := day - 7; d <= day+7; d++ {
			if tx, tn := s.Tmax[d-1], s.Tmin[d]; !math.IsNaN(tx + tn) {
				l.n++
				x, y, xx, xy, yy = x+tx, y+tn, xx+tx*tx, xy+tx*tn, yy+tn*tn
			}
		}
	}
	if l.n < 3 {
		return l
	}
	l.tmax, l.tmin = x/l.n, y/l.n
	sxx, sxy, syy := xx-x*l.tmax, xy-x*l.tmin, yy-y*l.tmin
	if sxx > 0 {
		l.slope = sxy / sxx
	}
	l.about = math.Sqrt(max(0, syy-l.slope*sxy) / (l.n - 2))
	return l
}
