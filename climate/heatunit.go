package climate

import "math"

// heatUnitNightBase is the base of the night half of crop heat units, in °C, as Ontario's
// ministry of agriculture prints it; 40 °F exactly gives 0.036 units a day less.
const heatUnitNightBase = 4.4

// HeatUnits returns the Ontario crop heat units (CHU) of a day, the measure by which
// maize is chosen in Canada (Brown and Bootsma 1993, Crop heat units for corn and other
// warm-season crops in Ontario, factsheet 93-119, number from memory):
//
//	day   = 3.33 (Tmax - 10) - 0.084 (Tmax - 10)^2, not below 0
//	night = 1.8 (Tmin - 4.4), not below 0
//	CHU   = (day + night)/2
//
// The day half is greatest at 29.8 °C. It is NaN when a temperature is. The units are
// counts of their own, not degree-days.
func HeatUnits(tmin, tmax float64) float64 { return heatUnitsFrom(heatUnitNightBase, tmin, tmax) }

// heatUnitsFrom is HeatUnits with another base for the night, in °C.
func heatUnitsFrom(nightBase, tmin, tmax float64) float64 {
	if math.IsNaN(tmin) || math.IsNaN(tmax) {
		return math.NaN()
	}
	x := tmax - 10
	day := 0.0
	if x > 0 {
		day = max(0, 3.33*x-0.084*x*x)
	}
	return (day + max(0, 1.8*(tmin-nightBase))) / 2
}

// heatUnitDays returns the crop heat units of each day.
func heatUnitDays(tmin, tmax []float64) []float64 {
	out := make([]float64, len(tmin))
	for i := range out {
		out[i] = HeatUnits(tmin[i], tmax[i])
	}
	return out
}

// Ontario counts crop heat units from 1 May (season day 120; in the south 29 October)
// until the first autumn minimum of -2 °C or the date on which the long-term mean daily
// temperature falls below 12 °C, whichever comes first (fieldcropnews.com/2025/02,
// "Using crop heat units", from the ministry's agronomists).
const (
	HeatUnitStart SeasonDay = 120
	HeatUnitFrost           = Frost(-2)
	HeatUnitMean            = 12.0
)

// heatUnitEnd returns the last day that counts in a season: the day before the first
// minimum of -2 °C or lower from midsummer on, but never later than until, the last day
// before the long-term mean falls below 12 °C (see meanFallsBelow). The station's own
// minima are used, not a spot's, as the units were made for.
func heatUnitEnd(s Season, until SeasonDay) SeasonDay {
	s.Night = nil
	return SeasonDay(min(HeatUnitFrost.FirstAutumn(s)-1, float64(until)))
}

// meanFallsBelow returns the first day from midsummer on whose long-term mean
// temperature, (Tmin+Tmax)/2 over all seasons and the 15 days around it, is below a
// number of °C; the 15 days are ours, since single days' means are still rough after
// 30 years. ok is false when it never is before the season ends, or nothing is known.
func meanFallsBelow(e Ensemble, celsius float64) (sd SeasonDay, ok bool) {
	const half = 7
	var sum, n [SpanLen]float64
	for _, s := range e.Seasons {
		for i, t := range s.Tmin {
			if m := (t + s.Tmax[i]) / 2; !math.IsNaN(m) {
				sum[i] += m
				n[i]++
			}
		}
	}
	for sd := Midsummer; sd < YearDays; sd++ {
		var total, count float64
		for i := int(sd-SpanFrom) - half; i <= int(sd-SpanFrom)+half; i++ {
			total += sum[i]
			count += n[i]
		}
		// A mean of just so many degrees is not below it, however its sum is rounded.
		if count > 0 && total/count < celsius-1e-6 {
			return sd, true
		}
	}
	return 0, false
}
