package sentences

import (
	"fmt"
	"math"
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

// Skill says which way has done best, and how well from how little.
func Skill(scores []replay.Score) string {
	best := replay.BestWay(scores)
	var seasons int
	trainings := map[int]bool{}
	for _, x := range scores {
		seasons = max(seasons, x.Seasons)
		trainings[x.Training] = true
	}
	var parts []string
	for _, t := range []int{10, replay.Reference, replay.All} {
		if !trainings[t] {
			continue
		}
		if _, r := replay.MeanRatios(scores, best, t); !math.IsNaN(r) {
			parts = append(parts, fmt.Sprintf("%.2f from %s", r, Training(t)))
		}
	}
	text := fmt.Sprintf("Replayed over %s, chances by %s did best.", words.Plural(seasons, "season"), best)
	if len(parts) > 0 {
		text += fmt.Sprintf(" Their score is, as a mean over the events, %s, of that of a normal curve fitted to the 30 seasons before (below 1 is better).", words.List(parts))
	}
	return text
}

// Training says how many seasons were learned from.
func Training(training int) string {
	if training == replay.All {
		return "all seasons before"
	}
	return words.Plural(training, "season")
}

// CRPS says a score in its unit.
func (w In) CRPS(x replay.Score) string {
	if x.Event.Dates {
		return fmt.Sprintf("%.1f d", x.CRPS)
	}
	return fmt.Sprintf("%.0f %s d", w.Difference(x.CRPS), w.Unit())
}
