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
// as most far readings are true; Tukey's then takes the weight of gross errors, such as
// a lost sign or a misread ten, away altogether.
const (
	huber = 2.5
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
	out    bool    // counts for nothing
}

// Fit moves a prior by readings at the spot, taken on days that the station has. It
// is a linear regression with a normal prior on the coefficients and on a departure
// of each season logged, so that one spring's readings, however many, are not taken
// for the long run; with robust weights (Huber 1964; Beaton & Tukey 1974), reached
// by reweighting. The spread of the nights is that of the prior and of what is left over,
// each counting by its readings. Readings without a station value are left out and counted. Two
// readings of one day both count: sort out corrections before.
func Fit(station climate.Series, c climate.Calendar, readings []Reading, p Prior) (Model, Summary) {
	if p.Identity() {
		return Model{}, Summary{Prior: p, Readings: len(readings)}
	}
	usual := UsualOf(station, c)
	habit, known := HabitOf(station, c, usual)
	b := p.believe(habit, known)
	rows, seasons := rowsOf(station, c, readings, usual, p)
	m := p.model(fit(rows, seasons, b, usual, p.lasting()))
	s := summarise(m, fit(nil, 0, b, usual, p.lasting()), p, station, c, rows, seasons, len(readings))
	s.Place, s.Bed = apart(m, b, p, habit, known, s.Clear.Range)
	s.Worth = worthOf(m, b, p, rows, seasons, s.Dull.Range, s.Clear.Range)
	return m, s
}

// FitModel is Fit without the summary, which takes most of its time.
func FitModel(station climate.Series, c climate.Calendar, readings []Reading, p Prior) Model {
	if p.Identity() {
		return Model{}
	}
	usual := UsualOf(station, c)
	rows, seasons := rowsOf(station, c, readings, usual, p)
	return p.model(fit(rows, seasons, p.believe(HabitOf(station, c, usual)), usual, p.lasting()))
}

func fit(rows []row, seasons int, b belief, usual Usual, l lasting) Model {
	m := Model{Coef: b.mean, Cov: b.cov, Night: b.night, Worth: worth, Usual: usual}
	for again := len(rows) > 0; again; {
		m.Night = b.night
		for i := 0; i < 2*steps; i++ {
			m = step(rows, seasons, b, m.Night, l.log, i >= steps)
		}
		again = drop(rows)
	}
	m.Usual = usual
	return m
}

// noWeight is what counts for 0 %, and so is dropped.
const noWeight = 0.005

// drop takes out the rows that count for nothing, and has the others begin anew, so that such a reading
// moves nothing at all; it says whether there were any.
func drop(rows []row) (any bool) {
	for i := range rows {
		if r := &rows[i]; !r.out && r.weight < noWeight {
			r.out, any = true, true
		}
	}
	for i := range rows {
		if r := &rows[i]; r.out {
			r.weight = 0
		} else if any {
			r.weight = 1
		}
	}
	return any
}

func rowsOf(station climate.Series, c climate.Calendar, readings []Reading, usual Usual, p Prior) (rows []row, seasons int) {
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
		x, share := TermsOf(n, usual)
		gap := r.Tmin - n.Tmin
		if s := p.Shelter; s != nil {
			gap += (s.Gain - s.Cold) * (1 - warmer(n.Tmin))
		}
		if p.lasting().flat {
			share = 1
		}
		rows = append(rows, row{day: r.Day, x: x, y: gap, share: share, season: index[y], weight: 1})
	}
	return rows, len(index)
}

// step solves the weighted regression for a given spread of the nights, then takes
// the spread and the weights from what is left over.
func step(rows []row, seasons int, p belief, night, logShare float64, redescend bool) Model {
	k := Terms + seasons
	a, b := p.precision(k)
	for s := 0; s < seasons; s++ {
		a.SetSym(Terms+s, Terms+s, 1/(logShare*sq(night)))
	}
	for _, r := range rows {
		if r.out {
			continue
		}
		x := r.full(seasons)
		w := r.weight / ((1 - logShare) * sq(night*r.share))
		for i := 0; i < k; i++ {
			b.SetVec(i, b.AtVec(i)+w*x[i]*r.y)
			for j := i; j < k; j++ {
				a.SetSym(i, j, a.At(i, j)+w*x[i]*x[j])
			}
		}
	}
	var ch mat.Cholesky
	var coef mat.VecDense
	var cov mat.SymDense
	if !ch.Factorize(a) || ch.SolveVecTo(&coef, b) != nil || ch.InverseTo(&cov) != nil {
		panic("site: a prior's spreads differ by too many orders of magnitude")
	}
	var m Model
	for i := range m.Coef {
		m.Coef[i] = coef.AtVec(i)
		for j := range m.Coef {
			m.Cov[i][j] = cov.At(i, j)
		}
	}
	m.Night, m.Worth = reweigh(rows, seasons, p, night, logShare, &coef, &cov, redescend)
	return m
}

// precision is the inverse of a belief's covariance, and that times its mean, in the
// first Terms of k rows.
func (p belief) precision(k int) (*mat.SymDense, *mat.VecDense) {
	cov := mat.NewSymDense(Terms, nil)
	for i := range p.cov {
		for j := i; j < Terms; j++ {
			cov.SetSym(i, j, p.cov[i][j])
		}
	}
	var ch mat.Cholesky
	var inv mat.SymDense
	if !ch.Factorize(cov) || ch.InverseTo(&inv) != nil {
		panic("site: the prior's covariance is not positive definite") // the tables' are
	}
	a, b := mat.NewSymDense(k, nil), mat.NewVecDense(k, nil)
	for i := range p.mean {
		for j := range p.mean {
			if j >= i {
				a.SetSym(i, j, inv.At(i, j))
			}
			b.SetVec(i, b.AtVec(i)+inv.At(i, j)*p.mean[j])
		}
	}
	return a, b
}

// full is a row's terms with its season's departure.
func (r row) full(seasons int) []float64 {
	x := append(make([]float64, 0, Terms+seasons), r.x[:]...)
	x = append(x, make([]float64, seasons)...)
	x[Terms+r.season] = r.share
	return x
}

// reweigh sets each row's weight and returns the spread of the nights, the season's part
// in it, and the readings that it is worth: the root of the mean square left over, the
// prior's counted in. What the fit has used up of the readings (the trace of its hat
// matrix) is taken off their number.
func reweigh(rows []row, seasons int, p belief, night, logShare float64, coef *mat.VecDense, cov *mat.SymDense, redescend bool) (float64, float64) {
	ss, n, all := worth*sq(p.night), float64(worth), float64(worth)
	for i := range rows {
		r := &rows[i]
		if r.out {
			continue
		}
		x := mat.NewVecDense(Terms+seasons, r.full(seasons))
		left := (r.y - mat.Dot(x, coef)) / r.share
		used := r.weight * mat.Inner(x, cov, x) / ((1 - logShare) * sq(night*r.share))
		counted := r.weight // Huber's proposal 2 until the gross errors are found, which else hide themselves by widening the spread
		if !redescend {
			counted *= r.weight
		}
		ss += counted * sq(left) / (1 - logShare)
		n += r.weight * (1 - min(1, used))
		all += r.weight
		r.away = left / night
		if redescend {
			r.weight = sq(max(0, 1-sq(r.away/tukey)))
		} else {
			r.weight = min(1, huber/math.Abs(r.away))
		}
	}
	return math.Sqrt(ss / n), all
}
