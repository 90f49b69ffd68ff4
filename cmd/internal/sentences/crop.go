package sentences

import (
	"fmt"
	"math"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/words"
	"frostward/crops"
)

// Crop says what the crop is in a sentence or three.
func (u In) Crop(cat *crops.Catalogue, c crops.Crop) string {
	w := fmt.Sprintf("%s: a %s crop, %s.", words.Capital(c.Label()), c.Kind, c.Hardiness())
	for _, l := range cat.Facts(c) {
		if l.Key == "also" && l.Text != "" {
			w += " Also called " + strings.ReplaceAll(l.Text, ";", ",") + "."
		}
	}
	var others []string
	for _, k := range cat.Classes(c.Name) {
		if k != c.Class {
			others = append(others, k)
		}
	}
	if len(others) > 0 {
		w += " Other classes: " + words.List(others) + "."
	}
	var up []string
	for _, soil := range []float64{5, 10, 15, 20} {
		if d := c.DaysToEmergence(soil); d < 100 && soil >= c.GerminationMin.Value {
			up = append(up, fmt.Sprintf("%.0f days at %s", math.Round(d), u.Degrees(soil)))
		}
	}
	if len(up) > 0 {
		w += " Comes up, by soil temperature, in " + words.List(up) + "."
	}
	return w
}

// Fact writes a fact's value with its range, in the units asked for.
func (w In) Fact(c crops.Crop, l crops.Line) string {
	write := func(v float64) string { return words.NumberData(v, -1) }
	unit := l.Unit
	switch {
	case KeyOf(l).Text:
		return l.Text
	case l.Key == "out_from" && c.OutTo.Known():
		return w.OpenGround(c)
	case l.Key == "out_from" || l.Key == "out_to":
		return w.Calendar.Words(climate.SeasonDay(l.Value))
	case unit == "°C" && w.Fahrenheit:
		unit, write = "°F", func(v float64) string { return fmt.Sprintf("%.1f", climate.Fahrenheit(v)) }
	case unit == "°C-days" && w.Fahrenheit:
		unit, write = "°F-days", func(v float64) string { return fmt.Sprintf("%.0f", v*1.8) }
	}
	out := write(l.Value) + " " + unit
	switch lo, hi := !math.IsNaN(l.Low), !math.IsNaN(l.High); {
	case lo && hi:
		out += fmt.Sprintf(" (%s to %s)", write(l.Low), write(l.High))
	case lo:
		out += fmt.Sprintf(" (%s or more)", write(l.Low))
	case hi:
		out += fmt.Sprintf(" (up to %s)", write(l.High))
	}
	return out
}

// OpenGround says when a crop customarily goes out: "15 May - 30 Jun".
func (w In) OpenGround(c crops.Crop) string {
	if !c.OutFrom.Known() || !c.OutTo.Known() {
		return words.Dash
	}
	return w.Calendar.Words(climate.SeasonDay(c.OutFrom.Value)) + " - " + w.Calendar.Words(climate.SeasonDay(c.OutTo.Value))
}

// KeyOf is what the catalogue says of a fact's key.
func KeyOf(l crops.Line) crops.Key {
	for _, k := range crops.Keys() {
		if k.Name == l.Key {
			return k
		}
	}
	panic("frostward: no key " + l.Key)
}
