package words

import (
	"fmt"
	"math"

	"frostward/climate/site"
)

// Spot says what a fit means, of a spot named so, such as "on clear nights this spot is 3.1 °C
// colder than the station, on overcast or windy ones 0.6 °C colder (30 mornings)".
func (u Units) Spot(name string, s site.Summary) string {
	if s.Prior.Identity() {
		return name + " is the station"
	}
	basis := "no mornings logged yet: taken as usual for " + s.Prior.Title
	if s.Used > 0 {
		basis = Plural(s.Used, "morning")
	}
	clear, join := u.gap(s.Clear.Mean)
	dull, _ := u.gap(s.Dull.Mean)
	return fmt.Sprintf("on clear nights %s is %s %s the station, on overcast or windy ones %s (%s)", name, clear, join, dull, basis)
}

// Gap says a difference from the station: "3.1 °C colder than", "as cold as".
func (u Units) Gap(celsius float64) string {
	gap, join := u.gap(celsius)
	return gap + " " + join
}

func (u Units) gap(celsius float64) (gap, join string) {
	word := "colder"
	switch t := math.Round(celsius*10) / 10; {
	case t == 0:
		return "as cold", "as"
	case t > 0:
		word = "warmer"
	}
	return fmt.Sprintf("%.1f %s %s", math.Abs(u.Difference(celsius)), u.Unit(), word), "than"
}
