package site

import (
	"math"
	"math/rand/v2"

	"frostward/climate"
)

// ToSpot returns the ensemble with the nights of the spot in it: each season's Night
// drawn from the station's temperatures, which stay as they were; missing days still
// missing. The same seed gives the same ensemble.
//
// The line is drawn once a world of a generated ensemble, so that the spread between
// worlds carries what the log leaves open, and once a season of a recorded one; each
// season has its own departure and each night its own. A minimum is never put above
// the day's maximum.
func (m Model) ToSpot(e climate.Ensemble, seed uint64) climate.Ensemble {
	if m == (Model{}) {
		return e
	}
	out := e
	out.Seasons = make([]climate.Season, len(e.Seasons))
	climate.InParallel(len(e.Seasons), func(next func() int) { // each season has its own random numbers
		for i := next(); i < len(e.Seasons); i = next() {
			s := e.Seasons[i]
			world := uint64(s.World)
			if e.By != climate.ByWeather {
				world = uint64(i)
			}
			line := m.Line(rand.New(rand.NewPCG(seed, 2*world)))
			out.Seasons[i] = line.toSpot(s, rand.New(rand.NewPCG(seed, 2*uint64(i)+1)))
		}
	})
	return out
}

func (l *Line) toSpot(s climate.Season, rng *rand.Rand) climate.Season {
	out := s
	out.Night = make([]float64, len(s.Tmin))
	season := rng.NormFloat64()
	before := math.NaN()
	for i, tmin := range s.Tmin {
		n := Night{Tmin: tmin, Before: before, After: s.Tmax[i], Day: climate.SpanFrom + climate.SeasonDay(i)}
		// The night is drawn even where the day is missing, so that a gap in the
		// record leaves the draws of all other nights as they are.
		t := l.Draw(n, season, rng.NormFloat64())
		if t > s.Tmax[i] {
			t = s.Tmax[i]
		}
		out.Night[i] = t
		before = s.Tmax[i]
	}
	return out
}
