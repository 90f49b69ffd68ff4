package climate

import "math"

// IsSouthern says on which side of the equator a record was measured, by the half of the year that is the warmer.
// It is not ok where the halves are less than 3 °C apart, as in the tropics, or the record has too little of either.
func IsSouthern(s Series) (south, ok bool) {
	var sum [2]float64
	var n [2]int
	for i := range s.Tmin {
		_, m, _ := (s.First + Day(i)).Date()
		half := 0 // November to April
		if m >= 5 && m <= 10 {
			half = 1
		}
		for _, v := range [2]float64{s.Tmin[i], s.Tmax[i]} {
			if !math.IsNaN(v) {
				sum[half] += v
				n[half]++
			}
		}
	}
	if n[0] < 60 || n[1] < 60 {
		return false, false
	}
	d := sum[1]/float64(n[1]) - sum[0]/float64(n[0])
	return d < 0, math.Abs(d) >= 3
}
