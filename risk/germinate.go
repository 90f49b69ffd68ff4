package risk

import (
	"math"

	"frostward/crops"
)

// SeedbedSwing is how far, in °C, bare soil at sowing depth rises above its daily mean on a
// spring afternoon (about 3 °C at 5 cm, from memory). The tables' least temperatures for
// germination were found at constant temperature, so a seed is taken to start on the first
// day whose afternoon reaches them: for French beans, 15.6 °C in the table, at a mean of
// 12.6 °C, which agrees with the growers' 12 °C.
const SeedbedSwing = 3

// germinating follows a seed in the soil. It starts on the first day the soil is warm
// enough and comes up when it has had its warmth.
type germinating struct {
	c       *crops.Crop
	soil    []float64 // °C by day of the span
	started bool
	sum     float64
}

// day passes a day of the span and tells whether the seed has started. Soil that is not
// known neither starts nor stops it.
func (g *germinating) day(d int) bool {
	soil := g.soil[d]
	if !g.started {
		g.started = !g.c.GerminationMin.Known() || soil+SeedbedSwing >= g.c.GerminationMin.Value
	}
	if g.started && !math.IsNaN(soil) {
		if g.c.EmergenceSum.Known() {
			g.sum += max(0, soil-g.c.EmergenceBase.Value) / g.c.EmergenceSum.Value
		} else {
			g.sum += 1. / DefaultEmergenceDays
		}
	}
	return g.started
}

// done tells whether it has come up.
func (g *germinating) done() bool { return g.sum >= 1 }
