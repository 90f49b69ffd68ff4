package main

import (
	"frostward/risk"
)

type tonightJSON struct {
	Garden    string             `json:"garden"`
	Evening   string             `json:"evening"`
	Morning   string             `json:"morning"`
	Action    string             `json:"action"` // of all: act, leave, none (nothing is out) or not known
	Headline  string             `json:"headline"`
	Spots     []tonightSpotJSON  `json:"spots"`
	Plantings []tonightPlantJSON `json:"plantings"`
	LeftOut   []string           `json:"left_out"`
}

type tonightSpotJSON struct {
	Spot    string       `json:"spot"`
	TminC   *float64     `json:"tmin_c"`
	SDC     *float64     `json:"sd_c"`
	LowC    *float64     `json:"low_c"`
	HighC   *float64     `json:"high_c"`
	Seasons int          `json:"seasons"`
	Methods []methodJSON `json:"methods"`
}

type methodJSON struct {
	Method string   `json:"method"`
	SaidC  *float64 `json:"said_c"`
	For    string   `json:"for"` // station or spot
	TminC  *float64 `json:"tmin_c"`
	SDC    *float64 `json:"sd_c"`
	Weight *float64 `json:"weight"`
	Nights int      `json:"nights_logged"`
	Why    string   `json:"not_used_because,omitempty"`
}

type tonightPlantJSON struct {
	Planting  string       `json:"planting"`
	Crop      string       `json:"crop"`
	Spot      string       `json:"spot"`
	SetBackC  *float64     `json:"set_back_c"`
	KilledC   *float64     `json:"killed_c"`
	Action    string       `json:"action"` // leave, cover or bring in
	Cover     *string      `json:"cover"`
	BreakEven *float64     `json:"break_even"`
	Choices   []choiceJSON `json:"choices"`
}

type choiceJSON struct {
	Action    string    `json:"action"`
	Cover     *string   `json:"cover"`
	Damaged   shareOnly `json:"set_back_or_killed"`
	Killed    shareOnly `json:"killed"`
	WorkHours *float64  `json:"work_hours"`
	LossHours *float64  `json:"expected_loss_hours"`
}

type shareOnly struct {
	Share *float64 `json:"share"`
	Low   *float64 `json:"low"`
	High  *float64 `json:"high"`
}

func (v *evening) json() tonightJSON {
	out := tonightJSON{Garden: v.Settings.Name, Evening: v.day.String(), Morning: (v.day + 1).String(), Action: "none", Headline: v.headline(),
		Spots: []tonightSpotJSON{}, Plantings: []tonightPlantJSON{}, LeftOut: append([]string{}, v.waiting...)}
	known := false
	for _, t := range v.spots {
		j := tonightSpotJSON{Spot: t.Name, Seasons: t.in.Usual.Seasons, Methods: []methodJSON{}}
		if t.out.Known {
			known = true
			low, high := t.out.Interval()
			j.TminC, j.SDC, j.LowC, j.HighC = number(t.out.Tmin, 2), number(t.out.SD, 2), number(low, 2), number(high, 2)
		}
		for _, m := range t.out.Methods {
			x := methodJSON{Method: m.Name, SaidC: number(m.Said, 2), For: "spot", Weight: number(m.Weight, 3), Nights: m.Nights, Why: m.Why}
			if m.Station {
				x.For = "station"
			}
			if m.Why == "" {
				x.TminC, x.SDC = number(m.Tmin, 2), number(m.SD, 2)
			}
			j.Methods = append(j.Methods, x)
		}
		out.Spots = append(out.Spots, j)
	}
	if !known {
		out.Action = "not known"
	}
	for _, p := range v.out {
		x := p.advice.Exposed
		do := p.advice.Do()
		j := tonightPlantJSON{Planting: p.Label(), Crop: p.Crop.Label(), Spot: p.Where.Name, SetBackC: number(x.SetBack, 2), KilledC: number(x.Kill, 2),
			Action: do.Action.String(), Cover: coverName(do), BreakEven: number(p.advice.BreakEven, 3)}
		for _, c := range p.advice.Choices {
			j.Choices = append(j.Choices, choiceJSON{Action: c.Action.String(), Cover: coverName(c), Damaged: nightShare(c.Damaged), Killed: nightShare(c.Killed),
				WorkHours: number(c.Work, 2), LossHours: number(c.Loss, 3)})
		}
		out.Plantings = append(out.Plantings, j)
		if do.Action != risk.Leave {
			out.Action = "act"
		} else if out.Action == "none" {
			out.Action = "leave"
		}
	}
	return out
}

func coverName(c risk.NightChoice) *string {
	if c.Action != risk.LayCover {
		return nil
	}
	name := c.Cover.Name
	return &name
}

func nightShare(c risk.ChanceOf) shareOnly {
	return shareOnly{number(c.Share, 4), number(c.Low, 4), number(c.High, 4)}
}
