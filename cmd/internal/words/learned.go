package words

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/risk"
)

// Learned says what a garden's own first pickings, on dates, say of a crop, whose catalogue sum is usual, °C-days.
func Learned(crops string, l risk.Learned, usual float64, dates []climate.Day, u Units) string {
	w := ""
	if l.Years > 0 {
		off := math.Round(u.Difference(usual * (l.Factor - 1)))
		how := fmt.Sprintf("%.0f %s later than usual", off, u.DegreeDays())
		switch {
		case off < 0:
			how = fmt.Sprintf("%.0f %s earlier than usual", -off, u.DegreeDays())
		case off == 0:
			how = "as usual"
		}
		w = fmt.Sprintf("Your %s: %s, from %s in the diary; plans, windows and outlooks go by that.", crops, how, Plural(l.Years, "first picking"))
	}
	var odd []string
	for _, i := range l.Odd {
		odd = append(odd, Date(dates[i]))
	}
	if len(odd) > 0 {
		if w != "" {
			w += " "
		}
		w += fmt.Sprintf("Too far off to count: %s first picked on %s. Was that another sowing, or thinnings?", crops, List(odd))
	}
	return w
}
