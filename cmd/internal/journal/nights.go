package journal

import (
	"cmp"
	"slices"

	"frostward/climate"
)

// Nights returns one entry for each date and spot, corrections applied, in order of
// date and spot.
func (l Log) Nights() []Entry {
	type key struct {
		day  climate.Day
		spot string
	}
	at := map[key]int{}
	var out []Entry
	for _, e := range l.Entries {
		k := key{e.Day, e.Spot}
		if i, ok := at[k]; ok {
			out[i] = out[i].with(e)
			continue
		}
		at[k] = len(out)
		out = append(out, e)
	}
	slices.SortStableFunc(out, func(a, b Entry) int {
		return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(a.Spot, b.Spot))
	})
	return out
}
