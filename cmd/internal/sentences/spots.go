package sentences

import (
	"fmt"
	"math"

	"frostward/climate/site"
	"frostward/cmd/internal/opened"
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

// gap says a difference from the station: "3.1 °C colder" and "than", "as cold" and "as".
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

// Stations says where the garden lies and how much each station countg.
func Stations(g *opened.Garden) string {
	if len(g.Stations) == 1 {
		return fmt.Sprintf("the garden is %.0f km from the station and %+.0f m against it.", g.Place.Km, g.Place.Rise)
	}
	out := "the station is the weighted mean of several:"
	for i, at := range g.Stations {
		name := g.Settings.Stations[i].Name
		if name == "" {
			name = g.Settings.Stations[i].File
		}
		if i > 0 {
			out += ","
		}
		out += fmt.Sprintf(" %s %.0f %% (%.0f km, the garden %+.0f m)", name, 100*g.Weights[i], at.Place.Km, at.Place.Rise)
	}
	return out + ", by nearness and by how well each follows the log."
}

// aside says a difference from the station.
func (w In) aside(celsius float64) string {
	word := "above"
	if celsius < 0 {
		word = "below"
	}
	return fmt.Sprintf("%.1f %s %s", math.Abs(w.Difference(celsius)), w.Unit(), word)
}

// signed is a difference with its sign and unit.
func (w In) signed(celsius float64) string {
	return fmt.Sprintf("%+.1f %s", w.Difference(celsius), w.Unit())
}

// Line is a sentence with its label in the margin; one without belongs to the label before.
type Line struct{ Label, Text string }

// SpotDetails says what a spot's fit rests on and what would sharpen it.
func (w In) SpotDetails(g *opened.Garden, m site.Model, sum site.Summary) (out []Line) {
	say := func(label, format string, args ...any) { out = append(out, Line{label, fmt.Sprintf(format, args...)}) }
	if n := sum.Readings - sum.Used; n > 0 {
		say("not used", "%s logged without the station's minimum in the record.", words.Plural(n, "morning"))
	}
	for i, d := range sum.Doubtful {
		if i == 5 {
			say("", "and %d more.", len(sum.Doubtful)-5)
			break
		}
		label := ""
		if i == 0 {
			label = "doubtful"
		}
		say(label, "%s: %s the station where %s was expected; counts for %.0f %%.",
			words.Date(d.Day), w.aside(d.Gap), w.aside(d.Wanted), 100*d.Weight)
	}
	if g.Place != (site.Place{}) {
		say("apart", "on clear nights the garden's place makes %s (90 %%: %s), the spot itself %s (%s).",
			w.signed(sum.Place.Mean), w.between(sum.Place), w.signed(sum.Bed.Mean), w.between(sum.Bed))
	}
	worth := sum.Worth
	next := fmt.Sprintf("ten more mornings after clear, still nights would narrow what is not known of them by %.0f %%, after dull ones by %.0f %%", 100*worth.Clear, 100*worth.Dull)
	switch {
	case sum.Used == 0:
		next = fmt.Sprintf(`log some mornings at plant height ("frostward log"): ten after clear, still nights would narrow what is not known of them by %.0f %%, after dull ones by %.0f %%`, 100*worth.Spring, 100*worth.Dull)
	case worth.Spring > worth.Clear+0.01:
		next += fmt.Sprintf(", ten clear ones of another spring by %.0f %%", 100*worth.Spring)
	}
	say("to do", "%s.", next)
	if m.Day > 0 {
		// Extremes of 8 and 18 °C and 35 MJ/m2 above the air, as in May at 50°: the figure is of the shelter, not of the place.
		gain := m.Day * site.DayGain(8, 18, 35)
		low, high := gain*math.Exp(-1.645*m.DaySD), gain*math.Exp(1.645*m.DaySD)
		say("by day", "on a half sunny day of %s in May the mean is %.1f %s warmer than outside (90 %%: %.1f to %.1f); a column tmax_c of the log (\"frostward log --max\") moves it.",
			w.Degrees(18), w.Difference(gain), w.Unit(), w.Difference(low), w.Difference(high))
	}
	say("usual", "for %s: %s.", sum.Prior.Title, sum.Prior.Source)
	return out
}

// between says a difference's 90 % interval.
func (w In) between(g site.Gap) string {
	return fmt.Sprintf("%+.1f to %+.1f", w.Difference(g.Low), w.Difference(g.High))
}
