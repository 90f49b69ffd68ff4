package batch

import (
	"fmt"
	"slices"
	"strings"

	"frostward/climate"
)

// The columns that every row has, in order. Status is "done", or why there is no more.
var stationColumns = []string{
	"station", "source", "status", "why", "name",
	"latitude", "latitude_from", "longitude", "elevation_m",
	"first", "last", "days", "missing_tmin", "missing_tmax",
	"faults", "coded", "flagged_in_file", "doubtful",
	"season_first", "season_last",
}

var (
	halves = [...]string{"spring", "autumn", "frost_free_days"}
	ways   = [...]climate.By{climate.ByRecord, climate.ByCurve}
)

var cropColumns = []string{
	"start", "seasons", "left_out", "succeeds", "succeeds_low",
	"succeeds_high", "survives", "ripens", "first_sound", "last_sound",
	"ready", "ready_low", "ready_high", "cold_nights",
}

// columns returns the names of the fields of a row.
//
// The frosts at each threshold have, for spring, autumn and frost_free_days, the seasons that
// count and how many had a frost, and then by each way the date (or days) at each chance with
// the ends of its 90 % interval: spring_0c_record_10 is the date on or after which the last
// spring frost comes in 10 % of seasons, autumn_... on or before which the first autumn frost
// does, frost_free_days_... at least so many days.
func (s *Settings) columns() []string {
	out := slices.Clone(stationColumns)
	for _, t := range s.Thresholds {
		for _, half := range halves {
			out = append(out, key(half, degrees(t), "seasons"), key(half, degrees(t), "with_frost"))
			for _, by := range ways {
				for _, c := range chances {
					at := key(half, degrees(t), by.String(), fmt.Sprintf("%.0f", 100*c))
					out = append(out, at, at+"_low", at+"_high")
				}
			}
		}
	}
	for _, c := range s.Crops {
		for _, of := range cropColumns {
			out = append(out, key(cropKey(c), of))
		}
		if s.ByDay {
			out = append(out, key(cropKey(c), "succeeds_by_day"))
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
