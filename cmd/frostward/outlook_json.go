package main

import (
	"math"

	"frostward/climate"
)

type outlookJSON struct {
	Garden    string       `json:"garden"`
	AsOf      string       `json:"as_of"`
	By        string       `json:"by"`
	GiveUp    float64      `json:"give_up_below"`
	Seed      uint64       `json:"seed"`
	Plantings []lookedJSON `json:"plantings"`
}

type lookedJSON struct {
	Name     string      `json:"name"`
	Crop     string      `json:"crop"`
	Class    string      `json:"class"`
	Spot     string      `json:"spot"`
	Bed      string      `json:"bed"`
	Out      string      `json:"out"`
	Logged   bool        `json:"logged"` // the grower said that it went out
	Ready    []pickJSON  `json:"ready"`
	Usual    []pickJSON  `json:"usual"`
	Ripens   shareJSON   `json:"ready_before_frost"`
	Worth    shareJSON   `json:"worth_picking"`
	Light    shareJSON   `json:"ready_before_light_line"`
	Line     *string     `json:"light_line"`
	ByDate   *byDateJSON `json:"by_date"`
	Cover    string      `json:"autumn_cover"`
	Covered  shareJSON   `json:"ready_before_frost_covered"`
	MoreDays *float64    `json:"picking_days_added"`
	GiveUp   *string     `json:"give_up_on"`
	BedFree  []pickJSON  `json:"bed_free"`
	Next     *nextJSON   `json:"next_in_bed"`
}

type byDateJSON struct {
	Date  string    `json:"date"`
	Ready shareJSON `json:"ready"`
}

type nextJSON struct {
	Name   string     `json:"name"`
	Start  string     `json:"start"`
	InTime shareJSON  `json:"bed_free_in_time"`
	Free   []pickJSON `json:"bed_free"`
}

func (s *session) outlookJSON(asOf climate.Day, o outlookOptions, all []looked) outlookJSON {
	by := s.app.by
	if by == "" {
		by = climate.ByRecord.String()
	}
	out := outlookJSON{Garden: s.Settings.Name, AsOf: asOf.String(), By: by, GiveUp: o.giveUp, Seed: s.app.seed, Plantings: []lookedJSON{}}
	for _, l := range all {
		out.Plantings = append(out.Plantings, s.lookedJSON(l))
	}
	return out
}

func (s *session) lookedJSON(l looked) lookedJSON {
	o := l.outlook
	j := lookedJSON{Name: l.Name, Crop: l.Crop.Name, Class: l.Crop.Class, Spot: l.Where.Name, Bed: l.Bed, Out: l.since.String(), Logged: l.logged,
		Ready: s.datesJSON(o.Ready[:]), Usual: s.datesJSON(o.Usual[:]), Ripens: jsonOf(o.Ripens), Worth: jsonOf(o.Worth), Light: jsonOf(o.Light),
		Covered: jsonOf(o.Covered), GiveUp: isoDay(s.Calendar, o.GiveUp), BedFree: s.datesJSON(o.FreeOn())}
	if !o.NoLine {
		j.Line = isoDay(s.Calendar, float64(o.LightLine))
	}
	if o.ByDate.Known {
		j.ByDate = &byDateJSON{s.Calendar.Format(o.Date), jsonOf(o.ByDate)}
	}
	if l.Cover.Name == "" {
		j.Cover = s.OtherCover().Name
		if !math.IsNaN(o.CoverSaves) {
			j.MoreDays = number(o.CoverSaves, 1)
		}
	}
	if n := l.next; n != nil {
		j.Next = &nextJSON{n.Label(), s.Calendar.Format(n.Start), jsonOf(n.InTime), s.datesJSON(n.Free[:])}
	}
	return j
}
