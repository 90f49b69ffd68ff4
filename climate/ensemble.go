package climate

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
// another, both included; each may have gaps. With first > last it has none.
func Recorded(rec Series, latitude float64, first, last int) Ensemble {
	e := Ensemble{Calendar: CalendarAt(latitude), Latitude: latitude, By: ByRecord}
	for y := first; y <= last; y++ {
		e.Seasons = append(e.Seasons, SeasonOf(rec, e.Calendar, y))
	}
	e.Rests = len(e.Seasons)
	return e
}

// SeasonsIn returns the first and last seasons that a record touches.
func SeasonsIn(rec Series, c Calendar) (first, last int) {
	first, _ = c.Locate(rec.First)
	last, _ = c.Locate(rec.Last())
	return first, last
}
