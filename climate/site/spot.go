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
	var ra *[climate.YearDays]float64
	if m.Day > 0 {
		t := e.Calendar.ExtraterrestrialRadiations(e.Latitude)
		ra = &t
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
			line := m.line(rand.New(rand.NewPCG(seed, 2*world)))
			out.Seasons[i] = line.toSpot(s, rand.New(rand.NewPCG(seed, 2*own+1)), m.lasting())
			line.air(&out.Seasons[i], ra)
			if m.Roof {
				out.Seasons[i].Snow = nil
			}
		}
	})
	return out
}

func (l *Line) toSpot(s climate.Season, rng *rand.Rand, lasts lasting) climate.Season {
	out := s
	out.Night = make([]float64, len(s.Tmin))
	departs := newDepartures(rng, lasts)
	before, last := math.NaN(), math.NaN()
	day := climate.SpanFrom.Fold()
	for i, tmin := range s.Tmin {
		after := s.Tmax[i]
		// The departure is drawn even where the day is missing, so that a gap in the
		// record leaves the draws of all other nights as they are.
		t := l.minimum(tmin, orUsual(rangeOf(tmin, before, after)), fall(last, tmin), day, departs.next())
		if t > after+l.days {
			t = after + l.days
		}
		out.Night[i] = t
		before, last = after, tmin
		if day++; day == climate.YearDays {
			day = 0
		}
	}
	return out
}

func (m Model) lasting() lasting {
	if m.Roof {
		return sheltered
	}
	return outdoors
}

// air gives a season the air that plants grow in at the spot, where it is not the station's: at
// another height, or warmed by day. Under a shelter it is the night's minimum there and the maximum that keeps
// the mean gained: the true maximum is a short spike, and degree-days from a sine on it were 39 %
// too high on 138 days of a polytunnel, from this one 0 to 1 %.
func (l *Line) air(s *climate.Season, ra *[climate.YearDays]float64) {
	if l.days == 0 && ra == nil {
		return
	}
	s.AirMin, s.AirMax = make([]float64, len(s.Tmin)), make([]float64, len(s.Tmin))
	for i, tmin := range s.Tmin {
		lo, hi := tmin+l.days, s.Tmax[i]+l.days
		s.AirMin[i], s.AirMax[i] = lo, hi
		if ra != nil {
			gain := l.day * DayGain(lo, hi, ra[(climate.SpanFrom+climate.SeasonDay(i)).Fold()])
			s.AirMin[i] = s.Night[i]
			s.AirMax[i] = max(s.Night[i], lo+hi+2*gain-s.Night[i])
		}
	}
}
