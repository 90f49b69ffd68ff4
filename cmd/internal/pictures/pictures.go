// Package pictures draws what a garden comes to for a terminal.
package pictures

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/climate/stat"
	"frostward/cmd/internal/chart"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// Paper is what is drawn on.
type Paper struct {
	Width int // columns
	ASCII bool
}

// Picture is lines with a sentence on how to read them; without lines there is nothing to show.
type Picture struct {
	Reading string
	Lines   []string
}

func (p Paper) pen() chart.Pen { return chart.Pen{ASCII: p.ASCII} }

// mark is what a lane's mark looks like.
func (p Paper) mark() string {
	if p.ASCII {
		return "o"
	}
	return "◆"
}

// Frosts is the spread of the last spring and the first autumn frost.
func (p Paper) Frosts(c climate.Calendar, e climate.Ensemble, t opened.Frosts) (out Picture) {
	d := t.Dates
	if e.By == climate.ByWeather {
		d = climate.DatesOf(e, d.Threshold, climate.WMO)
	}
	scale := chart.Scale{From: math.Inf(1), To: math.Inf(-1), Months: true, Calendar: c}
	var lanes []chart.Lane
	for _, half := range []struct {
		name  string
		dates []float64
	}{{"last in spring", climate.Earliest(d.Spring)}, {"first in autumn", d.Autumn}} {
		var v [5]float64
		for i, share := range []float64{0.1, 0.25, 0.5, 0.75, 0.9} {
			q := e.Quantile(half.dates, share)
			if v[i] = q.Value; !q.Known {
				return out
			}
			if !math.IsInf(v[i], 0) {
				scale.From, scale.To = min(scale.From, v[i]), max(scale.To, v[i])
			}
		}
		lanes = append(lanes, chart.Lane{Label: half.name, Mark: math.NaN(),
			Five: chart.Five{Low: v[0], Quarter: v[1], Middle: v[2], ThreeQuarters: v[3], High: v[4]}})
	}
	if scale.From > scale.To {
		return out // hardly any season has a frost
	}
	scale.From, scale.To = scale.From-7, scale.To+7
	return Picture{"when they come, the middle half of the seasons as a block, 8 in 10 as a line.", p.pen().Lanes(lanes, scale, p.Width)}
}

// Window is the chance of success by the starting day.
func (p Paper) Window(c climate.Calendar, w risk.Window) (out Picture) {
	n := len(w.Starts)
	if n < 2 {
		return out
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
	scale := chart.Scale{From: float64(from), To: float64(to), Months: true, Calendar: c}
	return Picture{"Both, by the day it starts, from never to always:", p.pen().MonthBar(shares, scale, min(p.Width, len(shares)))}
}

// Outlook is when each planting will be ready, and when it would be in a usual season.
func (p Paper) Outlook(c climate.Calendar, plantings []opened.LookedOut) (out Picture) {
	scale := chart.Scale{From: math.Inf(1), To: math.Inf(-1), Months: true, Calendar: c}
	var lanes []chart.Lane
	nan := math.NaN()
	for _, l := range plantings {
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
		return out
	}
	scale.From, scale.To = scale.From-7, scale.To+7
	middle := "┃"
	if p.ASCII {
		middle = "#"
	}
	return Picture{fmt.Sprintf("First picking: %s in the middle of the seasons that may follow, the line 8 in 10 of them, %s in usual seasons.", middle, p.mark()),
		p.pen().Lanes(lanes, scale, p.Width)}
}

// Warmth is the sum's course through the season: what past seasons had by the end of each month, and this season so far.
func (p Paper) Warmth(g *opened.Garden, u words.Units, w *opened.Warmth) (out Picture) {
	lanes, top := warmthLanes(g, u, w)
	if len(lanes) == 0 {
		return out
	}
	out = Picture{u.DegreeDays() + " by the end of the month: the middle half of the seasons as a block, 8 in 10 as a line", p.pen().Lanes(lanes, chart.Scale{From: 0, To: top}, p.Width)}
	if w.SoFar != nil {
		out.Lines = append(out.Lines, fmt.Sprintf("%s %d", p.mark(), w.SoFar.Season))
	}
	return out
}

// warmthLanes are the sums to the end of each month; none where chances are not known.
func warmthLanes(g *opened.Garden, u words.Units, w *opened.Warmth) (lanes []chart.Lane, top float64) {
	daily := make([][]float64, len(w.Seasons.Seasons))
	for i, y := range w.Seasons.Seasons {
		daily[i] = w.Sum.Days(y.Tmin, y.Tmax)
	}
	var now []float64
	if w.SoFar != nil {
		y := climate.SeasonOf(g.Masked, g.Calendar, w.SoFar.Season)
		now = w.Sum.Days(y.Tmin, y.Tmax)
	}
	scale := u.Difference(1)
	sums := make([]float64, len(daily))
	for sd := w.Days.From; sd <= w.Days.To; sd++ {
		if _, d := g.Calendar.MonthDay(sd + 1); d != 1 && sd != w.Days.To {
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
		l := chart.Lane{Label: g.Calendar.Words(sd), Five: five, Mark: math.NaN()}
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

// Spot is the readings less the station by the range of the night, a box for
// each band of ranges, with the fit marked on it.
func (p Paper) Spot(g *opened.Garden, u words.Units, name string, m site.Model, used int, readings []site.Reading) (out Picture) {
	const few = 5 // readings without a shape
	if used < few {
		return out
	}
	bands := []float64{0, 4, 8, 12, 18.1}
	gaps := make([][]float64, len(bands)-1)
	scale := chart.Scale{}
	for _, r := range readings {
		n := site.NightOf(g.Masked, g.Calendar, r.Day)
		gap := r.Tmin - n.Tmin
		if math.IsNaN(gap) || math.IsNaN(n.Range()) {
			continue
		}
		i := 0
		for n.Range() >= bands[i+1] {
			i++
		}
		gaps[i] = append(gaps[i], u.Difference(gap))
		scale.From, scale.To = min(scale.From, u.Difference(gap)), max(scale.To, u.Difference(gap))
	}
	scale.From, scale.To = math.Floor(scale.From), math.Ceil(scale.To)
	var lanes []chart.Lane
	for i, band := range gaps {
		mid := site.Night{Tmin: 2, Before: 2 + (bands[i]+bands[i+1])/2, After: math.NaN(), Day: 91}
		lane := chart.Lane{Label: fmt.Sprintf("range %.0f to %.0f %s, %s", u.Difference(bands[i]), u.Difference(bands[i+1]), u.Unit(), words.Plural(len(band), "morning")),
			Mark: u.Difference(m.Mean(mid) - mid.Tmin)}
		q := func(share float64) float64 { return stat.Quantile(band, share) }
		lane.Five = chart.Five{Low: q(0), Quarter: q(0.25), Middle: q(0.5), ThreeQuarters: q(0.75), High: q(1)}
		lanes = append(lanes, lane)
	}
	return Picture{fmt.Sprintf("  %s less station, %s: from the least to the most, the middle half filled; %s the fit", name, u.Unit(), p.mark()), p.pen().Lanes(lanes, scale, p.Width)}
}
