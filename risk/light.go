package risk

import (
	"math"

	"frostward/climate"
	"frostward/crops"
)

// Light. What a day is worth to a crop hangs on its light as on its warmth (climate.Response).
//
// Crops with LightHours, the leaves, obey besides the growers' line of the 10-hour day. It is
// no wall: growth falls from all of it at the line to none a lightFade below it. So a crop a
// day short of ready when the line comes is a few days late and not four months.

// lightFade is by how many hours a day must be shorter than a crop's LightHours for its growth
// to stop (our rule: growers say that it "really slows" at 10 hours, and that hardy leaves
// still grow on sunny days below it).
const lightFade = 1.0

// overSpan writes a crop's line out over the days of a season, with no growth from the day on
// which it runs to seed.
func overSpan(line [climate.YearDays]float64, bolts climate.SeasonDay) []float64 {
	out := make([]float64, climate.SpanLen)
	for i := range int(bolts - climate.SpanFrom) {
		out[i] = line[onDay(i).Fold()]
	}
	return out
}

// lineOf is the growers' line of a crop: 1 on days of at least its LightHours, falling to 0 on
// those a lightFade shorter. A crop with none grows in any light.
func lineOf(e climate.Ensemble, c crops.Crop) (line [climate.YearDays]float64) {
	for d := range line {
		line[d] = 1
	}
	if !c.LightHours.Known() {
		return line // most crops: the year's day lengths cost more than all else of a field
	}
	for d, hours := range (climate.Calendar{}).DayLengths(math.Abs(e.Latitude)) {
		line[d] = min(1, max(0, 1-(c.LightHours.Value-hours)/lightFade))
	}
	return line
}

// Bolting is the season day, 1 May of the year after, by which leaves, roots and bulbs that are
// eaten in the year they are sown have run to seed: what is not of a size by then never is
// (common practice, no source; by crop it is April to June).
const Bolting climate.SeasonDay = climate.YearDays + 120

// boltsOn is the day from which a crop has run to seed; climate.SpanTo where it does not. It
// plays the crop's sum through the mean climate of southern England, from the middle of its
// customary time of sowing or planting. A crop that has its sum there before March is eaten
// in its first year; one that has it later, such as garlic or spring cabbage, is meant to stand
// the winter. Fruits and flower heads do not run to seed but to be eaten, and tender crops do
// not see the spring.
func boltsOn(c crops.Crop, raised bool) climate.SeasonDay {
	k, need := growthOf(c, raised)
	if c.Tender() || c.Kind != crops.Leaf && c.Kind != crops.Root && c.Kind != crops.Bulb || !c.OutFrom.Known() || !c.OutTo.Known() || !need.Known() {
		return climate.SpanTo
	}
	width := climate.SeasonDay(c.OutTo.Value - c.OutFrom.Value)
	start := climate.SeasonDay(c.OutFrom.Value) + climate.SeasonDay(width.Fold()/2)
	const march = climate.YearDays + 59
	var sum float64
	for d := start; d < march && start < climate.YearDays; d++ {
		w := &southern[d.Fold()]
		if k.days {
			sum += growingDay(w.tmin, w.tmax, k.response.Base)
		} else {
			sum += k.response.Effective(w.tmin, w.tmax, climate.SolarRadiation(climate.Inland, w.tmin, w.tmax, southernSun[d.Fold()]))
		}
		if sum >= need.Value {
			return Bolting
		}
	}
	return climate.SpanTo
}

// southern is the mean climate of southern England that the catalogue's sums were worked out
// in, by season day of the north: monthly mean minima and maxima of catalogue.csv, and of the
// winter months from memory, taken to stand in the middle of each month; latitude 51 degrees.
var southern = func() (t [climate.YearDays]struct{ tmin, tmax float64 }) {
	highs := [12]float64{7.8, 8.2, 11, 14, 17.3, 20.3, 22.6, 22.3, 19.2, 15.2, 10.9, 8.3}
	lows := [12]float64{2.2, 2.1, 3.5, 5, 8, 11, 13, 12.9, 10.6, 8, 4.6, 2.6}
	for d := range t {
		x := (float64(d)+0.5)*12/climate.YearDays + 11.5
		k, f := int(x), x-math.Floor(x)
		between := func(v *[12]float64) float64 { return v[k%12]*(1-f) + v[(k+1)%12]*f }
		t[d].tmin, t[d].tmax = between(&lows), between(&highs)
	}
	return t
}()

// southernSun is the sun above the air there, MJ/m2 a day.
var southernSun = climate.Calendar{}.ExtraterrestrialRadiations(51)
