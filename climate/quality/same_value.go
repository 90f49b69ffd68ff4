package quality

import (
	"fmt"
	"math"
)

// Our rules for values held on to.
const (
	sameDays   = 6    // days in a row with the same two values
	sameChance = 1e-4 // chance that a record has one run of one value as long as is flagged
	sameLeast  = 8    // days that such a run has at least
)

// sameDay flags days in a row with the same two values.
func sameDay(r *record) []Flag {
	var out []Flag
	n := r.len()
	for i := 0; i < n; {
		p, ok := r.pair(i)
		j := i + 1
		for ok && j < n && r.v[Tmin][j] == p[0] && r.v[Tmax][j] == p[1] {
			j++
		}
		if j-i >= sameDays {
			for k := i; k < j; k++ {
				out = append(out, r.flag(k, Both, fmt.Sprintf("%.1f and %.1f °C on %d days in a row", p[0], p[1], j-i)))
			}
		}
		i = j
	}
	return out
}

// sameValue flags runs of one value, shorter than the published rule's, that chance would hardly
// make even once in a record of this length: with a share p of days like the day before, a run
// of k days starts on any day with a chance of about p^(k-1). The longest runs of the real
// records tried are as short as that says: five days in 45,000 with p = 0.076.
func sameValue(r *record) []Flag {
	var out []Flag
	for _, e := range []Element{Tmin, Tmax} {
		v := r.v[e]
		same, days := 0.0, 0.0
		for i := 1; i < len(v); i++ {
			switch {
			case v[i] == v[i-1]:
				same++
				days++
			case v[i] != v[i-1] && v[i] == v[i] && v[i-1] == v[i-1]:
				days++
			}
		}
		if days < outlierValues || same == days { // where nothing ever changes no run is out of the ordinary
			continue
		}
		p := max(same, 1) / days
		long := max(sameLeast, 1+int(math.Ceil(math.Log(sameChance/days)/math.Log(p))))
		for i := 0; i < len(v); {
			j := i + 1
			for j < len(v) && v[j] == v[i] {
				j++
			}
			if j-i >= long {
				for k := i; k < j; k++ {
					out = append(out, r.flag(k, e, fmt.Sprintf("%.1f °C on %d days in a row, where %d would be out of the ordinary", v[k], j-i, long)))
				}
			}
			i = j
		}
	}
	return out
}
