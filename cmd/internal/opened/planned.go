package opened

import (
	"errors"
	"fmt"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/garden"
	"frostward/crops"
	"frostward/risk"
)

// Planned is a row of the plan looked up and ready to play.
type Planned struct {
	risk.Planting
	Row     garden.Row
	Where   garden.Spot
	Reserve risk.Reserve
}

// Resolve looks up the crops, spots and covers of a plan. The error names every row that cannot be looked up.
func (g *Garden) Resolve(rows []garden.Row) ([]Planned, error) {
	cat, err := g.Catalogue()
	if err != nil {
		return nil, err
	}
	var out []Planned
	var faults []error
	for _, r := range rows {
		p, err := g.resolveRow(r, cat)
		if err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", r.Place(), err))
			continue
		}
		out = append(out, p)
	}
	return out, errors.Join(faults...)
}

func (g *Garden) resolveRow(r garden.Row, cat *crops.Catalogue) (Planned, error) {
	p := Planned{Row: r}
	crop, err := cat.Find(r.Crop, r.Class)
	if err != nil {
		return p, fmt.Errorf("crop: %w", err)
	}
	if p.Where, err = g.Settings.Spot(r.Spot); err != nil {
		return p, err
	}
	cover, err := g.Cover(r.Cover)
	if err != nil {
		return p, err
	}
	p.Planting = risk.Planting{Name: r.Name, Crop: crop, Spot: p.Where.Name, Bed: r.Bed, Cover: cover}
	p.Start, p.Sow, p.Raised = r.Sow.Day, r.Sow.Day, r.PlantOut.Given()
	if p.Raised {
		p.Start = r.PlantOut.Day
		if r.Sow.Given() && !p.sownAfter() {
			for p.Sow > p.Start { // sown before midwinter, planted out after
				p.Sow -= climate.YearDays
			}
		} else {
			p.Sow = p.Start - climate.SeasonDay(7*WeeksUnderCover(crop))
		}
	}
	if p.Reserve, err = reserveOf(r, p.Start); err != nil {
		return p, err
	}
	return p, p.Check()
}

// reserveOf is what a row says its planting, which starts on a day, falls back on.
func reserveOf(row garden.Row, start climate.SeasonDay) (risk.Reserve, error) {
	r := row.Reserve
	if r.DaysLater > 0 {
		return risk.Reserve{Again: true, On: start + climate.SeasonDay(r.DaysLater)}, nil
	}
	if r.Plants > 0 && r.Until.Day <= start {
		return risk.Reserve{}, errors.New("reserve: the spare plants are held back until a day that is not after plant_out; wanted a later one")
	}
	return risk.Reserve{Plants: r.Plants, Of: row.Plants, On: r.Until.Day}, nil
}

// WeeksUnderCover is how long a crop is raised under cover, 0 where it is not.
func WeeksUnderCover(c crops.Crop) float64 {
	if f := c.WeeksUnderCover; f.Known() {
		return f.Value
	}
	return 0
}

// AskedFor are the plantings of a name, or of a crop; all where none is named.
func (g *Garden) AskedFor(plantings []Planned, name string) (asked []int, err error) {
	rows := make([]garden.Row, len(plantings))
	for i := range plantings {
		rows[i] = plantings[i].Row
	}
	names := Names(rows)
	for i := range plantings {
		if name == "" || strings.EqualFold(names[i], name) {
			asked = append(asked, i)
		}
	}
	if len(asked) > 0 || name == "" {
		return asked, nil
	}
	cat, err := g.Catalogue()
	if err != nil {
		return nil, err
	}
	crop, err := cat.Find(name, "")
	for i, p := range plantings {
		if err == nil && p.Crop.Name == crop.Name {
			asked = append(asked, i)
		}
	}
	if len(asked) == 0 {
		return nil, usagef("%q is no planting of the plan, nor a crop in it; wanted one of %s", name, strings.Join(names, ", "))
	}
	return asked, nil
}
