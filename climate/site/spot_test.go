package site

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"frostward/climate"
)

func ensemble(n, worlds int) climate.Ensemble {
	rec := invented(365*(n+3), 11)
	e := climate.Recorded(rec, 52, 2021, 2021+n-1)
	if worlds > 0 {
		e.By, e.Rests = climate.ByWeather, n
		for i := range e.Seasons {
			e.Seasons[i].World = i * worlds / n
		}
	}
	return e
}

func TestToSpot(t *testing.T) {
	e := ensemble(6, 0)
	e.Seasons[2].Tmin[300] = math.NaN()
	e.Seasons[2].Tmax[310] = math.NaN()
	m := PriorModel(OpenBed)
	a, b, c := m.ToSpot(e, 1), m.ToSpot(e, 1), m.ToSpot(e, 2)
	for i, s := range a.Seasons {
		require.Nil(t, e.Seasons[i].Night, "the station's ensemble is left alone")
		require.Equal(t, len(s.Tmin), len(s.Night))
		for k, v := range s.Night {
			require.Equal(t, math.IsNaN(s.Tmin[k]), math.IsNaN(v))
			if !math.IsNaN(v) {
				require.Equal(t, v, b.Seasons[i].Night[k])
				require.False(t, v > s.Tmax[k])
			}
		}
	}
	require.NotEqual(t, a.Seasons[0].Night, c.Seasons[0].Night)

	// A missing day changes nothing but itself and the night after it.
	e.Seasons[2].Tmin[300] = 4
	d := m.ToSpot(e, 1)
	for k, v := range d.Seasons[2].Night {
		if k != 300 && k != 301 && !math.IsNaN(v) {
			require.Equal(t, v, a.Seasons[2].Night[k])
		}
	}
	require.Equal(t, e.Seasons, Model{}.ToSpot(e, 1).Seasons, "the station as a spot")
}

// A degree more at the station never makes a night at the spot colder.
func TestWarmerStationWarmerSpot(t *testing.T) {
	e := ensemble(4, 0)
	m := PriorModel(OpenBed)
	cold := m.ToSpot(e, 3)
	for i := range e.Seasons {
		s := &e.Seasons[i]
		s.Tmin, s.Tmax = plus(s.Tmin, 1), plus(s.Tmax, 1)
	}
	warm := m.ToSpot(e, 3)
	for i := range warm.Seasons {
		for k, v := range warm.Seasons[i].Night {
			if !math.IsNaN(v) {
				require.GreaterOrEqual(t, v, cold.Seasons[i].Night[k])
			}
		}
	}
}

func plus(x []float64, by float64) []float64 {
	out := make([]float64, len(x))
	for i := range x {
		out[i] = x[i] + by
	}
	return out
}

// Draws have the mean and spread that Mean and SD state, with every spread in them.
// 40,000 draws: standard error of the mean 0.6 %, of the spread 0.35 %, of the spread.
func TestDrawsMatchMeanAndSD(t *testing.T) {
	m := PriorModel(OpenBed)
	rng := rand.New(rand.NewPCG(5, 5))
	for _, n := range []Night{
		{Tmin: 2, Before: 18, After: 14, Day: 120},
		{Tmin: 6, Before: 9, After: math.NaN(), Day: 20},
		{Tmin: -3, Before: 3, After: 2, Day: -40},
	} {
		var s, ss float64
		const k = 40000
		for range k {
			l := m.line(rng)
			v := l.draw(n, rng.NormFloat64())
			s, ss = s+v, ss+v*v
		}
		sd := math.Sqrt(ss/k - sq(s/k))
		require.InDelta(t, m.Mean(n), s/k, 4*sd/200)
		require.InEpsilon(t, m.SD(n), sd, 0.015)
	}
}

// All seasons of a world share one line; two worlds have two.
func TestWorldsShareALine(t *testing.T) {
	e := ensemble(6, 2)
	m := Model{Coef: PriorModel(OpenBed).Coef}
	m.Cov[0][0] = 1 // the line's level is all that varies
	spot := m.ToSpot(e, 1)
	level := func(i int) float64 {
		s := spot.Seasons[i]
		for k := 200; ; k++ {
			n := Night{Tmin: s.Tmin[k], Before: s.Tmax[k-1], After: s.Tmax[k], Fall: fall(s.Tmin[k-1], s.Tmin[k]), Day: climate.SpanFrom + climate.SeasonDay(k)}
			if v := s.Night[k]; v < s.Tmax[k] {
				return v - m.Mean(n)
			}
		}
	}
	require.InDelta(t, level(0), level(2), 1e-9)
	require.InDelta(t, level(3), level(5), 1e-9)
	require.NotEqual(t, math.Round(level(0)*1e6), math.Round(level(3)*1e6))
}

func TestRange(t *testing.T) {
	nan := math.NaN()
	check := func(n Night, want float64, why string) {
		t.Helper()
		if math.IsNaN(want) {
			require.True(t, math.IsNaN(n.Range()), why)
			return
		}
		require.Equal(t, want, n.Range(), why)
	}
	check(Night{Tmin: 2, Before: 12, After: 16}, 12, "by hand: (12+16)/2-2")
	check(Night{Tmin: 2, Before: nan, After: 16}, 14, "the day it ends in alone")
	check(Night{Tmin: 2, Before: 12, After: nan}, 10, "the day before alone")
	check(Night{Tmin: 2, Before: nan, After: nan}, nan, "neither")
	check(Night{Tmin: nan, Before: 12, After: 16}, nan, "no minimum")
	check(Night{Tmin: -8, Before: 20, After: 20}, 18, "no wider than 18")
	check(Night{Tmin: 9, Before: 5, After: 6}, 0, "colder days than the night")
	// A night without any maximum is still taken to the spot, with a wider spread.
	m := PriorModel(OpenBed)
	require.InDelta(t, m.Mean(Night{Tmin: 2, Before: 12, After: 12}), m.Mean(Night{Tmin: 2, Before: nan, After: nan}), 1e-9)
	require.Greater(t, m.SD(Night{Tmin: 2, Before: nan, After: nan}), m.SD(Night{Tmin: 2, Before: 13, After: 13}))
}

// South of the equator, winter's term is in July.
func TestSouth(t *testing.T) {
	rec := invented(1000, 4)
	d := climate.NewDay(2021, 7, 16)
	north := NightOf(rec, climate.Calendar{}, d)
	south := NightOf(rec, climate.Calendar{South: true}, d)
	xn, _ := TermsOf(north, Usual{})
	xs, _ := TermsOf(south, Usual{})
	require.InDelta(t, -1, xn[2], 0.01)
	require.InDelta(t, 1, xs[2], 0.01)
}

func BenchmarkToSpot(b *testing.B) {
	e := ensemble(50, 5)
	m := PriorModel(OpenBed)
	for b.Loop() {
		m.ToSpot(e, 1)
	}
}

// The departures of a season have unit variance and hang together as the shares say:
// 0.07 + 0.10 exp(-k/25) + 0.10 exp(-k/1.5), by hand.
func TestDeparturesLast(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 9))
	const seasons, nights = 4000, 40
	lag := map[int]float64{0: 1, 1: 0.217, 5: 0.155, 30: 0.100}
	got := map[int]float64{}
	for range seasons {
		d := newDepartures(rng, outdoors)
		var x [nights]float64
		for i := range x {
			x[i] = d.next()
		}
		for k := range lag {
			got[k] += x[0] * x[k] / seasons
		}
	}
	for k, want := range lag {
		require.InDelta(t, want, got[k], 4/math.Sqrt(seasons), "%d nights apart", k) // four standard errors of a product
	}
}
