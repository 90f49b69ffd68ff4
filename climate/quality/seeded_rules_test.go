package quality_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"frostward/climate"
	"frostward/climate/quality"
)

// rare are faults of the rules that the kinds of fault do not reach: other rules come first, or the record is too
// short for those that would.
var rare = []kind{
	{name: "an empty form: zeros", plant: func(p *planter) { p.each(40, 1, both, p.notZero(1), p.to(times(0))) }},
	{name: "minima copied as maxima, a month", plant: func(p *planter) {
		p.each(2, 31, both, func(i int) bool { return p.month(i) != p.month(i-1) && p.month(i) == p.month(i+30) },
			func(i int, _ quality.Element) { p.s.Tmax[i] = p.s.Tmin[i] })
	}},
	{name: "same two values, 6 days", plant: func(p *planter) { p.each(20, 6, both, nil, p.flat()) }},
	{name: "maxima 45 °C too high, 2 days", plant: func(p *planter) {
		p.each(4, 2, only(quality.Tmax), nil, p.to(func(v float64) float64 { return v + 45 }))
	}},
}

// A new rule needs its fault among the planted ones.
func TestEveryRuleFindsAPlantedFault(t *testing.T) {
	left := map[string]bool{}
	for _, r := range quality.Rules {
		left[r.Name] = true
	}
	for _, years := range []climate.Day{5, 1, 12} {
		for _, s := range cleanOf(t, shipped) {
			s = s.Between(s.First, min(s.Last(), s.First+years*366))
			for _, k := range append(slices.Clone(rare), kinds...) {
				p := newPlanter(s, 1)
				k.plant(p)
				for _, f := range quality.Check(p.s) {
					day := int(f.Day - s.First)
					if left[f.Rule] && slices.ContainsFunc(p.out, func(o planted) bool { return o.from <= day && day <= o.to }) {
						delete(left, f.Rule)
					}
				}
			}
			if len(left) == 0 {
				return
			}
		}
	}
	assert.Empty(t, left, "rules without a fault that is planted and found by them")
}
