package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/risk"
)

// outlookOptions are the options of outlook.
type outlookOptions struct {
	byDate string
	giveUp float64
	skill  bool
}

func newOutlook(a *app) *cobra.Command {
	var o outlookOptions
	c := &cobra.Command{
		Use:   "outlook",
		Short: "When the plantings in the ground will be ready, given the season so far",
		Long: `outlook looks ahead for the plantings that are in the ground: those that plan.csv or the
garden log say went out, and those whose planned day has passed this season. This season's
days so far take the place of expected ones. The rest comes from the seasons before, each
moved by as much as the warmth or cold of late still shows so many days on in the record;
with --by weather, from resampled seasons that carry on from this one.

It goes by record unless --by says otherwise: replayed over four long records, that was better
than the usual dates at 30, 60 and 90 days before picking for every crop tried, and --by
weather was not on all of them. --skill does the same for your record and plan.

--as-of replays a past day: nothing after that day is used, for the fit neither.`,
		Example: `  frostward outlook
  frostward outlook --garden mygarden --by-date 09-05
  frostward outlook --as-of 2025-07-20 --give-up 0.3`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.outlook(o) },
	}
	f := c.Flags()
	f.StringVar(&o.byDate, "by-date", "", "ready by this `day`, such as 24 May")
	f.Float64Var(&o.giveUp, "give-up", 0.2, "the `chance` of a worthwhile picking below which the bed is better used otherwise")
	f.BoolVar(&o.skill, "skill", false, "how good such outlooks have been: the record replayed for the crops of the plan")
	return c
}

// looked is a planting in the ground with its outlook.
type looked struct {
	opened.Planned
	since   climate.Day // the day it went out
	logged  bool        // the grower said so; else its planned day has passed
	outlook risk.Outlook
	next    *nextInBed
}

// nextInBed is the planting that waits for the bed.
type nextInBed struct {
	opened.Planned
	risk.Handover
}

func (a *app) outlook(o outlookOptions) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	if o.skill {
		return s.outlookSkill()
	}
	asOf := s.present()
	if err := s.noteOver(); err != nil {
		return err
	}
	opt := risk.OutlookOptions{Cover: s.OtherCover(), GiveUp: o.giveUp}
	if !(o.giveUp > 0 && o.giveUp < 1) {
		return usagef("--give-up %v; wanted a chance between 0 and 1, such as 0.2", o.giveUp)
	}
	if o.byDate != "" {
		if opt.By, err = s.Calendar.Parse(o.byDate); err != nil {
			return usage(fmt.Errorf("--by-date: %w", err))
		}
		opt.HasBy = true
	}
	out, err := s.lookOut(asOf, opt)
	if err != nil {
		return err
	}
	if a.format == table.JSON {
		return a.writeJSON(s.outlookJSON(asOf, o, out))
	}
	return s.writeOutlook(asOf, opt, out)
}

// lookOut makes the outlook of every planting in the ground on a day, in the plan's order.
func (s *session) lookOut(asOf climate.Day, opt risk.OutlookOptions) ([]looked, error) {
	states, err := s.States()
	if err != nil {
		return nil, err
	}
	plantings := make([]opened.Planned, len(states))
	for i, st := range states {
		plantings[i] = st.Planned
	}
	follows, order, err := opened.InOrder(plantings)
	if err != nil {
		return nil, err
	}
	views := map[int]*lookingOut{}
	found := make([]*looked, len(plantings))
	for _, i := range order {
		if states[i].Phase != opened.InGround {
			continue
		}
		l := looked{Planned: plantings[i], since: states[i].Since, logged: states[i].Logged}
		season, start := s.Calendar.Locate(l.since)
		if views[season] == nil {
			if views[season], err = s.lookingOut(season, asOf); err != nil {
				return nil, err
			}
		}
		l.look(views[season], start, opt)
		for j, q := range plantings {
			if follows[j] == i {
				h := opened.HandOver(views[season].now.Base, risk.Assessment{Result: risk.Result{Planting: l.Planting, Outcomes: l.outlook.Outcomes}}, q)
				l.next = &nextInBed{q, *h}
			}
		}
		found[i] = &l
	}
	var out []looked
	for _, l := range found {
		if l != nil {
			out = append(out, *l)
		}
	}
	return out, nil
}

// look makes the outlook of a planting that went out on a day of a season.
func (l *looked) look(v *lookingOut, start climate.SeasonDay, opt risk.OutlookOptions) {
	l.Planting = l.Planting.At(start)
	if opt.HasBy && opt.By < start { // the grower's date comes round once more
		opt.By += climate.YearDays
	}
	l.outlook = risk.LookOut(v.now.Field(l.Where, l.Crop, l.Raised), v.usual.Field(l.Where, l.Crop, l.Raised), l.Planting, v.upTo, opt)
}
