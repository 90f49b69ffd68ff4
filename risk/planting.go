package risk

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/crops"
)

// Planting is one row of a grower's plan, ready to be played: a crop, where and when it
// goes into the ground, and what covers it. Days are season days.
type Planting struct {
	Name  string // the grower's own word for the row; shown as it is
	Crop  crops.Crop
	Spot  string
	Bed   string
	Cover Cover // the zero Cover is none

	// Start is the day the planting meets the weather: planted out if Raised, sown in
	// place if not. Sow is the sowing under cover of a raised plant.
	Start  climate.SeasonDay
	Sow    climate.SeasonDay
	Raised bool
}

// Label names the planting for tables.
func (p Planting) Label() string {
	if p.Name != "" {
		return p.Name
	}
	return p.Crop.Label()
}

// Sown is the day of sowing, under cover or in place.
func (p Planting) Sown() climate.SeasonDay {
	if p.Raised {
		return p.Sow
	}
	return p.Start
}

// At returns the planting moved to start on another day, its sowing with it.
func (p Planting) At(start climate.SeasonDay) Planting {
	p.Sow += start - p.Start
	p.Start = start
	return p
}

// Check says what is missing from the catalogue to play the planting.
func (p Planting) Check() error {
	how := "sown in place"
	if p.Raised {
		how = "planted out"
	}
	k, need := growthOf(p.Crop, p.Raised)
	switch {
	case !need.Known():
		return fmt.Errorf("%s: no warmth or days to first picking are known when %s", p.Crop.Label(), how)
	case !k.days && math.IsInf(k.response.Ceiling, 1) && !p.Crop.Base.Known(): // plain degree-days
		return fmt.Errorf("%s: no base temperature is known", p.Crop.Label())
	case !p.Crop.KillHardened.Known():
		return fmt.Errorf("%s: no killing temperature is known", p.Crop.Label())
	}
	return nil
}

// Cover is something put over a planting for the night. What it gains differs from night
// to night and can be nothing, or less: in trials of floating covers single clear nights
// gave 0 or below (Hemphill, North Willamette trials 1983-84), so Gain is a mean.
type Cover struct {
	Name    string
	Gain    float64 // mean gain of the night's minimum, °C
	Spread  float64 // standard deviation of the gain from night to night, °C
	Between float64 // standard deviation of the mean gain from one such cover to another, °C
	Mulch   float64 // cm of straw or leaves on the ground, which keep the frost from what lives below it; 0: none
}

// coverGain is what a cover gains on a night of season i: its own mean, drawn once a world of a
// generated ensemble and once a season of a recorded one, and the night's luck.
func (f *Field) coverGain(i int, sd climate.SeasonDay, c Cover) float64 {
	if c.Mulch > 0 && f.Crop.BelowCm.Known() {
		d := sd - climate.SpanFrom
		return f.ground(i, c.Mulch)[d] - f.earth.whole(i)[d]
	}
	s := &f.Ensemble.Seasons[i]
	own := -1 - s.Year
	if f.Ensemble.By == climate.ByWeather {
		own = -1 - s.World
	}
	return c.Gain + c.Between*f.gain.at(own, climate.SpanFrom) + c.Spread*f.gain.at(s.Year, sd)
}

// Fleece is the cover assumed when a grower asks what one would change: a mean gain of 1.1 °C,
// s.d. 0.8 °C from night to night and 0.7 °C from one fleece to another. Trials of floating covers
// gave 0.5 and 1.8 °C in their means and -0.6 °C on single clear nights (Hemphill 1988); makers'
// figures of 2 to 4 °C are not borne out.
var Fleece = Cover{Name: "fleece", Gain: 1.1, Spread: 0.8, Between: 0.7}
