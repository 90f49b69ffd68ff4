package batch

import (
	"math"
	"strconv"

	"frostward/climate"
	"frostward/climate/daily"
	"frostward/climate/quality"
	"frostward/risk"
)

// worker has what one goroutine needs for station after station.
type worker struct {
	set     *Settings
	ground  *risk.Ground
	seasons climate.Recorder
	line    line
}

func newWorker(set *Settings, format Format, columns []string) *worker {
	return &worker{set: set, ground: risk.NewGround(), line: line{format: format, columns: columns}}
}

// failed is the row of a station, or a file, that could not be done.
func (w *worker) failed(id, source, status, why string) []byte {
	l := &w.line
	l.reset()
	l.text(id)
	l.text(source)
	l.text(status)
	l.text(why)
	return l.end()
}

// station does the whole job for one station and returns its row, and whether its latitude
// had to be assumed.
func (w *worker) station(id, source string, st daily.Station) (row []byte, assumed bool) {
	l, r := &w.line, &st.Report
	l.reset()
	flags := quality.Check(st.Series)
	rec := quality.Mask(st.Series, flags)
	place, from := w.place(id, rec, r)

	l.text(id)
	l.text(source)
	l.word(done)
	l.blank()
	l.text(place.Name)
	l.number(place.Latitude, 4)
	l.word(from)
	l.number(place.Longitude, 4)
	l.number(place.Elevation, 1)
	l.word(r.First.String())
	l.word(r.Last.String())
	for _, n := range []int{r.Days, r.MissingTmin, r.MissingTmax, r.FaultCount, r.Coded, r.Flagged, quality.Values(flags)} {
		l.count(n)
	}

	first, last := climate.SeasonsIn(rec, climate.CalendarAt(place.Latitude))
	l.count(first)
	l.count(last)
	e := w.seasons.Recorded(rec, place.Latitude, first, last)
	for _, t := range w.set.Thresholds {
		w.frosts(e, climate.Frost(t))
	}
	w.crops(e)
	return l.end(), from == fromNothing
}

// Where a latitude is known from.
const (
	done        = "done"
	fromFile    = "file"
	fromPlaces  = "places"
	fromOption  = "option"
	fromNothing = "assumed"
)

func (w *worker) place(id string, rec climate.Series, r *daily.Report) (Place, string) {
	p, from := Place{r.StationName, r.Latitude, r.Longitude, r.Elevation}, fromFile
	if known, ok := w.set.Places[id]; ok {
		if p.Name == "" {
			p.Name = known.Name
		}
		if math.IsNaN(p.Latitude) && !math.IsNaN(known.Latitude) {
			p.Latitude, p.Longitude, from = known.Latitude, known.Longitude, fromPlaces
		}
		if math.IsNaN(p.Elevation) {
			p.Elevation = known.Elevation
		}
	}
	if math.IsNaN(p.Latitude) {
		p.Latitude, from = w.set.Latitude, fromOption
	}
	if math.IsNaN(p.Latitude) {
		p.Latitude, from = AssumedLatitude*hemisphere(rec), fromNothing
	}
	return p, from
}

// frosts writes the frosts at one threshold.
func (w *worker) frosts(e climate.Ensemble, f climate.Frost) {
	d := climate.DatesOf(e, f, climate.WMO)
	for half, dates := range [][]float64{climate.Earliest(d.Spring), d.Autumn, d.Free} {
		seasons, frost := 0, 0
		for _, v := range dates {
			if !math.IsNaN(v) {
				seasons++
				if !math.IsInf(v, 0) {
					frost++
				}
			}
		}
		w.line.count(seasons)
		w.line.count(frost)
		for _, by := range ways {
			e.By = by
			if halves[half] == "frost_free_days" {
				for _, q := range e.FreeQuantiles(dates, later...) {
					w.days(q)
				}
				continue
			}
			for _, q := range e.Quantiles(dates, late(halves[half])...) {
				w.quantile(e.Calendar, q)
			}
		}
	}
}

// late returns the quantiles that stand for Chances: of a first frost so many come by then, of a
// last one so many come after.
func late(half string) []float64 {
	if half == "autumn" {
		return chances
	}
	return later
}

// later are the quantiles of numbers that so many seasons are above.
var later = func() (out []float64) {
	for _, c := range chances {
		out = append(out, 1-c)
	}
	return out
}()

func (w *worker) quantile(c climate.Calendar, q climate.Quantile) {
	if !q.Known {
		q.Value, q.Low, q.High = nan, nan, nan
	}
	w.line.day(c, q.Value)
	w.line.day(c, q.Low)
	w.line.day(c, q.High)
}

func (w *worker) days(q climate.Quantile) {
	for _, v := range []float64{q.Value, q.Low, q.High} {
		switch {
		case !q.Known:
			w.line.blank()
		case math.IsInf(v, 0):
			w.line.word(none)
		default:
			w.line.number(v, 0)
		}
	}
}

// crops plays the crops through the seasons and writes what becomes of each.
func (w *worker) crops(e climate.Ensemble) {
	window := climate.Window{From: w.set.From, To: w.set.To}
	list := make([]risk.Planting, len(w.set.Crops))
	for k, c := range w.set.Crops {
		list[k] = risk.Planting{Crop: c.Crop, Start: window.From, Raised: c.Raised}
	}
	w.ground.Reset(e)
	tried := w.ground.TryAll(list, window, w.set.Aim, 1)
	for k := range tried {
		w.crop(e, &tried[k], window)
	}
}

// crop writes what becomes of a crop on its best starting day, and the first and last days
// that meet the aim.
func (w *worker) crop(e climate.Ensemble, t *risk.Tried, window climate.Window) {
	l := &w.line
	day := func(i int) float64 {
		if i < 0 {
			return nan
		}
		return float64(window.From) + float64(i)
	}
	r := &t.At
	l.day(e.Calendar, day(t.Best))
	if t.Best < 0 {
		known := 0
		for _, d := range t.Days {
			known = max(known, d.Known)
		}
		l.count(known)
		for range len(cropColumns) - 2 {
			l.blank()
		}
	} else {
		l.count(r.Succeeds.Seasons)
		l.count(r.Succeeds.LeftOut)
		l.number(r.Succeeds.Share, 3)
		l.number(r.Succeeds.Low, 3)
		l.number(r.Succeeds.High, 3)
		l.number(r.Survives.Share, 3)
		l.number(r.Ripens.Share, 3)
		l.day(e.Calendar, day(t.Earliest))
		l.day(e.Calendar, day(t.Last))
		w.quantile(e.Calendar, r.Harvest[1])
		l.number(r.ColdNights[0].Value, 0)
	}
	if w.set.ByDay {
		l.byDay(t.Days)
	}
}

// byDay writes the seasons that succeed on each starting day as one text.
func (l *line) byDay(days []risk.Counts) {
	text := make([]byte, 0, 4*len(days))
	for i, d := range days {
		if i > 0 {
			text = append(text, ' ')
		}
		text = strconv.AppendInt(text, int64(d.Succeeds), 10)
	}
	l.word(string(text))
}
