package quality

import (
	"math"

	"frostward/climate"
)

// Step is the likeliest place at which one yearly measure of a record changed its level, as
// when a thermometer is moved or replaced. Significant says whether it is more than chance.
type Step struct {
	Of            string      // "tmin", "tmax" or "range" (tmax - tmin)
	Date          climate.Day // about when; the first day after it
	Year          int         // the first year after it
	Before, After int         // years on either side
	Size          float64     // °C, after minus before
	Statistic     float64     // the SNHT's T
	Critical      float64     // what T exceeds in one unchanged record in 20
	Significant   bool        // at 5 %, T above Critical
	Strongly      bool        // at 1 %
	Trend         float64     // °C a decade, of the straight line through the years
	Gradual       bool        // a straight line explains the years nearly as well as the step does
}

// Kept says whether a step is to be reported: more than chance, and more than a slow change.
func (s Step) Kept() bool { return s.Significant && !s.Gradual }

// Limits of the test.
const (
	yearDaysWanted = 300 // measured days that make a year count (our rule)
	stepYears      = 10  // fewest years that are tested: the published tables begin there
	stepEnd        = 3   // years wanted on either side of a reported step (our rule: T is
	//                      largest by chance near the ends, and two years show no level)

	// stepMargin is how much likelier than a straight line a step must be, as twice the logarithm
	// of the ratio of likelihoods. The test alone takes most records that warm by 0.3 °C a decade
	// for a step; with this margin 5 % of them, or 12 % where years remember each other as well
	// (our rule, from the simulation in step_test.go).
	stepMargin = 8
)

// Homogeneity tests a record, doubtful values taken out, for a step in the yearly means of its
// minima, its maxima and its daily range, each as departures from what is usual on the day, so
// that a year with gaps is no colder for it. A measure with too few years is left out.
//
// The test is the standard normal homogeneity test (Alexandersson 1986, J. Climatol. 6,
// 661-675), here without a reference station, since there is none: it cannot distinguish a moved
// thermometer from a sudden change of climate, and a slow change can look like a step.
func Homogeneity(s climate.Series) []Step {
	r := newRecord(s)
	var daily [3][]float64 // departures
	for e := range daily {
		daily[e] = make([]float64, r.len())
	}
	u := r.usuals()
	for i := range r.len() {
		d := r.day[i]
		n, x := r.v[Tmin][i]-u.mean[Tmin][d], r.v[Tmax][i]-u.mean[Tmax][d]
		daily[0][i], daily[1][i], daily[2][i] = n, x, x-n
	}
	var out []Step
	for e, of := range []string{"tmin", "tmax", "range"} {
		years, means := r.yearly(daily[e])
		if len(years) < stepYears {
			continue
		}
		step := snht(means)
		step.Of, step.Year = of, years[step.Before]
		step.Date = r.stepDate(daily[e], years[step.Before-1], years[step.Before])
		out = append(out, step)
	}
	return out
}

// yearly returns the calendar years with enough days, and their means.
func (r *record) yearly(v []float64) (years []int, means []float64) {
	sum, n := 0.0, 0
	for k, m := range r.months {
		for _, x := range v[m.from:m.to] {
			if !math.IsNaN(x) {
				sum += x
				n++
			}
		}
		if k+1 == len(r.months) || r.months[k+1].year != m.year {
			if n >= yearDaysWanted {
				years, means = append(years, m.year), append(means, sum/float64(n))
			}
			sum, n = 0, 0
		}
	}
	return years, means
}

// snht returns the likeliest step between yearly values and the test's verdict on it.
func snht(y []float64) Step {
	n := len(y)
	mean, sd := meanSD(y)
	best := Step{Statistic: math.Inf(-1)}
	sum := 0.0
	for a := 1; a < n; a++ {
		sum += y[a-1] - mean
		if a < stepEnd || n-a < stepEnd {
			continue
		}
		// T(a) = a z₁² + (n-a) z₂², Alexandersson 1986 (as in Khaliq & Ouarda 2007, from memory),
		// z₁ and z₂ the means of the standardised values before and after. They sum to zero.
		z1, z2 := sum/float64(a)/sd, -sum/float64(n-a)/sd
		if t := float64(a)*z1*z1 + float64(n-a)*z2*z2; t > best.Statistic {
			best.Statistic, best.Before, best.After = t, a, n-a
			best.Size = (z2 - z1) * sd
		}
	}
	if best.Before == 0 { // every year the same
		best.Statistic, best.Before, best.After = 0, n/2, n-n/2
	}
	best.Critical = critical(n, critical95)
	best.Significant = best.Statistic > best.Critical
	best.Strongly = best.Statistic > critical(n, critical99)
	slope, left := line(y)
	best.Trend = 10 * slope
	ss := sd * sd * float64(n-1)
	step := ss - best.Size*best.Size*float64(best.Before*best.After)/float64(n)
	best.Gradual = float64(n)*math.Log(left/step) <= stepMargin
	return best
}

// meanSD returns the mean and the sample standard deviation (n-1, as Alexandersson has it).
func meanSD(y []float64) (mean, sd float64) {
	for _, v := range y {
		mean += v / float64(len(y))
	}
	for _, v := range y {
		sd += (v - mean) * (v - mean)
	}
	return mean, math.Sqrt(sd / float64(len(y)-1))
}

// line fits a straight line through values a year apart and returns its slope and the sum of
// squares that it leaves.
func line(y []float64) (slope, left float64) {
	mean, _ := meanSD(y)
	mid := float64(len(y)-1) / 2
	var xx, xy, yy float64
	for i, v := range y {
		x := float64(i) - mid
		xx += x * x
		xy += x * (v - mean)
		yy += (v - mean) * (v - mean)
	}
	return xy / xx, yy - xy*xy/xx
}

// stepDate places a step within the years on either side of it: the split of the daily
// departures that leaves the least sum of squares.
func (r *record) stepDate(v []float64, last, first int) climate.Day {
	from, to := int(climate.NewDay(last, 1, 1)-r.first), int(climate.NewDay(first+1, 1, 1)-r.first)
	from, to = max(from, 0), min(to, r.len())
	sum, n := 0.0, 0.0
	for _, x := range v[from:to] {
		if !math.IsNaN(x) {
			sum += x
			n++
		}
	}
	at, best, left, k := from, -1.0, 0.0, 0.0
	for i := from; i < to; i++ {
		if math.IsNaN(v[i]) {
			continue
		}
		left += v[i]
		k++
		if k < 90 || n-k < 90 { // a season on either side
			continue
		}
		if d := left/k - (sum-left)/(n-k); d*d*k*(n-k) > best {
			best, at = d*d*k*(n-k), i+1
		}
	}
	return r.first + climate.Day(at)
}
