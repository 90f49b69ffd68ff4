package main

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/cmd/internal/chart"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// pictureWidth is the width of terminal pictures: the terminal's, within reason, and 80
// where there is none.
func (a *app) pictureWidth() int {
	if a.width == 0 {
		return 80
	}
	return min(a.width, 100)
}

// picture prints a picture's lines under a sentence on how to read it.
func (a *app) picture(reading string, lines []string) {
	fmt.Fprintln(a.out)
	a.paragraph(a.out, reading, 0)
	for _, l := range lines {
		fmt.Fprintln(a.out, l)
	}
}

// boxReading says how to read a box.
func (a *app) boxReading(of string) string {
	return of + ": the middle half of the seasons as a block, 8 in 10 as a line."
}

// drawFrosts draws the spread of the last spring and the first autumn frost.
func (s *session) drawFrosts(e climate.Ensemble, t opened.Frosts) {
	if s.app.format != table.TextFormat {
		return
	}
	d := t.Dates
	if e.By == climate.ByWeather {
		d = climate.DatesOf(e, d.Threshold, climate.WMO)
	}
	scale := chart.Scale{From: math.Inf(1), To: math.Inf(-1), Months: true, Calendar: s.Calendar}
	var lanes []chart.Lane
	for _, half := range []struct {
		name  string
		dates []float64
	}{{"last in spring", climate.Earliest(d.Spring)}, {"first in autumn", d.Autumn}} {
		var v [5]float64
		for i, p := range []float64{0.1, 0.25, 0.5, 0.75, 0.9} {
			q := e.Quantile(half.dates, p)
			if v[i] = q.Value; !q.Known {
				return
			}
			if !math.IsInf(v[i], 0) {
				scale.From, scale.To = min(scale.From, v[i]), max(scale.To, v[i])
			}
		}
		lanes = append(lanes, chart.Lane{Label: half.name, Mark: math.NaN(),
			Five: chart.Five{Low: v[0], Quarter: v[1], Middle: v[2], ThreeQuarters: v[3], High: v[4]}})
	}
	if scale.From > scale.To {
		return // hardly any season has a frost
	}
	scale.From, scale.To = scale.From-7, scale.To+7
	pen := chart.Pen{ASCII: s.app.ascii}
	s.app.picture(s.app.boxReading("When they come"), pen.Lanes(lanes, scale, s.app.pictureWidth()))
}

// drawWindow draws the chance of success by the starting day.
func (s *session) drawWindow(w risk.Window) {
	n := len(w.Starts)
	if s.app.format != table.TextFormat || n < 2 {
		return
	}
	from, to := w.Starts[0].Day, w.Starts[n-1].Day
	shares := make([]float64, to-from+1)
	for i := range shares {
		shares[i] = math.NaN()
	}
	for i, r := range w.Starts {
		next := to + 1
		if i+1 < n {
			next = w.Starts[i+1].Day
		}
		for d := r.Day; d < next; d++ {
			shares[d-from] = words.Of(r.Succeeds, r.Succeeds.Share)
		}
	}
	pen := chart.Pen{ASCII: s.app.ascii}
	scale := chart.Scale{From: float64(from), To: float64(to), Months: true, Calendar: s.Calendar}
	lines := pen.MonthBar(shares, scale, min(s.app.pictureWidth(), len(shares)))
	s.app.picture("Both, by the day it starts, from never to always:", lines)
}

