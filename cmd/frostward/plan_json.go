package main

import (
	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

type planJSON struct {
	Garden    string         `json:"garden"`
	By        string         `json:"by"`
	Aim       float64        `json:"aim"`
	Seed      uint64         `json:"seed"`
	Plantings []plantingJSON `json:"plantings"`
	Covers    []coverJSON    `json:"covers"`
	Together  togetherJSON   `json:"together"`

	Contradictions []contradictionJSON `json:"contradictions"`
}

// contradictionJSON is what does not fit together in the plan.
type contradictionJSON struct {
	Kind      string   `json:"kind"`
	Plantings []string `json:"plantings"`
	Lines     []int    `json:"lines"`
	Text      string   `json:"text"`
}

// togetherJSON is what becomes of all plantings, with their reserves, in the same years.
type togetherJSON struct {
	Plantings  int         `json:"plantings"`
	Every      shareJSON   `json:"every"`
	NineInTen  shareJSON   `json:"nine_in_ten"`
	Fail       *float64    `json:"fail_p90"` // in 9 years of 10 at most
	Pair       []string    `json:"fail_together_most"`
	PairFails  shareJSON   `json:"both_fail"`
	AtLeastOne []anyOfJSON `json:"at_least_one"`
	Night      *string     `json:"worst_night"` // its morning, in the record
	Killed     []string    `json:"killed"`      // by it
}

type anyOfJSON struct {
	Family    string    `json:"family"`
	Plantings []string  `json:"plantings"`
	Succeeds  shareJSON `json:"succeeds"`
}

func togetherOf(t opened.Together) togetherJSON {
	j := togetherJSON{Plantings: len(t.Labels), Every: jsonOf(t.Every), NineInTen: jsonOf(t.NineInTen), Fail: number(words.OrNaN(t.Fail), 0),
		Pair: []string{}, PairFails: jsonOf(t.PairFails), AtLeastOne: []anyOfJSON{}, Killed: append([]string{}, t.Took...)}
	if t.PairFails.Known {
		j.Pair = []string{t.Labels[t.Pair[0]], t.Labels[t.Pair[1]]}
	}
	for _, any := range t.AnyOf {
		j.AtLeastOne = append(j.AtLeastOne, anyOfJSON{any.Family, any.Labels, jsonOf(any.Succeeds)})
	}
	if len(t.Took) > 0 {
		day := t.Night.String()
		j.Night = &day
	}
	return j
}

// coverJSON is what the plan wants of a cover at once, in pieces or, where it is owned so, metres.
type coverJSON struct {
	Cover   string     `json:"cover"`
	Owned   *float64   `json:"owned"`
	Metres  bool       `json:"metres"`
	Wanted  *float64   `json:"wanted_p90"` // on the worst night of a season, in 9 of 10 at most
	Short   shareJSON  `json:"would_not_do"`
	OneMore float64    `json:"one_more"`
	Saves   savingJSON `json:"one_more_saves"`
}

// savingJSON is what is saved a year, in the unit of the garden's costs.
type savingJSON struct {
	Unit string   `json:"unit"`
	Mean *float64 `json:"mean"`
	Low  *float64 `json:"low"`
	High *float64 `json:"high"`
}

func (s *session) coversJSON(wants []risk.CoverWant) []coverJSON {
	out := []coverJSON{}
	for _, w := range wants {
		j := coverJSON{Cover: w.Cover, Metres: w.Have.Metres > 0, Short: jsonOf(w.Short), OneMore: w.More, Saves: s.savingJSON(w.Saves)}
		if w.Counted {
			j.Owned = number(w.Have.Pieces+w.Have.Metres, 1)
		}
		if w.Most.Known {
			j.Wanted = number(w.Most.Value, 1)
		}
		out = append(out, j)
	}
	return out
}

func (s *session) savingJSON(v risk.Saving) savingJSON {
	j := savingJSON{Unit: s.Settings.Costs.Unit}
	if v.Known {
		j.Mean, j.Low, j.High = number(v.Mean, 2), number(v.Low, 2), number(v.High, 2)
	}
	return j
}

type plantingJSON struct {
	Name       string     `json:"name"`
	Crop       string     `json:"crop"`
	Class      string     `json:"class"`
	Variety    string     `json:"variety"`
	Own        string     `json:"own"` // what stands in columns of the grower's own
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
	KilledOn   []string   `json:"killed_on"`    // in the record's seasons, the latest first
	NotReadyIn []int      `json:"not_ready_in"` // seasons, likewise

	Hardening *hardeningJSON `json:"hardening"`
	Handover  *handoverJSON  `json:"handover"`
	Reserve   *reserveJSON   `json:"reserve"`
	Caution   string         `json:"caution,omitempty"`
}

// reserveJSON is a planting with what it falls back on.
type reserveJSON struct {
	Plants   int        `json:"plants"` // held back; 0 of a second sowing or planting
	Of       int        `json:"of"`     // plants of the planting; 0 where the plan does not say
	On       *string    `json:"on"`
	Needed   shareJSON  `json:"needed"`
	Used     shareJSON  `json:"crop_from_it_alone"`
	Succeeds shareJSON  `json:"succeeds"` // the planting or its reserve
	Harvest  []pickJSON `json:"harvest"`
	Verdict  string     `json:"verdict"`
	Unit     string     `json:"unit"`
	Costs    *float64   `json:"costs_a_year"`
	Saves    *float64   `json:"saves_a_year"`
}

func (s *session) reserveJSON(r risk.Reserved) *reserveJSON {
	if r.None() {
		return nil
	}
	c := s.Settings.Costs
	return &reserveJSON{Plants: r.Plants, Of: r.Of, On: isoDay(s.Calendar, float64(r.On)), Needed: jsonOf(r.Needed), Used: jsonOf(r.Used),
		Succeeds: jsonOf(r.Pair.Succeeds), Harvest: s.picksJSON(r.Pair), Verdict: r.Verdict.String(), Unit: c.Unit,
		Costs: number(c.OfReserve(r.Reserve), 2), Saves: number(words.Of(r.Used, r.Saves(c.Lost)), 2)}
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

func (s *session) planJSON(plantings []opened.Planned, assessed []risk.Assessment, asked []int, past *opened.Remembered, together opened.Together) planJSON {
	out := planJSON{Garden: s.Settings.Name, By: s.way().String(), Aim: s.Settings.Aim, Seed: s.app.seed, Plantings: []plantingJSON{}}
	for _, i := range asked {
		j := s.plantingJSON(assessed[i])
		j.Variety, j.Own, j.KilledOn, j.NotReadyIn = plantings[i].Row.Variety, plantings[i].Row.Own, []string{}, []int{}
		killed, how := past.Killed(i)
		for k, o := range how {
			j.KilledOn = append(j.KilledOn, s.Calendar.Day(killed[k], o.KilledOn).String())
		}
		j.NotReadyIn = append(j.NotReadyIn, past.NotReady(i)...)
		out.Plantings = append(out.Plantings, j)
	}
	out.Contradictions = []contradictionJSON{}
	for _, c := range s.Contradictions(plantings, assessed) {
		j := contradictionJSON{Kind: c.Kind, Text: c.Text}
		for _, i := range c.Plantings {
			j.Plantings, j.Lines = append(j.Plantings, plantings[i].Label()), append(j.Lines, plantings[i].Row.Line)
		}
		out.Contradictions = append(out.Contradictions, j)
	}
	out.Covers, out.Together = s.coversJSON(s.WantCovers(plantings, assessed)), togetherOf(together)
	return out
}

func (s *session) plantingJSON(a risk.Assessment) plantingJSON {
	r := a.Result
	p := r.Planting
	j := plantingJSON{Name: p.Name, Crop: p.Crop.Name, Class: p.Crop.Class, Spot: p.Spot, Bed: p.Bed,
		Sow: s.Calendar.Format(p.Sow), Cover: p.Cover.Name, Seasons: r.Succeeds.Seasons, LeftOut: r.LeftOut,
		Survives: jsonOf(r.Survives), Ripens: jsonOf(r.Ripens), Succeeds: jsonOf(r.Succeeds),
		Other:   otherJSON{a.Other().Planting.Cover.Name, jsonOf(a.Other().Succeeds)},
		Harvest: s.picksJSON(r), Verdict: a.Verdict.String(), Reasons: s.words().Reasons(&a), Caution: p.Crop.Caution}
	if p.Raised {
		out := s.Calendar.Format(p.Start)
		j.PlantOut = &out
	}
	j.BedFree = s.datesJSON(a.FreeOn())
	j.Hardening, j.Handover = s.hardeningJSON(a.Hardening), s.handoverJSON(a)
	j.Reserve = s.reserveJSON(a.Reserved)
	if m := r.ColdNights[0]; m.Known {
		j.CoverNight = nightsJSON{number(m.Value, 0), number(r.ColdNights[1].Value, 0)}
	}
	if b, ok := a.Better(); ok {
		j.Better = isoDay(s.Calendar, float64(b.Day))
	}
	d := a.Spread()
	j.Spread = spreadJSON{number(d.Days, 1), number(d.Weather, 1), number(d.Crop, 1)}
	w := a.Around()
	at := func(i int) *string {
		if i < 0 {
			return nil
		}
		return isoDay(s.Calendar, float64(w.Starts[i].Day))
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
