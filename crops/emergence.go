package crops

import "math"

// EmergenceRate returns the share of the way from sowing to emergence that a seed goes
// in a day in moist soil at a mean temperature in °C at sowing depth; 1 is all of it.
// It is NaN where the catalogue has no thermal time for the crop.
//
// The rate rises in a straight line from EmergenceBase and is level above the
// temperature at which the crop germinates best; above the highest temperature at
// which it germinates it is 0 (thermal time to emergence as in Bierhuizen & Wagenvoort
// 1974, Sci. Hortic. 2, 213-219, from memory; the level part is ours).
func (c Crop) EmergenceRate(soil float64) float64 {
	if !c.EmergenceBase.Known() || !c.EmergenceSum.Known() || math.IsNaN(soil) {
		return math.NaN()
	}
	if soil > c.GerminationMax.Value { // false where not known
		return 0
	}
	if c.GerminationOpt.Known() {
		soil = min(soil, c.GerminationOpt.Value)
	}
	return max(0, soil-c.EmergenceBase.Value) / c.EmergenceSum.Value
}

// DaysToEmergence returns the days from sowing to emergence in moist soil that stays
// at a temperature in °C: +Inf where it would never come up, NaN where not known.
func (c Crop) DaysToEmergence(soil float64) float64 {
	return 1 / c.EmergenceRate(soil) // 1/0 is +Inf
}
