package main

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/cmd/internal/chart"
	"frostward/cmd/internal/opened"
)

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
