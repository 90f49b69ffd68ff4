package site

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"frostward/climate"
)

// Reading is one morning minimum at the spot.
type Reading struct {
	Day  climate.Day // the day the night ended in
	Tmin float64     // °C
}

// Limits of the robust weights, in standard deviations of a night. Huber's is loose,
// as the gap is skewed and most far readings are true; Tukey's then takes the weight
// of gross errors, such as a lost sign or a misread ten, away altogether.
const (
	huber = 2.0
	tukey = 6.0
	steps = 8 // of each; the weights change in the third figure after four
)

type row struct {
	day    climate.Day
	x      [Terms]float64
	y      float64 // gap, °C
	share  float64
	season int // index
	weight float64
	away   float64 // standard deviations from the fit
}

// Fit moves a prior by readings at the spot, taken on days that the station has. It
// is a linear regression with a normal prior on the coefficients and on a departure
// of each season logged, so that one spring's readings, however many, are not taken
// for the long run; with robust weights (Huber 1964; Beaton & Tukey 1974), reached
// by reweighting. Readings without a station value are left out and counted. Two
// readings of one day both count: sort out corrections before.
func Fit(station climate.Series, c climate.Calendar, readings []Reading, p Prior) (Model, Summary) {
	if p.Station {
		return Model{}, Summary{Prior: p, Readings: len(readings)}
	}
	rows, seasons := rowsOf(station, c, readings)
	m := fit(rows, seasons, p)
	return m, summarise(m, p, station, c, rows, seasons, len(readings))
}

// FitModel is Fit without the summary, which takes most of its time.
func FitModel(station climate.Series, c climate.Calendar, readings []Reading, p Prior) Model {
	if p.Station {
		return Model{}
	}
	rows, seasons := rowsOf(station, c, readings)
	return fit(rows, seasons, p)
}

func fit(rows []row, seasons int, p Prior) Model {
	m := PriorModel(p)
	if len(rows) > 0 {
		for i := 0; i < 2*steps; i++ {
			m = step(rows, seasons, p, m.Night, i >= steps)
		}
	}
	return m
}

func rowsOf(station climate.Series, c climate.Calendar, readings []Reading) (rows []row, seasons int) {
	index := map[int]int{}
	sorted := slices.SortedFunc(slices.Values(readings), func(a, b Reading) int { return cmp.Compare(a.Day, b.Day) })
	for _, r := range sorted {
		n := NightOf(station, c, r.Day)
		if math.IsNaN(n.Tmin) || math.IsNaN(r.Tmin) {
			continue
		}
		y, _ := c.Locate(r.Day)
		if _, seen := index[y]; !seen {
			index[y] = len(index)
		}
		x, share := n.terms()
		rows = append(rows, row{day: r.Day, x: x, y: r.Tmin - n.Tmin, share: share, season: index[y], weight: 1})
	}
	return rows, len(index)
}

// step solves the weighted regression for a given spread of the nights, then takes
// the spread and the weights from what is left over.
func step(rows []row, seasons int, p Prior, night float64, redescend bool) Model {
	k := Terms + seasons
	a := mat.NewSymDense(k, nil) // precision of the coefficients and season departures
	b := mat.NewVecDense(k, nil)
	for i := 0; i < Terms; i++ {
		prec := 1 / sq(p.SD[i])
		a.SetSym(i, i, prec)
		b.SetVec(i, prec*p.Mean[i])
	}
	for s := 0; s < seasons; s++ {
		a.SetSym(Terms+s, Terms+s, 1/sq(p.Season))
	}
	for _, r := range rows {
		x := r.full(seasons)
		w := r.weight / sq(night*r.share)
		for i := 0; i < k; i++ {
			b.SetVec(i, b.AtVec(i)+w*x[i]*r.y)
			for j := i; j < k; j++ {
				a.SetSym(i, j, a.At(i, j)+w*x[i]*x[j])
			}
		}
	}
	var ch mat.Cholesky
	if !ch.Factorize(a) {
		panic("site: the prior has a coefficient without a spread") // else a is positive definite
	}
	var coef mat.VecDense
	var cov mat.SymDense
	if ch.SolveVecTo(&coef, b) != nil || ch.InverseTo(&cov) != nil {
		panic("site: a prior's spreads differ by too many orders of magnitude")
	}
	m := Model{Season: p.Season}
	for i := range m.Coef {
		m.Coef[i] = coef.AtVec(i)
		for j := range m.Coef {
			m.Cov[i][j] = cov.At(i, j)
		}
	}
	m.Night = reweigh(rows, seasons, p, night, &coef, &cov, redescend)
	return m
}

// full is a row's terms with its season's departure.
func (r row) full(seasons int) []float64 {
	x := append(make([]float64, 0, Terms+seasons), r.x[:]...)
	x = append(x, make([]float64, seasons)...)
	x[Terms+r.season] = r.share
	return x
}

// reweigh sets each row's weight and returns the spread of the nights: the root of
// the mean square left over, the prior's counted in as Worth readings. What the fit
// has used up of the readings (the trace of its hat matrix) is taken off their number.
func reweigh(rows []row, seasons int, p Prior, night float64, coef *mat.VecDense, cov *mat.SymDense, redescend bool) float64 {
	ss, n := p.Worth*sq(p.Night), p.Worth
	for i := range rows {
		r := &rows[i]
		x := mat.NewVecDense(Terms+seasons, r.full(seasons))
		left := (r.y - mat.Dot(x, coef)) / r.share
		used := r.weight * mat.Inner(x, cov, x) / sq(night*r.share)
		ss += r.weight * sq(left)
		n += r.weight * (1 - min(1, used))
		r.away = left / night
		if redescend {
			r.weight = sq(max(0, 1-sq(r.away/tukey)))
		} else {
			r.weight = min(1, huber/math.Abs(r.away))
		}
	}
	return math.Sqrt(ss / n)
}
