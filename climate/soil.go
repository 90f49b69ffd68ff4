package climate

import "math"

// Soil temperature at sowing depth, from the day's air temperature alone.
//
// Of the published forms that need no more than Tmin and Tmax, SoilTemperatures uses
// Kätterer and Andrén's. It knows the depth, which Zheng's regression does not; it lets
// bare soil in spring run warmer than the air, which is what a seed bed does; it forgets
// within days, so that a gap in the record or the start of a season does little harm; and
// it was made in Sweden, in a cool climate.

// surfaceTemperature returns the temperature of the soil's surface in °C from the day's
// mean air temperature and the green area index of the crop on it, 0 for bare soil
// (Kätterer and Andrén 2009, Acta Agric. Scand. B 59, 77-86, as set down in the help of
// the R package reclim: 0.20 T below freezing, where snow and ice hold the ground, else
// T (0.95 + 0.05 exp(-0.4 (LAI - 3))) with LAI = 0.8 GAI). Bare soil is 1.116 T.
func surfaceTemperature(air, gai float64) float64 {
	if air < 0 {
		return 0.20 * air
	}
	return air * (0.95 + 0.05*math.Exp(-0.4*(0.8*gai-3)))
}

// soilStep returns the next day's soil temperature in °C at a depth in cm, from today's
// and the surface temperature, rate being soilRate of the depth (Kätterer and Andrén 2009):
//
//	T + (Ts - T) 0.24 exp(-0.017 Z) exp(-0.15 GAI)
//
// for bare soil, GAI 0. Their Z is a depth in mm over 20, the middle in cm of a topsoil of that thickness; so
// here it is the depth itself in cm.
func soilStep(soil, surface, rate float64) float64 { return soil + (surface-soil)*rate }

func soilRate(depthCm float64) float64 { return 0.24 * math.Exp(-0.017*depthCm) }

// How SoilTemperatures deals with gaps: it carries the last surface temperature on for
// up to soilGap days, and after a longer gap, as at the start, it says nothing for
// soilWarmUp days: by then a start 5 °C wrong is 0.2 °C wrong (0.77^13). Both are ours.
const (
	soilGap    = 5
	soilWarmUp = 13
)

// SoilTemperatures returns the daily mean temperature of bare soil at a depth in cm, in
// °C, for each day of a season, by soilStep. NaN where the air's gaps leave it unknown.
// dst is used for the result when it is long enough.
func SoilTemperatures(dst []float64, s Season, depthCm float64) []float64 {
	n := len(s.Tmin)
	if cap(dst) < n {
		dst = make([]float64, n)
	}
	dst = dst[:n]
	rate, bare := soilRate(depthCm), surfaceTemperature(1, 0) // the surface is air times bare above 0 °C
	soil, surface := math.NaN(), math.NaN()
	gap, warm := 0, 0
	for i := range dst {
		air := (s.Tmin[i] + s.Tmax[i]) / 2
		switch {
		case !math.IsNaN(air):
			if surface = bare * air; air < 0 {
				surface = surfaceTemperature(air, 0)
			}
			gap = 0
			if math.IsNaN(soil) {
				soil, warm = surface, 0
			}
		case gap < soilGap:
			gap++
		default:
			soil = math.NaN()
		}
		soil = soilStep(soil, surface, rate)
		warm++
		if dst[i] = soil; warm <= soilWarmUp {
			dst[i] = math.NaN()
		}
	}
	return dst
}
