package climate

import "math"

// Fill is the rule for sums over days of which some are missing: a run of up to Run
// missing days takes the mean of the day before and the day after it, as long as no
// more than a share of the days summed is filled. Otherwise the sum is not known: a sum
// that quietly skips days is too low, and a scaled one hides which days they were.
type Fill struct {
	Run   int     // longest run of missing days that is filled
	Share float64 // largest share of the days summed that may be filled
}

// FillShort fills up to three days on end and 5 % of the days (our rule, no source; a
// week or more is weather that neighbouring days don't show, and one day in twenty filled
// moves a summer's degree-days by well under 1 %).
var FillShort = Fill{Run: 3, Share: 0.05}

// Warmth is a sum of daily warmth, such as degree-days or crop heat units.
type Warmth struct {
	Sum     float64 // NaN when not known
	Days    int     // days asked for
	Filled  int     // of them, missing and filled
	Missing int     // of them, missing and not filled
}

// Known says whether there is a sum.
func (w Warmth) Known() bool { return !math.IsNaN(w.Sum) }

// Sum adds up daily[from] to daily[to], both included. Days outside the slice are
// missing; days outside from and to may serve as neighbours for filling.
func (f Fill) Sum(daily []float64, from, to int) Warmth {
	w := Warmth{Days: max(0, to-from+1)}
	for i := from; i <= to; {
		if i >= 0 && i < len(daily) && !math.IsNaN(daily[i]) {
			w.Sum += daily[i]
			i++
			continue
		}
		v, end := f.gap(daily, i)
		n := min(end, to+1) - i
		if math.IsNaN(v) {
			w.Missing += n
		} else {
			w.Filled += n
			w.Sum += v * float64(n)
		}
		i += n
	}
	if w.Missing > 0 || float64(w.Filled) > f.Share*float64(w.Days) {
		w.Sum = math.NaN()
	}
	return w
}

// gap looks at the run of missing days that day i is in: the value that each of them
// takes, NaN if they are not to be filled, and the first day after the run.
func (f Fill) gap(daily []float64, i int) (v float64, end int) {
	start := i
	for start > 0 && start-1 < len(daily) && math.IsNaN(daily[start-1]) {
		start--
	}
	for end = i; end < 0 || end < len(daily) && math.IsNaN(daily[end]); {
		end++
	}
	if end >= len(daily) {
		return math.NaN(), math.MaxInt // nothing after it, for good
	}
	if start <= 0 || end-start > f.Run {
		return math.NaN(), end
	}
	return (daily[start-1] + daily[end]) / 2, end
}

// Filled returns a copy in which short runs of missing days are filled by the rule; the
// share of days is not looked at.
func (f Fill) Filled(daily []float64) []float64 {
	out := append([]float64(nil), daily...)
	for i := 0; i < len(daily); i++ {
		if !math.IsNaN(daily[i]) {
			continue
		}
		v, end := f.gap(daily, i)
		for end = min(end, len(daily)); i < end; i++ {
			out[i] = v
		}
	}
	return out
}

// Days returns the degree-days of each day. The double methods take the next day's
// minimum, so that their last day is NaN.
func (g DegreeDays) Days(tmin, tmax []float64) []float64 {
	out := make([]float64, len(tmin))
	for i := range out {
		next := math.NaN()
		if i+1 < len(tmin) {
			next = tmin[i+1]
		}
		out[i] = g.Day(tmin[i], tmax[i], next)
	}
	return out
}

// Of returns the degree-days of a season from one season day to another, both included.
func (g DegreeDays) Of(s Season, w Window, f Fill) Warmth {
	return f.Sum(g.Days(s.Tmin, s.Tmax), int(w.From-SpanFrom), int(w.To-SpanFrom))
}

// Sums returns the sum of one number per season, NaN where not known: what
// Ensemble.Quantile wants.
func Sums(w []Warmth) []float64 {
	out := make([]float64, len(w))
	for i, v := range w {
		out[i] = v.Sum
	}
	return out
}

// DegreeDays returns the degree-days of each season of the ensemble over the same days.
func (e Ensemble) DegreeDays(g DegreeDays, w Window, f Fill) []Warmth {
	out := make([]Warmth, len(e.Seasons))
	for i, s := range e.Seasons {
		out[i] = g.Of(s, w, f)
	}
	return out
}

// HeatUnits returns the crop heat units of each season of the ensemble, from Ontario's
// first day to its last, and the last day of each: HeatUnitStart and heatUnitEnd. The
// end of a season whose autumn minima are missing may come out late, but then days are
// missing from its sum as well.
func (e Ensemble) HeatUnits(f Fill) (sums []Warmth, ends []SeasonDay) {
	until := SeasonDay(YearDays - 1)
	if cool, ok := meanFallsBelow(e, HeatUnitMean); ok {
		until = cool - 1
	}
	for _, s := range e.Seasons {
		end := heatUnitEnd(s, until)
		sums = append(sums, f.Sum(heatUnitDays(s.Tmin, s.Tmax), int(HeatUnitStart-SpanFrom), int(end-SpanFrom)))
		ends = append(ends, end)
	}
	return sums, ends
}

// GrowingSeasons returns the growing season of each season of the ensemble, counted over 365
// days; that of a recorded season is GrowingSeasonIn.
func (e Ensemble) GrowingSeasons() []GrowingSeason {
	out := make([]GrowingSeason, len(e.Seasons))
	for i, s := range e.Seasons {
		out[i] = growingSeasonOf(s, e.Calendar)
	}
	return out
}
