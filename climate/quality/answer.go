package quality

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"frostward/climate"
)

// Answer is what the one who keeps a record says to a Question.
type Answer struct {
	About    string // as in Question.About
	From, To climate.Day
	Yes      bool
}

// abouts are what may be answered, with what each says of its days.
var abouts = []string{"fahrenheit", "tenths", "celsius", "divided", "no-signs", "swapped", "late", "early", "both-late", "both-early", "copy", "moved"}

// ParseAnswer reads "fahrenheit 1990-12-20 1991-01-28 yes": what it is about, for one element with
// ":tmin" or ":tmax" after it, its first and last day, and yes or no; the day on which it was given may follow.
func ParseAnswer(text string) (a Answer, err error) {
	f := strings.Fields(text)
	if len(f) != 4 && len(f) != 5 {
		return a, fmt.Errorf("%q; wanted what it is about, the first and the last day, and yes or no, such as \"fahrenheit 1990-12-20 1991-01-28 yes\"", text)
	}
	about, element, one := strings.Cut(f[0], ":")
	if !slices.Contains(abouts, about) || one && element != "tmin" && element != "tmax" {
		return a, fmt.Errorf("%q: %q is nothing that is asked; wanted one of %s", text, f[0], strings.Join(abouts, ", "))
	}
	a.About, a.Yes = f[0], f[3] == "yes"
	for i, to := range []*climate.Day{&a.From, &a.To, new(climate.Day)} {
		word := 1 + i
		if i == 2 {
			word = 4
		}
		if word < len(f) {
			if *to, err = climate.ParseDay(f[word]); err != nil {
				return a, fmt.Errorf("%q: %w", text, err)
			}
		}
	}
	switch {
	case f[3] != "yes" && f[3] != "no":
		return a, fmt.Errorf("%q: %q is neither yes nor no", text, f[3])
	case a.To < a.From:
		return a, fmt.Errorf("%q: the last day is before the first", text)
	}
	return a, nil
}

// element is the element that an answer is about, from its ending.
func (a Answer) element(e Element) bool {
	_, of, one := strings.Cut(a.About, ":")
	return !one || of == e.String()
}

// covers says whether it answers for a day.
func (a Answer) covers(d climate.Day) bool { return a.From <= d && d <= a.To }

// Answered returns a record read as the answers say: what was in another unit is put into °C,
// columns that changed places are put back, maxima a day off are moved, and what lost its minus
// signs is left out; the record begins when its thermometer was last moved.
func Answered(s climate.Series, answers []Answer) climate.Series {
	if len(answers) == 0 || s.Len() == 0 {
		return s
	}
	was, out, from := s, s.Clone(), s.First
	for _, a := range answers {
		if !a.Yes {
			continue
		}
		about, _, _ := strings.Cut(a.About, ":")
		if about == "moved" {
			from = max(from, a.From)
			continue
		}
		for d := max(a.From, s.First); d <= min(a.To, s.Last()); d++ {
			i := int(d - s.First)
			switch about {
			case "swapped":
				out.Tmin[i], out.Tmax[i] = was.Tmax[i], was.Tmin[i]
				continue
			case "late", "early", "both-late", "both-early":
				day := s.First + climate.Day(i) + 1
				if strings.HasSuffix(about, "early") {
					day -= 2
				}
				n, x := math.NaN(), math.NaN()
				if a.covers(day) {
					n, x = was.At(day)
				}
				out.Tmax[i] = x
				if strings.HasPrefix(about, "both") {
					out.Tmin[i] = n
				}
				continue
			}
			for e, v := range [][]float64{out.Tmin, out.Tmax} {
				if !a.element(Element(e)) {
					continue
				}
				w := slices.IndexFunc(ways, func(w way) bool { return w.about == about })
				if w < 0 || ways[w].scale < 0 { // no way back
					v[i] = math.NaN()
				} else {
					v[i] = ways[w].scale*v[i] + ways[w].offset
				}
			}
		}
	}
	return out.Between(from, s.Last())
}

// Settled drops the flags of values that an answer says are right as they stand.
func Settled(flags []Flag, answers []Answer) []Flag {
	return slices.DeleteFunc(flags, func(f Flag) bool {
		return slices.ContainsFunc(answers, func(a Answer) bool {
			return !a.Yes && a.covers(f.Day) && slices.Contains([]string{"misread days", "swapped", "repeated month", "repeated days"}, f.Rule)
		})
	})
}

// Open returns the questions that the answers do not settle: none with the same subject that
// takes in half its days.
func Open(questions []Question, answers []Answer) []Question {
	return slices.DeleteFunc(questions, func(q Question) bool {
		return slices.ContainsFunc(answers, func(a Answer) bool {
			return a.About == q.About && 2*(min(a.To, q.To)-max(a.From, q.From)+1) >= q.To-q.From+1
		})
	})
}

// Moved says whether an answer settles a step: one about a day within three years of it.
func Moved(step Step, answers []Answer) bool {
	return slices.ContainsFunc(answers, func(a Answer) bool {
		return a.About == "moved" && math.Abs(float64(a.From-step.Date)) < 3*365
	})
}
