package quality

import (
	"fmt"
	"math"
)

// zeroF is 0 °F in °C as records round it.
const zeroF = -17.8

// bothZero flags days whose two values are both 0 °C or both 0 °F.
func bothZero(r *record) []Flag {
	var out []Flag
	for i := range r.len() {
		n, x := r.v[Tmin][i], r.v[Tmax][i]
		if n == 0 && x == 0 || math.Abs(n-zeroF) < 0.05 && math.Abs(x-zeroF) < 0.05 {
			out = append(out, r.flag(i, Both, fmt.Sprintf("both are %.1f °C", n)))
		}
	}
	return out
}
