package main

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/cmd/internal/chart"
)

// drawWarmth draws the sum's course through the season: what past seasons had by the end of
// each month, and this season so far.
func (s *session) drawWarmth(w *warmthFound) {
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
	if w.soFar != nil {
		mark := "◆"
		if s.app.ascii {
			mark = "o"
		}
		fmt.Fprintf(s.app.out, "%s %d\n", mark, w.soFar.season)
	}
	fmt.Fprintln(s.app.out)
}

// warmthLanes are the sums to the end of each month; none where chances are not known.
func (s *session) warmthLanes(w *warmthFound) (lanes []chart.Lane, top float64) {
	daily := make([][]float64, len(w.e.Seasons))
	for i, y := range w.e.Seasons {
		daily[i] = w.sum.Days(y.Tmin, y.Tmax)
	}
	var now []float64
	if w.soFar != nil {
		y := climate.SeasonOf(s.Masked, s.Calendar, w.soFar.season)
		now = w.sum.Days(y.Tmin, y.Tmax)
	}
	scale := s.app.unit().Difference(1)
	sums := make([]float64, len(daily))
	for sd := w.days.From; sd <= w.days.To; sd++ {
		if _, d := s.Calendar.MonthDay(sd + 1); d != 1 && sd != w.days.To {
			continue // not the end of a month
		}
		to := func(d []float64) float64 {
			return scale * climate.FillShort.Sum(d, int(w.days.From-climate.SpanFrom), int(sd-climate.SpanFrom)).Sum
		}
		for i, d := range daily {
			sums[i] = to(d)
		}
		five, ok := w.five(sums)
		if !ok {
			return nil, 0
		}
		l := chart.Lane{Label: s.Calendar.Words(sd), Five: five, Mark: math.NaN()}
		if w.soFar != nil && sd <= w.soFar.last {
			l.Mark = to(now)
		}
		if top = max(top, five.High*1.05); l.Mark > top {
			top = l.Mark
		}
		lanes = append(lanes, l)
	}
	return lanes, top
}

// five are the quantiles that a box shows.
func (w *warmthFound) five(values []float64) (f chart.Five, ok bool) {
	for _, q := range []struct {
		p  float64
		to *float64
	}{{0.1, &f.Low}, {0.25, &f.Quarter}, {0.5, &f.Middle}, {0.75, &f.ThreeQuarters}, {0.9, &f.High}} {
		v := w.e.Quantile(values, q.p)
		if !v.Known {
			return f, false
		}
		*q.to = v.Value
	}
	return f, true
}
