package climate

import "math"

// Frost is a threshold in °C: a day with Tmin at or below it is a frost day. The United
// States' freeze statistics count Tmin <= 0 °C (32 °F) as this program does; ETCCDI's
// frost days (FD) count Tmin < 0 °C only.
type Frost float64

// LastSpring returns the season day of the last frost before midsummer, looking back to
// the midsummer before, so that it may be negative: a mild winter's last frost can fall
// before New Year. Never when no measured day had one. Missing days are passed over;
// whether too many are missing is for Completeness to say.
func (f Frost) LastSpring(s Season) float64 {
	lows := s.Lows()
	for i := int(Midsummer-SpanFrom) - 1; i >= 0; i-- {
		if lows[i] <= float64(f) {
			return float64(SpanFrom + SeasonDay(i))
		}
	}
	return Never
}

// FirstAutumn returns the season day of the first frost from midsummer on, up to the next
// midsummer, so that it may be above 364. Never when no measured day had one.
func (f Frost) FirstAutumn(s Season) float64 {
	lows := s.Lows()
	for i := int(Midsummer - SpanFrom); i < int(nextMidsummer-SpanFrom); i++ {
		if lows[i] <= float64(f) {
			return float64(SpanFrom + SeasonDay(i))
		}
	}
	return Never
}

// FreeDays returns the frost-free days: those strictly between the last spring and the first
// autumn frost (autumn - spring - 1), which is how the United States' freeze normals count
// them (computed from 4,925 stations: median difference -1 day). It is Never, without end,
// when the spring or the autumn had no frost.
func FreeDays(spring, autumn float64) float64 {
	if math.IsInf(spring, 1) || math.IsInf(autumn, 1) {
		return Never
	}
	return autumn - spring - 1
}

// FreeQuantiles is Quantiles for frost-free days, one number a season: none below 0. A curve, and
// the intervals that go by one, know no such bound.
func (e Ensemble) FreeQuantiles(free []float64, ps ...float64) []Quantile {
	out := e.Quantiles(free, ps...)
	for i := range out {
		q := &out[i]
		q.Value, q.Low, q.High = max(0, q.Value), max(0, q.Low), max(0, q.High)
	}
	return out
}

// FrostDates are the frosts of the seasons of an ensemble at one threshold, one value a
// season. NaN: it is not known; Never: it had no frost.
type FrostDates struct {
	Threshold Frost
	Spring    []float64 // season day of the last spring frost
	Autumn    []float64 // season day of the first autumn frost
	Free      []float64 // frost-free days
	Windows   [2]Window // where completeness was asked for: spring, autumn
	LeftOut   []LeftOut
}

// LeftOut says why a season does not count.
type LeftOut struct {
	Season int
	Half   string // "spring" or "autumn"
	Why    string
}

// Window is a span of season days, both included.
type Window struct{ From, To SeasonDay }

// DatesOf returns the frost dates of every season at a threshold. A generated ensemble has
// no gaps. In a recorded one, a season's spring or autumn counts only if the months in which
// this place's frosts have been seen to come are complete by the rule; the same months for
// every season, since leaving seasons out by what they happened to show would bias the dates.
func DatesOf(e Ensemble, f Frost, rule Completeness) FrostDates {
	d := FrostDates{Threshold: f}
	n := len(e.Seasons)
	d.Spring, d.Autumn, d.Free = make([]float64, n), make([]float64, n), make([]float64, n)
	for i, s := range e.Seasons {
		d.Spring[i], d.Autumn[i] = f.LastSpring(s), f.FirstAutumn(s)
	}
	if e.By != ByWeather {
		d.Windows[0] = frostWindow(e, d.Spring, SpanFrom, Midsummer-1, rule)
		d.Windows[1] = frostWindow(e, d.Autumn, Midsummer, nextMidsummer-1, rule)
		for i, s := range e.Seasons {
			if why := rule.Lacks(e.Calendar, s, d.Windows[0]); why != "" {
				d.Spring[i] = math.NaN()
				d.LeftOut = append(d.LeftOut, LeftOut{s.Year, "spring", why})
			}
			if why := rule.Lacks(e.Calendar, s, d.Windows[1]); why != "" {
				d.Autumn[i] = math.NaN()
				d.LeftOut = append(d.LeftOut, LeftOut{s.Year, "autumn", why})
			}
		}
	}
	for i := range d.Free {
		d.Free[i] = math.NaN()
		if !math.IsNaN(d.Spring[i]) && !math.IsNaN(d.Autumn[i]) {
			d.Free[i] = FreeDays(d.Spring[i], d.Autumn[i])
		}
	}
	return d
}

// frostWindow returns the whole months from the earliest to the latest of the given dates,
// taken from the seasons that are complete over the two months around their own date; with no
// frost on record, the three coldest-side months of the half.
func frostWindow(e Ensemble, dates []float64, from, to SeasonDay, rule Completeness) Window {
	lo, hi := to+1, from-1
	for i, v := range dates {
		if math.IsInf(v, 1) {
			continue
		}
		sd := SeasonDay(v)
		if rule.Lacks(e.Calendar, e.Seasons[i], monthsAround(e.Calendar, Window{max(from, sd-30), min(to, sd+30)}, from, to)) != "" {
			continue
		}
		lo, hi = min(lo, sd), max(hi, sd)
	}
	if lo > hi { // no frost seen: ask for midwinter, when one would come
		if from < 0 {
			lo, hi = 0, 58
		} else {
			lo, hi = 334, 334+58
		}
	}
	return monthsAround(e.Calendar, Window{lo, hi}, from, to)
}

// monthsAround widens a window to whole calendar months, kept within from and to.
func monthsAround(c Calendar, w Window, from, to SeasonDay) Window {
	_, d := c.MonthDay(w.From)
	w.From -= SeasonDay(d - 1)
	m, d := c.MonthDay(w.To)
	w.To += SeasonDay(monthStart[m] - monthStart[m-1] - d)
	return Window{max(w.From, from), min(w.To, to)}
}

// Completeness is the rule for when a month of daily values is complete enough.
type Completeness struct {
	Missing int // this many missing days spoil a month
	InARow  int // and so do this many in a row
}

// WMO is the rule of WMO-No. 1203 (2017), section 4.4.1 (from memory): a month is not used
// with 11 or more missing days, or with 5 or more in a row.
var WMO = Completeness{Missing: 11, InARow: 5}

// Lacks says why a season's minima are not complete over a window, month by month, or ""
// if they are. A part of a month at the window's ends is judged by the same numbers.
func (r Completeness) Lacks(c Calendar, s Season, w Window) string {
	if w.From > w.To {
		return ""
	}
	missing := 0
	for _, v := range s.Tmin[w.From-SpanFrom : w.To+1-SpanFrom] {
		if v != v { // NaN
			missing++
		}
	}
	if missing < min(r.Missing, r.InARow) {
		return "" // nearly always, and known without the months
	}
	for sd := w.From; sd <= w.To; {
		m, d := c.MonthDay(sd)
		end := min(w.To, sd+SeasonDay(monthStart[m]-monthStart[m-1]-d))
		missing, run, worst := 0, 0, 0
		for ; sd <= end; sd++ {
			if math.IsNaN(s.Tmin[sd-SpanFrom]) {
				missing++
				run++
				worst = max(worst, run)
			} else {
				run = 0
			}
		}
		if missing >= r.Missing || worst >= r.InARow {
			return lackWords(m.String(), missing, worst)
		}
	}
	return ""
}
