package quality

import (
	"frostward/climate"
)

// Checker checks one record after another, for one goroutine. Its zero value is ready. It keeps
// its memory, a megabyte or two and 50 bytes a day of the longest record so far, since making
// it anew costs more than most of the rules do.
type Checker struct {
	r     record
	flags []Flag
}

// Check returns the doubtful values of a record, ordered by day. They are of use until the next
// call.
func (c *Checker) Check(s climate.Series) []Flag {
	r := &c.r
	r.reset(s)
	c.flags = c.flags[:0]
	for _, rule := range Rules {
		if rule.quiet != nil && rule.quiet(r) {
			continue
		}
		flags := rule.find(r)
		for i := range flags {
			flags[i].Rule = rule.Name
		}
		r.mask(flags)
		c.flags = append(c.flags, flags...)
	}
	sortFlags(c.flags)
	return c.flags
}

// Masked returns the doubtful values, as Check does, and the record without them, as Mask does.
// Both are of use until the next call.
func (c *Checker) Masked(s climate.Series) ([]Flag, climate.Series) {
	flags := c.Check(s)
	return flags, climate.Series{First: s.First, Tmin: c.r.v[Tmin], Tmax: c.r.v[Tmax]}
}

// Check returns the doubtful values of a record, ordered by day.
func Check(s climate.Series) []Flag { return new(Checker).Check(s) }
