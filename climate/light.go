package climate

import "math"

// Light. A crop that fits between two dates by warmth alone may fail by light, for the
// two do not run together. At 52 degrees the sun gives a September field 57 % and an
// October field 32 % of June's energy, while September's air is as warm as late May's
// (KNMI station 283): degree-days count those weeks as full growth, but the leaves
// cannot pay for it.
//
// Two rules are here: LeafLightHours, growers' practice, and EffectiveDegreeDay, a
// published form. The radiation comes from Tmin and Tmax, by Hargreaves and Samani.

// LeafLightHours is the day length in hours, sunrise to sunset, below which leaf crops
// all but stop growing, though they stand and can be picked: common practice (for one,
// Michigan State University's student farm, vegetablegrowersnews.com, "Winter hoop house
// production set by timing": 75 % of full size by the last 10-hour day). It is not a
// threshold in the plant: cold comes with short days, and kale and spinach still grow on
// sunny ones.
const LeafLightHours = 10.0

// extraterrestrial returns the sun's energy on a level place above the air, in
// MJ/m2 a day, for a latitude in degrees and a day of the year, 1 to 366 (FAO-56, Allen
// et al. 1998, eq. 21, with eqs. 23 to 25).
func extraterrestrial(latitude float64, yearDay int) float64 {
	phi, decl := latitude*math.Pi/180, declination(yearDay)
	ws := sunsetAngle(latitude, yearDay, 0)
	dr := 1 + 0.033*math.Cos(2*math.Pi*float64(yearDay)/365) // eq. 23
	const solar = 0.0820                                     // MJ/m2 a minute
	return max(0, 24*60/math.Pi*solar*dr*
		(ws*math.Sin(phi)*math.Sin(decl)+math.Cos(phi)*math.Cos(decl)*math.Sin(ws)))
}

// ExtraterrestrialRadiations returns the sun's energy above the air for each day of the
// season, season day 0 first, so that a day loop looks it up.
func (c Calendar) ExtraterrestrialRadiations(latitude float64) [YearDays]float64 {
	var t [YearDays]float64
	for i := range t {
		t[i] = extraterrestrial(latitude, c.yearDay(SeasonDay(i)))
	}
	return t
}

// Inland is the coefficient of Hargreaves and Samani's radiation away from coasts, in per root °C (FAO-56 p. 60).
const Inland = 0.16

// clearSky is the share of extraterrestrial radiation that a clear sky lets through at
// sea level (FAO-56 eq. 37).
const clearSky = 0.75

// SolarRadiation returns the sun's energy at the ground in MJ/m2 a day: k Ra
// sqrt(Tmax-Tmin), but not above a clear sky's (FAO-56 eq. 50, after Hargreaves and
// Samani 1982). ra is the sun's energy above the air and k a coefficient such as Inland. It is NaN
// when a temperature is, and 0 when Tmin is above Tmax.
//
// Measured against the pyranometer of KNMI station 283 (52 N, 13,321 days) with Inland:
// correlation from day to day 0.75 to 0.8 from March to September, 0.4 to 0.5 in
// December and January; 11 to 14 % too bright from February to October, 17 to 27 % in
// winter, of 2 MJ. Being the same at home and away, that is taken up by the f of
// EffectiveDegreeDay and by crops' sums, which are fitted with it.
func SolarRadiation(k, tmin, tmax, ra float64) float64 {
	if tmax < tmin {
		return 0
	}
	return min(k*math.Sqrt(tmax-tmin), clearSky) * ra
}

// EffectiveDegreeDay returns the degree-days of a day that its light can support, from
// the day's degree-days and its radiation in MJ/m2 (Scaife, Cox and Morris 1987, Ann. Bot.
// 59, 325-334, from memory):
//
//	1/EDD = 1/D + f/R
//
// With plenty of light it is D, with plenty of warmth R/f. Theirs counts D above 0 °C; that it
// is taken above each crop's own base is our step. So is f, the light that growth wants in
// MJ/m2 a °C-day: of values from 0.35 to 2, predicted from other dates of the same crop in England
// and Minnesota, 12 crops did best with 0.7 to 2, leaves about 1, roots 2.
func EffectiveDegreeDay(d, radiation, f float64) float64 {
	if d <= 0 || radiation <= 0 {
		return 0
	}
	return d * radiation / (radiation + f*d)
}

// fullLight is the radiation, in MJ/m2 a day, of an English early summer: the mean of May,
// June and July as measured at KNMI station 283 (18.1, 19.2 and 18.3).
const fullLight = 18.0
