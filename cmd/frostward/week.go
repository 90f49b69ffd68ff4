package main

import (
	"fmt"
	"os"
	"time"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

// weekDays are the days that week looks ahead, today among them.
const weekDays = 7

func newWeek(a *app) *cobra.Command {
	var o tonightOptions
	c := &cobra.Command{
		Use:   "week",
		Short: "What to do this week: sow, harden off, plant out, cover, pick, clear",
		Long: `week says what to do in the garden in the seven days from today, day by day: what to sow,
what to begin to harden off and on which nights to take it in, what to plant out, what to
cover in the night to come, where the first picking is to be looked for, and which beds are
usually free. It goes by the diary first (frostward did), then by the plan.

In a garden's folder, frostward without a command does the same.`,
		Example: `  frostward week
  frostward week --garden mygarden --forecast 2`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.week(o) },
	}
	eveningFlags(c, &o.logOptions)
	return c
}

// inGarden says whether a garden is meant though no command is given: one is named, or the folder is one.
func (a *app) inGarden() bool {
	if a.garden != "" {
		return true
	}
	if _, err := os.Stat(garden.File); err != nil {
		return false
	}
	a.garden = "."
	return true
}

func (a *app) week(o tonightOptions) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	today := s.present()
	if err := s.noteOver(); err != nil {
		return err
	}
	tasks, err := s.Tasks(weekDays)
	if err != nil {
		return err
	}
	night, err := s.evening(o)
	if err != nil {
		return err
	}
	if a.format == table.JSON {
		list := []taskJSON{}
		for _, t := range tasks {
			list = append(list, taskJSON{t.Day.String(), t.Planting, t.Sentence()})
		}
		return a.writeJSON(weekJSON{s.Settings.Name, today.String(), weekDays, list, s.hot(today), night.Headline(a.unit())})
	}
	if a.format == table.TextFormat {
		a.paragraph(a.out, night.Headline(a.unit()), 2)
		fmt.Fprintln(a.out)
	}
	t := table.Table{Title: fmt.Sprintf("%s: the week from %s", s.Settings.Name, words.Date(today)),
		Columns: []table.Column{{Name: "day", Key: "date"}, {Name: "what to do", Keys: []string{"planting", "what"}, Wrap: true, MinWidth: 30}}}
	last := climate.Day(-1)
	for _, task := range tasks {
		day := weekday(task.Day)
		if task.Day == last && a.format == table.TextFormat {
			day = ""
		}
		last = task.Day
		t.Add(table.Data(day, task.Day.String()), table.Data(words.Capital(task.Sentence()), task.Planting, task.Sentence()))
	}
	if len(tasks) == 0 {
		t.Notes = append(t.Notes, "Nothing is to be sown, planted out, picked or cleared this week."+s.nextTask())
	}
	t.Notes = append(t.Notes, s.hot(today)...)
	return t.Write(a.out, a.tables())
}

type weekJSON struct {
	Garden  string     `json:"garden"`
	From    string     `json:"from"`
	Days    int        `json:"days"`
	Tasks   []taskJSON `json:"tasks"`
	ByDay   []string   `json:"by_day"`
	Tonight string     `json:"tonight"`
}

type taskJSON struct {
	Date     string `json:"date"`
	Planting string `json:"planting"`
	What     string `json:"what"`
}

// hot says of the sheltered spots when to open up and when to shade in the week after a day.
func (s *session) hot(from climate.Day) []string {
	out := []string{}
	spots, err := s.Spots()
	if err != nil {
		return out
	}
	for _, spot := range s.Settings.Spots {
		if h, ok := spots.Heat(spot, from); ok {
			if w := sentences.Heat(s.app.unit(), spot.Name, h.Hot, h.Mean, h.Seasons); w != "" {
				out = append(out, words.Capital(w))
			}
		}
	}
	return out
}

// nextTask says what comes after a week without work.
func (s *session) nextTask() string {
	later, err := s.Tasks(climate.YearDays)
	if err != nil || len(later) == 0 {
		return ""
	}
	return fmt.Sprintf(" Next: %s on %s.", later[0].Sentence(), words.Date(later[0].Day))
}

// weekday is a day with the day of its week.
func weekday(d climate.Day) string {
	y, m, day := d.Date()
	return time.Date(y, m, day, 0, 0, 0, 0, time.UTC).Format("Mon 2 Jan")
}
