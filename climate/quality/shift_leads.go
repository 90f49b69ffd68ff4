package quality

import "math"

// A value is expected from those of its element on the two days before and from those of the
// other on its own day and on two days to either side, all standardised, with their squares
// and products: a warm night says more of a warm day after a warm one. The values before tell
// nothing of a shift by themselves; they take away what a value has from the weather of its
// days, so that the days of a stretch are nearly independent evidence. More days to either side
// fit better and foretell no better.
const (
	leadOwn   = 2
	leadOther = 2 // to either side
	leads     = leadOwn + 2*leadOther + 1
	leadTerms = 1 + leads + leads*(leads+1)/2
)

// terms are what an expectation is a weighted sum of: 1, the leads, and their products.
type terms [leadTerms]float64

// take fills the terms of a day, with the other element's days taken from k days on; it tells
// whether all are known.
func (t *terms) take(z standard, i, k int) bool {
	other, own := z[0], z[1]
	if i < leadOwn || i+k < leadOther || i+k+leadOther >= len(own) {
		return false
	}
	t[0] = 1
	sum := 0.0
	for j := range leadOwn {
		t[1+j] = own[i-1-j]
		sum += t[1+j]
	}
	for j := range 2*leadOther + 1 {
		t[1+leadOwn+j] = other[i+k+j-leadOther]
		sum += t[1+leadOwn+j]
	}
	if sum != sum {
		return false
	}
	at := 1 + leads
	for a := 1; a <= leads; a++ {
		for b := 1; b <= a; b++ {
			t[at] = t[a] * t[b]
			at++
		}
	}
	return true
}

// usual tells whether no lead is so far off that it might itself be wrong.
func (t *terms) usual() bool {
	for _, v := range t[1 : 1+leads] {
		if !(math.Abs(v) < usualZ) {
			return false
		}
	}
	return true
}

func (t *terms) dot(w *terms) float64 {
	sum := 0.0
	for a, v := range t {
		sum += v * w[a]
	}
	return sum
}

// leastSquares gathers the sums of a fit of something to the terms of its days.
type leastSquares struct {
	m [leadTerms]terms // below and on the diagonal
	y terms
	n float64
}

// take counts the terms of a day.
func (s *leastSquares) take(t *terms) {
	for a, v := range t {
		row := s.m[a][:a+1]
		for b := range row {
			row[b] += v * t[b]
		}
	}
	s.n++
}

// of counts what is fitted to them.
func (s *leastSquares) of(t *terms, y float64) {
	for a, v := range t {
		s.y[a] += v * y
	}
}

func (s *leastSquares) add(o *leastSquares) {
	for a := range s.m {
		for b := range a + 1 {
			s.m[a][b] += o.m[a][b]
		}
		s.y[a] += o.y[a]
	}
	s.n += o.n
}

// weights solves for the weights of the terms, drawn towards naught as if by some days (ridge
// regression, Hoerl & Kennard 1970, Technometrics 12, 55-67, from memory), all but the first;
// by Cholesky's method.
func (s *leastSquares) weights(ridge float64) (w terms) {
	l := s.m
	for a := range l {
		if a > 0 {
			l[a][a] += ridge
		}
		for b := range a + 1 {
			v := l[a][b]
			for c := range b {
				v -= l[a][c] * l[b][c]
			}
			if a == b {
				l[a][a] = math.Sqrt(max(v, 1e-9))
			} else {
				l[a][b] = v / l[b][b]
			}
		}
	}
	for a := range w {
		w[a] = s.y[a]
		for b := range a {
			w[a] -= l[a][b] * w[b]
		}
		w[a] /= l[a][a]
	}
	for a := leadTerms - 1; a >= 0; a-- {
		for b := a + 1; b < leadTerms; b++ {
			w[a] -= l[b][a] * w[b]
		}
		w[a] /= l[a][a]
	}
	return w
}

// seasonal fits each month of the year with its neighbours, if all have enough days.
func seasonal(w *[13]terms, by *[13]leastSquares, ridge, fewest float64) bool {
	n := func(m int) float64 { return by[(m+10)%12+1].n + by[m].n + by[m%12+1].n }
	for m := 1; m <= 12; m++ {
		if n(m) < fewest {
			return false
		}
	}
	for m := 1; m <= 12; m++ {
		sum := by[m]
		sum.add(&by[(m+10)%12+1])
		sum.add(&by[m%12+1])
		w[m] = sum.weights(ridge)
	}
	return true
}
