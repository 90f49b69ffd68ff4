package quality

import "fmt"

const spikeSize = 25.0 // °C from both days beside

// spikes flags values far from both neighbours, on the same side.
func spikes(r *record) []Flag {
	var out []Flag
	for _, e := range []Element{Tmin, Tmax} {
		for i, v := range r.v[e] {
			before, after := r.at(e, i-1), r.at(e, i+1)
			if v-before >= spikeSize && v-after >= spikeSize || before-v >= spikeSize && after-v >= spikeSize {
				out = append(out, r.flag(i, e, fmt.Sprintf("%.1f °C between %.1f and %.1f", v, before, after)))
			}
		}
	}
	return out
}
