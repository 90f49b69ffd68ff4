package main

import (
	"math"

	"frostward/climate"
	"frostward/cmd/internal/chart"
	"frostward/risk"
)

// stages is a planting's way through a season, in season days; NaN where a stage is not
// gone through or its day is not known.
type stages struct {
	sow, harden    float64 // raised plants: sown under cover, first day out of doors
	out            float64 // planted out, or sown in place
	pick           float64 // first picking: the median
	early, late    float64 // first picking: in 1 and in 9 seasons of 10 by then
	free           float64 // picked, and the bed free: the median
	endsWithoutOne float64 // where half the seasons or more have no picking: when it leaves the bed
}

func (s *session) stages(p planned, x risk.Assessment) stages {
	nan := math.NaN()
	g := stages{sow: nan, harden: nan, out: float64(p.Start), pick: nan, early: nan, late: nan, free: nan, endsWithoutOne: nan}
	if p.Raised {
		g.sow = float64(p.Sow)
		if len(x.Hardening.Nights) > 0 {
			g.harden = float64(x.Hardening.From)
		}
	}
	dates := x.Result.Harvest
	g.early, g.pick, g.late = finite(dates[0]), finite(dates[1]), finite(dates[2])
	g.free = finite(x.Cleared())
	if free := x.FreeOn(); math.IsNaN(g.pick) && len(free) > 1 {
		g.endsWithoutOne = finite(free[1])
	}
	return g
}

// finite is a date, NaN where there is none.
func finite(q climate.Quantile) float64 {
	if !q.Known || math.IsInf(q.Value, 0) {
		return math.NaN()
	}
	return math.Round(q.Value)
}

// parts are the stages as the season strip draws them.
func (g stages) parts() []chart.Part {
	var out []chart.Part
	add := func(stage chart.Stage, from, to float64) {
		if !math.IsNaN(from) && !math.IsNaN(to) && to > from {
			out = append(out, chart.Part{Stage: stage, From: climate.SeasonDay(from), To: climate.SeasonDay(to), Low: math.NaN(), High: math.NaN()})
		}
	}
	add(chart.UnderCover, g.sow, first(g.harden, g.out))
	add(chart.Hardening, g.harden, g.out)
	add(chart.Out, g.out, first(g.pick, g.endsWithoutOne))
	add(chart.Picking, g.pick, first(g.free, g.pick+1))
	if n := len(out) - 1; n >= 0 && out[n].Stage == chart.Picking {
		out[n].Low, out[n].High = g.early, g.late
	}
	return out
}

// first is the first of some days that is known.
func first(days ...float64) float64 {
	for _, d := range days {
		if !math.IsNaN(d) {
			return d
		}
	}
	return math.NaN()
}

// asToday is the day that a page or calendar starts from: today, or, for the built-in
// garden and for a record that ends long ago, the record's last.
func (s *session) asToday() climate.Day {
	last := s.record.Last()
	if today := s.app.today(); !s.invented && today >= last && today < last+climate.YearDays {
		return today
	}
	return last
}

// planningFor is the season whose work lies ahead on a day: the one it is in, or from
// October on (in the south from April) the next.
func (s *session) planningFor(d climate.Day) int {
	season, sd := s.calendar.Locate(d)
	if sd >= workEnds {
		season++
	}
	return season
}

// workEnds is the season day from which on nothing is sown or planted out any more in a
// cool climate but overwintering crops: 1 October (common practice, no source).
const workEnds climate.SeasonDay = 273
