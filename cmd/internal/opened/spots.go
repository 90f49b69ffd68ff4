package opened

import (
	"math"
	"slices"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/journal"
	"frostward/risk"
)

// Spots is a garden's spots with what its log says of them.
type Spots struct {
	g    *Garden
	log  journal.Log
	move func(site.Model) site.Model // what of a spot's model its seasons are taken by; nil: all of it
}

// Spots reads the log for what it says of the spots.
func (g *Garden) Spots() (*Spots, error) {
	log, err := g.Log()
	return &Spots{g: g, log: log}, err
}

// Readings are the bare morning minima logged at a spot.
func (s *Spots) Readings(spot garden.Spot) []site.Reading {
	var out []site.Reading
	for _, e := range s.log.Nights() {
		bare := e.Tmin
		if e.Covered != "" {
			bare = e.Beside
		}
		if e.Spot == spot.Name && !math.IsNaN(bare) {
			out = append(out, site.Reading{Day: e.Day, Tmin: bare})
		}
	}
	return out
}

// prior is what is believed of a spot before its readings: by its kind and where the garden lies.
func (g *Garden) prior(spot garden.Spot) site.Prior {
	p, _ := site.PriorOf(spot.Kind)
	if spot.Name == garden.StationSpot { // the station is where it is
		return p
	}
	return p.At(g.Place)
}

// Model is how a spot differs from the station: what is usual for its kind, corrected by the readings.
func (s *Spots) Model(spot garden.Spot) site.Model {
	return s.withDays(spot, site.FitModel(s.g.Masked, s.g.Calendar, s.Readings(spot), s.g.prior(spot)))
}

// Fit is Model with what the readings make of it.
func (s *Spots) Fit(spot garden.Spot) (site.Model, site.Summary) {
	m, sum := site.Fit(s.g.Masked, s.g.Calendar, s.Readings(spot), s.g.prior(spot))
	return s.withDays(spot, m), sum
}

// withDays moves the gain by day of a sheltered spot by the maxima logged there.
func (s *Spots) withDays(spot garden.Spot, m site.Model) site.Model {
	var days []site.DayReading
	for _, e := range s.log.Nights() {
		if e.Spot == spot.Name && !math.IsNaN(e.Tmax) {
			days = append(days, site.DayReading{Day: e.Day, Tmax: e.Tmax})
		}
	}
	return m.WithDays(s.g.Masked, s.g.Calendar, s.g.Settings.Latitude, days)
}

// Covers are the garden's covers, what they gain moved by nights read under and beside them.
func (g *Garden) Covers() []garden.Cover { return g.covers() }

// RiskCovers are the covers as they are played.
func (g *Garden) RiskCovers() (out []risk.Cover) {
	for _, c := range g.Covers() {
		out = append(out, c.Risk())
	}
	return out
}

// Cover is one of them by name; "" and "none" are no cover.
func (g *Garden) Cover(name string) (risk.Cover, error) {
	out, err := g.Settings.Cover(name)
	for _, c := range g.Settings.Covers {
		if c.Name == name { // the log is read for a cover only
			for _, learned := range g.Covers() {
				if learned.Name == name {
					return learned.Risk(), nil
				}
			}
		}
	}
	return out, err
}

func (g *Garden) learnCovers() []garden.Cover {
	covers := slices.Clone(g.Settings.Covers)
	log, err := g.Log()
	if err != nil {
		return covers // whoever wants the log says so
	}
	for i := range covers {
		c := &covers[i]
		var measured []float64
		for _, e := range log.Nights() {
			if d := e.Tmin - e.Beside; e.Covered == c.Name && d == d {
				measured = append(measured, d)
			}
		}
		c.Gain, c.Between = site.LearnCover(c.Gain, c.Spread, c.Risk().Between, measured)
	}
	return covers
}

// Move takes seasons at the station to a spot.
func (s *Spots) Move(e climate.Ensemble, spot garden.Spot) climate.Ensemble {
	return s.mover(spot).ToSpot(e, s.g.Options.Seed)
}

func (s *Spots) mover(spot garden.Spot) site.Model {
	m := s.Model(spot)
	if s.move != nil {
		m = s.move(m)
	}
	return m
}

// Hardening is where plants are hardened off: the spot that garden.yaml names, or else the
// one out of doors with the mildest clear nights.
func (s *Spots) Hardening() garden.Spot {
	settings := s.g.Settings
	if spot, err := settings.Spot(settings.Hardening); err == nil && settings.Hardening != "" {
		return spot
	}
	// A clear night in late April: 2 °C in the screen after and before days of 14 °C.
	night := site.Night{Tmin: 2, Before: 14, After: 14, Day: 110}
	var out []garden.Spot
	for _, spot := range settings.Spots {
		if p, _ := site.PriorOf(spot.Kind); !p.Roofed() {
			out = append(out, spot)
		}
	}
	if len(out) == 0 {
		return garden.Spot{Name: garden.StationSpot, Kind: site.AtStation.Kind}
	}
	mildest, best := out[0], math.Inf(-1)
	for _, spot := range out {
		if mean := s.Model(spot).Mean(night); mean > best {
			mildest, best = spot, mean
		}
	}
	return mildest
}

// HardensAt names the spot where plants are hardened off.
func (g *Garden) HardensAt() string {
	spots, err := g.Spots()
	if err != nil {
		panic(err) // whoever asks has hardened plants there
	}
	return spots.Hardening().Name
}
