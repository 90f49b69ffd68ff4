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
	Kind     string // "units", "sign", "swapped", "shift" or "copy"
	About    string // what an Answer names it by
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
		q.About, q.Masked = m.way.about, true
		if m.element != Both {
			q.About += ":" + m.element.String()
		}
		out = append(out, q)
	}
	out = append(out, r.swappedRuns(s)...)
	out = append(out, copyQuestions(flags)...)
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

// copyQuestions asks about days that are left out as copies, a question for each run of them.
func copyQuestions(flags []Flag) (out []Question) {
	var last *Question
	for _, f := range flags {
		if f.Rule != "repeated month" && f.Rule != "repeated days" {
			continue
		}
		if last != nil && f.Day <= last.To+2 {
			last.To = f.Day
			if last.Element != f.Element {
				last.Element = Both
			}
			continue
		}
		out = append(out, Question{f.Day, f.Day, f.Element, "copy", "copy", f.Why, "are these days a copy?", true})
		last = &out[len(out)-1]
	}
	return out
}
