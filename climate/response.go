package climate

import "math"

// Response says how a crop's growth answers to a day's temperature and light: its cardinal
// temperatures, in °C, and how much light its growth wants.
type Response struct {
	Base    float64 // nothing grows at or below it
	Optimum float64 // growth is level from here, for levelPart
	Ceiling float64 // nothing grows at or above it, and in between it falls in a straight line; +Inf: it never falls
	Light   float64 // f of EffectiveDegreeDay, MJ/m2 a °C-day; 0: light does not matter
}

// levelPart is over how many °C growth stays at its best. Of six shapes (level, two straight
// lines, Wang & Engel 1998, Yan & Hunt 1999 and horizontal limits) all but the horizontal limit
// came within 0.2 days of each other on 49 dates of 12 crops in England and Minnesota; this is
// the one that is quick to work out and slows in real heat. The width is ours.
const levelPart = 6.0

// Warmth returns the day's degree-days that the crop can use, whatever the light: the mean over
// a sine between the minimum and the maximum (see SingleSine). NaN where a temperature is.
func (r Response) Warmth(tmin, tmax float64) float64 {
	if tmin > tmax {
		tmin, tmax = tmax, tmin
	}
	switch {
	case tmin != tmin || tmax != tmax:
		return math.NaN()
	case tmax <= r.Base:
		return 0
	}
	w := above(tmin, tmax, r.Base, true)
	if tmax <= r.Optimum {
		return w
	}
	w -= above(tmin, tmax, r.Optimum, true)
	if fall := r.Optimum + levelPart; tmax > fall && !math.IsInf(r.Ceiling, 1) {
		// Straight down from the level to nothing at the ceiling.
		slope := (r.Optimum - r.Base) / (r.Ceiling - fall)
		w -= slope * above(tmin, tmax, fall, true)
		if tmax > r.Ceiling {
			w += slope * above(tmin, tmax, r.Ceiling, true)
		}
	}
	return max(0, w)
}

// Effective returns the effective day-degrees of a day: its warmth, as much of it as its
// radiation in MJ/m2 supports.
func (r Response) Effective(tmin, tmax, radiation float64) float64 {
	d := r.Warmth(tmin, tmax)
	if r.Light == 0 || !(d > 0) {
		return d
	}
	return EffectiveDegreeDay(d, radiation, r.Light)
}

// InFullLight returns what a day of so many effective day-degrees would have been under
// fullLight: never less than it was.
func (r Response) InFullLight(effective, radiation float64) float64 {
	left := radiation - r.Light*effective
	if r.Light == 0 || !(effective > 0) || !(left > 0) {
		return effective
	}
	return max(effective, EffectiveDegreeDay(effective*radiation/left, fullLight, r.Light))
}
