package climate

import "slices"

// Ensemble is a set of seasons to count over: as recorded, or generated from the
// record. Each question is one loop over Seasons.
type Ensemble struct {
	Calendar Calendar
	Latitude float64  // degrees, south negative
	By       By       // how the seasons came to be
	Seasons  []Season // may have missing days when recorded
	Rests    int      // seasons of record behind it: the sample size that a chance is stated with
}

// By is the way from a record to chances. The zero value counts recorded seasons.
type By int

const (
	ByRecord  By = iota // counted over the seasons as recorded
	ByCurve             // a mixed distribution fitted to the recorded dates
	ByWeather           // counted over seasons resampled from the daily record
)

func (b By) String() string {
	return [...]string{"record", "curve", "weather"}[b]
}

// Recorded returns the ensemble of the seasons in a record from one season to
// another, both included; each may have gaps. With first > last it has none. Its seasons
// share memory, so their days are not to be changed.
func Recorded(rec Series, latitude float64, first, last int) Ensemble {
	return new(Recorder).Recorded(rec, latitude, first, last)
}

// Recorder makes ensembles of recorded seasons, one record after another in the same memory.
// Its zero value is ready.
type Recorder struct {
	memory  []float64
	seasons []Season
}

// Recorded is the function of that name. What it returns is good until the next call.
func (r *Recorder) Recorded(rec Series, latitude float64, first, last int) Ensemble {
	e := Ensemble{Calendar: CalendarAt(latitude), Latitude: latitude, By: ByRecord}
	if first > last {
		return e
	}
	n := last - first + 1
	// Of two seasons in a row the second begins a year into the first, so they share memory.
	days := (n-1)*YearDays + SpanLen
	r.memory = slices.Grow(r.memory[:0], 2*days)[:2*days]
	tmin, tmax := r.memory[:days], r.memory[days:]
	Fold(rec, e.Calendar.Day(first, SpanFrom), tmin, tmax)
	snow := FoldSnow(rec, e.Calendar.Day(first, SpanFrom), days)
	r.seasons = slices.Grow(r.seasons[:0], n)[:n]
	for i := range r.seasons {
		a, z := i*YearDays, i*YearDays+SpanLen
		r.seasons[i] = Season{Year: first + i, Tmin: tmin[a:z:z], Tmax: tmax[a:z:z]}
		if snow != nil {
			r.seasons[i].Snow = snow[a:z:z]
		}
	}
	e.Seasons, e.Rests = r.seasons, n
	return e
}

// SeasonsIn returns the first and last seasons that a record touches.
func SeasonsIn(rec Series, c Calendar) (first, last int) {
	first, _ = c.Locate(rec.First)
	last, _ = c.Locate(rec.Last())
	return first, last
}
