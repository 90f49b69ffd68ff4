package main

import (
	"frostward/climate"
	"frostward/risk"
)

type sowJSON struct {
	Crop    string       `json:"crop"`
	Class   string       `json:"class"`
	Spot    string       `json:"spot"`
	Cover   string       `json:"cover"`
	Raised  bool         `json:"raised"`
	Chance  float64      `json:"chance"`
	Lasts   int          `json:"lasts_days,omitempty"`
	Sowings []sowingJSON `json:"sowings,omitempty"`
	Last    *lastJSON    `json:"last,omitempty"`

	For   *string       `json:"for,omitempty"`
	First *standingJSON `json:"first,omitempty"`
	Until *standingJSON `json:"until,omitempty"`
	Best  *standingJSON `json:"best,omitempty"`
}

type sowingJSON struct {
	Sow       string     `json:"sow"`
	PlantOut  *string    `json:"plant_out"`
	AfterLast *int       `json:"days_after_last"`
	Ready     []pickJSON `json:"ready"`
	Succeeds  shareJSON  `json:"succeeds"`
}

type lastJSON struct {
	Sow       string       `json:"sow"`
	PlantOut  *string      `json:"plant_out"`
	LightLine *string      `json:"light_line"`
	FullSize  *shareJSON   `json:"full_size_by_light_line"`
	Succeeds  *shareJSON   `json:"succeeds"`
	Winter    []winterJSON `json:"alive"`
}

type winterJSON struct {
	On    string    `json:"on"`
	Alive shareJSON `json:"share"`
}

type standingJSON struct {
	Sow      string    `json:"sow"`
	PlantOut *string   `json:"plant_out"`
	Ready    shareJSON `json:"ready"`
	Good     shareJSON `json:"ready_and_good"`
}

func (w *sowing) json() sowJSON {
	return sowJSON{Crop: w.p.Crop.Name, Class: w.p.Crop.Class, Spot: w.p.Spot, Cover: w.p.Cover.Name, Raised: w.p.Raised, Chance: w.aim}
}

func (w *sowing) format(sd climate.SeasonDay) string { return w.s.Calendar.Format(sd) }

func (w *sowing) plantOut(p risk.Planting) *string {
	if !p.Raised {
		return nil
	}
	d := w.format(p.Start)
	return &d
}

func (w *sowing) supplyJSON(got supplied) sowJSON {
	j := w.json()
	j.Lasts, j.Sowings = w.lasts, []sowingJSON{}
	for i, r := range got.sowings {
		x := sowingJSON{Sow: w.format(w.sown(r.Planting)), PlantOut: w.plantOut(r.Planting), Ready: w.s.picksJSON(r), Succeeds: jsonOf(r.Succeeds)}
		if i > 0 {
			n := int(r.Planting.Start - got.sowings[i-1].Planting.Start)
			x.AfterLast = &n
		}
		j.Sowings = append(j.Sowings, x)
	}
	if r := got.lastSow; r != nil {
		c := jsonOf(r.Succeeds)
		j.Last = &lastJSON{Sow: w.format(w.sown(r.Planting)), PlantOut: w.plantOut(r.Planting), Succeeds: &c, Winter: []winterJSON{}}
	}
	if got.hasLast {
		l := got.last
		c, line := jsonOf(l.Size), w.format(l.Line)
		j.Last = &lastJSON{Sow: w.format(w.sown(l.Planting)), PlantOut: w.plantOut(l.Planting), LightLine: &line, FullSize: &c, Winter: []winterJSON{}}
		for _, x := range l.Winter {
			j.Last.Winter = append(j.Last.Winter, winterJSON{w.format(x.On), jsonOf(x.Alive)})
		}
	}
	return j
}

func (w *sowing) datedJSON(got dated) sowJSON {
	j := w.json()
	d := w.format(got.date)
	j.For = &d
	at := func(i int) *standingJSON {
		if i < 0 {
			return nil
		}
		x := got.all[i]
		return &standingJSON{w.format(w.sown(x.Planting)), w.plantOut(x.Planting), jsonOf(x.Ready), jsonOf(x.Good)}
	}
	j.First, j.Until, j.Best = at(got.first), at(got.last), at(got.best)
	return j
}
