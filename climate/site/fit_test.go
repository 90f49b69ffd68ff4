package site

import (
	"encoding/csv"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"frostward/climate"
)

// invented is a station's record of n days from 1 January 2020 with a yearly course,
// and ranges from 3 to 17 °C.
func invented(n int, seed uint64) climate.Series {
	rng := rand.New(rand.NewPCG(seed, 1))
	s := climate.NewSeries(climate.NewDay(2020, 1, 1), n)
	for i := range s.Tmin {
		s.Tmin[i] = 6 - 7*math.Cos(2*math.Pi*float64(i)/365.25) + 3*rng.NormFloat64()
		s.Tmax[i] = s.Tmin[i] + 3 + 14*rng.Float64()
	}
	return s
}

// logged draws n readings in March to May of a year from a known truth: an invented twin of the station.
func logged(rec climate.Series, truth Line, year, n int, seed uint64) []Reading {
	rng := rand.New(rand.NewPCG(seed, 2))
	departs := newDepartures(rng, outdoors)
	keep := map[int]bool{}
	for _, k := range rng.Perm(92)[:n] {
		keep[k] = true
	}
	var out []Reading
	for k := range 92 {
		d := climate.NewDay(year, 3, 1) + climate.Day(k)
		e := departs.next()
		if keep[k] {
			out = append(out, Reading{d, truth.draw(NightOf(rec, climate.Calendar{}, d), e)})
		}
	}
	return out
}

// aTruth is a spot on the prior's mean, but for what the test changes.
func aTruth(rec climate.Series, p Prior) Line {
	m := FitModel(rec, climate.Calendar{}, nil, p)
	return Line{coef: m.Coef, night: m.Night, usual: m.Usual}
}

// One weighted solution with a known spread against R 4.2.2: nlme 3.1-162's gls without a
// prior, and the closed form of the normal linear model with one.
func TestRegressionAgainstR(t *testing.T) {
	f, err := os.Open("../../testdata/published/site_regression.csv")
	require.NoError(t, err)
	defer f.Close()
	in := csv.NewReader(f)
	in.FieldsPerRecord = -1
	lines, err := in.ReadAll()
	require.NoError(t, err)
	c := map[string][]float64{}
	for _, l := range lines {
		for _, v := range l[1:] {
			x, err := strconv.ParseFloat(v, 64)
			require.NoError(t, err)
			c[l[0]] = append(c[l[0]], x)
		}
	}
	var rows []row
	for i := range c["day"] {
		n := Night{Tmin: c["tmin"][i], Before: c["before"][i], After: c["after"][i], Fall: c["fall"][i], Day: climate.SeasonDay(c["day"][i])}
		x, share := TermsOf(n, Usual{5, -6, -2})
		rows = append(rows, row{x: x, y: c["spot"][i] - n.Tmin, share: share, season: int(c["season"][i]) - 1, weight: 1})
	}
	require.Len(t, rows, 40)
	p := belief{mean: [Terms]float64{-1.6, -0.15, -0.2, 0.02, 0.1}, night: 1.3}
	for i, s := range []float64{0.8, 0.07, 0.2, 0.03, 0.06} {
		p.cov[i][i] = s * s
	}
	p.cov[0][1], p.cov[1][0] = 0.03, 0.03
	m := step(rows, 2, p, 1.3, outdoors.log, false)
	require.InDeltaSlice(t, c["posterior"], m.Coef[:], 1e-9)
	for i, s := range c["sd"] {
		require.InEpsilon(t, s, math.Sqrt(m.Cov[i][i]), 1e-9)
	}

	// With no prior to speak of, it is generalised least squares.
	for i := range rows {
		rows[i].weight = 1
	}
	p.cov = [Terms][Terms]float64{}
	for i := range p.cov {
		p.cov[i][i] = 1e8
	}
	m = step(rows, 2, p, 1.3, outdoors.log, false)
	require.InDeltaSlice(t, c["gls"], m.Coef[:], 1e-6)
}

func TestNoReadingsIsThePrior(t *testing.T) {
	rec := invented(800, 1)
	prior := FitModel(rec, climate.Calendar{}, nil, OpenBed)
	m, s := Fit(rec, climate.Calendar{}, nil, OpenBed)
	require.Equal(t, prior, m)
	require.Zero(t, s.Used)
	// Days that the station lacks count for nothing.
	m, s = Fit(rec, climate.Calendar{}, []Reading{{climate.NewDay(1990, 4, 1), 2}, {rec.First, math.NaN()}}, OpenBed)
	require.Equal(t, prior, m)
	require.Equal(t, 2, s.Readings)
	require.Zero(t, s.Used)
}

