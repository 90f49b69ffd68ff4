package opened

import (
	"fmt"

	"frostward/climate"
	"frostward/climate/generator"
	"frostward/risk"
	"frostward/risk/replay"
)

// LookedOut is a planting in the ground with its outlook.
type LookedOut struct {
	Planned
	Since   climate.Day // the day it went out
	Logged  bool        // the grower said so; else its planned day has passed
	Waited  bool        // on its planned day its bed was not free yet
	Outlook risk.Outlook
	Next    *NextInBed // nil where none waits
}

// NextInBed is the planting that waits for the bed.
type NextInBed struct {
	Planned
	risk.Handover
}

// LookOut makes the outlook of every planting in the ground on a day, in the plan's order.
func (g *Garden) LookOut(asOf climate.Day, opt risk.OutlookOptions) ([]LookedOut, error) {
	states, err := g.States()
	if err != nil {
		return nil, err
	}
	plantings := make([]Planned, len(states))
	for i, st := range states {
		plantings[i] = st.Planned
	}
	follows, order, err := InOrder(plantings)
	if err != nil {
		return nil, err
	}
	ahead := map[int]*lookingOut{}
	found := make([]*LookedOut, len(plantings))
	for _, i := range order {
		if states[i].Phase != InGround {
			continue
		}
		l := LookedOut{Planned: plantings[i], Since: states[i].Since, Logged: states[i].Logged, Waited: states[i].Waited}
		season, start := g.Calendar.Locate(l.Since)
		if ahead[season] == nil {
			if ahead[season], err = g.lookingOut(season, asOf); err != nil {
				return nil, err
			}
		}
		l.look(ahead[season], start, opt)
		for j, q := range plantings {
			if follows[j] == i {
				h := handOver(ahead[season].now.Base, risk.Result{Planting: l.Planting, Outcomes: l.Outlook.Outcomes}, q)
				l.Next = &NextInBed{q, *h}
			}
		}
		found[i] = &l
	}
	var out []LookedOut
	for _, l := range found {
		if l != nil {
			out = append(out, *l)
		}
	}
	return out, nil
}

// look makes the outlook of a planting that went out on a day of a season.
func (l *LookedOut) look(v *lookingOut, start climate.SeasonDay, opt risk.OutlookOptions) {
	l.Planting = l.Planting.At(start)
	if opt.HasBy && opt.By < start { // the grower's date comes round once more
		opt.By += climate.YearDays
	}
	l.Outlook = risk.LookOut(v.now.Field(l.Where, l.Crop, l.Raised), v.usual.Field(l.Where, l.Crop, l.Raised), l.Planting, v.upTo, opt)
}

// lookingOut is the seasons that may follow from a day, and the usual ones beside them.
type lookingOut struct {
	now, usual *Fields
	upTo       climate.SeasonDay
}

// lookingOut makes the seasons of plantings that went out in a season, as known on a day.
func (g *Garden) lookingOut(season int, asOf climate.Day) (*lookingOut, error) {
	v := &lookingOut{upTo: g.SeasonDay(season, min(asOf, g.Masked.Last()))}
	this := climate.SeasonOf(g.Masked, g.Calendar, season)
	before := climate.Recorded(g.Masked, g.Settings.Latitude, g.First, min(season-1, g.Last))
	var now climate.Ensemble
	usual := before
	switch g.Options.By {
	case "", "record":
		now = risk.FitFading(g.Masked, g.Calendar).Splice(before, this, v.upTo)
	case "weather":
		m, err := generator.Fit(g.Masked, g.Calendar, generator.DefaultOptions)
		if err != nil {
			return nil, fmt.Errorf("%s: --by weather: %w", g.RecordName, err)
		}
		usual = m.Ensemble(g.Options.Seed, Worlds, SeasonsInWorld, g.Settings.Latitude)
		now = m.Continue(this, v.upTo, g.Options.Seed, Worlds, SeasonsInWorld, g.Settings.Latitude)
	default:
		return nil, usagef("--by %q; outlooks go by record or weather", g.Options.By)
	}
	var err error
	if v.now, err = g.FieldsOf(now); err != nil {
		return nil, err
	}
	v.usual, err = g.FieldsOf(usual)
	v.now.knowLogged(season, asOf)
	return v, err
}

// Outlooker makes outlooks by the way asked for.
func (g *Garden) Outlooker() (replay.Outlooker, error) {
	switch g.Options.By {
	case "", "record":
		return replay.SplicedRecord(g.Calendar, g.Settings.Latitude), nil
	case "weather":
		return func(rec climate.Series, season int, upTo climate.SeasonDay) (climate.Ensemble, error) {
			m, err := generator.Fit(rec, g.Calendar, generator.DefaultOptions)
			if err != nil {
				return climate.Ensemble{}, err
			}
			return m.Continue(climate.SeasonOf(rec, g.Calendar, season), upTo, g.Options.Seed, 10, 10, g.Settings.Latitude), nil
		}, nil
	}
	return nil, usagef("--by %q; outlooks go by record or weather", g.Options.By)
}
