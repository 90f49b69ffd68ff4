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
// season has its own departures, which last. A minimum is never put above the day's
// maximum there.
func (m Model) ToSpot(e climate.Ensemble, seed uint64) climate.Ensemble {
	if m == (Model{}) {
		return e
	}
	out := e
	out.Seasons = make([]climate.Season, len(e.Seasons))
	climate.InParallel(len(e.Seasons), func(next func() int) { // each season has its own random numbers
		for i := next(); i < len(e.Seasons); i = next() {
			s := e.Seasons[i]
			// By its year, a recorded season draws the same whichever others stand beside it.
			own := uint64(int64(s.Year))
			world := uint64(s.World)
			if e.By != climate.ByWeather {
				world = own
			}
			line := m.Line(rand.New(rand.NewPCG(seed, 2*world)))
			out.Seasons[i] = line.toSpot(s, rand.New(rand.NewPCG(seed, 2*own+1)))
		}
	})
	return out
}

func (l *Line) toSpot(s climate.Season, rng *rand.Rand) climate.Season {
	out := s
	out.Night = make([]float64, len(s.Tmin))
	departs := newDepartures(rng)
	before, last := math.NaN(), math.NaN()
	for i, tmin := range s.Tmin {
		after := s.Tmax[i]
		// The departure is drawn even where the day is missing, so that a gap in the
		// record leaves the draws of all other nights as they are.
		n := Night{Tmin: tmin, Before: before, After: after, Fall: fall(last, tmin), Day: climate.SpanFrom + climate.SeasonDay(i)}
		t := l.Draw(n, departs.next())
		if t > after+l.days {
			t = after + l.days
		}
		out.Night[i] = t
		before, last = after, tmin
	}
	return out
}