// Readings move the fit from the prior to the truth, and the more springs of them the nearer.
func TestReadingsOutweighThePrior(t *testing.T) {
	rec := invented(3650, 2)
	truth := aTruth(rec, OpenBed)
	truth.coef[0] -= 1.5
	truth.coef[1] -= 0.06
	far := func(m Model) float64 {
		n := Night{Tmin: 1, Before: 15, After: 15, Day: 110}
		return math.Abs(m.Mean(n) - truth.draw(n, 0))
	}
	prior := far(FitModel(rec, climate.Calendar{}, nil, OpenBed))
	one := logged(rec, truth, 2021, 30, 5)
	m1, s1 := Fit(rec, climate.Calendar{}, one, OpenBed)
	all := one
	for y := 2022; y < 2030; y++ {
		all = append(all, logged(rec, truth, y, 60, uint64(y))...)
	}
	m9, s9 := Fit(rec, climate.Calendar{}, all, OpenBed)
	require.InDelta(t, 1.74, prior, 0.01) // by hand: 1.5 + 0.06 * (14-10)
	require.Less(t, far(m1), 0.6*prior)
	require.Less(t, far(m9), 0.35)
	require.Greater(t, s1.Sharpened, 1.3)
	require.Greater(t, s9.Sharpened, s1.Sharpened)
	require.Equal(t, 9, s9.Seasons)
	require.InDelta(t, truth.night, m9.Night, 0.15)
	require.True(t, s9.Clear.Low < s9.Clear.Mean && s9.Clear.Mean < s9.Clear.High)
}

// Of gardens drawn from the prior, at the station and 12 km from it, 90 in 100 have their
// mean gap of a clear April night inside the stated 90 %, before and after 30 readings. 300
// gardens: two standard errors are 3.5 in 100.
func TestStatedDoubtHolds(t *testing.T) {
	rec := invented(1500, 2)
	z := distuv.UnitNormal.Quantile(0.95)
	for _, p := range []Prior{OpenBed, OpenBed.At(Place{Km: 12, Rise: -60}), AtStation.At(Place{Km: 12, Rise: 40})} {
		rng := rand.New(rand.NewPCG(3, 3))
		m0 := FitModel(rec, climate.Calendar{}, nil, p)
		n := Night{Tmin: 1, Before: 15, After: 15, Day: 110}
		var before, after, narrower float64
		const gardens = 300
		for g := range gardens {
			truth := m0.line(rng)
			is := truth.draw(n, 0)
			m := FitModel(rec, climate.Calendar{}, logged(rec, truth, 2021+g%3, 30, uint64(g)), p)
			if math.Abs(m0.Mean(n)-is) < z*m0.Open(n) {
				before++
			}
			if math.Abs(m.Mean(n)-is) < z*m.Open(n) {
				after++
			}
			narrower += m.Open(n) / m0.Open(n) / gardens
		}
		require.InDelta(t, 0.9, before/gardens, 0.04, "%s", p.Kind)
		require.InDelta(t, 0.9, after/gardens, 0.04, "%s", p.Kind)
		require.Less(t, narrower, 0.9)
	}
}

// At the station's own place there is no doubt of the place: the prior of an open bed is that of the
// bed alone, and a screen there is the station. Some kilometres off the doubt is larger.
func TestSamePlaceHasNoPlaceDoubt(t *testing.T) {
	rec := invented(800, 1)
	n := Night{Tmin: 1, Before: 15, After: 15, Day: 110}
	at := func(p Prior) Model { return FitModel(rec, climate.Calendar{}, nil, p) }
	require.Equal(t, Model{}, at(AtStation.At(Place{})))
	near := at(AtStation.At(Place{Km: 0.01}))
	require.InDelta(t, 1, near.Mean(n), 0.02)
	require.Less(t, near.SD(n), 0.15)
	require.InDelta(t, at(OpenBed).Open(n), at(OpenBed.At(Place{Km: 0.01})).Open(n), 0.01)
	require.Greater(t, at(OpenBed.At(Place{Km: 10})).Open(n), 1.2*at(OpenBed).Open(n))
	require.Greater(t, at(OpenBed.At(Place{Km: 10, Rise: 500})).Open(n), 1.2*at(OpenBed.At(Place{Km: 10})).Open(n))
	// On dull nights it is colder higher up, by about the usual fall with height.
	dull := Night{Tmin: 8, Before: 10, After: 10, Day: 110}
	fall := at(AtStation.At(Place{Km: 10, Rise: 200})).Mean(dull) - at(AtStation.At(Place{Km: 10})).Mean(dull)
	require.InDelta(t, -1.4, fall, 0.6)
}

