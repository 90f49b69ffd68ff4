package batch

import (
	"fmt"
	"slices"
	"strings"

	"frostward/climate"
)

// kind is what the values of a column are, blanks aside.
type kind int

const (
	text   kind = iota // words, names, and MM-DD or "none"
	date               // YYYY-MM-DD
	count              // whole
	number             // of some decimals
	days               // whole, or "none"
)

type column struct {
	name string
	kind kind
}

// The columns that every row has, in order. Status is "done", or why there is no more.
var stationColumns = []column{
	{"station", text}, {"source", text}, {"status", text}, {"why", text}, {"name", text},
	{"latitude", number}, {"latitude_from", text}, {"longitude", number}, {"elevation_m", number},
	{"first", date}, {"last", date}, {"days", count}, {"missing_tmin", count}, {"missing_tmax", count},
	{"faults", count}, {"coded", count}, {"flagged_in_file", count}, {"doubtful", count},
	{"season_first", count}, {"season_last", count},
}

var (
	halves = [...]string{"spring", "autumn", "frost_free_days"}
	ways   = [...]climate.By{climate.ByRecord, climate.ByCurve}
)

var cropColumns = []column{
	{"start", text}, {"seasons", count}, {"left_out", count}, {"succeeds", number}, {"succeeds_low", number},
	{"succeeds_high", number}, {"survives", number}, {"ripens", number}, {"first_sound", text}, {"last_sound", text},
	{"ready", text}, {"ready_low", text}, {"ready_high", text}, {"cold_nights", count},
}

// Columns returns the names of the fields of a row.
func (s *Settings) Columns() []string {
	var out []string
	for _, c := range s.columns() {
		out = append(out, c.name)
	}
	return out
}

// columns returns the fields of a row.
//
// The frosts at each threshold have, for spring, autumn and frost_free_days, the seasons that
// count and how many had a frost, and then by each way the date (or days) at each chance with
// the ends of its 90 % interval: spring_0c_record_10 is the date on or after which the last
// spring frost comes in 10 % of seasons, autumn_... on or before which the first autumn frost
// does, frost_free_days_... at least so many days.
func (s *Settings) columns() []column {
	out := slices.Clone(stationColumns)
	for _, t := range s.Thresholds {
		for _, half := range halves {
			out = append(out, column{key(half, degrees(t), "seasons"), count}, column{key(half, degrees(t), "with_frost"), count})
			of := text
			if half == "frost_free_days" {
				of = days
			}
			for _, by := range ways {
				for _, c := range Chances {
					at := key(half, degrees(t), by.String(), fmt.Sprintf("%.0f", 100*c))
					out = append(out, column{at, of}, column{at + "_low", of}, column{at + "_high", of})
				}
			}
		}
	}
	for _, c := range s.Crops {
		for _, of := range cropColumns {
			out = append(out, column{key(cropKey(c), of.name), of.kind})
		}
		if s.ByDay {
			out = append(out, column{key(cropKey(c), "succeeds_by_day"), text})
		}
	}
	return out
}

func key(parts ...string) string { return strings.Join(parts, "_") }

// degrees names a temperature: 0c, 2c, minus_2c, 1_5c.
func degrees(t float64) string {
	s := strings.ReplaceAll(fmt.Sprint(t), ".", "_")
	if rest, ok := strings.CutPrefix(s, "-"); ok {
		s = "minus_" + rest
	}
	return s + "c"
}

// cropKey names a crop: sweet_corn_early, and sweet_corn_early_sown if it is sown in place.
func cropKey(c Crop) string {
	s := strings.Map(func(r rune) rune {
		switch {
		case r >= 'A' && r <= 'Z':
			return r + 'a' - 'A'
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			return r
		}
		return '_'
	}, strings.ReplaceAll(c.Label(), ", ", " "))
	if !c.Raised {
		s += "_sown"
	}
	return s
}
