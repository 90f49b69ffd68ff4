package risk

import "gonum.org/v1/gonum/stat/distuv"

const normalBits = 12

// normalTable has standard normal quantiles at evenly spaced chances: 4096 steps are
// finer than anything known about a cover's gain.
var normalTable = func() (t [1 << normalBits]float64) {
	for i := range t {
		t[i] = distuv.UnitNormal.Quantile((float64(i) + 0.5) / (1 << normalBits))
	}
	return t
}()
