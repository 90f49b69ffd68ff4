package sentences

import (
	"fmt"
	"math"
	"slices"

	"frostward/climate/daily"
	"frostward/climate/quality"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/words"
)

// Step says what the test found in one measure.
func Step(u words.Units, s quality.Step) string {
	switch {
	case !s.Significant:
		return "no step"
	case s.Gradual:
		return fmt.Sprintf("no step, but a slow change of %+.2f %s a decade", u.Difference(s.Trend), u.Unit())
	}
	sure := "a step"
	if s.Strongly {
		sure = "a clear step"
	}
	return fmt.Sprintf("%s of %+.1f %s about %v, %d years after the first", sure, u.Difference(s.Size), u.Unit(), s.Date, s.Before)
}

// LoneFrost says why a frost date is doubted.
func LoneFrost(l opened.LoneFrost) string {
	return fmt.Sprintf("%.1f s.d. below what the days beside and its own maximum lead to expect", -l.Off)
}

// ReadingsADay says how many readings the days were made of.
func ReadingsADay(r daily.Report) string {
	var some []int
	for _, n := range r.Readings {
		if n > 0 {
			some = append(some, n)
		}
	}
	if len(some) == 0 {
		return "none"
	}
	slices.Sort(some)
	return fmt.Sprintf("%d readings a day at the median, %d at the least", some[len(some)/2], some[0])
}

// Station names the station and its place, as far as the file does.
func Station(r daily.Report) string {
	out := r.Station
	if r.StationName != "" {
		out += " " + r.StationName
	}
	if !math.IsNaN(r.Latitude) {
		out += fmt.Sprintf(", latitude %.2f", r.Latitude)
	}
	if !math.IsNaN(r.Longitude) {
		out += fmt.Sprintf(", longitude %.2f", r.Longitude)
	}
	if !math.IsNaN(r.Elevation) {
		out += fmt.Sprintf(", %.0f m", r.Elevation)
	}
	if len(out) > 1 && out[0] == ',' {
		out = out[2:]
	}
	return out
}

// MissingYears names the years with the most missing days, at most so many.
func MissingYears(all []opened.MissingYear, most int) string {
	years := slices.Clone(all)
	slices.SortStableFunc(years, func(a, b opened.MissingYear) int { return max(b.Tmin, b.Tmax) - max(a.Tmin, a.Tmax) })
	var said []string
	for _, y := range years[:min(most, len(years))] {
		said = append(said, fmt.Sprintf("%d (%d)", y.Year, max(y.Tmin, y.Tmax)))
	}
	return fmt.Sprintf("Days missing in %s; most in %s.", words.Plural(len(years), "year"), words.List(said))
}
