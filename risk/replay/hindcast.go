package replay

import (
	"math"

	"golang.org/x/sync/errgroup"

	"frostward/climate"
	"frostward/climate/generator"
	"frostward/climate/stat"
)

// Hindcast replays a record as if each season were still to come: what would have been said
// of it from the seasons before, and nothing else, is scored against what came.
type Hindcast struct {
	Record   climate.Series
	Latitude float64 // degrees, south negative
	Events   []Event
	Training []int // numbers of seasons to learn from, the last ones before; All is all of them
	Ways     []climate.By
	Seed     uint64
	Worlds   int // of an ensemble by weather
	PerWorld int // seasons in each
	Workers  int // the result does not depend on it
}

// All stands for learning from all the seasons before.
const All = 0

// Reference is how many seasons the curve is fitted to that everything is measured against:
// the 30 of a climatological normal (WMO-No. 1203). A season is scored if as many came before
// it that could tell, so that every number of training seasons is scored on the same ones.
const Reference = 30

// FewestScored is the fewest seasons that a score is stated over. The error of the ratio of
// two scores falls below 10 % at about this many.
const FewestScored = 5

// Ways are all the ways to chances, in the order in which they are scored.
var Ways = []climate.By{climate.ByRecord, climate.ByCurve, climate.ByWeather}

// replay is what a replay finds in one season: for each event, what was said each way.
type replay struct {
	scored []bool      // by event
	came   []float64   // by event
	ref    []verdictOn // by event: the reference curve
	said   []verdictOn // by event, training and way; see Hindcast.at
}

// verdictOn is how one thing said did.
type verdictOn struct {
	known   bool
	crps    float64
	bias    float64 // median said less what came
	pit     stat.PIT
	within  [2]bool                   // the central 80 and 90 %
	chances [len(brierPoints)]float64 // issued for "by then", at each point
}

// brierPoints are where yes-or-no questions are asked: whether the event comes by the day that
// this share of all scored seasons has it by.
var brierPoints = [...]float64{0.1, 0.25, 0.5, 0.75, 0.9}

func (h *Hindcast) at(event, training, way int) int {
	return (event*len(h.Training)+training)*len(h.Ways) + way
}

// Run replays the record. Events that too few seasons can be scored on have no scores.
func (h *Hindcast) Run() []Score {
	p := h.look()
	replays := make([]*replay, len(p.good))
	var g errgroup.Group
	g.SetLimit(max(1, h.Workers))
	for i := range replays {
		if p.scoresAny(i) {
			g.Go(func() error {
				replays[i] = p.replay(i)
				return nil
			})
		}
	}
	g.Wait() // nothing in it fails
	return h.tally(p, replays)
}

// look finds what the record has of each event.
func (h *Hindcast) look() *past {
	cal := climate.CalendarAt(h.Latitude)
	first, last := climate.SeasonsIn(h.Record, cal)
	recorded := climate.Recorded(h.Record, h.Latitude, first, last)
	p := &past{h: h, cal: cal, first: first, good: wholeSeasons(h.Record, cal, first, last)}
	for _, v := range h.Events {
		p.values = append(p.values, v.Values(recorded))
		p.raw = append(p.raw, v.raw(recorded))
	}
	p.findPoints()
	return p
}

// past is the record as a replay looks back on it.
type past struct {
	h           *Hindcast
	cal         climate.Calendar
	first       int
	good        []bool      // seasons that have most of their days
	values, raw [][]float64 // by event and season
	points      [][len(brierPoints)]float64
}

// wholeSeasons says which seasons have both temperatures on most days.
func wholeSeasons(rec climate.Series, cal climate.Calendar, first, last int) []bool {
	good := make([]bool, last-first+1)
	for i := range good {
		days := rec.Between(cal.Day(first+i, 0), cal.Day(first+i+1, 0)-1)
		n := 0
		for d := range days.Tmin {
			if !math.IsNaN(days.Tmin[d]) && !math.IsNaN(days.Tmax[d]) {
				n++
			}
		}
		good[i] = n > climate.YearDays/2
	}
	return good
}

