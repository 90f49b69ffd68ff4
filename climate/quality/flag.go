package quality

import (
	"fmt"
	"math"
	"sort"

	"frostward/climate"
)

// Element is one of the two temperatures of a day.
type Element int8

// The elements. Both is for rules that doubt the day and do not know which is wrong.
const (
	Tmin Element = iota
	Tmax
	Both
)

func (e Element) String() string { return [...]string{"tmin", "tmax", "tmin and tmax"}[e] }

// Flag is one value, or both of a day, that a rule doubts.
type Flag struct {
	Day     climate.Day
	Element Element
	Rule    string // the rule's name, as in Rules
	Why     string // with the numbers
}

func (f Flag) String() string {
	return fmt.Sprintf("%v: %v: %s: %s", f.Day, f.Element, f.Rule, f.Why)
}

// Values counts the values that flags doubt: a flag may doubt both of a day.
func Values(flags []Flag) int {
	n := len(flags)
	for _, f := range flags {
		if f.Element == Both {
			n++
		}
	}
	return n
}

// Mask returns a copy of a record in which the flagged values are missing.
func Mask(s climate.Series, flags []Flag) climate.Series {
	out := s.Clone()
	for _, f := range flags {
		i := int(f.Day - s.First)
		if i < 0 || i >= s.Len() {
			continue
		}
		if f.Element != Tmax {
			out.Tmin[i] = math.NaN()
		}
		if f.Element != Tmin {
			out.Tmax[i] = math.NaN()
		}
	}
	return out
}

// sortFlags orders flags by day, element and rule.
func sortFlags(flags []Flag) {
	sort.Slice(flags, func(i, j int) bool {
		a, b := flags[i], flags[j]
		if a.Day != b.Day {
			return a.Day < b.Day
		}
		if a.Element != b.Element {
			return a.Element < b.Element
		}
		return a.Rule < b.Rule
	})
}
