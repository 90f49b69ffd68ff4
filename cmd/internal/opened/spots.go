package opened

import (
	"math"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/cmd/internal/garden"
)

// SpotReadings are the bare morning minima logged at a spot.
func (g *Garden) SpotReadings(spot garden.Spot) []site.Reading {
	log, err := g.Log()
	if err != nil {
		return nil
	}
	var out []site.Reading
	for _, e := range log.Nights() {
		if e.Spot == spot.Name && e.Covered == "" && !math.IsNaN(e.Tmin) {
			out = append(out, site.Reading{Day: e.Day, Tmin: e.Tmin})
		}
	}
	return out
}

// SpotModel is how a spot differs from the station: what is usual for its kind, corrected by the garden log.
func (g *Garden) SpotModel(spot garden.Spot) site.Model {
	prior, _ := site.PriorOf(spot.Kind)
	return site.FitModel(g.Masked, g.Calendar, g.SpotReadings(spot), prior)
}

// SpotFit is SpotModel with what the readings make of it.
func (g *Garden) SpotFit(spot garden.Spot) (site.Model, site.Summary) {
	prior, _ := site.PriorOf(spot.Kind)
	return site.Fit(g.Masked, g.Calendar, g.SpotReadings(spot), prior)
}

// AtSpot is the seasons at a spot of the garden.
func (g *Garden) AtSpot(e climate.Ensemble, spot garden.Spot) climate.Ensemble {
	return g.SpotModel(spot).ToSpot(e, g.Options.Seed)
}

// HardeningSpot is where plants are hardened off: the spot that garden.yaml names, or else the
// one out of doors with the mildest clear nights.
func (g *Garden) HardeningSpot() garden.Spot {
	if spot, err := g.Settings.Spot(g.Settings.Hardening); err == nil && g.Settings.Hardening != "" {
		return spot
	}
	// A clear night in late April: 2 °C in the screen after and before days of 14 °C.
	night := site.Night{Tmin: 2, Before: 14, After: 14, Day: 110}
	var out []garden.Spot
	for _, spot := range g.Settings.Spots {
		if spot.Kind != site.Greenhouse.Kind {
			out = append(out, spot)
		}
	}
	if len(out) == 0 {
		return garden.Spot{Name: garden.StationSpot, Kind: site.AtStation.Kind}
	}
	mildest, best := out[0], math.Inf(-1)
	for _, spot := range out {
		if mean := g.SpotModel(spot).Mean(night); mean > best {
			mildest, best = spot, mean
		}
	}
	return mildest
}
