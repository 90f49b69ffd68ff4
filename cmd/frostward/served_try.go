package main

import (
	"fmt"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/web"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// Try plays a planting that is not in the plan.
func (g *served) Try(t web.Trial) (page.Section, error) {
	v, err := g.refresh()
	if err != nil {
		return page.Section{}, err
	}
	g.try.Lock()
	defer g.try.Unlock()
	p, err := v.trialPlanting(t)
	if err != nil {
		return page.Section{}, err
	}
	x := risk.Assess(v.fields.Field(p.Where, p.Crop, p.Raised), p.Planting, v.OtherCover(), v.Settings.Aim)
	return v.trialSection(p, x), nil
}

func (v *viewing) trialPlanting(t web.Trial) (opened.Planned, error) {
	cat, err := v.Catalogue()
	if err != nil {
		return opened.Planned{}, err
	}
	name, class, _ := strings.Cut(t.Crop, ", ")
	crop, err := cat.Find(name, class)
	if err != nil {
		return opened.Planned{}, &web.Mistake{Field: "crop", Text: err.Error()}
	}
	spot, err := v.Settings.Spot(t.Spot)
	if err != nil {
		return opened.Planned{}, &web.Mistake{Field: "spot", Text: err.Error()}
	}
	cover, err := v.Settings.Cover(t.Cover)
	if err != nil {
		return opened.Planned{}, &web.Mistake{Field: "cover", Text: err.Error()}
	}
	_, start := v.Calendar.Locate(t.Day)
	p := opened.Planned{Where: spot, Planting: risk.Planting{Crop: crop, Spot: spot.Name, Cover: cover, Start: start, Sow: start, Raised: !t.Sown}}
	if p.Raised {
		weeks := opened.WeeksUnderCover(crop)
		if weeks == 0 {
			return opened.Planned{}, &web.Mistake{Field: "how", Text: fmt.Sprintf("%s is not raised under cover, as far as the catalogue knows; try it sown in place", crop.Label())}
		}
		p.Sow = start - climate.SeasonDay(7*weeks)
	}
	if err := p.Check(); err != nil {
		return opened.Planned{}, &web.Mistake{Field: "how", Text: err.Error()}
	}
	return p, nil
}

// trialSection is the answer to a trial.
func (v *viewing) trialSection(p opened.Planned, x risk.Assessment) page.Section {
	r := x.Result
	verb := "goes out"
	if !p.Raised {
		verb = "is sown in place"
	}
	under := ""
	if p.Cover.Name != "" {
		under = " under " + p.Cover.Name
	}
	s := page.Section{Notes: v.words().Reasons(&x)}
	if !r.Succeeds.Known {
		s.Lead = "Not known: too few seasons can be played through."
		return s
	}
	s.Lead = fmt.Sprintf("%s at the spot \"%s\"%s: if it %s on %s it survives and ripens in %s (90 %% interval %s %%, %s). %s.",
		words.Capital(p.Crop.Label()), p.Where.Name, under, verb, v.Calendar.Words(p.Start), words.InYears(r.Succeeds.Share),
		words.Interval(r.Succeeds), words.Plural(r.Succeeds.Seasons, "season"), words.Capital(x.Verdict.String()))
	s.Notes = append(s.Notes, words.Capital(v.path(p, x)))
	t := table.Table{Columns: []table.Column{{Name: "cover"}, {Name: "both", Align: table.Right}, {Name: "90 % interval", Align: table.Right}, {Name: "survives", Align: table.Right}, {Name: "ripens", Align: table.Right}, {Name: "first picking"}}}
	for _, o := range []risk.Result{r, x.Other} {
		cover := o.Planting.Cover.Name
		if cover == "" {
			cover = "none"
		}
		t.Add(table.Text(cover), share(o.Succeeds), intervalOf(o.Succeeds), share(o.Survives), share(o.Ripens), table.Text(v.picking(o)))
	}
	s.Tables = []table.Table{t}
	if x.Around().Best >= 0 {
		s.Figures = []page.Figure{{Caption: "By starting day", Chart: v.windowChart(p.Planting, x.Around(), p.Start, "as asked")}}
	}
	return s
}
