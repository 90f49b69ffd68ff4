package sentences

import (
	"fmt"
	"strconv"

	"frostward/cmd/internal/words"
	"frostward/risk/replay"
)

// Event names what a replay forecasts: "last spring frost at 0 °C".
func Event(u words.Units, e replay.Event) string {
	at := func(celsius float64) string {
		return strconv.FormatFloat(u.Value(celsius), 'g', -1, 64) + " " + u.Unit()
	}
	switch e.Name {
	case "last_spring_frost":
		return "last spring frost at " + at(e.Threshold)
	case "first_autumn_frost":
		return "first autumn frost at " + at(e.Threshold)
	case "frost_free_days":
		return "frost-free days at " + at(e.Threshold)
	case "degree_days":
		return "degree-days above " + at(e.Base)
	case "ripening":
		return "first picking of " + e.Planting
	}
	panic("words: an event without a name: " + e.Name)
}

// SpotWay says a way to date the last spring frost at a spot.
func SpotWay(s replay.SpotScore) string {
	switch {
	case s.Way == replay.ByOwnRecord:
		return "the spot's own record"
	case s.Way == replay.ByStation && s.Less == 0:
		return "the station as it is"
	case s.Way == replay.ByStation:
		return fmt.Sprintf("the station less %.0f °C", s.Less)
	case s.Mornings == 0:
		return "usual for the kind and place, nothing logged"
	}
	return fmt.Sprintf("%d mornings of one spring logged", s.Mornings)
}
