package risk

import (
	"math"
	"slices"

	"frostward/climate"
	"frostward/crops"
)

// SowingDepth is the depth in cm at which a seed meets the soil (common practice, no source:
// beans and corn go in at about 5 cm, small seed shallower and so a little warmer by day).
const SowingDepth = 5

// Field is an ensemble of seasons as one crop meets them, raised or sown in place: beside
// the nights, each day's warmth counted for that crop and, for sowings, the soil. It is
// made once and played for every planting date and cover.
type Field struct {
	Ensemble climate.Ensemble
	Crop     crops.Crop
	Raised   bool

	need   float64           // warmth to first picking
	warmth [][]float64       // by season and day: °C-days above the crop's base, or 1 a day where only days are known
	light  []float64         // the part of a day's warmth that its light lets count, by day of the span
	soil   [][]float64       // °C at sowing depth; nil for raised plants
	bolts  climate.SeasonDay // from this day on it runs to seed and grows no more; SpanTo: never
	gain   normals
	rows   *warmthRows // works warmth out as far as it is wanted; nil where all of it is there
}

// NewField prepares an ensemble for a crop. The seed fixes what covers gain on each night
// of each season, the same for every planting date and every cover.
func NewField(e climate.Ensemble, c crops.Crop, raised bool, seed uint64) *Field {
	need, worth := warmthOf(c, raised)
	f := &Field{Ensemble: e, Crop: c, Raised: raised, need: need, gain: normals{seed}, light: lightOf(e, c, raised), bolts: homeOf(c, raised).bolts}
	all := make([]float64, climate.SpanLen*len(e.Seasons))
	f.warmth = make([][]float64, len(e.Seasons))
	for i, s := range e.Seasons {
		w := all[i*climate.SpanLen : (i+1)*climate.SpanLen : (i+1)*climate.SpanLen]
		lows, highs := s.Air()
		for d := range w {
			w[d] = worth(lows[d], highs[d])
		}
		f.warmth[i] = w
		if !raised {
			f.soil = append(f.soil, climate.SoilTemperatures(nil, s, SowingDepth))
		}
	}
	return f
}

// warmthOf returns what a crop needs to first picking and how a day counts towards it: in
// °C-days above its base, or in days where only those are known.
func warmthOf(c crops.Crop, raised bool) (need float64, worth func(tmin, tmax float64) float64) {
	warmth, days := c.WarmthSown, c.DaysSown
	if raised {
		warmth, days = c.WarmthPlanted, c.DaysPlanted
	}
	if !warmth.Known() {
		return days.Value, func(tmin, tmax float64) float64 { return growingDay(tmin, tmax, c.Base.Value) }
	}
	g := degreeDaysOf(c)
	return warmth.Value, func(tmin, tmax float64) float64 { return g.Day(tmin, tmax, math.NaN()) }
}

func degreeDaysOf(c crops.Crop) climate.DegreeDays {
	g := climate.DegreeDays{Base: c.Base.Value}
	if c.Upper.Known() {
		g.Upper, g.Limit = c.Upper.Value, climate.Horizontal
	}
	return g
}

// growingDay is 1 for a day whose mean is above the base, 5 °C where the crop has none:
// days to maturity are published for the growing season, not for winter.
func growingDay(tmin, tmax, base float64) float64 {
	if math.IsNaN(base) {
		base = 5
	}
	m := (tmin + tmax) / 2
	if math.IsNaN(m) || m > base {
		return 1 + 0*m // NaN stays NaN
	}
	return 0
}

// normals gives standard normal numbers by place, so that a night's luck is the same
// whatever is asked about it.
type normals struct{ seed uint64 }

func (n normals) at(season int, day climate.SeasonDay) float64 {
	x := n.seed + uint64(season)*0x9E3779B97F4A7C15 + uint64(day-climate.SpanFrom)*0xD1B54A32D192ED03
	// The finaliser of splitmix64 (Steele, Lea and Flood 2014).
	x = (x ^ x>>30) * 0xBF58476D1CE4E5B9
	x = (x ^ x>>27) * 0x94D049BB133111EB
	x ^= x >> 31
	return normalTable[x>>(64-normalBits)]
}

// dark says whether some day's light is not known, so that running sums say nothing.
func (f *Field) dark() bool { return slices.ContainsFunc(f.light, math.IsNaN) }
