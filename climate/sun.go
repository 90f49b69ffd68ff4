package climate

import "math"

// SunState says whether the sun crosses the horizon on a day. The zero value is the
// ordinary case.
type SunState int8

const (
	RisesAndSets SunState = iota
	UpAllDay              // midnight sun
	DownAllDay            // polar night
)

// SunTimes are the sun's rising and setting on one day, as hours from 0 h UTC of that
// day. They are instants, not clock times: west of Greenwich a sunset may lie past 24,
// east of it a sunrise before 0, and near the polar circle in June the sun may set
// after the next midnight.
type SunTimes struct {
	State SunState
	Noon  float64 // the sun's highest, hours from 0 h UTC of the day; always known
	Rise  float64 // the rising before Noon; NaN unless RisesAndSets
	Set   float64 // the setting after Noon; NaN unless RisesAndSets
}

// sunHorizon is the height in degrees of the sun's centre when its upper edge touches
// a flat horizon: half a degree-wide disc and 34' of refraction (Meeus 1998,
// Astronomical Algorithms, ch. 15; also the NOAA calculator).
const sunHorizon = -0.833

// SunAt returns the rising and setting of a day for a latitude and longitude in
// degrees, south and west negative. The day is the place's own by the sun: Noon is the
// one nearest to 12 h of local mean time, -12 h to +36 h UTC.
//
// The equations are Meeus's (1998, ch. 25 low accuracy and ch. 28) as NOAA's Global
// Monitoring Laboratory sets them out in its solar calculation sheet; a departure is
// that rising and setting are each worked out at their own instant, in three rounds,
// and not from the noon's declination. Against the ephemeris in
// testdata/published/sun-ephem.csv it is right to about 10 s up to 65 degrees and to
// about a minute further poleward near the days when the state changes. Hills, height
// above the sea and unusual air move what a grower sees by minutes.
func SunAt(d Day, latitude, longitude float64) SunTimes {
	noon := 12 - longitude/15
	for i := 0; i < 2; i++ {
		_, eot := sunPosition(d, noon)
		noon = 12 - longitude/15 - eot/60
	}
	t := SunTimes{Noon: noon, Rise: math.NaN(), Set: math.NaN()}
	rise, state := crossing(d, latitude, longitude, noon, -1)
	if state == RisesAndSets {
		var set float64
		if set, state = crossing(d, latitude, longitude, noon, +1); state == RisesAndSets {
			t.Rise, t.Set = rise, set
		}
	}
	t.State = state
	return t
}

// crossing returns when the sun crosses the horizon before (side -1) or after (+1)
// noon, in hours from 0 h UTC of the day.
func crossing(d Day, latitude, longitude, noon, side float64) (float64, SunState) {
	t := noon + 6*side
	for i := 0; i < 4; i++ {
		decl, eot := sunPosition(d, t)
		ha, state := hourAngle(latitude*math.Pi/180, decl, sunHorizon*math.Pi/180)
		if state != RisesAndSets {
			// Judge by the noon's declination, so that both sides agree but for the
			// days on which the state itself changes.
			decl, _ = sunPosition(d, noon)
			if ha, state = hourAngle(latitude*math.Pi/180, decl, sunHorizon*math.Pi/180); state != RisesAndSets {
				return math.NaN(), state
			}
		}
		t = 12 - longitude/15 - eot/60 + side*ha*12/math.Pi
	}
	return t, RisesAndSets
}

// length returns the hours between rising and setting, 0 to 24.
func (t SunTimes) length() float64 {
	switch t.State {
	case UpAllDay:
		return 24
	case DownAllDay:
		return 0
	}
	return t.Set - t.Rise
}

// hourAngle returns the angle, in radians, between noon and the sun's passing a height
// h0: cos H = (sin h0 - sin phi sin delta)/(cos phi cos delta), Meeus 1998 (15.1). It is
// pi when the sun stays above, 0 when it stays below.
func hourAngle(latitude, declination, h0 float64) (float64, SunState) {
	// At a pole cos phi is all but 0, and the sign of the numerator decides.
	c := (math.Sin(h0) - math.Sin(latitude)*math.Sin(declination)) / (math.Cos(latitude) * math.Cos(declination))
	switch {
	case c < -1:
		return math.Pi, UpAllDay
	case c > 1:
		return 0, DownAllDay
	}
	return math.Acos(c), RisesAndSets
}

// sunPosition returns the sun's apparent declination in radians and the equation of
// time in minutes, at a number of hours after 0 h UTC of a day. Comments give Meeus
// 1998's equations. Terrestrial time is taken as UTC: the minute between them moves
// the declination by less than 0.0003 degrees.
func sunPosition(d Day, hours float64) (declination, equationOfTime float64) {
	const deg = math.Pi / 180
	// Julian centuries from J2000.0, (25.1); JD 2440587.5 is 0 h on 1 January 1970.
	T := (float64(d) + hours/24 + 2440587.5 - 2451545) / 36525
	L := (280.46646 + T*(36000.76983+T*0.0003032)) * deg  // mean longitude, (25.2)
	M := (357.52911 + T*(35999.05029-T*0.0001537)) * deg  // mean anomaly, (25.3)
	e := 0.016708634 - T*(0.000042037+T*0.0000001267)     // eccentricity, (25.4)
	C := (1.914602-T*(0.004817+T*0.000014))*math.Sin(M) + // equation of centre, p. 164
		(0.019993-T*0.000101)*math.Sin(2*M) + 0.000289*math.Sin(3*M) //
	omega := (125.04 - 1934.136*T) * deg                                         // node of the moon, p. 164
	lambda := L + (C-0.00569-0.00478*math.Sin(omega))*deg                        // apparent longitude
	eps := (23.43929111-T*(0.013004167+T*(0.00000016389-T*0.00000050361)))*deg + // obliquity, (22.2)
		0.00256*deg*math.Cos(omega) // (25.8)
	declination = math.Asin(math.Sin(eps) * math.Sin(lambda)) // (25.7)

	y := math.Tan(eps / 2)
	y *= y
	sinM := math.Sin(M)
	E := y*math.Sin(2*L) - 2*e*sinM + 4*e*y*sinM*math.Cos(2*L) -
		y*y/2*math.Sin(4*L) - 1.25*e*e*math.Sin(2*M) // (28.3)
	return declination, E / deg * 4
}
