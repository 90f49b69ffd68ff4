package climate

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"time"
)

// Written is a date as people write it: 2026-05-28, 05-28, 28 May, 28-May, 28 May 2026, 28/05, 28/05/2026, 28.5. or
// 28.5.2026. Year is 0 where none is given.
type Written struct {
	Year  int
	Month time.Month
	Day   int
}

const couldBe = " could be "

const wantedDate = "wanted a date such as 2026-05-24, 24 May or 05-24"

// forms are the ways to write a date. A named part may be missing.
var forms = sync.OnceValue(func() []*regexp.Regexp {
	var out []*regexp.Regexp
	for _, f := range []string{
		`^(?P<y>\d{4})-(?P<m>\d{2})-(?P<d>\d{2})$`,
		`^(?P<m>\d{2})-(?P<d>\d{2})$`,
		`^(?P<d>\d{1,2})(?:\.|st|nd|rd|th)?[ -]?(?P<name>[A-Za-z]{3,9})\.?(?:[ -]?(?P<y>\d{4}))?$`,
		`^(?P<name>[A-Za-z]{3,9}) (?P<d>\d{1,2})(?:,? (?P<y>\d{4}))?$`,
		`^(?P<d>\d{1,2})\.(?P<m>\d{1,2})\.(?P<y>\d{4})?$`,
		`^(?P<a>\d{1,2})/(?P<b>\d{1,2})(?:/(?P<y>\d{4}))?$`,
	} {
		out = append(out, regexp.MustCompile(f))
	}
	return out
})

// ReadDate reads a date as people write it. What could be two days, such as 05/06, is refused with both read out.
func ReadDate(s string) (Written, error) {
	text := strings.TrimSpace(s)
	for _, f := range forms() {
		m := f.FindStringSubmatch(text)
		if m == nil {
			continue
		}
		part := func(name string) int {
			if i := f.SubexpIndex(name); i > 0 {
				n, _ := strconv.Atoi(m[i]) // digits, or nothing
				return n
			}
			return 0
		}
		if i := f.SubexpIndex("y"); i > 0 && m[i] != "" && part("y") == 0 {
			break // no calendar has a year 0
		}
		w := Written{part("y"), time.Month(part("m")), part("d")}
		if i := f.SubexpIndex("name"); i > 0 {
			if w.Month = monthNamed(m[i]); w.Month == 0 {
				break
			}
		}
		if a, b := part("a"), part("b"); a != 0 {
			day, month := Written{w.Year, time.Month(b), a}, Written{w.Year, time.Month(a), b}
			if w = day; !day.exists() {
				w = month
			} else if month.exists() && a != b {
				return w, fmt.Errorf("%q"+couldBe+"%s or %s; wanted it as %s or %s", s, day.words(), month.words(), day.iso(), month.iso())
			}
		}
		if !w.exists() {
			break
		}
		return w, nil
	}
	return Written{}, fmt.Errorf("%q is not a date; %s", s, wantedDate)
}

// monthNamed is the month of an English name or its beginning; 0 where there is none.
func monthNamed(s string) time.Month {
	for m := time.January; m <= time.December; m++ {
		if name := m.String(); len(s) <= len(name) && strings.EqualFold(s, name[:len(s)]) || strings.EqualFold(s, "sept") && m == time.September {
			return m
		}
	}
	return 0
}

func (w Written) exists() bool {
	year := w.Year
	if year == 0 {
		year = 2000 // a leap year
	}
	return w.Month >= 1 && w.Month <= 12 && w.Day >= 1 && w.Day <= DaysIn(year, w.Month)
}

func (w Written) words() string {
	s := fmt.Sprintf("%d %v", w.Day, w.Month)
	if w.Year != 0 {
		s += fmt.Sprintf(" %d", w.Year)
	}
	return s
}

func (w Written) iso() string {
	if w.Year == 0 {
		return fmt.Sprintf("%02d-%02d", int(w.Month), w.Day)
	}
	return fmt.Sprintf("%04d-%02d-%02d", w.Year, int(w.Month), w.Day)
}

// ReadDay reads a day with its year, as people write it.
func ReadDay(s string) (Day, error) {
	w, err := ReadDate(s)
	switch {
	case err != nil && strings.Contains(err.Error(), couldBe):
		return 0, err
	case err != nil:
		return 0, fmt.Errorf("%q is not a date; wanted one such as 2026-05-24 or 24 May 2026", s)
	case w.Year == 0:
		return 0, fmt.Errorf("%q has no year; wanted a date such as 2026-05-24 or 24 May 2026", s)
	}
	return NewDay(w.Year, w.Month, w.Day), nil
}

// Parse reads a day of the year, as people write it, as a season day.
func (c Calendar) Parse(s string) (SeasonDay, error) {
	w, err := ReadDate(s)
	switch {
	case err != nil && strings.Contains(err.Error(), couldBe):
		return 0, err
	case err != nil:
		return 0, fmt.Errorf("%q is not a day of the year; wanted one such as 24 May or 05-24", s)
	case w.Year != 0:
		return 0, fmt.Errorf("%q has a year; wanted a day of the year, such as 24 May or 05-24", s)
	}
	return c.Of(w.Month, w.Day), nil
}