// scores says whether an event is scored in a season: it is known there, and in Reference
// seasons before.
func (p *past) scores(event, season int) bool {
	return !math.IsNaN(p.values[event][season]) && len(lastKnown(p.raw[event][:season], Reference)) == Reference
}

func (p *past) scoresAny(season int) bool {
	for e := range p.h.Events {
		if p.scores(e, season) {
			return true
		}
	}
	return false
}

// lastKnown returns the last n known values, or as many as there are; all of them for All.
func lastKnown(x []float64, n int) []float64 {
	var out []float64
	for i := len(x) - 1; i >= 0 && (n == All || len(out) < n); i-- {
		if !math.IsNaN(x[i]) {
			out = append(out, x[i])
		}
	}
	return out
}

// findPoints sets the days that yes-or-no questions are asked about, from all scored seasons:
// they choose the questions, not the answers. A date is asked about at the end of its day.
func (p *past) findPoints() {
	p.points = make([][len(brierPoints)]float64, len(p.h.Events))
	for e, v := range p.h.Events {
		var came []float64
		for i, y := range p.values[e] {
			if p.scores(e, i) {
				came = append(came, y)
			}
		}
		for k, q := range brierPoints {
			x := stat.Quantile(came, q)
			if v.Dates {
				x = math.Floor(x) + 0.5
			}
			p.points[e][k] = x
		}
	}
}

// replay forecasts one season.
func (p *past) replay(season int) *replay {
	h := p.h
	n := len(h.Events)
	r := &replay{scored: make([]bool, n), came: make([]float64, n), ref: make([]verdictOn, n),
		said: make([]verdictOn, n*len(h.Training)*len(h.Ways))}
	for e := range h.Events {
		if r.scored[e] = p.scores(e, season); r.scored[e] {
			r.came[e] = p.values[e][season]
			r.ref[e] = p.judge(e, r.came[e], p.curve(e, season, Reference))
		}
	}
	for t, training := range h.Training {
		for w, by := range h.Ways {
			var weather climate.Ensemble
			var err error
			if by == climate.ByWeather {
				if weather, err = p.weather(season, training); err != nil {
					continue // too little to go by: the score counts fewer seasons
				}
			}
			for e := range h.Events {
				if !r.scored[e] {
					continue
				}
				var said forecast
				switch by {
				case climate.ByWeather:
					said = newSample(h.Events[e].Values(weather))
				case climate.ByCurve:
					said = p.curve(e, season, training)
				default:
					said = newSample(lastKnown(p.values[e][:season], training))
				}
				r.said[h.at(e, t, w)] = p.judge(e, r.came[e], said)
			}
		}
	}
	return r
}

func (p *past) curve(event, season, training int) forecast {
	v := p.h.Events[event]
	return curve{stat.FitMixed(lastKnown(p.raw[event][:season], training)), v.low, v.high}
}

// weather makes an ensemble from the days before a season began, as many whole seasons back as
// training says.
func (p *past) weather(season, training int) (climate.Ensemble, error) {
	from := 0
	if training != All {
		n := 0
		for from = season; from > 0 && n < training; {
			if from--; p.good[from] {
				n++
			}
		}
	}
	days := p.h.Record.Between(p.cal.Day(p.first+from, 0), p.cal.Day(p.first+season, 0)-1)
	m, err := generator.Fit(days, p.cal, generator.DefaultOptions)
	if err != nil {
		return climate.Ensemble{}, err
	}
	return m.Ensemble(p.h.Seed+uint64(season), p.h.Worlds, p.h.PerWorld, p.h.Latitude), nil
}

// judge scores what was said of an event.
func (p *past) judge(event int, came float64, said forecast) verdictOn {
	v := verdictOn{known: true, crps: said.crps(came), bias: said.quantile(0.5) - came, pit: said.pit(came)}
	for i, tail := range []float64{0.1, 0.05} {
		v.within[i] = said.quantile(tail) <= came && came <= said.quantile(1-tail)
	}
	for k, x := range p.points[event] {
		v.chances[k] = said.by(x)
	}
	return v
}
