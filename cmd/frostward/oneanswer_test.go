package main

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"frostward/climate"
)

// asJSON runs a command and reads what it writes for programs into to.
func asJSON(t require.TestingT, to any, args ...string) {
	var o, e strings.Builder
	in := world{in: strings.NewReader(""), out: &o, err: &e, getenv: func(string) string { return "" },
		today: func() climate.Day { return climate.NewDay(2026, 5, 17) }}
	require.Equal(t, exitDone, run(in, append(args, "--format", "json")), "%v: %s", args, e.String())
	require.NoError(t, json.Unmarshal([]byte(o.String()), to))
}

// For any record, plan's better day, when's best and the page's are the same day, and so are their earliest and sow's first.
func TestOneBestDay(t *testing.T) {
	setUp(t)
	better := 0
	rapid.Check(t, func(t *rapid.T) {
		w := someWeather(t)
		days, n, x := w.on(climate.Calendar{}, 1990)
		history := record(t, days, n, x, "c", tenths)
		plan := plantings(t, climate.Calendar{}, "open bed")
		common := []string{"--history", history, "--plan", plan, "--latitude", "53", "--by", "record"}
		var planned struct {
			Plantings []struct {
				Crop, Class    string
				Best, Earliest *string
				BestDate       *string `json:"best_date"`
				EarliestSound  *string `json:"earliest_sound_date"`
				PlantOut       *string `json:"plant_out"`
			}
		}
		asJSON(t, &planned, append([]string{"plan"}, common...)...)

		a := &app{world: world{in: strings.NewReader(""), out: &strings.Builder{}, err: &strings.Builder{},
			getenv: func(string) string { return "" }, today: func() climate.Day { return climate.NewDay(2026, 5, 17) }}}
		newRoot(a)
		a.history, a.plan, a.latitude, a.by = []string{history}, plan, "53", "record"
		s, err := a.open()
		require.NoError(t, err)
		v, err := s.look()
		require.NoError(t, err)

		for i, p := range planned.Plantings {
			args := append([]string{"when", p.Crop, p.Class}, common...)
			if p.PlantOut == nil {
				args = append(args, "--sown")
			}
			var when struct{ Best, Earliest *string }
			asJSON(t, &when, args...)
			page := v.Assessed[i].Around()
			if page.Best >= 0 {
				day := s.Calendar.Format(page.Starts[page.Best].Day)
				require.Equal(t, &day, when.Best, "%s: the page and when", p.Crop)
			}
			if p.BestDate != nil {
				better++
				require.Equal(t, p.BestDate, when.Best, "%s: plan and when", p.Crop)
			}
			if when.Earliest != nil {
				var sow struct {
					Sowings []struct {
						Sow      string
						PlantOut *string `json:"plant_out"`
					}
				}
				asJSON(t, &sow, append([]string{"sow"}, args[1:]...)...)
				first := &sow.Sowings[0].Sow
				if p.PlantOut != nil {
					first = sow.Sowings[0].PlantOut
				}
				require.Equal(t, when.Earliest, first, "%s: sow's first and when", p.Crop)
			}
			if p.EarliestSound != nil {
				require.Equal(t, p.EarliestSound, when.Earliest, "%s: plan and when", p.Crop)
			}
		}
	})
	require.Positive(t, better, "no plan had a better day to compare")
}
