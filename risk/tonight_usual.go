package risk

import (
	"math"

	"frostward/climate"
)

// usualDays is how far to each side of a date its climatology looks: far enough for 15
// nights a season, near enough for the year to move on by less than a degree.
const usualDays = 7

// Usual is the climatology of one date at a spot.
type Usual struct {
	Low     float64 // mean night minimum at the spot, °C; NaN where no season has one
	SD      float64 // of single nights, °C
	Tmax    float64 // mean of the station's maximum, °C
	Seasons int     // with at least one night near the date
}

// UsualAt returns the climatology of a season day over the seasons of an ensemble at a
// spot, each season's nights within a week of the date.
func UsualAt(e climate.Ensemble, sd climate.SeasonDay) Usual {
	var n, s, ss, nx, sx float64
	u := Usual{}
	day := sd.Fold() - int(climate.SpanFrom)
	for _, season := range e.Seasons {
		lows := season.Lows()
		seen := false
		for d := day - usualDays; d <= day+usualDays; d++ {
			if v := lows[d]; !math.IsNaN(v) {
				n, s, ss, seen = n+1, s+v, ss+v*v, true
			}
			if v := season.Tmax[d]; !math.IsNaN(v) {
				nx, sx = nx+1, sx+v
			}
		}
		if seen {
			u.Seasons++
		}
	}
	u.Low, u.Tmax = s/n, sx/nx // NaN where there is none
	u.SD = math.Sqrt(max(0, ss/n-u.Low*u.Low) * n / max(1, n-1))
	if e.By == climate.ByWeather {
		u.Seasons = e.Rests
	}
	return u
}
