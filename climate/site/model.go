package site

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat/distuv"
)

// Model says what a spot's minimum is when the station's is known. The zero Model is
// the station itself.
type Model struct {
	Coef  [Terms]float64        // as for Terms
	Cov   [Terms][Terms]float64 // covariance of Coef
	Night float64               // standard deviation of a clear night about the line, the season's departure in it, °C
	Worth float64               // readings that Night is worth
	Usual Usual                 // of the station
	Days  float64               // °C, how much warmer the days' maxima are than at the station, by its height
	Less  float64               // °C, how much of the gap is lacking on nights of 2 °C or less: see Shelter.Cold
	Roof  bool                  // under glass or film
	Day   float64               // multiple of DayGain by day; 0: under the open sky
	DaySD float64               // standard deviation of its logarithm
	Hot   float64               // multiple of maxGain that maxima read there show; 0: none read
}

var (
	slowKeeps = math.Exp(-1.0 / 25) // from a night to the next, lasting 25 nights
	fastKeeps = math.Exp(-1 / 1.5)
	slowTakes = math.Sqrt(1 - slowKeeps*slowKeeps)
	fastTakes = math.Sqrt(1 - fastKeeps*fastKeeps)
)

// PriorModel is the model of a spot where nothing has been measured, at a station of which
// nothing is known: usual for a cool climate.
func PriorModel(p Prior) Model {
	return p.model(fit(nil, 0, p.believe(Habit{}, true), anyone, p.lasting()))
}

// Mean returns the expected minimum at the spot, °C; NaN where the station's is missing.
func (m Model) Mean(n Night) float64 {
	if m == (Model{}) || math.IsNaN(n.Tmin) {
		return n.Tmin
	}
	return n.Tmin + gap(&m.Coef, n.Tmin, n.usable(), n.Fall, &m.Usual, n.Day.Fold()) - m.Less*(1-warmer(n.Tmin))
}

// Rejects says whether a minimum read at the spot is so far from what the night leads to expect there that it
// counts for nothing in a fit: a lost sign, a misread ten.
func (m Model) Rejects(n Night, tmin float64) bool {
	if m == (Model{}) || math.IsNaN(n.Tmin) {
		return false
	}
	_, share := TermsOf(n, m.Usual)
	if m.Roof {
		share = 1
	}
	away := (tmin - m.Mean(n)) / (share * m.Night)
	return sq(max(0, 1-sq(away/tukey))) < noWeight
}

// SD returns the standard deviation of the minimum at the spot about Mean, °C, with
// every spread in it: of the line, of the season and of the night.
func (m Model) SD(n Night) float64 {
	if m == (Model{}) {
		return 0
	}
	x, share := TermsOf(n, m.Usual)
	if m.Roof {
		share = 1
	}
	v := m.lineVar(x) + sq(share*m.Night)*m.Worth/max(1, m.Worth-2)
	if math.IsNaN(n.Range()) {
		v += sq(m.Coef[1] * rangeSpread)
	}
	return math.Sqrt(v)
}

// Open returns the part of SD that the log leaves open and more readings would take
// away, °C: the standard deviation of Mean.
func (m Model) Open(n Night) float64 {
	x, _ := TermsOf(n, m.Usual)
	return math.Sqrt(m.lineVar(x))
}

// Slope returns by how much Mean rises with the station's minimum when the maxima and the
// night before stay as they are: more than a degree for a degree, as a colder night has a wider range.
func (m Model) Slope(n Night) float64 {
	s := 1 + m.Coef[3] - m.Coef[4]
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

// Expected is the model without its doubts and without what differs from night to night: Mean, on every night.
func (m Model) Expected() Model {
	m.Cov, m.Night, m.DaySD = [Terms][Terms]float64{}, 0, 0
	return m
}

// Line is one possible truth: a line and a spread drawn from what is left uncertain.
type Line struct {
	coef       [Terms]float64
	night      float64 // standard deviation, °C
	usual      Usual
	days, less float64 // as in Model
	roof       bool
	day        float64 // multiple of DayGain
}

// line draws a line.
func (m Model) line(rng *rand.Rand) Line {
	l := Line{coef: m.Coef, night: m.Night, usual: m.Usual, days: m.Days, less: m.Less, roof: m.Roof}
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
	if m.Worth > 0 {
		l.night *= math.Sqrt(m.Worth / distuv.ChiSquared{K: m.Worth, Src: rng}.Rand())
	}
	if m.Day > 0 {
		l.day = m.Day * math.Exp(m.DaySD*rng.NormFloat64())
	}
	return l
}

// draw returns one possible minimum at the spot, °C, for a night that departs from the
// line by so many standard deviations.
func (l *Line) draw(n Night, departs float64) float64 {
	return l.minimum(n.Tmin, n.usable(), n.Fall, n.Day.Fold(), departs)
}

// minimum is draw of what Night has: seasons are taken to a spot night by night, and copying a Night costs more than
// the sums.
func (l *Line) minimum(tmin, r, fall float64, day int, departs float64) float64 {
	share := 1.0
	if !l.roof {
		share = spreadShare(r, day)
	}
	t := tmin + gap(&l.coef, tmin, r, fall, &l.usual, day) + share*l.night*departs
	if l.less != 0 {
		t -= l.less * (1 - warmer(tmin))
	}
	return t
}

// departures draws how the nights of a season depart from the line, one after another,
// each of unit variance.
type departures struct {
	rng                *rand.Rand
	season, slow, fast float64
	part               [4]float64 // of the season, the slow, the fast, the night's own
}

func newDepartures(rng *rand.Rand, l lasting) departures {
	part := [4]float64{math.Sqrt(l.season), math.Sqrt(l.slow), math.Sqrt(l.fast), math.Sqrt(1 - l.season - l.slow - l.fast)}
	return departures{rng, rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64(), part}
}

func (d *departures) next() float64 {
	d.slow = slowKeeps*d.slow + slowTakes*d.rng.NormFloat64()
	d.fast = fastKeeps*d.fast + fastTakes*d.rng.NormFloat64()
	return d.part[0]*d.season + d.part[1]*d.slow + d.part[2]*d.fast + d.part[3]*d.rng.NormFloat64()
}

// gap is dot(c, TermsOf(n, u)).
func gap(c *[Terms]float64, tmin, r, fall float64, u *Usual, day int) float64 {
	return c[0] + c[1]*(r-10) + c[2]*winter[day] + c[3]*(tmin-u.on(day)+3) + c[4]*fall
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

// lasting is how the nights of the kind hang together.
func (p Prior) lasting() lasting {
	if p.Roofed() {
		return sheltered
	}
	return outdoors
}

// model puts what the prior knows beside the line into a model.
func (p Prior) model(m Model) Model {
	m.Days = p.Place.days()
	// Far above or below the station the air is another, and a line from one spring's readings holds less well.
	if far := math.Abs(p.Place.Rise)/100 - 2.5; far > 0 {
		for i := range m.Cov {
			for j := range m.Cov {
				m.Cov[i][j] *= 1 + far/2
			}
		}
	}
	if s := p.Shelter; s != nil {
		m.Less, m.Roof, m.Day, m.DaySD = s.Gain-s.Cold, !s.Bed, s.Day, s.DaySD
	}
	return m
}