// drawOutlook draws when each planting will be ready, and when it would be in a usual season.
func (s *session) drawOutlook(out []opened.LookedOut) {
	if s.app.format != table.TextFormat {
		return
	}
	scale := chart.Scale{From: math.Inf(1), To: math.Inf(-1), Months: true, Calendar: s.Calendar}
	var lanes []chart.Lane
	nan := math.NaN()
	for _, l := range out {
		q := l.Outlook.Ready
		if !q[1].Known || math.IsInf(q[1].Value, 0) || l.Outlook.IsReady() {
			continue
		}
		lanes = append(lanes, chart.Lane{Label: l.Label(), Mark: opened.Finite(l.Outlook.Usual[1]),
			Five: chart.Five{Low: q[0].Value, Quarter: nan, Middle: q[1].Value, ThreeQuarters: nan, High: q[2].Value}})
		for _, v := range []float64{q[0].Value, q[1].Value, q[2].Value, opened.Finite(l.Outlook.Usual[1])} {
			if !math.IsInf(v, 0) && !math.IsNaN(v) {
				scale.From, scale.To = min(scale.From, v), max(scale.To, v)
			}
		}
	}
	if len(lanes) == 0 {
		return
	}
	scale.From, scale.To = scale.From-7, scale.To+7
	pen := chart.Pen{ASCII: s.app.ascii}
	mark, middle := "◆", "┃"
	if s.app.ascii {
		mark, middle = "o", "#"
	}
	s.app.picture(fmt.Sprintf("First picking: %s in the middle of the seasons that may follow, the line 8 in 10 of them, %s in usual seasons.", middle, mark),
		pen.Lanes(lanes, scale, s.app.pictureWidth()))
}

// drawWarmth draws the sum's course through the season: what past seasons had by the end of
// each month, and this season so far.
func (s *session) drawWarmth(w *opened.Warmth) {
	width := min(s.app.width, 100)
	if width == 0 { // not a terminal
		width = 80
	}
	lanes, top := s.warmthLanes(w)
	if len(lanes) == 0 {
		return
	}
	s.app.paragraph(s.app.out, s.app.unit().DegreeDays()+" by the end of the month: the middle half of the seasons as a block, 8 in 10 as a line", 0)
	pen := chart.Pen{ASCII: s.app.ascii}
	for _, line := range pen.Lanes(lanes, chart.Scale{From: 0, To: top}, width) {
		fmt.Fprintln(s.app.out, line)
	}
	if w.SoFar != nil {
		mark := "◆"
		if s.app.ascii {
			mark = "o"
		}
		fmt.Fprintf(s.app.out, "%s %d\n", mark, w.SoFar.Season)
	}
	fmt.Fprintln(s.app.out)
}

// warmthLanes are the sums to the end of each month; none where chances are not known.
func (s *session) warmthLanes(w *opened.Warmth) (lanes []chart.Lane, top float64) {
	daily := make([][]float64, len(w.Seasons.Seasons))
	for i, y := range w.Seasons.Seasons {
		daily[i] = w.Sum.Days(y.Tmin, y.Tmax)
	}
	var now []float64
	if w.SoFar != nil {
		y := climate.SeasonOf(s.Masked, s.Calendar, w.SoFar.Season)
		now = w.Sum.Days(y.Tmin, y.Tmax)
	}
	scale := s.app.unit().Difference(1)
	sums := make([]float64, len(daily))
	for sd := w.Days.From; sd <= w.Days.To; sd++ {
		if _, d := s.Calendar.MonthDay(sd + 1); d != 1 && sd != w.Days.To {
			continue // not the end of a month
		}
		to := func(d []float64) float64 {
			return scale * climate.FillShort.Sum(d, int(w.Days.From-climate.SpanFrom), int(sd-climate.SpanFrom)).Sum
		}
		for i, d := range daily {
			sums[i] = to(d)
		}
		five, ok := fiveOf(w.Seasons, sums)
		if !ok {
			return nil, 0
		}
		l := chart.Lane{Label: s.Calendar.Words(sd), Five: five, Mark: math.NaN()}
		if w.SoFar != nil && sd <= w.SoFar.Last {
			l.Mark = to(now)
		}
		if top = max(top, five.High*1.05); l.Mark > top {
			top = l.Mark
		}
		lanes = append(lanes, l)
	}
	return lanes, top
}

// fiveOf are the quantiles that a box shows.
func fiveOf(e climate.Ensemble, values []float64) (f chart.Five, ok bool) {
	for _, q := range []struct {
		p  float64
		to *float64
	}{{0.1, &f.Low}, {0.25, &f.Quarter}, {0.5, &f.Middle}, {0.75, &f.ThreeQuarters}, {0.9, &f.High}} {
		v := e.Quantile(values, q.p)
		if !v.Known {
			return f, false
		}
		*q.to = v.Value
	}
	return f, true
}
