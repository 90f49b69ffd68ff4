package site

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"frostward/climate"
)

// apart parts the gap of a clear night into the garden's place and the bed. Readings show only the sum; each part
// takes of what they moved, and of what they made sure, as much as its share of the doubt before.
func apart(m Model, all belief, p Prior, h Habit, known bool, clear float64) (place, bed Gap) {
	x := mat.NewVecDense(Terms, []float64{1, clear - 10, 0, 0, 0})
	z := distuv.UnitNormal.Quantile(0.5 + climate.Level/2)
	here := p.At(Place{}).believe(h, known)
	at := placeOnly(all, here)
	if p.Place == (Place{}) {
		at = belief{}
	}
	var ch mat.Cholesky
	if !ch.Factorize(symmetric(all.cov)) {
		panic("site: the prior's covariance is not positive definite")
	}
	part := func(b belief) Gap {
		s := symmetric(b.cov)
		var sx, k mat.VecDense // s x, and the total's inverse times that
		sx.MulVec(s, x)
		if ch.SolveVecTo(&k, &sx) != nil {
			panic("site: the prior's covariance is not positive definite")
		}
		moved := mat.NewVecDense(Terms, nil)
		less := mat.NewSymDense(Terms, nil)
		for i := range m.Coef {
			moved.SetVec(i, m.Coef[i]-all.mean[i])
			for j := i; j < Terms; j++ {
				less.SetSym(i, j, all.cov[i][j]-m.Cov[i][j])
			}
		}
		mean := mat.Dot(x, mat.NewVecDense(Terms, b.mean[:])) + mat.Dot(&k, moved)
		half := z * math.Sqrt(max(0, mat.Dot(x, &sx)-mat.Inner(&k, less, &k)))
		return Gap{Range: clear, Mean: mean, Low: mean - half, High: mean + half}
	}
	return part(at), part(here)
}

func symmetric(a [Terms][Terms]float64) *mat.SymDense {
	s := mat.NewSymDense(Terms, nil)
	for i := range a {
		for j := i; j < Terms; j++ {
			s.SetSym(i, j, a[i][j])
		}
	}
	return s
}

// worthOf adds ten readings that are as expected, and looks how much narrower the doubt becomes.
func worthOf(m Model, b belief, p Prior, rows []row, seasons int, dull, clear float64) Worth {
	now := m.gap(clear)
	narrowed := func(r float64, season int) float64 {
		more := slices.Clone(rows)
		share := spreadShare(r, climate.SeasonDay(100).Fold())
		if p.lasting().flat {
			share = 1
		}
		for range 10 {
			x := [Terms]float64{1, r - 10}
			more = append(more, row{x: x, y: dot(m.Coef, x), share: share, season: season, weight: 1})
		}
		then := step(more, max(seasons, season+1), b, m.Night, p.lasting().log, false).gap(clear)
		return 1 - (then.High-then.Low)/(now.High-now.Low)
	}
	last := max(0, seasons-1)
	return Worth{Clear: narrowed(clear, last), Dull: narrowed(dull, last), Spring: narrowed(clear, seasons)}
}
