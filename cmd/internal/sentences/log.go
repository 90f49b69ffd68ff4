package sentences

import (
	"fmt"
	"math"
	"strings"

	"frostward/climate/site"
	"frostward/cmd/internal/journal"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

// Entry says a line of the log.
func (w In) Entry(e journal.Entry) string {
	parts := []string{fmt.Sprintf("%s, morning of %s", e.Spot, words.Date(e.Day))}
	add := func(what string, v float64) {
		if !math.IsNaN(v) {
			parts = append(parts, what+" "+w.Degrees(math.Round(v*10)/10))
		}
	}
	add("minimum", e.Tmin)
	add("beside the cover", e.Beside)
	add("day's maximum", e.Tmax)
	add("evening", e.Evening)
	add("dew point", e.DewPoint)
	if !math.IsNaN(e.Humidity) {
		parts = append(parts, fmt.Sprintf("humidity %.0f %%", e.Humidity))
	}
	add("forecast", e.Forecast)
	for _, x := range []struct{ what, v string }{{"sky", e.Cloud.String()}, {"wind", e.Wind.String()}, {"covered with", e.Covered}, {"damage:", e.Damage}, {"note:", e.Note}} {
		if x.v != "" {
			parts = append(parts, x.what+" "+table.Safe(x.v))
		}
	}
	return strings.Join(parts, ", ")
}

// Reading compares a reading with the station and with what was expected of the spot.
func (w In) Reading(g *opened.Garden, e journal.Entry, m site.Model, sum site.Summary) string {
	n := site.NightOf(g.Masked, g.Calendar, e.Day)
	if sum.Prior.Station || math.IsNaN(e.Tmin) || e.Covered != "" {
		return ""
	}
	if math.IsNaN(n.Tmin) {
		return "The record does not have that night; the reading counts once it does."
	}
	text := fmt.Sprintf("The station had %s, and %s was expected here.", w.Degrees(n.Tmin), w.Degrees(math.Round(m.Mean(n)*10)/10))
	if away := math.Abs(e.Tmin-m.Mean(n)) / m.SD(n); away > 4 {
		text += " That is far off: if it was misread, log the same date and spot again."
	}
	return text
}
