package climate

import "math"

// SaturationVapourPressure returns the vapour pressure, in kPa, of air saturated over
// water at a temperature in °C (FAO-56, Allen et al. 1998, eq. 11).
func SaturationVapourPressure(t float64) float64 {
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
	return DewPointOf(SaturationVapourPressure(t) * min(humidity, 100) / 100)
}

// DewPointOf returns the dew point in °C of air with a vapour pressure in kPa.
func DewPointOf(kPa float64) float64 {
	x := math.Log(kPa / 0.6108)
	return 237.3 * x / (17.27 - x)
}

// RelativeHumidity returns the humidity in per cent of air at a temperature and dew
// point in °C, both from eq. 11. It is above 100 when the dew point is above the
// temperature, a fault of the readings that the caller should report.
func RelativeHumidity(t, dewPoint float64) float64 {
	return 100 * SaturationVapourPressure(dewPoint) / SaturationVapourPressure(t)
}

// VapourPressureWetBulb returns the vapour pressure in kPa from a wet and dry bulb in
// °C (FAO-56 eq. 15). The factor gamma, in kPa/°C, is the psychrometer's coefficient
// (0.000662 ventilated, 0.000800 naturally ventilated, 0.001200 indoors; eq. 16) times
// the air's pressure in kPa.
func VapourPressureWetBulb(dry, wet, gamma float64) float64 {
	return SaturationVapourPressure(wet) - gamma*(dry-wet)
}

// AirPressure returns the usual pressure in kPa at a height above the sea in metres
// (FAO-56 eq. 7).
func AirPressure(height float64) float64 {
	return 101.3 * math.Pow((293-0.0065*height)/293, 5.26)
}

// WetBulb returns the wet-bulb temperature in °C near sea level, from a temperature in
// °C and a relative humidity in per cent (Stull 2011, J. Appl. Meteorol. Climatol. 50,
// 2267-2269, eq. 1). It fits to within -1 to +0.65 °C for humidities of 5 to 99 % and
// -20 to 50 °C, and is NaN outside them; dry air below freezing, which his text sets
// apart, may come out further off.
func WetBulb(t, humidity float64) float64 {
	if !(humidity >= 5 && humidity <= 99 && t >= -20 && t <= 50) {
		return math.NaN()
	}
	return t*math.Atan(0.151977*math.Sqrt(humidity+8.313659)) + math.Atan(t+humidity) -
		math.Atan(humidity-1.676331) + 0.00391838*math.Pow(humidity, 1.5)*math.Atan(0.023101*humidity) - 4.686035
}
