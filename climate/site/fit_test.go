package site

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

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

// logged draws n readings in March to May of a year from a truth.
func logged(rec climate.Series, truth Model, year, n int, seed uint64) []Reading {
	rng := rand.New(rand.NewPCG(seed, 2))
	l := Line{coef: truth.Coef, season: truth.Season, night: truth.Night}
	season := rng.NormFloat64()
	var out []Reading
	for _, k := range rng.Perm(92)[:n] {
		d := climate.NewDay(year, 3, 1) + climate.Day(k)
		out = append(out, Reading{d, l.Draw(NightOf(rec, climate.Calendar{}, d), season, rng.NormFloat64())})
	}
	return out
}

// One weighted solution with a known spread of 0.6 °C, the prior of an open bed and
// one season, against the closed form of the normal linear model.
func TestPosterior(t *testing.T) {
	tn := []float64{1.2, 4.5, -0.3, 7.1, 2.8, 5.0, 3.3, 0.1, 6.2, 2.0}
	before := []float64{12, 15, 14, 13, 18, 11, 16, 15, 12, 17}
	after := []float64{14, 13, 16, 12, 20, 10, 19, 14, 13, 18}
	spot := []float64{-1.1, 3.2, -3.6, 6.6, -0.9, 4.4, 0.2, -2.6, 5.5, -1.0}
	day := []climate.SeasonDay{90, 95, 101, 104, 110, 113, 118, 122, 127, 131}
	var rows []row
	for i := range tn {
		n := Night{Tmin: tn[i], Before: before[i], After: after[i], Day: day[i]}
		x, share := n.terms()
		rows = append(rows, row{x: x, y: spot[i] - tn[i], share: share, weight: 1})
	}
	p := OpenBed
	p.Mean, p.SD, p.Season = [Terms]float64{0, -0.165, 0, 0}, [Terms]float64{0.3, 0.045, 0.2, 0.03}, 0.35
	m := step(rows, 1, p, 0.6, false)
	// R 4.2.2: V = diag((0.6 h)^2) + 0.35^2 h h'; A = P + X'V^-1 X;
	// solve(A, P mu + X'V^-1 y), solve(A), with h = pmin(1, (2+range)/12).
	want := [Terms]float64{0.1829858122644, -0.2086246748064, -0.0275539337727, 0.0233138353582}
	require.InDeltaSlice(t, want[:], m.Coef[:], 1e-10)
	cov := []float64{0.0607916635, 7.0622608e-04, 0.03725431853, 6.8263936e-04}
	for i, v := range cov {
		require.InEpsilon(t, v, m.Cov[i][i], 1e-6)
	}
	require.InEpsilon(t, -2.5315579e-03, m.Cov[0][1], 1e-6)

	// With no prior to speak of, it is the weighted least squares line.
	// R 4.2.2: lm(I(spot-tn) ~ r + x3 + tn, weights = 1/h^2).
	p.SD, p.Season = [Terms]float64{1e4, 1e4, 1e4, 1e4}, 1e-4
	m = step(rows, 1, p, 0.6, false)
	want = [Terms]float64{1.1416092544418, -0.2847075525110, -0.1502723693199, -0.0227549800609}
	require.InDeltaSlice(t, want[:], m.Coef[:], 1e-5)
}

func TestNoReadingsIsThePrior(t *testing.T) {
	rec := invented(800, 1)
	m, s := Fit(rec, climate.Calendar{}, nil, OpenBed)
	require.Equal(t, PriorModel(OpenBed), m)
	require.Zero(t, s.Used)
	// Days that the station lacks count for nothing.
	m, s = Fit(rec, climate.Calendar{}, []Reading{{climate.NewDay(1990, 4, 1), 2}, {rec.First, math.NaN()}}, OpenBed)
	require.Equal(t, PriorModel(OpenBed), m)
	require.Equal(t, 2, s.Readings)
	require.Zero(t, s.Used)
}

// Readings move the fit from the prior to the truth, and the more of them the nearer.
func TestReadingsOutweighThePrior(t *testing.T) {
	rec := invented(3650, 2)
	truth := Model{Coef: [Terms]float64{-0.4, -0.28, 0, 0}, Night: 1, Season: 0.2}
	far := func(m Model) float64 {
		n := Night{Tmin: 1, Before: 15, After: 15, Day: 110}
		return math.Abs(m.Mean(n) - truth.Mean(n))
	}
	prior := far(PriorModel(OpenBed))
	var one []Reading
	one = append(one, logged(rec, truth, 2021, 30, 5)...)
	m1, s1 := Fit(rec, climate.Calendar{}, one, OpenBed)
	all := one
	for y := 2022; y < 2030; y++ {
		all = append(all, logged(rec, truth, y, 60, uint64(y))...)
	}
	m9, s9 := Fit(rec, climate.Calendar{}, all, OpenBed)
	require.Greater(t, prior, 1.8) // by hand: -0.4-0.115*14
	require.Less(t, far(m1), 0.5*prior)
	require.Less(t, far(m9), 0.3)
	require.Greater(t, s1.Sharpened, 1.3)
	require.Greater(t, s9.Sharpened, s1.Sharpened)
	require.Equal(t, 9, s9.Seasons)
	require.Less(t, s9.Clear.High-s9.Clear.Low, s1.Clear.High-s1.Clear.Low)
	require.True(t, s9.Clear.Low < s9.Clear.Mean && s9.Clear.Mean < s9.Clear.High)
}

// Three gross errors among 30 readings move the gap on clear nights by less than a
// quarter of a degree, and are named.
func TestGrossErrors(t *testing.T) {
	rec := invented(800, 3)
	truth := PriorModel(OpenBed)
	truth.Season = 0
	good := logged(rec, truth, 2021, 30, 7)
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
	a := logged(rec, PriorModel(OpenBed), 2021, 20, 9)
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
		if !p.Station {
			m, _ := Fit(invented(400, 1), climate.Calendar{}, []Reading{{climate.NewDay(2020, 4, 4), 1}}, p)
			require.Positive(t, m.Night)
		}
	}
	_, ok := PriorOf("moon")
	require.False(t, ok)
	m, s := Fit(invented(400, 1), climate.Calendar{}, nil, AtStation)
	require.Equal(t, Model{}, m)
	require.True(t, s.Prior.Station)
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
