package main

import (
	"frostward/climate"
	"frostward/risk"
)

type planJSON struct {
	Garden    string         `json:"garden"`
	By        string         `json:"by"`
	Aim       float64        `json:"aim"`
	Seed      uint64         `json:"seed"`
	Plantings []plantingJSON `json:"plantings"`
}

type plantingJSON struct {
	Name       string     `json:"name"`
	Crop       string     `json:"crop"`
	Class      string     `json:"class"`
	Spot       string     `json:"spot"`
	Bed        string     `json:"bed"`
	Sow        string     `json:"sow"`
	PlantOut   *string    `json:"plant_out"`
	Cover      string     `json:"cover"`
	Seasons    int        `json:"seasons"`
	LeftOut    int        `json:"left_out"`
	Survives   shareJSON  `json:"survives"`
	Ripens     shareJSON  `json:"ripens"`
	Succeeds   shareJSON  `json:"succeeds"`
	Other      otherJSON  `json:"otherwise"`
	Harvest    []pickJSON `json:"harvest"`
	Spread     spreadJSON `json:"harvest_spread"`
	CoverNight nightsJSON `json:"cover_nights"`
	BestDate   *string    `json:"best_date"`
	Better     *string    `json:"better_date"` // where moving to the best date is worth it
	Earliest   *string    `json:"earliest_sound_date"`
	Verdict    string     `json:"verdict"`
	Reasons    []string   `json:"reasons"`
	BedFree    []pickJSON `json:"bed_free"`

	Hardening *hardeningJSON `json:"hardening"`
	Handover  *handoverJSON  `json:"handover"`
	Caution   string         `json:"caution,omitempty"`
}

// otherJSON is the same planting with its cover taken away, or under the first cover owned.
type otherJSON struct {
	Cover    string    `json:"cover"`
	Succeeds shareJSON `json:"succeeds"`
}

type pickJSON struct {
	Chance float64 `json:"chance"`
	By     *string `json:"by"`
	Low    *string `json:"low"`
	High   *string `json:"high"`
}

// spreadJSON is how far the days of picking lie apart, as standard deviations in days.
type spreadJSON struct {
	Days    *float64 `json:"days"`
	Weather *float64 `json:"weather_days"`
	Crop    *float64 `json:"crop_days"` // what is not known of the crop
}

type nightsJSON struct {
	Median *float64 `json:"median"`
	Ninety *float64 `json:"p90"`
}

func (s *session) planJSON(assessed []risk.Assessment) planJSON {
	out := planJSON{Garden: s.Settings.Name, By: s.way().String(), Aim: s.Settings.Aim, Seed: s.app.seed, Plantings: []plantingJSON{}}
	for _, a := range assessed {
		out.Plantings = append(out.Plantings, s.plantingJSON(a))
	}
	return out
}

func (s *session) plantingJSON(a risk.Assessment) plantingJSON {
	r := a.Result
	p := r.Planting
	j := plantingJSON{Name: p.Name, Crop: p.Crop.Name, Class: p.Crop.Class, Spot: p.Spot, Bed: p.Bed,
		Sow: s.Calendar.Format(p.Sow), Cover: p.Cover.Name, Seasons: r.Succeeds.Seasons, LeftOut: r.LeftOut,
		Survives: jsonOf(r.Survives), Ripens: jsonOf(r.Ripens), Succeeds: jsonOf(r.Succeeds),
		Other:   otherJSON{a.Other.Planting.Cover.Name, jsonOf(a.Other.Succeeds)},
		Harvest: s.picksJSON(r), Verdict: a.Verdict.String(), Reasons: s.words().Reasons(&a), Caution: p.Crop.Caution}
	if p.Raised {
		out := s.Calendar.Format(p.Start)
		j.PlantOut = &out
	}
	j.BedFree = s.datesJSON(a.FreeOn())
	j.Hardening, j.Handover = s.hardeningJSON(a.Hardening), s.handoverJSON(a)
	if m := r.ColdNights[0]; m.Known {
		j.CoverNight = nightsJSON{number(m.Value, 0), number(r.ColdNights[1].Value, 0)}
	}
	if b, ok := a.Better(); ok {
		j.Better = isoDay(s.Calendar, float64(b.Planting.Start))
	}
	d := a.Spread()
	j.Spread = spreadJSON{number(d.Days, 1), number(d.Weather, 1), number(d.Crop, 1)}
	w := a.Around()
	at := func(i int) *string {
		if i < 0 {
			return nil
		}
		return isoDay(s.Calendar, float64(w.Results[i].Planting.Start))
	}
	j.BestDate, j.Earliest = at(w.Best), at(w.Earliest)
	return j
}

func (s *session) picksJSON(r risk.Result) []pickJSON { return s.datesJSON(r.Harvest) }

// datesJSON are dates at risk.Picks.
func (s *session) datesJSON(dates []climate.Quantile) []pickJSON {
	out := []pickJSON{}
	for i, q := range dates {
		p := pickJSON{Chance: risk.Picks[i]}
		if q.Known {
			p.By, p.Low, p.High = isoDay(s.Calendar, q.Value), isoDay(s.Calendar, q.Low), isoDay(s.Calendar, q.High)
		}
		out = append(out, p)
	}
	return out
}
