package main

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/climate/generator"
	"frostward/climate/quality"
	"frostward/cmd/internal/garden"
	"frostward/risk"
)

// inGround tells whether a planting stands in its bed on a day. One that nobody logged as out
// is taken to have gone out as planned, or when the one before it was likely to leave the bed.
func (s *session) inGround(p planned, before *looked, asOf climate.Day) (l looked, in bool) {
	season, today := s.calendar.Locate(asOf)
	l = looked{planned: p}
	dayOf := func(d garden.Date) climate.Day {
		if d.Year == 0 && d.Day > today { // a day of the year: the last one that has been
			return s.calendar.Day(season-1, d.Day)
		} else if d.Year == 0 {
			return s.calendar.Day(season, d.Day)
		}
		return s.calendar.Day(d.Year, d.Day)
	}
	switch {
	case p.row.Out.Given():
		l.since, l.logged = dayOf(p.row.Out), true
	case p.Start <= today:
		l.since = s.calendar.Day(season, p.Start)
		if before != nil {
			if free := before.outlook.FreeOn()[1]; free.Known && !math.IsInf(free.Value, 0) {
				year, _ := s.calendar.Locate(before.since)
				overlap := climate.SeasonDay(math.Round(7 * p.row.OverlapWeeks))
				l.since = max(l.since, s.calendar.Day(year, climate.SeasonDay(math.Ceil(free.Value))-overlap))
			}
		}
	default:
		return l, false
	}
	if l.since > asOf || asOf-l.since > maxStanding {
		return l, false
	}
	if picked := p.row.Picked; picked.Given() {
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
	now, usual *fields
	upTo       climate.SeasonDay
}

// lookingOut makes the seasons of plantings that went out in a season, as known on a day.
func (s *session) lookingOut(season int, asOf climate.Day) (*lookingOut, error) {
	cut := *s
	if asOf < s.record.Last() { // what is doubtful is judged by the days up to then, too
		cut.record = s.record.Between(s.record.First, asOf)
		cut.flags = quality.Check(cut.record)
		cut.masked = quality.Mask(cut.record, cut.flags)
	}
	if _, last := climate.SeasonsIn(cut.masked, s.calendar); last < s.last {
		cut.last = last
	}
	v := &lookingOut{upTo: s.seasonDay(season, asOf)}
	this := climate.SeasonOf(cut.masked, s.calendar, season)
	before := climate.Recorded(cut.masked, s.garden.Latitude, s.first, min(season-1, s.last))
	var now climate.Ensemble
	usual := before
	switch s.app.by {
	case "", "record":
		now = risk.FitFading(cut.masked, s.calendar).Splice(before, this, v.upTo)
	case "weather":
		m, err := generator.Fit(cut.masked, s.calendar, generator.DefaultOptions)
		if err != nil {
			return nil, fmt.Errorf("%s: --by weather: %w", s.recordName, err)
		}
		usual = m.Ensemble(s.app.seed, worlds, seasonsInWorld, s.garden.Latitude)
		now = m.Continue(this, v.upTo, s.app.seed, worlds, seasonsInWorld, s.garden.Latitude)
	default:
		return nil, usagef("--by %q; outlooks go by record or weather", s.app.by)
	}
	v.now, v.usual = newFields(&cut, now), newFields(&cut, usual)
	return v, v.now.knowLogged(season, asOf)
}

// seasonDay is a day's number in a season, which may be that of a year before.
func (s *session) seasonDay(season int, d climate.Day) climate.SeasonDay {
	y, sd := s.calendar.Locate(d)
	return sd + climate.SeasonDay((y-season)*climate.YearDays)
}

func newFields(s *session, e climate.Ensemble) *fields {
	return &fields{s: s, base: e, spots: map[string]climate.Ensemble{}, byCrop: map[fieldKey]*risk.Field{}}
}

// knowLogged puts the garden log's own readings of this season's nights, up to a day, in the
// place of drawn ones at their spots. Readings under a cover tell of the cover.
func (f *fields) knowLogged(season int, asOf climate.Day) error {
	log, err := f.s.readLog()
	if err != nil {
		return err
	}
	for _, e := range log.Nights() {
		spot, err := f.s.garden.Spot(e.Spot)
		d := int(f.s.seasonDay(season, e.Day) - climate.SpanFrom)
		if err != nil || e.Day > asOf || e.Covered != "" || math.IsNaN(e.Tmin) || d < 0 || d >= climate.SpanLen {
			continue
		}
		for _, s := range f.at(spot).Seasons {
			if s.Night != nil { // made for this spot alone by atSpot
				s.Night[d] = e.Tmin
			}
		}
	}
	return nil
}
