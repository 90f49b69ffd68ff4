package risk

import (
	"math"

	"frostward/climate"
	"frostward/crops"
)

// Light. A day's warmth counts for as much as its light supports: the crop's degree-days are
// multiplied by climate.LightFactor, which comes from the effective day-degrees of Scaife, Cox
// and Morris (1987, Ann. Bot. 59, 325-334). Found for lettuce, it is taken over here to every
// crop, fruiting ones among them; that step is ours.
//
// The catalogue's sums were worked out from warmth alone in the light of each crop's usual
// season, so the factor is divided by what it was there (homeOf): a crop grown at its
// customary time keeps its sum, one grown into autumn is slower, and one that stands through
// the winter, whose sum holds a winter's warmth, makes up in spring what it lost.
//
// Crops with LightHours, the leaves, obey besides the growers' line of the 10-hour day. It is
// no wall: growth falls from all of it at the line to none a LightFade below it. So a crop a
// day short of ready when the line comes is a few days late and not four months.

// LightFade is by how many hours a day must be shorter than a crop's LightHours for its growth
// to stop (our rule: growers say that it "really slows" at 10 hours, and that hardy leaves
// still grow on sunny days below it).
const LightFade = 1.0

// lightOf returns, for each day of the span, what part of its warmth counts for a crop. It
// depends on latitude and date alone, with southern England's clouds everywhere. Taken from each
// day's own temperatures, a warm dull day could be worth less than a cool one; taken from the
// seasons at hand, each would change with what the others were. Sunnier places are brighter than
// this, but in their summers the factor is 1 anyway.
func lightOf(e climate.Ensemble, c crops.Crop, raised bool) []float64 {
	usual := usualLightAt(e.Latitude)
	return lightFrom(&usual, lineOf(e, c), homeOf(c, raised))
}

// usualLightAt is the light factor that is usual on each season day at a latitude. The south has
// the light of the same season day in the north: it is right to a day, and to the 3 % by which
// the sun is nearer in January.
func usualLightAt(latitude float64) (t [climate.YearDays]float64) {
	ra := climate.Calendar{}.ExtraterrestrialRadiations(math.Abs(latitude))
	for d := range t {
		w := &southern[d]
		t[d] = climate.LightFactor((w.tmin+w.tmax)/2, climate.SolarRadiation(climate.Inland, w.tmin, w.tmax, ra[d]))
	}
	return t
}

// lightFrom puts together the light of a place, a crop's line there, and its light at home.
func lightFrom(usual *[climate.YearDays]float64, line [climate.YearDays]float64, h home) []float64 {
	out := make([]float64, climate.SpanLen)
	for sd := climate.SpanFrom; sd < h.bolts; sd++ { // and none from where it runs to seed
		d := sd.Fold()
		out[sd-climate.SpanFrom] = usual[d] / h.light * line[d]
	}
	return out
}

// lineOf is the growers' line of a crop: 1 on days of at least its LightHours, falling to 0 on
// those a LightFade shorter. A crop with none grows in any light.
func lineOf(e climate.Ensemble, c crops.Crop) (line [climate.YearDays]float64) {
	for d := range line {
		line[d] = 1
	}
	if !c.LightHours.Known() {
		return line // most crops: the year's day lengths cost more than all else of a field
	}
	for d, hours := range (climate.Calendar{}).DayLengths(math.Abs(e.Latitude)) {
		line[d] = min(1, max(0, 1-(c.LightHours.Value-hours)/LightFade))
	}
	return line
}

// home is a crop at its customary time in the climate that the catalogue's sums were worked
// out in.
type home struct {
	light float64           // the mean light factor of its warmth there; 1 where no custom is recorded
	bolts climate.SeasonDay // where it is an autumn crop that runs to seed after the winter; else climate.SpanTo
}

// Bolting is the season day, 1 May of the year after, by which leaves, roots and bulbs that are
// eaten in the year they are sown have run to seed: what is not of a size by then never is
// (common practice, no source; by crop it is April to June).
const Bolting climate.SeasonDay = climate.YearDays + 120

// homeOf plays a crop's sum through the mean climate of southern England, from the middle of its
// customary time of sowing or planting. A crop that has its warmth there before March is eaten
// in its first year; one that has it later, such as garlic or spring cabbage, is meant to stand
// the winter. Fruits and flower heads do not run to seed but to be eaten, and tender crops do
// not see the spring.
func homeOf(c crops.Crop, raised bool) home {
	h := home{light: 1, bolts: climate.SpanTo}
	need, g := warmthOf(c, raised)
	if !c.OutFrom.Known() || !c.OutTo.Known() || math.IsNaN(need) {
		return h
	}
	width := climate.SeasonDay(c.OutTo.Value - c.OutFrom.Value)
	start := climate.SeasonDay(c.OutFrom.Value) + climate.SeasonDay(width.Fold()/2)
	d := start
	var sum, lit float64
	for ; sum < need && d < start+climate.YearDays; d++ {
		w := &southern[d.Fold()]
		warm := g(w.tmin, w.tmax)
		sum += warm
		lit += warm * homeLight[d.Fold()]
	}
	if sum > 0 {
		h.light = lit / sum
	}
	const march = climate.YearDays + 59
	if d < march && start < climate.YearDays && !c.Tender() && (c.Kind == crops.Leaf || c.Kind == crops.Root || c.Kind == crops.Bulb) {
		h.bolts = Bolting
	}
	return h
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

// homeLight is the light there.
var homeLight = usualLightAt(51)
