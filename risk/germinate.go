package risk

import (
	"math"

	"frostward/crops"
)

// germinating follows a seed in the soil. It starts on the first day the soil is warm
// enough and comes up when it has had its warmth.
type germinating struct {
	c       *crops.Crop
	soil    []float64 // °C by day of the span
	started bool
	sum     float64
}

// day passes a day of the span and says whether the seed has started. Soil that is not
// known neither starts nor stops it.
func (g *germinating) day(d int) bool {
	soil := g.soil[d]
	if !g.started {
		g.started = !g.c.GerminationMin.Known() || soil >= g.c.GerminationMin.Value
	}
	if g.started && !math.IsNaN(soil) {
		if g.c.EmergenceSum.Known() {
			g.sum += g.c.EmergenceRate(soil)
		} else {
			g.sum += 1. / DefaultEmergenceDays
		}
	}
	return g.started
}

// done says whether it has come up.
func (g *germinating) done() bool { return g.sum >= 1 }
