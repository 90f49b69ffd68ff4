package main

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/journal"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

// errInvented is why nothing is written to the built-in garden.
var errInvented = errors.New(`the built-in garden is invented, so nothing is written to it; "frostward start mygarden" makes one of your own, and --garden names it`)

// complete2 offers words in the shell's completion of a command's own flag.
func complete2(c *cobra.Command, flag string, words []string) {
	if err := c.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp)); err != nil {
		panic(err) // no such flag
	}
}

// temperature reads one as typed: a number in °C, or in °F with an f behind it or with
// --fahrenheit. NaN for "".
func (a *app) temperature(flag, s string) (float64, error) {
	if s == "" {
		return math.NaN(), nil
	}
	text := strings.ToLower(strings.TrimSpace(s))
	fahr := a.fahr
	for _, unit := range []string{"f", "c"} {
		if t, ok := strings.CutSuffix(text, unit); ok {
			text, fahr = strings.TrimRight(t, " °"), unit == "f"
			break
		}
	}
	v, err := typedNumber(text)
	if err != nil {
		return 0, usagef("--%s %q; wanted a temperature in °C, such as -1.5, or in °F, such as 29f", flag, s)
	}
	if fahr {
		v = climate.Celsius(v)
	}
	return v, nil
}

func percentOf(flag, s string) (float64, error) {
	if s == "" {
		return math.NaN(), nil
	}
	v, err := typedNumber(strings.TrimSuffix(s, "%"))
	if err != nil || v < 0 || v > 101 {
		return 0, usagef("--%s %q; wanted per cent between 0 and 100", flag, s)
	}
	return v, nil
}

// typedNumber reads a number with a point or a comma, and nothing that only computers write.
func typedNumber(s string) (float64, error) {
	s = strings.Replace(strings.ReplaceAll(s, "\u2212", "-"), ",", ".", 1)
	if strings.Trim(s, "+-.0123456789") != "" {
		return 0, errors.New("is not a number")
	}
	return strconv.ParseFloat(s, 64)
}

// listLog prints the latest mornings, corrections applied.
func (s *session) listLog(last int) error {
	a := s.app
	log, err := s.Log()
	if err != nil {
		return err
	}
	nights := log.Nights()
	if last < 1 {
		return usagef("--last %d; wanted how many mornings to list, 1 or more", last)
	}
	shown := nights[max(0, len(nights)-last):]
	if a.format == table.JSON {
		list := []entryJSON{}
		for _, e := range shown {
			list = append(list, entryJSONOf(e))
		}
		return a.writeJSON(logJSON{s.Settings.Name, len(nights), list})
	}
	t := table.Table{
		Title: fmt.Sprintf("%s: the garden log, latest of %s", s.Settings.Name, words.Plural(len(nights), "morning")),
		Columns: []table.Column{
			{Name: "date"}, {Name: "spot", Wrap: true}, {Name: "minimum", Unit: a.unit().Unit(), Key: "tmin_c", Align: table.Right},
			{Name: "forecast", Unit: a.unit().Unit(), Key: "forecast_c", Align: table.Right}, {Name: "evening", Unit: a.unit().Unit(), Key: "evening_c", Align: table.Right, Drop: 4},
			{Name: "dew point", Unit: a.unit().Unit(), Key: "dew_point_c", Align: table.Right, Drop: 4}, {Name: "sky, wind", Keys: []string{"cloud", "wind"}, Drop: 3}, {Name: "covered", Drop: 2},
			{Name: "damage, note", Keys: []string{"damage", "note"}, Wrap: true, MinWidth: 12, Drop: 1},
		},
	}
	for _, e := range shown {
		if !math.IsNaN(e.Humidity) && math.IsNaN(e.DewPoint) {
			e.DewPoint = climate.DewPoint(e.Evening, e.Humidity)
		}
		t.Add(table.Text(e.Day.String()), table.Text(e.Spot), a.unit().Cell(e.Tmin), a.unit().Cell(e.Forecast), a.unit().Cell(e.Evening), a.unit().Cell(e.DewPoint),
			joined(e.Cloud.String(), e.Wind.String()), table.Text(e.Covered), joined(e.Damage, e.Note))
	}
	if len(nights) == 0 && a.format == table.TextFormat {
		fmt.Fprintf(a.out, "%s: nothing is logged yet; \"frostward log --min -1.5\" adds a morning.\n", s.Settings.Name)
		return nil
	}
	return t.Write(a.out, a.tables())
}

// joined is a cell of several words, each in its own column of CSV.
func joined(words ...string) table.Cell {
	var out []string
	for _, w := range words {
		if w != "" {
			out = append(out, w)
		}
	}
	return table.Data(strings.Join(out, ", "), words...)
}

// entryJSON is a line of the log for programs, by the names of its columns.
type entryJSON struct {
	Date     string   `json:"date"`
	Spot     string   `json:"spot"`
	Tmin     *float64 `json:"tmin_c"`
	Tmax     *float64 `json:"tmax_c"`
	Beside   *float64 `json:"beside_c"`
	Evening  *float64 `json:"evening_c"`
	DewPoint *float64 `json:"dew_point_c"`
	Humidity *float64 `json:"humidity_pct"`
	Forecast *float64 `json:"forecast_c"`
	Cloud    *string  `json:"cloud"`
	Wind     *string  `json:"wind"`
	Covered  *string  `json:"covered"`
	Damage   *string  `json:"damage"`
	Note     *string  `json:"note"`
}

type logJSON struct {
	Garden   string      `json:"garden"`
	Mornings int         `json:"mornings"`
	Log      []entryJSON `json:"log"`
}

type loggedJSON struct {
	File   string    `json:"file"`
	Logged entryJSON `json:"logged"`
}

type tookBackJSON struct {
	File     string    `json:"file"`
	TookBack entryJSON `json:"took_back"`
}

func entryJSONOf(e journal.Entry) entryJSON {
	word := func(s string) *string {
		if s == "" {
			return nil
		}
		return &s
	}
	return entryJSON{e.Day.String(), e.Spot, number(e.Tmin, 2), number(e.Tmax, 2), number(e.Beside, 2), number(e.Evening, 2), number(e.DewPoint, 2), number(e.Humidity, 1),
		number(e.Forecast, 2), word(e.Cloud.String()), word(e.Wind.String()), word(e.Covered), word(e.Damage), word(e.Note)}
}
