package main

import (
	"frostward/cmd/internal/sentences"
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
	Later     []laterJSON        `json:"later_nights"` // of a forecast of several
}

type laterJSON struct {
	Evening   string           `json:"evening"`
	Morning   string           `json:"morning"`
	DaysAhead int              `json:"days_ahead"`
	Forecast  *float64         `json:"forecast_c"`
	Spots     []laterSpotJSON  `json:"spots"`
	Plantings []laterPlantJSON `json:"plantings"`
}

type laterSpotJSON struct {
	Spot  string   `json:"spot"`
	TminC *float64 `json:"tmin_c"`
	SDC   *float64 `json:"sd_c"`
}

type laterPlantJSON struct {
	Planting string    `json:"planting"`
	Spot     string    `json:"spot"`
	Action   string    `json:"action"`
	Cover    *string   `json:"cover"`
	Damaged  shareOnly `json:"bare_set_back_or_killed"`
	Killed   shareOnly `json:"bare_killed"`
}

func (v *evening) laterJSON() []laterJSON {
	out := []laterJSON{}
	for _, n := range v.later {
		j := laterJSON{Evening: n.Evening.String(), Morning: (n.Evening + 1).String(), DaysAhead: int(n.Evening - v.Evening),
			Forecast: number(n.Spots[0].In.Forecast, 2), Spots: []laterSpotJSON{}, Plantings: []laterPlantJSON{}}
		for _, sp := range n.Spots {
			s := laterSpotJSON{Spot: sp.Name}
			if sp.Out.Known {
				s.TminC, s.SDC = number(sp.Out.Tmin, 2), number(sp.Out.SD, 2)
			}
			j.Spots = append(j.Spots, s)
		}
		for _, p := range n.Out {
			do := p.Advice.Do()
			j.Plantings = append(j.Plantings, laterPlantJSON{p.Label(), p.Where.Name, do.Action.String(), coverName(do),
				nightShare(p.Advice.Choices[0].Damaged), nightShare(p.Advice.Choices[0].Killed)})
		}
		out = append(out, j)
	}
	return out
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
	Short     bool         `json:"short_of_cover"` // a cover worth laying is needed more elsewhere
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
	out := tonightJSON{Garden: v.Settings.Name, Evening: v.Evening.String(), Morning: (v.Evening + 1).String(), Action: "none", Headline: v.Headline(v.app.unit()),
		Spots: []tonightSpotJSON{}, Plantings: []tonightPlantJSON{}, LeftOut: append([]string{}, v.Waiting...), Later: v.laterJSON()}
	known := false
	for _, t := range v.Spots {
		j := tonightSpotJSON{Spot: t.Name, Seasons: t.In.Usual.Seasons, Methods: []methodJSON{}}
		if t.Out.Known {
			known = true
			low, high := t.Out.Interval()
			j.TminC, j.SDC, j.LowC, j.HighC = number(t.Out.Tmin, 2), number(t.Out.SD, 2), number(low, 2), number(high, 2)
		}
		for _, m := range t.Out.Methods {
			x := methodJSON{Method: sentences.Method(m.Kind), SaidC: number(m.Said, 2), For: "spot", Weight: number(m.Weight, 3), Nights: m.Nights, Why: sentences.NoSay(m)}
			if m.Station {
				x.For = "station"
			}
			if m.Lack == risk.LacksNothing {
				x.TminC, x.SDC = number(m.Tmin, 2), number(m.SD, 2)
			}
			j.Methods = append(j.Methods, x)
		}
		out.Spots = append(out.Spots, j)
	}
	if !known {
		out.Action = "not known"
	}
	for _, p := range v.Out {
		x := p.Advice.Exposed
		do := p.Advice.Do()
		j := tonightPlantJSON{Planting: p.Label(), Crop: p.Crop.Label(), Spot: p.Where.Name, SetBackC: number(x.SetBack, 2), KilledC: number(x.Kill, 2),
			Action: do.Action.String(), Cover: coverName(do), BreakEven: number(p.Advice.BreakEven, 3), Short: p.Short()}
		for _, c := range p.Advice.Choices {
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
