package siteprior

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"frostward/climate"
	"frostward/climate/site"
)

const k = site.Terms

// Line is a record's own coefficients, from all its seasons.
type Line struct {
	Coef    [k]float64
	Cov     *mat.SymDense // the error of Coef, whole seasons taken as the units
	Night   float64       // standard deviation of what is left, over the night's share
	Habit   site.Habit
	Seasons int
}

const fittedFrom, fittedTo climate.SeasonDay = 59, 165

func completeSeasons(station, spot climate.Series) (out []int) {
	first, last := climate.SeasonsIn(spot, climate.Calendar{})
	for y := first; y <= last; y++ {
		n := [2]int{}
		for sd := climate.SeasonDay(0); sd < 181; sd++ {
			d := climate.Calendar{}.Day(y, sd)
			for i, s := range []climate.Series{station, spot} {
				if t, _ := s.At(d); !math.IsNaN(t) {
					n[i]++
				}
			}
		}
		if min(n[0], n[1]) >= 176 {
			out = append(out, y)
		}
	}
	return out
}

// ownLine is weighted least squares with the spread's share as weight.
func ownLine(station, spot climate.Series) Line {
	c := climate.Calendar{}
	usual := site.UsualOf(station, c)
	type row struct {
		x      [k]float64
		y      float64
		season int
	}
	var rows []row
	seasons := completeSeasons(station, spot)
	a, b := mat.NewSymDense(k, nil), mat.NewVecDense(k, nil)
	for s, y := range seasons {
		for sd := fittedFrom; sd <= fittedTo; sd++ {
			d := c.Day(y, sd)
			n := site.NightOf(station, c, d)
			at, _ := spot.At(d)
			if math.IsNaN(n.Tmin + at) {
				continue
			}
			x, share := site.TermsOf(n, usual)
			r := row{x: x, y: (at - n.Tmin) / share, season: s}
			for i := range r.x {
				r.x[i] /= share
			}
			rows = append(rows, r)
			for i := range r.x {
				b.SetVec(i, b.AtVec(i)+r.x[i]*r.y)
				for j := i; j < k; j++ {
					a.SetSym(i, j, a.At(i, j)+r.x[i]*r.x[j])
				}
			}
		}
	}
	var ch mat.Cholesky
	if !ch.Factorize(a) {
		panic("siteprior: too few nights")
	}
	var coef mat.VecDense
	var inv mat.SymDense
	must(ch.SolveVecTo(&coef, b))
	must(ch.InverseTo(&inv))
	l := Line{Seasons: len(seasons)}
	l.Habit, _ = site.HabitOf(station, c, usual)
	g := make([][k]float64, len(seasons))
	var ss float64
	for _, r := range rows {
		e := r.y
		for i, x := range r.x {
			e -= x * coef.AtVec(i)
		}
		ss += e * e
		for i, x := range r.x {
			g[r.season][i] += x * e
		}
	}
	l.Night = math.Sqrt(ss / float64(len(rows)))
	meat := mat.NewSymDense(k, nil)
	for _, v := range g {
		meat.SymRankOne(meat, 1, mat.NewVecDense(k, v[:]))
	}
	l.Cov = sandwich(&inv, meat)
	for i := range l.Coef {
		l.Coef[i] = coef.AtVec(i)
	}
	return l
}

func sandwich(a, m *mat.SymDense) *mat.SymDense {
	var p, q mat.Dense
	p.Mul(a, m)
	q.Mul(&p, a)
	return symmetric(&q)
}

func symmetric(q mat.Matrix) *mat.SymDense {
	n, _ := q.Dims()
	s := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			s.SetSym(i, j, (q.At(i, j)+q.At(j, i))/2)
		}
	}
	return s
}

func must(err error) {
	if err != nil {
		panic(err)
	}
}

// uplandWeight is what a pair of the upland counts, for they share stations.
const uplandWeight = 0.3

// freedom is that of the multivariate t which keeps one odd record from setting the table.
const freedom = 5.0

// Fit makes the tables from all records that share no thermometer with leftOut (which may be the zero Record).
func Fit(records []Record, leftOut Record) (same, elsewhere site.Table) {
	var here, away []Record
	for _, r := range records {
		switch {
		case r.Shares(leftOut):
		case r.Kind == "same":
			here = append(here, r)
		case r.Kind == "pair", r.Kind == "upland":
			away = append(away, r)
		}
	}
	return table(here, false), table(away, true)
}

