package sentences

import (
	"fmt"
	"math"

	"frostward/climate/site"
	"frostward/cmd/internal/words"
)

// Spot says what a fit means, of a spot named so, such as "on clear nights this spot is 3.1 °C
// colder than the station, on overcast or windy ones 0.6 °C colder (30 mornings)".
func Spot(u words.Units, name string, s site.Summary) string {
	if s.Prior.Identity() {
		return name + " is the station"
	}
	basis := "no mornings logged yet: taken as usual for " + s.Prior.Title
	if s.Used > 0 {
		basis = words.Plural(s.Used, "morning")
	}
	clear, join := gap(u, s.Clear.Mean)
	dull, _ := gap(u, s.Dull.Mean)
	return fmt.Sprintf("on clear nights %s is %s %s the station, on overcast or windy ones %s (%s)", name, clear, join, dull, basis)
}

// Gap says a difference from the station: "3.1 °C colder than", "as cold as".
func Gap(u words.Units, celsius float64) string {
	gap, join := gap(u, celsius)
	return gap + " " + join
}

func gap(u words.Units, celsius float64) (gap, join string) {
	word := "colder"
	switch t := math.Round(celsius*10) / 10; {
	case t == 0:
		return "as cold", "as"
	case t > 0:
		word = "warmer"
	}
	return fmt.Sprintf("%.1f %s %s", math.Abs(u.Difference(celsius)), u.Unit(), word), "than"
}
