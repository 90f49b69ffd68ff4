package garden

import (
	"errors"
	"fmt"
	"math"
	"path/filepath"

	"frostward/climate/site"
)

// Station is a record with where it was measured.
type Station struct {
	File      string   `yaml:"file"`
	Name      string   `yaml:"name"`
	Height    *float64 `yaml:"height"`    // m above the sea
	Distance  *float64 `yaml:"distance"`  // km from the garden; or its place:
	Latitude  *float64 `yaml:"latitude"`  // degrees
	Longitude *float64 `yaml:"longitude"` // degrees
}

// Place is the garden seen from a station; what the station's file says of itself (NaN where it does
// not) stands in for what garden.yaml leaves out. What neither says counts as the same place.
func (g Garden) Place(s Station, latitude, longitude, height float64) site.Place {
	or := func(p *float64, v float64) float64 {
		if p != nil {
			return *p
		}
		return v
	}
	var w site.Place
	if g.Height != nil {
		if rise := *g.Height - or(s.Height, height); rise == rise {
			w.Rise = rise
		}
	}
	latitude, longitude = or(s.Latitude, latitude), or(s.Longitude, longitude)
	switch {
	case s.Distance != nil:
		w.Km = *s.Distance
	case !math.IsNaN(g.Latitude + g.Longitude + latitude + longitude):
		const degree = 6371 * math.Pi / 180 // km
		w.Km = degree * math.Hypot(g.Latitude-latitude, (g.Longitude-longitude)*math.Cos(g.Latitude*math.Pi/180))
	}
	return w
}

func (g Garden) checkStations() error {
	if h := g.Height; h != nil && !(*h >= -450 && *h <= 6000) {
		return fmt.Errorf("height: %v; wanted metres above the sea, -450 to 6000", *h)
	}
	seen := map[string]bool{}
	for i, s := range g.Stations {
		switch {
		case s.File == "":
			return fmt.Errorf("stations: the file of number %d is missing; wanted the name of a record", i+1)
		case seen[s.File]:
			return fmt.Errorf("stations: %s is given twice", s.File)
		case s.Height != nil && !(*s.Height >= -450 && *s.Height <= 6000):
			return fmt.Errorf("stations: %s: height: %v; wanted metres above the sea, -450 to 6000", s.File, *s.Height)
		case s.Distance != nil && !(*s.Distance >= 0 && *s.Distance <= 500):
			return fmt.Errorf("stations: %s: distance: %v; wanted 0 to 500 km", s.File, *s.Distance)
		case (s.Latitude == nil) != (s.Longitude == nil):
			return fmt.Errorf("stations: %s: wanted latitude and longitude, or neither", s.File)
		case s.Latitude != nil && !(math.Abs(*s.Latitude) <= 90 && math.Abs(*s.Longitude) <= 180):
			return fmt.Errorf("stations: %s: latitude %v, longitude %v; wanted degrees", s.File, *s.Latitude, *s.Longitude)
		}
		seen[s.File] = true
		if !filepath.IsLocal(s.File) {
			return fmt.Errorf("stations: %q leads out of the garden's folder; wanted a file in it, named from there", s.File)
		}
	}
	return nil
}

var errBoth = errors.New("record: and stations: are both given; wanted the record among the stations, or no stations")