// table regresses the records' own coefficients on what is known of the place; what is left
// is the spread between places. Empirical Bayes, by reweighting.
func table(records []Record, rise bool) site.Table {
	p := 3
	if rise {
		p = 5
	}
	known := func(r Record) []float64 {
		x := []float64{1, r.Own.Habit.Spread, r.Own.Habit.Clear}
		if rise {
			z := math.Max(-2.5, math.Min(2.5, r.Place.Rise/100))
			x = append(x, z, r.Place.Rise/100-z)
		}
		return x
	}
	n := len(records)
	w0, w := make([]float64, n), make([]float64, n)
	var all float64
	for i, r := range records {
		w0[i] = 1
		if r.Kind == "upland" {
			w0[i] = uplandWeight
		}
		all += w0[i]
	}
	copy(w, w0)
	var coef *mat.Dense
	s := mat.NewSymDense(k, nil)
	for i := range k { // to begin with
		s.SetSym(i, i, math.Inf(1))
	}
	for range 40 {
		own := func(r Record) []float64 { return r.Own.Coef[:] }
		coef = regress(records, w, p, known, own)
		if rise { // 14 pairs are too few to tell how the date's cold and the night before depend on the place
			mean := regress(records, w, 1, known, own)
			for j := 3; j < k; j++ {
				coef.SetCol(j, []float64{mean.At(0, j), 0, 0, 0, 0})
			}
		}
		d := mat.NewDense(n, k, nil)
		next := mat.NewSymDense(k, nil)
		var ch mat.Cholesky
		first := math.IsInf(s.At(0, 0), 1)
		if !first && !ch.Factorize(s) {
			panic("siteprior: too few records for a spread")
		}
		for i, r := range records {
			for j := range k {
				v := r.Own.Coef[j]
				for q, x := range known(r) {
					v -= x * coef.At(q, j)
				}
				d.Set(i, j, v)
			}
			if !first {
				var u mat.VecDense
				row := d.RowView(i)
				must(ch.SolveVecTo(&u, row.(*mat.VecDense)))
				w[i] = w0[i] * (freedom + k) / (freedom + mat.Dot(row, &u))
			}
			next.SymRankOne(next, w[i]/(all*math.Max(0.6, 1-float64(p)/all)), d.RowView(i))
		}
		s = next
	}
	// The lines' own errors, half of their mean, are taken off.
	for _, r := range records {
		for i := range k {
			for j := i; j < k; j++ {
				s.SetSym(i, j, s.At(i, j)-r.Own.Cov.At(i, j)/float64(2*n))
			}
		}
	}
	s = positive(s)
	var t site.Table
	for j := range k {
		t.Mean[j], t.PerV[j], t.PerC[j] = coef.At(0, j), coef.At(1, j), coef.At(2, j)
		if rise {
			t.PerZ[j], t.PerZ2[j] = coef.At(3, j), coef.At(4, j)
		}
		t.SD[j] = math.Sqrt(s.At(j, j))
		for i := range k {
			t.Corr[i][j] = s.At(i, j) / math.Sqrt(s.At(i, i)*s.At(j, j))
		}
	}
	night := regress(records, w0, 3, func(r Record) []float64 { return []float64{1, r.Own.Habit.Spread, r.Own.Habit.Clear} },
		func(r Record) []float64 { return []float64{math.Log(r.Own.Night)} })
	t.Night = [3]float64{night.At(0, 0), night.At(1, 0), night.At(2, 0)}
	return t
}

func regress(records []Record, w []float64, p int, x, y func(Record) []float64) *mat.Dense {
	a := mat.NewSymDense(p, nil)
	b := mat.NewDense(p, len(y(records[0])), nil)
	for i, r := range records {
		v := mat.NewVecDense(p, x(r)[:p])
		a.SymRankOne(a, w[i], v)
		for q := range p {
			for j, yy := range y(r) {
				b.Set(q, j, b.At(q, j)+w[i]*v.AtVec(q)*yy)
			}
		}
	}
	for i := range p {
		a.SetSym(i, i, a.At(i, i)+1e-6)
	}
	var out mat.Dense
	must(out.Solve(a, b))
	return &out
}

func positive(s *mat.SymDense) *mat.SymDense {
	var e mat.EigenSym
	if !e.Factorize(s, true) {
		panic("siteprior: no eigenvalues")
	}
	var u mat.Dense
	e.VectorsTo(&u)
	out := mat.NewSymDense(k, nil)
	for i, l := range e.Values(nil) {
		out.SymRankOne(out, math.Max(l, 1e-5), u.ColView(i))
	}
	return out
}
