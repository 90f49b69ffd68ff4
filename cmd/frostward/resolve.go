package main

import (
	"errors"
	"fmt"

	"frostward/climate"
	"frostward/cmd/internal/garden"
	"frostward/crops"
	"frostward/risk"
)

// planned is a row of the plan looked up and ready to play.
type planned struct {
	risk.Planting
	row  garden.Row
	spot garden.Spot
}

// resolve looks up the crops, spots and covers of a plan. Every row that cannot be is told.
func (s *session) resolve(rows []garden.Row, cat *crops.Catalogue) ([]planned, error) {
	var out []planned
	var faults []error
	for _, r := range rows {
		p, err := s.resolveRow(r, cat)
		if err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", r.Place(), err))
			continue
		}
		out = append(out, p)
	}
	return out, errors.Join(faults...)
}

func (s *session) resolveRow(r garden.Row, cat *crops.Catalogue) (planned, error) {
	p := planned{row: r}
	crop, err := cat.Find(r.Crop, r.Class)
	if err != nil {
		return p, fmt.Errorf("crop: %w", err)
	}
	if p.spot, err = s.garden.Spot(r.Spot); err != nil {
		return p, err
	}
	cover, err := s.garden.Cover(r.Cover)
	if err != nil {
		return p, err
	}
	p.Planting = risk.Planting{Name: r.Name, Crop: crop, Spot: p.spot.Name, Bed: r.Bed, Cover: cover}
	p.Start, p.Sow, p.Raised = r.Sow.Day, r.Sow.Day, r.PlantOut.Given()
	if p.Raised {
		p.Start = r.PlantOut.Day
		if r.Sow.Given() {
			for p.Sow > p.Start { // sown before midwinter, planted out after
				p.Sow -= climate.YearDays
			}
		} else {
			p.Sow = p.Start - climate.SeasonDay(7*orZero(crop.WeeksUnderCover))
		}
	}
	return p, p.Check()
}

func orZero(f crops.Fact) float64 {
	if f.Known() {
		return f.Value
	}
	return 0
}
