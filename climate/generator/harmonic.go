package generator

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// basis holds 1, cos and sin of the first harmonics for each day of the year, day by day.
type basis struct {
	terms int
	v     []float64 // year rows of terms
}

func newBasis(harmonics int) basis {
	b := basis{terms: 1 + 2*harmonics}
	b.v = make([]float64, year*b.terms)
	for d := range year {
		row := b.row(d)
		row[0] = 1
		for h := 1; h <= harmonics; h++ {
			sin, cos := math.Sincos(2 * math.Pi * float64(h) * (float64(d) + 0.5) / year)
			row[2*h-1], row[2*h] = cos, sin
		}
	}
	return b
}

func (b basis) row(d int) []float64 { return b.v[d*b.terms : (d+1)*b.terms] }

// curve evaluates coefficients for each day of the year.
func (b basis) curve(c []float64) (out [year]float64) {
	for d := range out {
		for j, v := range b.row(d) {
			out[d] += c[j] * v
		}
	}
	return out
}

// normal gathers the normal equations of a least-squares fit of the basis.
type normal struct {
	b  basis
	n  float64
	xx []float64 // terms x terms, upper triangle
	xy []float64
}

func newNormal(b basis) normal {
	return normal{b: b, xx: make([]float64, b.terms*b.terms), xy: make([]float64, b.terms)}
}

// addSums adds, for each day of the year, count values with the given sum.
func (q *normal) addSums(count, sum *[year]float64) {
	for d := range year {
		if count[d] == 0 {
			continue
		}
		row := q.b.row(d)
		q.n += count[d]
		for i, v := range row {
			q.xy[i] += v * sum[d]
			for j := i; j < len(row); j++ {
				q.xx[i*len(row)+j] += count[d] * v * row[j]
			}
		}
	}
}

// add adds the sums of another fit, weighted.
func (q *normal) add(o normal, weight float64) {
	q.n += weight * o.n
	for i, v := range o.xx {
		q.xx[i] += weight * v
	}
	for i, v := range o.xy {
		q.xy[i] += weight * v
	}
}

// solve returns the coefficients. A little is added to the diagonal below the first term, so
// that parts of the year without data leave the harmonics small rather than wild: as much as
// ridge days of evidence that each is 0.
func (q normal) solve(ridge float64) []float64 {
	k := q.b.terms
	a := mat.NewSymDense(k, nil)
	for i := range k {
		for j := i; j < k; j++ {
			a.SetSym(i, j, q.xx[i*k+j])
		}
		if i > 0 {
			a.SetSym(i, i, a.At(i, i)+ridge/2) // a harmonic has mean square 1/2
		}
	}
	var chol mat.Cholesky
	out := make([]float64, k)
	if !chol.Factorize(a) {
		return out // no data at all: weights of nought
	}
	x := mat.NewVecDense(k, out)
	if err := chol.SolveVecTo(x, mat.NewVecDense(k, q.xy)); err != nil {
		// An ill-conditioned answer is still the ridge's; nothing better is to be had.
		return out
	}
	return out
}
