package night

import (
	"errors"
	"fmt"
	"math"
)

// Radiation is a clear, still night: wind below 2 m/s, no cloud, fog or rain. Only
// such nights belong in the FAO's regression.
type Radiation struct {
	Evening  float64 // temperature two hours after sunset, °C
	DewPoint float64 // then, °C
	Tmin     float64 // °C
}

// FAO is the forecast formula of Snyder & de Melo-Abreu 2005 (FAO Frost Protection
// vol. 1, ch. 5) with a place's own coefficients:
//
//	Tmin = B*Evening + B2*DewPoint + A
type FAO struct {
	B, B2, A float64
	Nights   int
	RMSE     float64 // of the fit, divided by the number of nights as in the book, °C

	spread      float64 // of a night about the line, divided by nights - 3, °C
	mean, about float64 // of Evening: mean, and sum of squares about it
}

// minRadiation is the fewest nights that FitFAO takes: the number of the book's own
// example.
const minRadiation = 10

// FitFAO finds the coefficients in two steps, as the book does: Tmin on the evening's
// temperature, then what is left over on the dew point. The result differs from a
// regression on both at once where the two are correlated.
func FitFAO(nights []Radiation) (FAO, error) {
	n := len(nights)
	if n < minRadiation {
		return FAO{}, fmt.Errorf("%d clear, still nights with evening reading, dew point and minimum; wanted %d", n, minRadiation)
	}
	t0, td, tn := make([]float64, n), make([]float64, n), make([]float64, n)
	for i, r := range nights {
		t0[i], td[i], tn[i] = r.Evening, r.DewPoint, r.Tmin
	}
	b, a, about, err := line(t0, tn)
	if err != nil {
		return FAO{}, fmt.Errorf("evening temperatures %w", err)
	}
	left := make([]float64, n)
	for i := range left {
		left[i] = tn[i] - (b*t0[i] + a)
	}
	b2, a2, _, err := line(td, left)
	if err != nil {
		return FAO{}, fmt.Errorf("dew points %w", err)
	}
	f := FAO{B: b, B2: b2, A: a + a2, Nights: n, about: about}
	var ss float64
	for i := range left {
		e := tn[i] - f.Tmin(t0[i], td[i])
		ss += e * e
		f.mean += t0[i] / float64(n)
	}
	f.RMSE = math.Sqrt(ss / float64(n))
	f.spread = math.Sqrt(ss / float64(n-3))
	return f, nil
}

// Tmin returns the expected minimum for an evening's temperature and dew point, °C.
func (f FAO) Tmin(evening, dewPoint float64) float64 {
	return f.B*evening + f.B2*dewPoint + f.A
}

// SD returns the standard deviation of a coming night's minimum about Tmin, and the
// part of it that more logged nights would take away: wider for evenings unlike those
// fitted (the usual formula for a prediction from one variable; the dew point's small
// part is left out).
func (f FAO) SD(evening float64) (sd, open float64) {
	d := evening - f.mean
	open = f.spread * math.Sqrt(1/float64(f.Nights)+d*d/f.about)
	return math.Hypot(f.spread, open), open
}

var errAlike = errors.New("are all alike; wanted evenings that differ")

// line is least squares of y on x, with the sum of squares of x about its mean.
func line(x, y []float64) (slope, intercept, sxx float64, err error) {
	var mx, my, sxy float64
	n := float64(len(x))
	for i := range x {
		mx += x[i] / n
		my += y[i] / n
	}
	for i := range x {
		sxx += (x[i] - mx) * (x[i] - mx)
		sxy += (x[i] - mx) * (y[i] - my)
	}
	if sxx < 1e-9 {
		return 0, 0, 0, errAlike
	}
	return sxy / sxx, my - sxy/sxx*mx, sxx, nil
}
