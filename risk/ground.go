package risk

import (
	"sync"

	"frostward/climate"
	"frostward/crops"
)

// Ground is the weather of some seasons made ready for many crops. What the crops share is
// worked out once, and no further than it is wanted: the growth of days, by how it is counted
// (a dozen crops have some eight ways), the soil, and the light. It keeps its memory for the
// next station. It is for one goroutine; its fields are for many.
type Ground struct {
	e      climate.Ensemble
	ra     *[climate.YearDays]float64
	lines  map[float64][climate.YearDays]float64
	rows   map[growthKey]*growth
	soil   *rows // °C at sowing depth; these three nil before the first crop that wants them
	earth  *rows // climate.GroundTemperatures
	hard   *rows // climate.Hardening
	tried  []Tried
	sweep  Sweep
	came   []climate.Answer   // of the planting tried last, by starting day and season
	starts [][]climate.Answer // the same
}

// NewGround returns a Ground without seasons.
func NewGround() *Ground {
	return &Ground{rows: map[growthKey]*growth{}}
}

// Reset takes other seasons. Fields made before are of no more use.
func (g *Ground) Reset(e climate.Ensemble) {
	ra := e.Calendar.ExtraterrestrialRadiations(e.Latitude)
	g.e, g.ra, g.lines, g.soil = e, &ra, map[float64][climate.YearDays]float64{}, nil
	g.earth, g.hard = nil, nil
	for _, r := range g.rows {
		r.reset(e.Seasons, g.ra)
	}
}

// Field is NewField at a spot, whose ensemble differs from the ground's in its nights only, and not in its air.
func (g *Ground) Field(spot climate.Ensemble, c crops.Crop, raised bool, seed uint64) *Field {
	k, need := growthOf(c, raised)
	r := g.rows[k]
	if r == nil {
		r = newGrowth(k)
		r.reset(g.e.Seasons, g.ra)
		g.rows[k] = r
	}
	bolts := boltsOn(c, raised)
	f := &Field{Ensemble: spot, Crop: c, Raised: raised, need: need.Value, doubt: doubtOf(spot, c, raised), growth: r,
		line: overSpan(g.line(c), bolts), bolts: bolts, gain: normals{seed}, mulched: new(sync.Map)}
	if !raised {
		if g.soil == nil {
			g.soil = wholeRows(len(g.e.Seasons), func(row []float64, i int) { climate.SoilTemperatures(row, g.e.Seasons[i], sowingDepth) })
		}
		f.soil = g.soil
	}
	g.winters(f)
	return f
}

// line returns a crop's line of light, which those of like hours share.
func (g *Ground) line(c crops.Crop) [climate.YearDays]float64 {
	k := lightHours(c)
	line, ok := g.lines[k]
	if !ok {
		line = lineOf(g.e, c)
		g.lines[k] = line
	}
	return line
}

// lightHours are a crop's LightHours, -1 for none.
func lightHours(c crops.Crop) float64 { return orElse(c.LightHours.Value, -1) }
