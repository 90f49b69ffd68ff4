package opened

import (
	"fmt"
	"math"
	"strings"

	"frostward/climate"
	"frostward/risk"
)

// InOrder returns, for each planting, the index of the one it follows in its bed, -1 for none,
// and an order in which each comes after the one it follows.
func InOrder(plantings []Planned) (follows, order []int, err error) {
	follows = make([]int, len(plantings))
	for i, p := range plantings {
		if follows[i], err = followed(plantings, i); err != nil {
			return nil, nil, fmt.Errorf("%s: follows: %w", p.Row.Place(), err)
		}
	}
	state := make([]int, len(plantings)) // 1: being placed, 2: placed
	var place func(i int) error
	place = func(i int) error {
		switch state[i] {
		case 1:
			return fmt.Errorf("%s: follows: %q follows itself, by way of others; wanted one before it in the bed", plantings[i].Row.Place(), plantings[i].Label())
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
func followed(plantings []Planned, i int) (int, error) {
	p := plantings[i]
	name := p.Row.Follows
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

// handOver is the bed's passing from one planting, assessed before, to the next.
func handOver(e climate.Ensemble, before risk.Result, p Planned) *risk.Handover {
	overlap := climate.SeasonDay(math.Round(7 * p.Row.OverlapWeeks))
	h := risk.HandOver(e, before.Planting, before.Outcomes, p.Planting, overlap)
	return &h
}
