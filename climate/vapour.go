package climate

import "math"

// saturationVapourPressure returns the vapour pressure, in kPa, of air saturated over
// water at a temperature in °C (FAO-56, Allen et al. 1998, eq. 11).
func saturationVapourPressure(t float64) float64 {
	return 0.6108 * math.Exp(17.27*t/(t+237.3))
}

// DewPoint returns the dew point in °C of air at a temperature in °C and a relative
// humidity in per cent. It is NaN when the humidity is not above 0 or is above 100 by
// more than rounding (over 101).
//
// It is the exact inverse of eq. 11 and not the FAO's own inverse, which is rounded and
// returns -0.004 °C for the vapour pressure of 0 °C. Below freezing it is the dew
// point and not the frost point, over water as hygrometers are read.
func DewPoint(t, humidity float64) float64 {
	if !(humidity > 0 && humidity <= 101) {
		return math.NaN()
	}
	return dewPointOf(saturationVapourPressure(t) * min(humidity, 100) / 100)
}

// dewPointOf returns the dew point in °C of air with a vapour pressure in kPa.
func dewPointOf(kPa float64) float64 {
	x := math.Log(kPa / 0.6108)
	return 237.3 * x / (17.27 - x)
}
