package opened

import (
	"fmt"

	"frostward/climate"
	"frostward/climate/quality"
	"frostward/climate/site"
	"frostward/cmd/internal/garden"
)

// combine places the garden by its stations, and makes one record of several: weighted by how near they are and
// by how well they follow the log of the spot out of doors with the most readings.
func (g *Garden) combine() error {
	first := garden.Station{}
	if len(g.Options.History) == 0 && len(g.Settings.Stations) > 0 {
		first = g.Settings.Stations[0]
	}
	r := g.Report
	g.Stations = []site.Station{{Record: g.Masked, Place: g.Settings.Place(first, r.Latitude, r.Longitude, r.Elevation)}}
	g.Weights, g.Place = []float64{1}, g.Stations[0].Place
	if len(g.Options.History) > 0 || len(g.Settings.Stations) < 2 {
		return nil
	}
	o, err := g.reader()
	if err != nil {
		return err
	}
	for _, s := range g.Settings.Stations[1:] {
		rec, r, name, err := g.readSeries([]string{s.File}, false, o)
		if err != nil {
			return err
		}
		if g.Options.AsOf != "" && g.asOf >= rec.First {
			rec = rec.Between(rec.First, min(g.asOf, rec.Last()))
		}
		if rec.Len() == 0 {
			return fmt.Errorf("%s: has no day with a temperature; wanted lines of date, tmin and tmax", name)
		}
		if !g.Options.Unchecked {
			rec = quality.Mask(rec, quality.Check(rec))
		}
		g.Stations = append(g.Stations, site.Station{Record: rec, Place: g.Settings.Place(s, r.Latitude, r.Longitude, r.Elevation)})
	}
	if !g.Options.Unchecked {
		g.compare()
	}
	spots, err := g.Spots()
	if err != nil {
		return err
	}
	prior, readings := site.OpenBed, []site.Reading(nil)
	for _, spot := range g.Settings.Spots {
		if p, _ := site.PriorOf(spot.Kind); !p.Roofed() {
			if own := spots.Readings(spot); len(own) > len(readings) {
				prior, readings = p, own
			}
		}
	}
	g.Weights = site.Weights(g.Stations, g.Calendar, readings, prior)
	one := site.Combine(g.Stations, g.Calendar, g.Weights)
	g.Masked, g.Place = one.Record, one.Place
	return nil
}

// compare checks the first record by its neighbours, and leaves out what is unlike them.
func (g *Garden) compare() {
	var others []climate.Series
	for _, s := range g.Stations[1:] {
		others = append(others, s.Record)
	}
	own := &g.Stations[0].Record
	var flags []quality.Flag
	flags, g.Questions, g.Steps = quality.Neighbours(*own, others)
	*own = quality.Mask(*own, flags)
	g.Flags = append(g.Flags, flags...)
}