// Three gross errors among 30 readings move the gap on clear nights by less than a
// quarter of a degree, and are named.
func TestGrossErrors(t *testing.T) {
	rec := invented(800, 3)
	good := logged(rec, aTruth(rec, OpenBed), 2021, 30, 7)
	m0, _ := Fit(rec, climate.Calendar{}, good, OpenBed)
	bad := append([]Reading(nil), good...)
	bad[3].Tmin += 10  // misread ten
	bad[11].Tmin = -18 // °F scale, or indoors
	bad[20].Tmin += 15
	m1, s := Fit(rec, climate.Calendar{}, bad, OpenBed)
	n := Night{Tmin: 1, Before: 15, After: 15, Day: 110}
	require.InDelta(t, m0.Mean(n), m1.Mean(n), 0.25)
	require.InDelta(t, m0.Night, m1.Night, 0.35)
	days := map[climate.Day]bool{}
	for _, d := range s.Doubtful {
		days[d.Day] = true
	}
	for _, i := range []int{3, 11, 20} {
		require.True(t, days[bad[i].Day], "reading %d", i)
	}
	require.LessOrEqual(t, len(s.Doubtful), 4)
}

// The order in which the log was written does not matter.
func TestOrder(t *testing.T) {
	rec := invented(800, 4)
	a := logged(rec, aTruth(rec, OpenBed), 2021, 20, 9)
	b := append([]Reading(nil), a...)
	rand.New(rand.NewPCG(1, 1)).Shuffle(len(b), func(i, j int) { b[i], b[j] = b[j], b[i] })
	ma, _ := Fit(rec, climate.Calendar{}, a, OpenBed)
	mb, _ := Fit(rec, climate.Calendar{}, b, OpenBed)
	require.Equal(t, ma, mb)
}

func TestPriors(t *testing.T) {
	for _, p := range Priors() {
		got, ok := PriorOf(p.Kind)
		require.True(t, ok)
		require.Equal(t, p, got)
		require.NotEmpty(t, p.Source)
		for _, w := range []Place{{}, {Km: 8}, {Km: 30, Rise: 600}, {Rise: -150}} {
			if p := p.At(w); !p.Identity() {
				m, _ := Fit(invented(400, 1), climate.Calendar{}, []Reading{{climate.NewDay(2020, 4, 4), 1}}, p)
				require.Positive(t, m.Night)
			}
		}
	}
	_, ok := PriorOf("moon")
	require.False(t, ok)
	m, _ := Fit(invented(400, 1), climate.Calendar{}, nil, AtStation)
	require.Equal(t, Model{}, m)
	require.Equal(t, 3.0, m.Mean(Night{Tmin: 3, Before: 9, After: 9}))
}

// The open bed's prior stays within what is published of plant level against screen:
// 0-1 °C when windy or overcast, 3-4 °C typically at the grass tips when clear and
// still (from memory, after Met Office practice), less at 10 cm.
func TestOpenBedPriorIsPlausible(t *testing.T) {
	m := PriorModel(OpenBed)
	dull := m.gap(4)
	clear := m.gap(16)
	require.InDelta(t, -0.6, dull.Mean, 0.4)
	require.InDelta(t, -2.7, clear.Mean, 0.7)
	require.Less(t, clear.Low, -3.5)
}

// The wave is the least squares one, and a few weeks of record leave it usual for the climate.
func TestUsual(t *testing.T) {
	rec := invented(3650, 6)
	u := UsualOf(rec, climate.Calendar{})
	require.InDeltaSlice(t, []float64{6, -7, 0}, u[:], 0.25) // the truth of invented; 40 days of anyone pull at it
	few := UsualOf(rec.Between(rec.First, rec.First+13), climate.Calendar{})
	require.InDelta(t, anyone.At(196), few.At(196), 2)
	_, known := HabitOf(rec.Between(rec.First, rec.First+13), climate.Calendar{}, few)
	require.False(t, known)
	h, known := HabitOf(rec, climate.Calendar{}, u)
	require.True(t, known)
	require.InDelta(t, 14/math.Sqrt(12)/math.Sqrt2-3.5, h.Spread, 1.2) // by hand, but for the minima's own spread
}

// Place and bed add up to the whole, the place is nothing at the station, and another spring's mornings tell more
// than as many of the same.
func TestPlaceAndBedApart(t *testing.T) {
	rec := invented(1500, 2)
	log := logged(rec, aTruth(rec, OpenBed), 2021, 25, 5)
	for _, p := range []Prior{OpenBed, OpenBed.At(Place{Km: 9, Rise: 80}), Wall.At(Place{Km: 9})} {
		_, s := Fit(rec, climate.Calendar{}, log, p)
		require.InDelta(t, s.Clear.Mean, s.Place.Mean+s.Bed.Mean, 0.05) // the place alone leaves out eigenvalues below 0
		require.LessOrEqual(t, s.Bed.High-s.Bed.Low, 1.8*(s.Clear.High-s.Clear.Low))
		require.Greater(t, s.Worth.Spring, s.Worth.Clear)
		require.Greater(t, s.Worth.Clear, s.Worth.Dull)
		require.True(t, s.Worth.Dull > 0 && s.Worth.Spring < 0.7)
		if p.Place == (Place{}) {
			require.Zero(t, s.Place.Mean)
			require.Zero(t, s.Place.High)
		} else {
			require.Greater(t, s.Place.High-s.Place.Low, 0.5)
		}
	}
}
