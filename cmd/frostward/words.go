package main

import (
	"fmt"
	"math"
	"strings"

	"frostward/climate"
)

// percent says a chance with its interval: "87 % (78-92)".
func percent(c climate.Chance) string {
	if !c.Known {
		return "not known"
	}
	return fmt.Sprintf("%.0f %% (%.0f-%.0f)", 100*c.Share, 100*c.Low, 100*c.High)
}

// day says a season day, "24 May", or a dash where there is none.
func day(c climate.Calendar, v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return dash
	}
	return c.Words(climate.SeasonDay(math.Round(v)))
}

const dash = "-"

// isoDay is a season day as MM-DD for JSON, nil where there is none.
func isoDay(c climate.Calendar, v float64) *string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	s := c.Format(climate.SeasonDay(math.Round(v)))
	return &s
}

// number is a value for JSON rounded to some decimals, nil where it is not finite.
func number(v float64, decimals int) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	k := math.Pow10(decimals)
	v = math.Round(v*k) / k
	return &v
}

// plural counts things: "1 season", "3 seasons".
func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// list joins words as a sentence does: "a, b and c".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// degrees says a temperature in the unit asked for.
func (a *app) degrees(celsius float64) string {
	if a.fahr {
		return fmt.Sprintf("%.0f °F", climate.Fahrenheit(celsius))
	}
	if celsius == math.Trunc(celsius) {
		return fmt.Sprintf("%.0f °C", celsius)
	}
	return fmt.Sprintf("%.1f °C", celsius)
}
