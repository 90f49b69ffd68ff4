package quality

import "fmt"

// The lowest and the highest temperature measured in the world, °C, as Durre et al. 2010 have them.
const (
	worldLow  = -89.4
	worldHigh = 57.7
)

// inWorld says whether a value is measured and within the world's records.
func inWorld(v float64) bool { return v >= worldLow && v <= worldHigh }

// bounds flags values outside the world's records.
func bounds(r *record) []Flag {
	var out []Flag
	for _, e := range []Element{Tmin, Tmax} {
		for i, v := range r.v[e] {
			if v < worldLow || v > worldHigh {
				out = append(out, r.flag(i, e, fmt.Sprintf("%.1f °C is outside %.1f to %.1f", v, worldLow, worldHigh)))
			}
		}
	}
	return out
}
