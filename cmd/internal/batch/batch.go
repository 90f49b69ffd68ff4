// Package batch does the whole job, reading, checking, frosts and planting dates, for many
// stations at once: those of a folder, of an archive, or of one long file.
//
// The input is walked in order of name, and its stations are handed to as many workers as there are
// cores; each has its own memory, which it keeps from station to station. Rows are written in the
// order of the input as they come, so that memory is flat in the number of stations, and the output
// is the same, byte for byte, for any number of workers. A station that cannot be done costs
// itself only. How far the rows go is marked now and then, and an interrupted run goes on from there.
package batch

import (
	"math"

	"frostward/climate"
	"frostward/climate/daily"
	"frostward/crops"
	"frostward/risk"
)

// Settings are what is worked out for every station.
type Settings struct {
	Thresholds []float64 // frost, °C
	Crops      []Crop
	From, To   climate.SeasonDay // starting days tried, both included
	Aim        float64           // chance of success that a sound planting needs
	ByDay      bool              // write the seasons that succeed for every starting day
	Latitude   float64           // where neither the file nor Places says; NaN for none
	Places     map[string]Place  // by station
	Units      daily.Units       // where a file does not say
}

// Crop is a crop and how it is raised.
type Crop struct {
	crops.Crop
	Raised bool
}

// Place is where a station is.
type Place struct {
	Name                           string
	Latitude, Longitude, Elevation float64 // degrees, degrees, metres; NaN where not known
}

// chances are the chances that frost dates are stated at.
var chances = []float64{0.1, 0.2, 0.5, 0.8, 0.9}

// PlantedOut says whether a crop is usually raised under cover, so far as the catalogue has
// its warmth from planting out.
func PlantedOut(c crops.Crop) bool {
	return (c.WarmthPlanted.Known() || c.DaysPlanted.Known()) && (c.WeeksUnderCover.Value > 0 ||
		!c.WarmthSown.Known() && !c.DaysSown.Known())
}

// AssumedLatitude is taken where no latitude is known, north or south by which half of the
// year is the warmer.
const AssumedLatitude = 50.0

// hemisphere returns 1 or -1 by the warmer half of the year, 1 where it cannot be known.
func hemisphere(s climate.Series) float64 {
	var sum, n [2]float64
	_, month, day := s.First.Date()
	at := climate.Calendar{}.Of(month, day)
	for i, hi := range s.Tmax {
		if t := (s.Tmin[i] + hi) / 2; t == t {
			h := 0
			if sd := (at + climate.SeasonDay(i)).Fold(); sd >= 90 && sd < 273 { // April to September
				h = 1
			}
			sum[h] += t
			n[h]++
		}
	}
	if sum[0]/n[0] > sum[1]/n[1] {
		return -1
	}
	return 1
}

var nan = math.NaN()

// Check says what is missing from the catalogue to play the crop.
func (c Crop) Check() error { return risk.Planting{Crop: c.Crop, Raised: c.Raised}.Check() }
