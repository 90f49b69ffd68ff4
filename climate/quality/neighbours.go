package quality

import (
	"fmt"
	"math"
	"slices"

	"frostward/climate"
)

// What the records of neighbouring stations show and one record alone cannot: a value unlike all of
// theirs, both elements a day off, signs lost from few days, a thermometer that was moved. A value
// is estimated by the spatial regression test (Hubbard & You 2005, J. Atmos. Oceanic Technol. 22,
// 1520, from memory): from each neighbour by a straight line, the estimates weighted by one over
// the squares of their standard errors. The regressions are of the month of the year, with those
// beside it, as in Durre et al. 2010.
const (
	nearDays   = 300 // shared days that a regression wants, of a month and those beside it
	nearZ      = 5.5 // standard errors from the estimate that a value may be (our rule, see neighbours_test.go)
	nearLeast  = 6.0 // and °C
	nearWanted = 20  // evidence of days a day off, see way
	nearSigned = 40  // and of days without signs: a hill above the mist has mild nights when the valleys freeze
	nearDrop   = 20
	nearMost   = 3 // of one day
)

// UnlikeNeighbours is the rule of flags by neighbours.
const UnlikeNeighbours = "unlike neighbours"

// near holds what neighbours lead to expect of each value, and the standard error of that, by day.
type near [2]struct{ v, sd []float64 }

// Neighbours returns the values of a record that are unlike what those of its neighbours lead to
// expect, and the questions and steps that they raise. Doubtful values should be out of all of them.
func Neighbours(s climate.Series, neighbours []climate.Series) ([]Flag, []Question, []Step) {
	r := newRecord(s)
	est := r.near(neighbours)
	questions := r.nearShifts(est)
	questions = append(questions, r.nearSigns(est)...)
	var flags []Flag
	var steps []Step
	for e := Tmin; e <= Tmax; e++ {
		off := make([]float64, r.len())
		for i, v := range r.v[e] {
			off[i] = v - est[e].v[i]
			if math.Abs(off[i]) >= max(nearLeast, nearZ*est[e].sd[i]) && !slices.ContainsFunc(questions, func(q Question) bool {
				return q.From <= s.First+climate.Day(i) && s.First+climate.Day(i) <= q.To
			}) {
				f := r.flag(i, e, fmt.Sprintf("%.1f °C, where the neighbours lead to expect %.1f", v, est[e].v[i]))
				f.Rule = UnlikeNeighbours
				flags = append(flags, f)
			}
		}
		years, means := r.yearly(off)
		if len(years) < stepYears {
			continue
		}
		step := snht(means)
		step.Of, step.Year = e.String(), years[step.Before]
		step.Date = r.stepDate(off, years[step.Before-1], years[step.Before])
		steps = append(steps, step)
	}
	sortFlags(flags)
	return flags, questions, steps
}

// near works out the estimates.
func (r *record) near(neighbours []climate.Series) (out near) {
	for e := range out {
		n := r.len()
		weight, sum := make([]float64, n), make([]float64, n)
		for _, s := range neighbours {
			other := make([]float64, n)
			for i := range other {
				a, b := s.At(r.first + climate.Day(i))
				other[i] = [2]float64{a, b}[e]
			}
			var by [13]pairSums
			for i, x := range other {
				by[r.month[i]].add(x, r.v[e][i])
			}
			for m := 1; m <= 12; m++ {
				fit := by[m].plus(by[(m+10)%12+1]).plus(by[m%12+1])
				if fit.n < nearDays {
					continue
				}
				a, b, se := fit.line()
				for i, x := range other {
					if int(r.month[i]) == m && x == x {
						w := 1 / (se * se)
						sum[i] += w * (a + b*x)
						weight[i] += w
					}
				}
			}
		}
		out[e].v, out[e].sd = make([]float64, n), make([]float64, n)
		var squares, days [13]float64
		for i := range sum {
			out[e].v[i] = sum[i] / weight[i] // NaN where there is none
			if d := r.v[e][i] - out[e].v[i]; d == d {
				squares[r.month[i]] += min(d*d, 100)
				days[r.month[i]]++
			}
		}
		for i, m := range r.month {
			// Where most neighbours lack the day the estimate is no better than those that have it: else the passing of
			// a front was doubted wherever one far neighbour was left (on the North German plain 0.22 values a station-year, 0.09 so).
			out[e].sd[i] = max(math.Sqrt(squares[m]/days[m]), 1/math.Sqrt(weight[i]))
		}
	}
	return out
}

// nearShifts asks about days on which both elements go with those of the neighbours a day on or back.
func (r *record) nearShifts(est near) (out []Question) {
	for _, by := range []struct {
		days        int
		word, about string
	}{{-1, "later", "both-late"}, {1, "earlier", "both-early"}} {
		day := make([]float64, r.len())
		for i := range day {
			for e := range r.v {
				if j := i + by.days; j >= 0 && j < r.len() {
					v, sd := r.v[e][i], est[e].sd[i]
					if x := logDensity((v-est[e].v[j])/sd) - logDensity((v-est[e].v[i])/sd); x == x {
						day[i] += x / 2 // the two go together
					}
				}
			}
			day[i] = min(max(day[i], -nearMost), nearMost)
		}
		for _, s := range segments(day, nearWanted, nearDrop, 60) {
			q := r.question(s, Both, "shift", fmt.Sprintf("on most of %d days both values go with those of the neighbours as if they stood a day %s", s.days(), by.word),
				"were the dates moved by a day?")
			q.About = by.about
			out = append(out, q)
		}
	}
	return out
}

// nearSigns asks about minima without their minus signs, where the neighbours had frost.
func (r *record) nearSigns(est near) (out []Question) {
	day := make([]float64, r.len())
	for i, v := range r.v[Tmin] {
		switch sd := est[Tmin].sd[i]; {
		case v < 0:
			day[i] = signThere
		default:
			plus, minus := logDensity((v-est[Tmin].v[i])/sd), logDensity((-v-est[Tmin].v[i])/sd)
			day[i] = signDay + min(nearMost, math.Log(math.Exp(plus)+math.Exp(minus))-plus)
		}
	}
	for _, s := range segments(day, nearSigned, signDrop, 120) {
		q := r.question(s, Tmin, "sign", fmt.Sprintf("on %d days no minimum lies below 0 °C, where the neighbours had frost", s.days()), signs.ask)
		q.About = signs.about + ":tmin"
		out = append(out, q)
	}
	return out
}

// pairSums are the sums of a straight line through pairs of values.
type pairSums struct{ n, x, y, xx, xy, yy float64 }

func (p *pairSums) add(x, y float64) {
	if d := x - y; d == d {
		p.n, p.x, p.y, p.xx, p.xy, p.yy = p.n+1, p.x+x, p.y+y, p.xx+x*x, p.xy+x*y, p.yy+y*y
	}
}

func (p pairSums) plus(o pairSums) pairSums {
	return pairSums{p.n + o.n, p.x + o.x, p.y + o.y, p.xx + o.xx, p.xy + o.xy, p.yy + o.yy}
}

// line returns y = a + bx, and its standard error.
func (p pairSums) line() (a, b, se float64) {
	sxx, sxy, syy := p.xx-p.x*p.x/p.n, p.xy-p.x*p.y/p.n, p.yy-p.y*p.y/p.n
	b = sxy / max(sxx, 1e-9)
	return (p.y - b*p.x) / p.n, b, math.Sqrt(max(syy-b*sxy, 1e-6*p.n) / p.n)
}
