package climate

import "math"

// Series is a record of daily temperatures, one value a day without a break. A day
// that was not measured is NaN.
type Series struct {
	First Day       // the day of index 0
	Tmin  []float64 // °C; as long as Tmax
	Tmax  []float64 // °C
	Snow  []float64 // cm lying on the ground, 0 where it is not known; nil: on no day
}

// NewSeries returns a series of n missing days.
func NewSeries(first Day, n int) Series {
	s := Series{First: first, Tmin: make([]float64, n), Tmax: make([]float64, n)}
	for i := range s.Tmin {
		s.Tmin[i], s.Tmax[i] = math.NaN(), math.NaN()
	}
	return s
}

// Len returns the number of days, measured or not.
func (s Series) Len() int { return len(s.Tmin) }

// Last returns the last day; it is First-1 for an empty series.
func (s Series) Last() Day { return s.First + Day(len(s.Tmin)) - 1 }

// At returns the temperatures of a day, NaN where missing or outside the series.
func (s Series) At(d Day) (tmin, tmax float64) {
	i := int(d - s.First)
	if i < 0 || i >= len(s.Tmin) {
		return math.NaN(), math.NaN()
	}
	return s.Tmin[i], s.Tmax[i]
}

// SnowOn returns the snow of a day, in cm.
func (s Series) SnowOn(d Day) float64 {
	if i := int(d - s.First); i >= 0 && i < len(s.Snow) {
		return s.Snow[i]
	}
	return 0
}

// Between returns the part of the series from one day to another, both included,
// cut to what there is. It shares memory with s.
func (s Series) Between(from, to Day) Series {
	from, to = max(from, s.First), min(to, s.Last())
	if from > to {
		return Series{First: from}
	}
	i, j := int(from-s.First), int(to-s.First)+1
	part := Series{First: from, Tmin: s.Tmin[i:j:j], Tmax: s.Tmax[i:j:j]}
	if s.Snow != nil {
		part.Snow = s.Snow[i:j:j]
	}
	return part
}

// Clone returns a copy that shares nothing with s.
func (s Series) Clone() Series {
	return Series{
		First: s.First,
		Tmin:  append([]float64(nil), s.Tmin...),
		Tmax:  append([]float64(nil), s.Tmax...),
		Snow:  append([]float64(nil), s.Snow...),
	}
}

// Fahrenheit converts a temperature in °C. It is not for differences.
func Fahrenheit(celsius float64) float64 { return celsius*9/5 + 32 }

// Celsius converts a temperature in °F. It is not for differences.
func Celsius(fahrenheit float64) float64 { return (fahrenheit - 32) * 5 / 9 }
