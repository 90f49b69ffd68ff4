package night

import "math"

// SquareRootMin returns the minimum at sunrise from the temperature two hours after
// sunset and a later one. On a night of steady radiation
//
//	T = T2 + (Tmin - T2) * sqrt(hours - 2)/sqrt(length - 2)
//
// length being from sunset to sunrise in hours (Snyder & de Melo-Abreu 2005, FAO Frost
// Protection vol. 1 ch. 5; the square root after Brunt); here it is solved for Tmin. The later reading must be taken
// at least an hour after the first, or the reading's own error swamps the cooling; NaN
// otherwise.
func SquareRootMin(t2, later, hours, length float64) float64 {
	if hours < 3 || hours > length {
		return math.NaN()
	}
	return t2 + (later-t2)*math.Sqrt((length-2)/(hours-2))
}

// SquareRootSD is the standard deviation of SquareRootMin, °C: 1.5 °C for the method
// (frost was called to within that at most of 24 stations in Trentino, Hrvatski
// meteoroloski casopis, from its abstract), and 0.3 °C for each reading, stretched as
// the readings are.
func SquareRootSD(hours, length float64) float64 {
	const method, reading = 1.5, 0.3
	k := math.Sqrt((length - 2) / (hours - 2))
	return math.Sqrt(method*method + reading*reading*(k*k+(k-1)*(k-1)))
}

// Reaches returns how many hours after sunset a temperature is first reached, by the
// formula of SquareRootMin; Inf when the night stays above it, 2 when it is there from the first.
func Reaches(limit, t2, tmin, length float64) float64 {
	switch {
	case t2 <= limit:
		return 2
	case !(tmin <= limit):
		return math.Inf(1)
	}
	f := (limit - t2) / (tmin - t2)
	return 2 + f*f*(length-2)
}
