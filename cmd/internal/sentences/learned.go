package sentences

import (
	"fmt"
	"math"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/words"
	"frostward/crops"
	"frostward/risk"
)

// Learned says what a garden's own first pickings, on dates, say of a crop, whose catalogue sum is usual, °C-days.
func Learned(crops string, l risk.Learned, usual float64, dates []climate.Day, u words.Units) string {
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
		w = fmt.Sprintf("Your %s: %s, from %s in the diary; plans, windows and outlooks go by that.", crops, how, words.Plural(l.Years, "first picking"))
	}
	var odd []string
	for _, i := range l.Odd {
		odd = append(odd, words.Date(dates[i]))
	}
	if len(odd) > 0 {
		if w != "" {
			w += " "
		}
		w += fmt.Sprintf("Too far off to count: %s first picked on %s. Was that another sowing, or thinnings?", crops, words.List(odd))
	}
	return w
}

// LearnedCold says what the nights that a garden's plantings met say of what kills a crop; ends are when they ended.
func LearnedCold(c crops.Crop, l risk.LearnedCold, ends []climate.Day, u words.Units) string {
	w := ""
	if l.Killed+l.Lived > 0 {
		low, high := l.Range()
		kill := c.KillHardened.Value
		w = fmt.Sprintf("Your %s: killed at about %s, 8 in 10 between %s and %s, where the catalogue has %s; from %s that killed and %s lived through, in the diary. Chances and the nights to come go by that.",
			c.Title, u.Degrees(kill+l.Shift), u.Degrees(kill+low), u.Degrees(kill+high), u.Degrees(kill), words.Plural(l.Killed, "night"), words.Plural(l.Lived, "night"))
	}
	var odd []string
	for _, i := range l.Odd {
		if ends[i] != 0 {
			odd = append(odd, words.Date(ends[i]))
		}
	}
	if len(odd) > 0 {
		w = strings.TrimSpace(w + fmt.Sprintf(" Left out: %s that ended on %s, for no night about then was near what kills or spares them. Was it frost?", c.Title, words.List(odd)))
	}
	return w
}
