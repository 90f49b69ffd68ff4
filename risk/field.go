package risk

import (
	"sync"

	"frostward/climate"
	"frostward/crops"
)

// sowingDepth is the depth in cm at which a seed meets the soil (common practice, no source:
// beans and corn go in at about 5 cm, small seed shallower and so a little warmer by day).
const sowingDepth = 5

// Field is an ensemble of seasons as one crop meets them, raised or sown in place: beside
// the nights, each day's growth counted for that crop and, for sowings, the soil. It is
// made once and played for every planting date and cover.
type Field struct {
	Ensemble climate.Ensemble
	Crop     crops.Crop
	Raised   bool

	need   float64 // effective day-degrees to first picking of the typical crop; days where only those are known
	doubt  doubt   // how far it and the killing temperatures may be off, season by season
	growth *growth
	line   []float64         // the part of a day's growth that the growers' line of light lets count, by day of the span
	soil   *rows             // °C at sowing depth; nil for raised plants
	bolts  climate.SeasonDay // from this day on it runs to seed and grows no more; SpanTo: never
	gain   normals

	earth     *rows                  // of a crop that lives below ground: see nights, as of the next two
	hard      *rows                  // of one that winter hardens
	lift      *[climate.SpanLen]lift // of a tall one
	mulched   *sync.Map              // the soil under a mulch, by season and cm, once asked for
	notBefore []climate.SeasonDay    // ready no earlier, by season, for want of cold; nil for most crops
}

// NewField prepares an ensemble for a crop. The seed fixes what covers gain on each night
// of each season, the same for every planting date and every cover.
func NewField(e climate.Ensemble, c crops.Crop, raised bool, seed uint64) *Field {
	g := NewGround()
	g.Reset(e)
	return g.Field(e, c, raised, seed)
}

// Certain is the field of the typical crop: without the doubt about what it needs and stands,
// so that only the weather differs from season to season.
func (f *Field) Certain() *Field {
	g := *f
	g.doubt = doubt{}
	return &g
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
