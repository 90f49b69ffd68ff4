package quality

import (
	"fmt"
	"slices"

	"frostward/climate"
)

// Question is something about a stretch of the record that its values raise and cannot settle:
// the one who keeps the record may know. From and To are included.
type Question struct {
	From, To climate.Day
	Element  Element
	Kind     string // "units", "swapped", "sign" or "shift"
	Why      string // with the numbers
	Ask      string
	Masked   bool // its values are flagged too, so that nothing rests on them meanwhile
}

func (q Question) String() string {
	return fmt.Sprintf("%v to %v: %v: %s: %s", q.From, q.To, q.Element, q.Why, q.Ask)
}

// Ask returns the questions that a record raises, ordered by day.
func Ask(s climate.Series) []Question {
	r := newRecord(s)
	out := r.swappedStretches()
	r.mask(swapped(r)) // a maximum where the minimum should be can look like tenths
	units := r.unitStretches()
	flags := Check(s) // what is left out cannot raise the questions below
	signs := lostSigns(s, flags, units)
	out = slices.DeleteFunc(out, func(q Question) bool { return explains(signs, int(q.From-s.First), int(q.To-s.First)) })
	for _, u := range units {
		if u.unit.scale < 0 && overlaps(signs, u.segment) {
			continue
		}
		q := r.question(u.segment, u.element, "units", fmt.Sprintf("the values of %d days are far from the usual, and usual if they are %s", u.to-u.from+1, u.unit.name), u.unit.ask)
		q.Masked = true
		out = append(out, q)
	}
	r.mask(slices.DeleteFunc(flags, func(f Flag) bool { return f.Rule == "tmax below tmin" })) // a shift makes such days
	r.take(signs)                                                                              // whose minima do not go with the maxima
	out = append(out, r.shifts()...)
	for _, q := range signs {
		out = append(out, q.Question)
	}
	slices.SortStableFunc(out, func(a, b Question) int { return int(a.From - b.From) })
	return out
}

// question makes a question of a stretch.
func (r *record) question(s segment, e Element, kind, why, ask string) Question {
	return Question{From: r.first + climate.Day(s.from), To: r.first + climate.Day(s.to), Element: e, Kind: kind, Why: why, Ask: ask}
}

// swappedDays is how many days with the maximum below the minimum, without one the right way
// round between them, make a question (our rule).
const swappedDays = 5

// swappedStretches asks whether two columns have changed places.
func (r *record) swappedStretches() []Question {
	var out []Question
	first, last, n := 0, 0, 0
	end := func() {
		if n >= swappedDays {
			q := r.question(segment{first, last, 0}, Both, "swapped",
				fmt.Sprintf("tmin is above tmax on %d days in a row", n), "have the two columns changed places?")
			q.Masked = true
			out = append(out, q)
		}
		n = 0
	}
	for i := range r.len() {
		switch a, b := r.v[Tmin][i], r.v[Tmax][i]; {
		case a > b:
			if n == 0 {
				first = i
			}
			last = i
			n++
		case a < b:
			end()
		}
	}
	end()
	return out
}
