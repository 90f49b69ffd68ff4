package night

import "math"

// kRange is McKenzie's constant for a class of sky and wind, °C.
type kRange struct{ low, high float64 }

// mckenzieK has a row a class of wind from calm to brisk, a column a class of cloud
// from clear to overcast. "stated" ranges are those of the Met Office practice of 1944
// as forecasters pass it on (weatherfaqs.org.uk/node/149); the others lie between
// their neighbours and are ours.
var mckenzieK = [4][4]kRange{
	//  clear       little      broken      overcast
	{{8, 9}, {7, 8.5}, {5, 7}, {2.5, 4}}, // calm: clear stated
	{{7, 8.5}, {6, 8}, {4, 7}, {2, 3}},   // light: little, broken, overcast stated
	{{4, 5.5}, {3, 5}, {2, 4}, {1, 2}},   // moderate: little, broken, overcast stated
	{{1.5, 2.5}, {1, 2}, {1, 2}, {1, 2}}, // brisk: stated for any sky
}

// mckenzieSpread is the standard deviation of the formula's own error, °C, beside what
// the range of K leaves open. Stated without a source; a log of errors replaces it.
const mckenzieSpread = 1.8

// McKenzie returns the minimum in the screen and its standard deviation from the day's
// maximum and the dew point at that hour, °C (McKenzie 1944):
//
//	Tmin = (Tmax + DewPoint)/2 - K
//
// with K by cloud and wind through the night. NaN where one of the four is not known.
func McKenzie(tmax, dewPoint float64, c Cloud, w Wind) (tmin, sd float64) {
	if c == CloudUnknown || w == WindUnknown {
		return math.NaN(), math.NaN()
	}
	k := mckenzieK[w-Calm][c-Clear]
	return (tmax+dewPoint)/2 - (k.low+k.high)/2, math.Hypot(mckenzieSpread, (k.high-k.low)/2)
}

// CraddockPritchard returns the minimum in the screen and its standard deviation from
// temperature and dew point at noon, °C (Craddock & Pritchard 1951, for inland
// stations in Britain):
//
//	Tmin = 0.316*T + 0.548*DewPoint - 1.24 + K
//
// K goes from -2.2 when near calm and clear to 2 or 3 when windy and mostly cloudy;
// the classes between lie on a plane between those ends, which is ours.
func CraddockPritchard(noon, dewPoint float64, c Cloud, w Wind) (tmin, sd float64) {
	if c == CloudUnknown || w == WindUnknown {
		return math.NaN(), math.NaN()
	}
	const near, far = -2.2, 2.5
	k := near + (far-near)*float64(c-Clear+Cloud(w-Calm))/6
	return 0.316*noon + 0.548*dewPoint - 1.24 + k, mckenzieSpread
}
