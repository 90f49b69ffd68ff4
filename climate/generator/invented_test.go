package generator

import (
	"math"
	"math/rand/v2"

	"frostward/climate"
)

// invented is weather whose laws are known: a sine for the year, a spell of days (AR(1), 0.7
// a day), a spell of weeks (AR(1), 0.96 a day), and a swing of each whole season, all normal.
// Winters are more variable than summers. Tmin and Tmax share most of it. It is not made as
// the generator makes its seasons.
type invented struct {
	rng        *rand.Rand
	cal        climate.Calendar
	day, weeks float64
	swing      float64
}

func newInvented(seed uint64) *invented {
	v := &invented{rng: rand.New(rand.NewPCG(seed, 7))}
	v.day, v.weeks = v.rng.NormFloat64(), v.rng.NormFloat64()
	return v
}

// next returns the temperatures of a day of the year.
func (v *invented) next(d int) (tmin, tmax float64) {
	if d == 0 {
		v.swing = v.rng.NormFloat64()
	}
	v.day = 0.7*v.day + math.Sqrt(1-0.7*0.7)*v.rng.NormFloat64()
	v.weeks = 0.96*v.weeks + math.Sqrt(1-0.96*0.96)*v.rng.NormFloat64()
	x := 2 * math.Pi * float64(d-20) / year
	spread := 3.6 + 1.2*math.Cos(x)
	z := 0.85*v.day + 0.5*v.weeks + 0.15*v.swing
	own := v.rng.NormFloat64()
	tmin = 4.5 - 9*math.Cos(x) + spread*(0.95*z+0.3*own)
	tmax = tmin + max(1, 10.5-3*math.Cos(x)+spread*0.35*z+1.5*v.rng.NormFloat64())
	return tmin, tmax
}

// record makes a record of whole seasons.
func (v *invented) record(seasons int) climate.Series {
	first, last := v.cal.Day(2001, 0), v.cal.Day(2001+seasons, 0)-1
	rec := climate.NewSeries(first, int(last-first)+1)
	d := 0
	for i := range rec.Tmin {
		if _, m, md := (first + climate.Day(i)).Date(); m == 2 && md == 29 {
			continue // folded away, so that days of the year follow on one another
		}
		rec.Tmin[i], rec.Tmax[i] = v.next(d)
		d = (d + 1) % year
	}
	return rec
}

// season makes one season's span; successive ones are independent.
func (v *invented) season() climate.Season {
	s := climate.NewSeason(0)
	v.day, v.weeks, v.swing = v.rng.NormFloat64(), v.rng.NormFloat64(), v.rng.NormFloat64()
	for i := range s.Tmin {
		s.Tmin[i], s.Tmax[i] = v.next(yearDay(i))
	}
	return s
}

// question is one number a season that the tests ask about.
type question struct {
	name string
	of   func(s climate.Season) float64
}

var questions = []question{
	{"last spring frost", func(s climate.Season) float64 { return climate.Frost(0).LastSpring(s) }},
	{"first autumn frost", func(s climate.Season) float64 { return climate.Frost(0).FirstAutumn(s) }},
	{"frost-free days", func(s climate.Season) float64 {
		return climate.FreeDays(climate.Frost(0).LastSpring(s), climate.Frost(0).FirstAutumn(s))
	}},
	{"warmth, May to September", func(s climate.Season) float64 {
		var sum float64
		for d := climate.SeasonDay(120); d < 273; d++ {
			tmin, tmax := s.At(d)
			sum += max(0, (tmin+tmax)/2-10)
		}
		return sum
	}},
	{"coldest night of winter", func(s climate.Season) float64 {
		low := math.Inf(1)
		for d := climate.SeasonDay(-60); d < 90; d++ {
			tmin, _ := s.At(d)
			low = min(low, tmin)
		}
		return low
	}},
}
