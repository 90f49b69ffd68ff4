package words

import (
	"fmt"

	"frostward/climate"
	"frostward/risk"
)

// Together says what becomes of a garden's plantings in the same years; labels name them.
func Together(t risk.Together, labels []string) string {
	if len(labels) < 2 || !t.Every.Known {
		return ""
	}
	out := fmt.Sprintf("Of %d plantings every one succeeds in %s (%s %%), and nine in ten of them in %s (%s %%).", len(labels),
		InYears(t.Every.Share), Interval(t.Every), InYears(t.NineInTen.Share), Interval(t.NineInTen))
	if t.Fail.Known && t.Fail.Value >= 1 {
		out += fmt.Sprintf(" In a bad year (1 in 10) %.0f or more fail.", t.Fail.Value)
	}
	if t.PairFails.Known && t.PairFails.Share > 0 {
		out += fmt.Sprintf(" Most often together fail %s: both in %s.", List([]string{labels[t.Pair[0]], labels[t.Pair[1]]}), InYears(t.PairFails.Share))
	}
	return out
}

// AnyOf says in how many years at least one of several plantings of a crop succeeds.
func AnyOf(crop string, labels []string, c climate.Chance) string {
	if !c.Known {
		return ""
	}
	return fmt.Sprintf("At least one of the plantings of %s (%s) succeeds in %s (%s %%).", crop, List(labels), InYears(c.Share), Interval(c))
}
