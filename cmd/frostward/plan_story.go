package main

import (
	"fmt"
	"math"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// lastFailed says in which years a planting last failed, and how: the years that a grower remembers.
func (s *session) lastFailed(past *opened.Remembered, planting int) string {
	killed, how := past.Killed(planting)
	unripe := past.NotReady(planting)
	var said []string
	if len(killed) > 0 {
		t := fmt.Sprintf("Last killed in %d, in the night to %s", killed[0], s.Calendar.Words(how[0].KilledOn))
		if len(killed) > 1 {
			t += fmt.Sprintf("; before that in %d", killed[1])
		}
		said = append(said, fmt.Sprintf("%s (%s of %d).", t, words.Plural(len(killed), "year"), past.Known(planting)))
	}
	if len(unripe) > 0 {
		t := fmt.Sprintf("Last not ready in time in %d", unripe[0])
		if len(unripe) > 1 {
			t += fmt.Sprintf("; before that in %d", unripe[1])
		}
		said = append(said, fmt.Sprintf("%s (%s of %d).", t, words.Plural(len(unripe), "year"), past.Known(planting)))
	}
	return strings.Join(said, " ")
}

// storyJSON is a season of the record as a planting would have met it.
type storyJSON struct {
	Planting string           `json:"planting"`
	Outcome  string           `json:"outcome"`
	Events   []storyEventJSON `json:"events"`
}

type storyEventJSON struct {
	Date string   `json:"date"`
	What string   `json:"what"`
	Low  *float64 `json:"low_c"` // at the plants, their cover's gain counted
}

// writeStory says what would have become of plantings in one season of the record, day by day of what mattered.
func (s *session) writeStory(plantings []opened.Planned, asked []int, year int) error {
	a := s.app
	past, err := s.Remember(plantings)
	if err != nil {
		return err
	}
	if year < s.First || year > s.Last {
		return usagef("--year %d: the record has the seasons %d to %d", year, s.First, s.Last)
	}
	t := table.Table{Title: fmt.Sprintf("%s: the season %d, as the plan's plantings would have met it", s.Settings.Name, year),
		Columns: []table.Column{{Name: "planting", Wrap: true, MinWidth: 14}, {Name: "day", Key: "date"}, {Name: "what happened", Key: "what", Wrap: true, MinWidth: 24},
			{Name: "lowest at the plants", Unit: a.unit().Unit(), Key: "low_c", Align: table.Right, Wrap: true, MinWidth: 9}},
		Notes: []string{"The typical crop, the station's record, and each spot as it usually differs from it; nights read in the garden stand as read."}}
	list := []storyJSON{}
	for _, i := range asked {
		o, events := past.Story(i, year)
		j := storyJSON{Planting: plantings[i].Label(), Outcome: storyEnd(o), Events: []storyEventJSON{}}
		first := j.Planting
		if !o.Known {
			t.Add(table.Row(first, "", j.Outcome, "")...)
		}
		for k, e := range events {
			day := s.Calendar.Day(year, e.Day)
			j.Events = append(j.Events, storyEventJSON{day.String(), happened(e), number(e.Low, 1)})
			if e.Kind == risk.Chilled && k > 0 && events[k-1].Kind == risk.Chilled {
				continue // it is said in the row of the first
			}
			what, span := happened(e), s.Calendar.Words(e.Day)
			if e.Kind == risk.Chilled {
				n := 1
				for ; k+n < len(events) && events[k+n].Kind == risk.Chilled; n++ {
					e.Low = min(e.Low, events[k+n].Low)
				}
				if n > 1 {
					what, span = fmt.Sprintf("%d cold nights check it", n), span+" to "+s.Calendar.Words(events[k+n-1].Day)
				}
			}
			low := table.Text("")
			if !math.IsNaN(e.Low) {
				low = table.Data(fmt.Sprintf("%.1f", a.unit().Value(e.Low)), fmt.Sprintf("%.1f", e.Low))
			}
			t.Add(table.Text(first), table.Data(span, day.String()), table.Text(what), low)
			if a.format == table.TextFormat {
				first = ""
			}
		}
		list = append(list, j)
	}
	if a.format == table.JSON {
		return a.writeJSON(map[string]any{"season": year, "plantings": list})
	}
	return t.Write(a.out, a.tables())
}

func storyEnd(o risk.Outcome) string {
	switch {
	case !o.Known:
		return "not known: " + sentences.NotPlayed(o.Why)
	case o.Lost:
		return "killed before picking"
	case !o.Ripens:
		return "not ready in time"
	}
	return "succeeds"
}

// happened says an event of a season.
func happened(e risk.Event) string {
	if e.Kind == risk.PickedOut && e.Day >= climate.SpanTo {
		return "still standing as the season's record ends"
	}
	return map[risk.EventKind]string{risk.Starts: "starts: planted out, or sown in place", risk.CameUp: "up", risk.Chilled: "a cold night checks it",
		risk.SetBack: "the night sets it back", risk.Killed: "the night kills it", risk.Ready: "first picking", risk.FrostEnds: "the night ends its picking",
		risk.PickedOut: "picking is over, the bed free", risk.NotInTime: "over without a picking worth its bed"}[e.Kind]
}
