package climate

import "math"

// A season's weather runs from the midsummer before its first day to the end of the year
// after it: the last frost of a mild spring may come before New Year, and what is sown in
// autumn and overwinters is picked in the second summer, late in a cool place.
const (
	SpanFrom SeasonDay = Midsummer - YearDays   // -153
	SpanTo   SeasonDay = 2 * YearDays           // 730, not included
	SpanLen            = int(SpanTo - SpanFrom) // 883
)

// nextMidsummer is the second midsummer of a season, before which its first autumn frost and
// the winter after it come.
const nextMidsummer = Midsummer + YearDays

// Season is the weather of one season, as recorded, as generated, or part of each.
// Index i of the slices is season day SpanFrom+i; missing is NaN.
type Season struct {
	Year  int       // the calendar year in which the season starts; of a generated one, its number
	World int       // which world of a generated ensemble it belongs to; 0 when recorded
	Tmin  []float64 // °C in the station's screen, SpanLen values
	Tmax  []float64 // °C, SpanLen values

	// Night is the night's minimum at plant height at one spot of the garden, in °C, SpanLen
	// values; nil means as in the screen. Frost is judged by it. Warmth is not: published
	// degree-day sums rest on screen temperatures.
	Night []float64

	// AirMin and AirMax are the extremes of the air that plants grow in at the spot, in °C, where it
	// is not the station's: under glass, or at another height. Warmth is counted by them; nil
	// means Tmin and Tmax.
	AirMin, AirMax []float64

	Snow []float64 // cm lying on the ground; nil where it is not known
}

// Air returns what warmth is counted by: AirMin and AirMax, or the station's where there are none.
func (s Season) Air() (lows, highs []float64) {
	if s.AirMax != nil {
		return s.AirMin, s.AirMax
	}
	return s.Tmin, s.Tmax
}

// Lows returns what frost is judged by: Night, or Tmin where there is none.
func (s Season) Lows() []float64 {
	if s.Night != nil {
		return s.Night
	}
	return s.Tmin
}

// NewSeason returns a season with every day missing.
func NewSeason(year int) Season {
	s := NewSeries(0, SpanLen)
	return Season{Year: year, Tmin: s.Tmin, Tmax: s.Tmax}
}

// At returns the temperatures of a season day, NaN where missing or outside the span.
func (s Season) At(sd SeasonDay) (tmin, tmax float64) {
	i := int(sd - SpanFrom)
	if i < 0 || i >= len(s.Tmin) {
		return math.NaN(), math.NaN()
	}
	return s.Tmin[i], s.Tmax[i]
}

// SeasonOf cuts one season out of a record. Days that the record lacks are NaN.
func SeasonOf(rec Series, c Calendar, year int) Season {
	s := NewSeason(year)
	Fold(rec, c.Day(year, SpanFrom), s.Tmin, s.Tmax)
	s.Snow = FoldSnow(rec, c.Day(year, SpanFrom), SpanLen)
	return s
}

// Fold fills tmin and tmax, of one length, with a record's days from a day on, NaN where it
// lacks them, and with 29 February folded away: 28 February of a leap year takes the colder
// minimum and the warmer maximum of the 28th and the 29th, so that folding hides no frost.
func Fold(rec Series, from Day, tmin, tmax []float64) {
	d := from
	leap := leapDay(d)
	for i := range tmin {
		tmin[i], tmax[i] = rec.At(d)
		if d++; d == leap { // asking each day for its date would cost more than all else here
			n, x := rec.At(d)
			tmin[i], tmax[i] = lower(tmin[i], n), higher(tmax[i], x)
			d++
			leap = leapDay(d)
		}
	}
}

// FoldSnow returns the snow of as many days from a day on, with 29 February left out; nil where a record has none.
func FoldSnow(rec Series, from Day, days int) []float64 {
	if rec.Snow == nil {
		return nil
	}
	snow := make([]float64, days)
	d, leap := from, leapDay(from)
	for i := range snow {
		snow[i] = rec.SnowOn(d)
		if d++; d == leap {
			d++
			leap = leapDay(d)
		}
	}
	return snow
}

// leapDay returns the first 29 February on or after a day.
func leapDay(d Day) Day {
	for y := d.Year(); ; y++ {
		if l := NewDay(y, 2, 29); IsLeap(y) && l >= d {
			return l
		}
	}
}

func lower(a, b float64) float64 {
	if math.IsNaN(a) || b < a {
		return b
	}
	return a
}

func higher(a, b float64) float64 {
	if math.IsNaN(a) || b > a {
		return b
	}
	return a
}
