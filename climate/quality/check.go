package quality

import "frostward/climate"

// Check returns the doubtful values of a record, ordered by day.
func Check(s climate.Series) []Flag {
	flags, _ := checked(s)
	return flags
}

// checked makes the rules in their order, and returns the record without what they flag.
func checked(s climate.Series) ([]Flag, *record) {
	r := newRecord(s)
	var out []Flag
	for _, rule := range Rules {
		flags := rule.find(r)
		for i := range flags {
			flags[i].Rule = rule.Name
		}
		r.mask(flags)
		out = append(out, flags...)
	}
	sortFlags(out)
	return out, r
}
