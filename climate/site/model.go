package site

import (
	"math"
	"math/rand/v2"
)

// Model says what a spot's minimum is when the station's is known. The zero Model is
// the station itself.
type Model struct {
	Coef   [Terms]float64        // as for Terms
	Cov    [Terms][Terms]float64 // covariance of Coef
	Season float64               // standard deviation from season to season, °C
	Night  float64               // standard deviation of a clear night about its season, °C
}

// PriorModel is the model of a spot where nothing has been measured.
func PriorModel(p Prior) Model {
	m := Model{Coef: p.Mean, Season: p.Season, Night: p.Night}
	for i, s := range p.SD {
		m.Cov[i][i] = s * s
	}
	return m
}

// Mean returns the expected minimum at the spot, °C; NaN where the station's is missing.
func (m Model) Mean(n Night) float64 {
	if math.IsNaN(n.Tmin) {
		return math.NaN()
	}
	x, _ := n.terms()
	return n.Tmin + dot(m.Coef, x)
}

// SD returns the standard deviation of the minimum at the spot about Mean, °C, with
// every spread in it: of the line, of the season and of the night.
func (m Model) SD(n Night) float64 {
	x, share := n.terms()
	v := m.lineVar(x) + share*share*(m.Season*m.Season+m.Night*m.Night)
	if math.IsNaN(n.Range()) {
		v += sq(m.Coef[1] * rangeSpread)
	}
	return math.Sqrt(v)
}

// Open returns the part of SD that the log leaves open and more readings would take
// away, °C: the standard deviation of Mean.
func (m Model) Open(n Night) float64 {
	x, _ := n.terms()
	return math.Sqrt(m.lineVar(x))
}

// Slope returns by how much Mean rises with the station's minimum when the maxima stay
// as they are: more than a degree for a degree, as a colder night has a wider range.
func (m Model) Slope(n Night) float64 {
	s := 1 + m.Coef[3]
	if r := n.Range(); r > 0 && r < widest {
		s -= m.Coef[1]
	}
	return s
}

// lineVar is the variance of the line at a night's terms.
func (m Model) lineVar(x [Terms]float64) float64 {
	var v float64
	for i := range x {
		for j := range x {
			v += x[i] * m.Cov[i][j] * x[j]
		}
	}
	return max(0, v)
}

// Line is one possible truth: a line drawn from what is left uncertain.
type Line struct {
	coef          [Terms]float64
	season, night float64 // standard deviations, °C
}

// Line draws a line.
func (m Model) Line(rng *rand.Rand) Line {
	l := Line{coef: m.Coef, season: m.Season, night: m.Night}
	root := cholesky(m.Cov)
	var z [Terms]float64
	for i := range z {
		z[i] = rng.NormFloat64()
	}
	for i := range z {
		for j := 0; j <= i; j++ {
			l.coef[i] += root[i][j] * z[j]
		}
	}
	return l
}

// Draw returns one possible minimum at the spot, °C, for a night of a season whose
// own departure is season standard deviations and the night's night standard
// deviations from the line.
func (l *Line) Draw(n Night, season, night float64) float64 {
	if math.IsNaN(n.Tmin) {
		return math.NaN()
	}
	r := n.usable()
	// The product of coef and terms written out: this is the inner loop of ToSpot, and
	// passing arrays about doubled its time.
	return n.Tmin + l.coef[0] + l.coef[1]*r + l.coef[2]*winter[n.Day.Fold()] + l.coef[3]*n.Tmin +
		spreadShare(r)*(l.season*season+l.night*night)
}

func dot(a, b [Terms]float64) float64 {
	var s float64
	for i := range a {
		s += a[i] * b[i]
	}
	return s
}

func sq(x float64) float64 { return x * x }

// cholesky returns the lower triangular root of a covariance; a term without any
// variance gets a row of zeros, which a general routine would refuse.
func cholesky(a [Terms][Terms]float64) (l [Terms][Terms]float64) {
	for i := range a {
		for j := 0; j <= i; j++ {
			s := a[i][j]
			for k := 0; k < j; k++ {
				s -= l[i][k] * l[j][k]
			}
			switch {
			case i == j:
				l[i][i] = math.Sqrt(max(0, s))
			case l[j][j] > 0:
				l[i][j] = s / l[j][j]
			}
		}
	}
	return l
}
