package main

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/climate/generator"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/opened"
	"frostward/risk"
)

// inGround tells whether a planting stands in its bed on a day. One that nobody logged as out
// is taken to have gone out as planned, or when the one before it was likely to leave the bed.
func (s *session) inGround(p opened.Planned, before *looked, asOf climate.Day) (l looked, in bool) {
	season, today := s.Calendar.Locate(asOf)
	l = looked{Planned: p}
	dayOf := func(d garden.Date) climate.Day {
		if d.Year == 0 && d.Day > today { // a day of the year: the last one that has been
			return s.Calendar.Day(season-1, d.Day)
		} else if d.Year == 0 {
			return s.Calendar.Day(season, d.Day)
		}
		return s.Calendar.Day(d.Year, d.Day)
	}
	switch {
	case p.Row.Out.Given():
		l.since, l.logged = dayOf(p.Row.Out), true
	case p.Start <= today:
		l.since = s.Calendar.Day(season, p.Start)
		if before != nil {
			if free := before.outlook.FreeOn()[1]; free.Known && !math.IsInf(free.Value, 0) {
				year, _ := s.Calendar.Locate(before.since)
				overlap := climate.SeasonDay(math.Round(7 * p.Row.OverlapWeeks))
				l.since = max(l.since, s.Calendar.Day(year, climate.SeasonDay(math.Ceil(free.Value))-overlap))
			}
		}
	default:
		return l, false
	}
	if l.since > asOf || asOf-l.since > maxStanding {
		return l, false
	}
	if picked := p.Row.Picked; picked.Given() {
		if d := dayOf(picked); d >= l.since && d <= asOf {
			return l, false
		}
	}
	return l, true
}

// maxStanding is how long a planting is taken to stand in its bed if nobody says that it was
// cleared, in days: as long as a season is followed.
const maxStanding = 400

// lookingOut is the seasons that may follow from a day, and the usual ones beside them.
type lookingOut struct {
	now, usual *opened.Fields
	upTo       climate.SeasonDay
}

// lookingOut makes the seasons of plantings that went out in a season, as known on a day.
func (s *session) lookingOut(season int, asOf climate.Day) (*lookingOut, error) {
	v := &lookingOut{upTo: s.SeasonDay(season, min(asOf, s.Masked.Last()))}
	this := climate.SeasonOf(s.Masked, s.Calendar, season)
	before := climate.Recorded(s.Masked, s.Settings.Latitude, s.First, min(season-1, s.Last))
	var now climate.Ensemble
	usual := before
	switch s.app.by {
	case "", "record":
		now = risk.FitFading(s.Masked, s.Calendar).Splice(before, this, v.upTo)
	case "weather":
		m, err := generator.Fit(s.Masked, s.Calendar, generator.DefaultOptions)
		if err != nil {
			return nil, fmt.Errorf("%s: --by weather: %w", s.RecordName, err)
		}
		usual = m.Ensemble(s.app.seed, opened.Worlds, opened.SeasonsInWorld, s.Settings.Latitude)
		now = m.Continue(this, v.upTo, s.app.seed, opened.Worlds, opened.SeasonsInWorld, s.Settings.Latitude)
	default:
		return nil, usagef("--by %q; outlooks go by record or weather", s.app.by)
	}
	var err error
	if v.now, err = s.FieldsOf(now); err != nil {
		return nil, err
	}
	v.usual, err = s.FieldsOf(usual)
	v.now.KnowLogged(season, asOf)
	return v, err
}
