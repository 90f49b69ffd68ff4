package main

import (
	"fmt"
	"math"
	"strings"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/cmd/internal/garden"
	"frostward/risk"
)

// inOrder returns, for each planting, the index of the one it follows in its bed, -1 for none,
// and an order in which each comes after the one it follows.
func inOrder(plantings []planned) (follows, order []int, err error) {
	follows = make([]int, len(plantings))
	for i, p := range plantings {
		if follows[i], err = followed(plantings, i); err != nil {
			return nil, nil, fmt.Errorf("%s: follows: %w", p.row.Place(), err)
		}
	}
	state := make([]int, len(plantings)) // 1: being placed, 2: placed
	var place func(i int) error
	place = func(i int) error {
		switch state[i] {
		case 1:
			return fmt.Errorf("%s: follows: %q follows itself, by way of others; wanted one before it in the bed", plantings[i].row.Place(), plantings[i].Label())
		case 2:
			return nil
		}
		state[i] = 1
		if j := follows[i]; j >= 0 {
			if err := place(j); err != nil {
				return err
			}
		}
		state[i] = 2
		order = append(order, i)
		return nil
	}
	for i := range plantings {
		if err := place(i); err != nil {
			return nil, nil, err
		}
	}
	return follows, order, nil
}

// followed finds the planting that another follows, by its name.
func followed(plantings []planned, i int) (int, error) {
	p := plantings[i]
	name := p.row.Follows
	if name == "" {
		return -1, nil
	}
	var found []int
	var names []string
	for j, q := range plantings {
		if j == i {
			continue
		}
		if names = append(names, fmt.Sprintf("%q", q.Label())); strings.EqualFold(q.Label(), name) {
			found = append(found, j)
		}
	}
	switch {
	case len(found) == 0 && strings.EqualFold(p.Label(), name):
		return 0, fmt.Errorf("%q follows itself; wanted one before it in the bed", name)
	case len(found) == 0:
		return 0, fmt.Errorf("%q is no planting of the plan; wanted one of %s", name, strings.Join(names, ", "))
	case len(found) > 1:
		return 0, fmt.Errorf("%q is the name of %d plantings; wanted a name that only one has", name, len(found))
	}
	if q := plantings[found[0]]; q.Bed != "" && p.Bed != "" && q.Bed != p.Bed {
		return 0, fmt.Errorf("%q is in the bed %q; wanted a planting of the same bed, %q", name, q.Bed, p.Bed)
	}
	return found[0], nil
}

// handover is the bed's passing from one planting, assessed before, to the next.
func handover(e climate.Ensemble, before risk.Assessment, p planned) *risk.Handover {
	overlap := climate.SeasonDay(math.Round(7 * p.row.OverlapWeeks))
	h := risk.HandOver(e, before.Result.Planting, before.Result.Fates, p.Planting, overlap)
	return &h
}

// hardeningSpot is where plants are hardened off: the spot that garden.yaml names, or else the
// one out of doors with the mildest clear nights.
func (s *session) hardeningSpot() garden.Spot {
	if spot, err := s.garden.Spot(s.garden.Hardening); err == nil && s.garden.Hardening != "" {
		return spot
	}
	// A clear night in late April: 2 °C in the screen after and before days of 14 °C.
	night := site.Night{Tmin: 2, Before: 14, After: 14, Day: 110}
	var out []garden.Spot
	for _, spot := range s.garden.Spots {
		if spot.Kind != site.Greenhouse.Kind {
			out = append(out, spot)
		}
	}
	if len(out) == 0 {
		return garden.Spot{Name: garden.StationSpot, Kind: site.AtStation.Kind}
	}
	mildest, best := out[0], math.Inf(-1)
	for _, spot := range out {
		if mean := s.spotModel(spot).Mean(night); mean > best {
			mildest, best = spot, mean
		}
	}
	return mildest
}
