package climate

import (
	"fmt"
	"math"
	"strings"
)

// DegreeDays is a way to count the warmth of a day: how far the temperature stood
// above Base, averaged over the day, in °C-days. The zero value counts above 0 °C by
// the single sine without an upper limit.
//
// Each method is a view of how the temperature ran between the two readings of the
// day, and each limit says what warmth above Upper is worth. All are linear in scale,
// so a test may feed °F to all four temperatures and read °F-days.
type DegreeDays struct {
	Base   float64 // °C; below it nothing develops
	Upper  float64 // °C, above Base; unused with NoLimit, and NaN is no limit either
	Method Method
	Limit  UpperLimit
}

// Method is how a day's temperatures are filled in between its minimum and maximum.
type Method int8

const (
	// SingleSine runs a sine between the minimum and maximum (Baskerville and Emin
	// 1969, Ecology 50, 514-517). It is the method of the crop catalogue's sums.
	SingleSine Method = iota
	// DoubleSine runs one sine from the minimum up to the maximum and another down to
	// the next day's minimum (Allen 1976, Environ. Entomol. 5, 388-396, from memory).
	DoubleSine
	// SingleTriangle runs straight up and straight down.
	SingleTriangle
	// DoubleTriangle runs straight up, and straight down to the next day's minimum.
	DoubleTriangle
	// Average takes the mean of the day and then raises it to the base: Method 1 of
	// McMaster and Wilhelm 1997, Agric. For. Meteorol. 87, 291-300.
	Average
	// AverageClipped raises the minimum and the maximum to the base, each for itself,
	// and then takes the mean: Method 2 of McMaster and Wilhelm 1997. With base 50 °F
	// and a horizontal limit of 86 °F it is the "modified" or "86/50" count for maize.
	AverageClipped
)

// UpperLimit is what the temperature above the upper limit is worth.
type UpperLimit int8

const (
	// NoLimit: warmth counts without end.
	NoLimit UpperLimit = iota
	// Horizontal: above the limit it develops as fast as at the limit.
	Horizontal
	// Intermediate: it slows above the limit as fast as it rose below it, so that a
	// degree above takes one back. A day is never worth less than 0; within the day an
	// extreme hour may weigh below 0, as in the published form A(L) - 2A(U).
	Intermediate
	// Vertical: above the limit it stops.
	Vertical
)

var methodNames = [...]string{"single-sine", "double-sine", "single-triangle", "double-triangle", "average", "average-clipped"}
var limitNames = [...]string{"none", "horizontal", "intermediate", "vertical"}

// String returns the name that ParseMethod reads.
func (m Method) String() string { return methodNames[m] }

// String returns the name that ParseUpperLimit reads.
func (l UpperLimit) String() string { return limitNames[l] }

// ParseMethod reads the name of a method, such as "single-sine".
func ParseMethod(s string) (Method, error) {
	for i, n := range methodNames {
		if s == n {
			return Method(i), nil
		}
	}
	return 0, fmt.Errorf("%q is not a method; wanted one of %s", s, strings.Join(methodNames[:], ", "))
}

// ParseUpperLimit reads the name of an upper limit, such as "horizontal".
func ParseUpperLimit(s string) (UpperLimit, error) {
	for i, n := range limitNames {
		if s == n {
			return UpperLimit(i), nil
		}
	}
	return 0, fmt.Errorf("%q is not an upper limit; wanted one of %s", s, strings.Join(limitNames[:], ", "))
}

// Day returns the degree-days of a day from its minimum and maximum and the next day's
// minimum, which only the double methods look at. It is NaN when a temperature that
// the method needs is NaN, and never below 0.
//
// A minimum above the maximum counts as if the two were exchanged, for a curve between
// them passes through the same temperatures either way. Whether such a day is to be
// trusted is a question for package quality.
//
// The day loop calls this for every day of every season, so it has early ways out for
// days wholly below the base and days wholly between the limits.
func (g DegreeDays) Day(tmin, tmax, nextTmin float64) float64 {
	if math.IsNaN(tmin) || math.IsNaN(tmax) {
		return math.NaN()
	}
	var d float64
	switch g.Method {
	case SingleSine, SingleTriangle:
		d = g.between(tmin, tmax)
	case Average:
		m := (tmin + tmax) / 2
		d = g.between(m, m)
	case AverageClipped:
		d = (g.between(tmin, tmin) + g.between(tmax, tmax)) / 2
	default:
		if math.IsNaN(nextTmin) {
			return math.NaN()
		}
		d = (g.between(tmin, tmax) + g.between(nextTmin, tmax)) / 2
	}
	if d < 0 {
		return 0
	}
	return d
}

// between returns the mean worth of a curve that runs between two temperatures, any
// number of half turns from one to the other. With A(T) the mean height above T, and
// F(U) the share of time above U (Zalom et al. 1983, Univ. Calif. Leaflet 21373, from
// memory):
//
//	horizontal    A(L) - A(U)
//	intermediate  A(L) - 2 A(U)
//	vertical      A(L) - A(U) - (U-L) F(U)
func (g DegreeDays) between(low, high float64) float64 {
	if low > high {
		low, high = high, low
	}
	if high <= g.Base {
		return 0
	}
	sine := g.Method <= DoubleSine
	warmth := above(low, high, g.Base, sine)
	if g.Limit == NoLimit || !(high > g.Upper) {
		return warmth
	}
	over := above(low, high, g.Upper, sine)
	switch g.Limit {
	case Horizontal:
		return warmth - over
	case Intermediate:
		return warmth - 2*over
	default:
		return warmth - over - (g.Upper-g.Base)*share(low, high, g.Upper, sine)
	}
}

// above returns the mean over the curve of max(0, t-T), for high > T.
func above(low, high, T float64, sine bool) float64 {
	if low >= T {
		return (low+high)/2 - T
	}
	if !sine {
		return (high - T) * (high - T) / (2 * (high - low))
	}
	a := (high - low) / 2
	return a * sineAbove((T-low)/a-1)
}

// share returns the part of the time that the curve is above T, for high > T.
func share(low, high, T float64, sine bool) float64 {
	if low >= T {
		return 1
	}
	if !sine {
		return (high - T) / (high - low)
	}
	return math.Acos(max(-1, min(1, (2*T-low-high)/(high-low)))) / math.Pi
}
