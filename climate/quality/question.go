package quality

import (
	"fmt"
	"slices"

	"frostward/climate"
)

// Question is something about some days in a row that their values raise and cannot settle:
// the one who keeps the record may know. From and To are included.
type Question struct {
	From, To climate.Day
	Element  Element
	Kind     string // "units", "sign", "swapped" or "shift"
	Why      string // with the numbers
	Ask      string
	Masked   bool // its values are flagged too, so that nothing rests on them meanwhile
}

func (q Question) String() string {
	return fmt.Sprintf("%v to %v: %v: %s: %s", q.From, q.To, q.Element, q.Why, q.Ask)
}

// Ask returns the questions that a record raises, ordered by day.
func Ask(s climate.Series) []Question {
	flags, r := checked(s)
	var out []Question
	for _, m := range r.found {
		q := r.question(m.segment, m.element, m.way.kind,
			fmt.Sprintf("the values of %d days are unusual, and usual if they are %s", m.days(), m.way.name), m.way.ask)
		q.Masked = true
		out = append(out, q)
	}
	out = append(out, r.swappedRuns(s)...)
	whole := newRecord(s) // a shift makes days that contradict themselves
	whole.mask(slices.DeleteFunc(flags, func(f Flag) bool { return f.Rule == "tmax below tmin" }))
	out = append(out, whole.shifts()...)
	slices.SortStableFunc(out, func(a, b Question) int { return int(a.From - b.From) })
	return out
}

// question makes a question of some days in a row.
func (r *record) question(s segment, e Element, kind, why, ask string) Question {
	return Question{From: r.first + climate.Day(s.from), To: r.first + climate.Day(s.to), Element: e, Kind: kind, Why: why, Ask: ask}
}
