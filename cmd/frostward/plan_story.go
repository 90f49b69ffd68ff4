package main

import (
	"fmt"
	"math"

	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/table"
	"frostward/risk"
)

type seasonStoryJSON struct {
	Season    int         `json:"season"`
	Plantings []storyJSON `json:"plantings"`
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
		j := storyJSON{Planting: plantings[i].Label(), Outcome: sentences.Outcome(o), Events: []storyEventJSON{}}
		first := j.Planting
		if !o.Known {
			t.Add(table.Row(first, "", j.Outcome, "")...)
		}
		for k, e := range events {
			day := s.Calendar.Day(year, e.Day)
			j.Events = append(j.Events, storyEventJSON{day.String(), sentences.Happened(e), number(e.Low, 1)})
			if e.Kind == risk.Chilled && k > 0 && events[k-1].Kind == risk.Chilled {
				continue // it is said in the row of the first
			}
			what, span := sentences.Happened(e), s.Calendar.Words(e.Day)
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
		return a.writeJSON(seasonStoryJSON{year, list})
	}
	return t.Write(a.out, a.tables())
}
