package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

func newSpots(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "spots",
		Short: "How each spot's nights differ from the station's, from the garden log",
		Long: `spots fits each spot of the garden to the station: how much colder or warmer its nights are
when clear and still, and when overcast or windy. The day's range of temperature keeps the
two apart. What is usual for the kind of spot is moved by the mornings in the garden log as
far as they go; a reading that does not fit the others counts for little and is named.

All other commands use the same fit for the frosts of a spot, with what the log leaves open
in every chance.`,
		Example: `  frostward spots
  frostward spots --garden mygarden --spot "open bed"`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.spots() },
	}
}

// fittedSpot is a spot with its fit.
type fittedSpot struct {
	garden.Spot
	model    site.Model
	sum      site.Summary
	readings []site.Reading
}

func (a *app) spots() error {
	s, err := a.open()
	if err != nil {
		return err
	}
	at, err := s.Spots()
	if err != nil {
		return err
	}
	want := s.Settings.Spots
	if a.spot != "" {
		one, err := s.Settings.Spot(a.spot)
		if err != nil {
			return err
		}
		want = []garden.Spot{one}
	}
	var out []fittedSpot
	for _, sp := range want {
		f := fittedSpot{Spot: sp, readings: at.Readings(sp)}
		f.model, f.sum = at.Fit(sp)
		out = append(out, f)
	}
	if a.format == table.JSON {
		return a.writeJSON(s.spotsJSON(out))
	}
	return s.writeSpots(out)
}

func (s *session) writeSpots(spots []fittedSpot) error {
	a := s.app
	t := table.Table{
		Title: s.Settings.Name + ": spots against the station",
		Columns: []table.Column{
			{Name: "spot", Wrap: true}, {Name: "kind"}, {Name: "mornings", Align: table.Right},
			{Name: "clear nights", Unit: a.unit().Unit(), Key: "clear_c", Align: table.Right}, {Name: "90 % interval", Keys: words.Ends("clear_c"), Align: table.Right},
			{Name: "dull nights", Unit: a.unit().Unit(), Key: "dull_c", Align: table.Right}, {Name: "90 % interval", Keys: words.Ends("dull_c"), Align: table.Right, Drop: 2},
			{Name: "night to night", Unit: a.unit().Unit(), Key: "night_sd_c", Align: table.Right, Drop: 1},
		},
	}
	for _, f := range spots {
		row := []table.Cell{table.Text(f.Name), table.Text(f.Kind), table.Textf("%d", f.sum.Used)}
		if f.sum.Prior.Identity() {
			zero := table.Data("0", "0")
			row = append(row, zero, table.Text(words.Dash), zero, table.Text(words.Dash), table.Text(words.Dash))
		} else {
			row = append(row, a.gapCell(f.sum.Clear.Mean), a.gapInterval(f.sum.Clear), a.gapCell(f.sum.Dull.Mean), a.gapInterval(f.sum.Dull),
				table.Data(fmt.Sprintf("±%.1f", a.unit().Difference(f.sum.NightSD)), words.NumberData(f.sum.NightSD, 2)))
		}
		t.Add(row...)
	}
	t.Notes = []string{"spot less station; clear: the fifth of nights with the widest range of the day, dull: with the narrowest."}
	if len(s.Stations) > 1 || s.Place != (site.Place{}) {
		t.Notes = append(t.Notes, sentences.Stations(s.Garden))
	}
	if err := t.Write(a.out, a.tables()); err != nil || a.format != table.TextFormat {
		return err
	}
	for _, f := range spots {
		fmt.Fprintln(a.out)
		a.paragraph(a.out, words.Capital(sentences.Spot(a.unit(), "the "+f.Name, f.sum))+".", 2)
		if f.sum.Prior.Identity() {
			continue
		}
		a.lines(s.words().SpotDetails(s.Garden, f.model, f.sum))
		paper := a.paper()
		if paper.Width -= 2; a.width == 0 {
			paper.Width = 76
		}
		p := paper.Spot(s.Garden, a.unit(), f.Name, f.model, f.sum.Used, f.readings)
		if len(p.Lines) == 0 {
			continue
		}
		fmt.Fprintln(a.out)
		for _, l := range p.Lines {
			fmt.Fprintln(a.out, "  "+l)
		}
		a.paragraph(a.out, p.Reading, 2)
	}
	return nil
}

func (a *app) gapCell(celsius float64) table.Cell {
	return table.Data(fmt.Sprintf("%+.1f", a.unit().Difference(celsius)), words.NumberData(celsius, 2))
}

func (a *app) gapInterval(g site.Gap) table.Cell {
	return table.Data(fmt.Sprintf("%+.1f to %+.1f", a.unit().Difference(g.Low), a.unit().Difference(g.High)), words.NumberData(g.Low, 2), words.NumberData(g.High, 2))
}

type spotJSON struct {
	Spot      string      `json:"spot"`
	Kind      string      `json:"kind"`
	Mornings  int         `json:"mornings"`
	Used      int         `json:"used"`
	Seasons   int         `json:"seasons"`
	Clear     gapJSON     `json:"clear_nights"`
	Dull      gapJSON     `json:"dull_nights"`
	NightSDC  *float64    `json:"night_sd_c"`
	SeasonSDC *float64    `json:"season_sd_c"`
	Parts     partsJSON   `json:"clear_nights_apart"`
	Doubtful  []doubtJSON `json:"doubtful"`
	Words     string      `json:"words"`
	Prior     string      `json:"prior"`
}

type gapJSON struct {
	RangeC *float64 `json:"range_c"`
	GapC   *float64 `json:"gap_c"`
	LowC   *float64 `json:"low_c"`
	HighC  *float64 `json:"high_c"`
	Logged int      `json:"mornings"`
}

type partsJSON struct {
	Place         gapJSON  `json:"place"`
	Bed           gapJSON  `json:"bed"`
	ClearMornings *float64 `json:"narrowed_by_10_clear"`
	DullMornings  *float64 `json:"narrowed_by_10_dull"`
	OtherSpring   *float64 `json:"narrowed_by_10_clear_of_another_spring"`
}

type doubtJSON struct {
	Date      string   `json:"date"`
	GapC      *float64 `json:"gap_c"`
	ExpectedC *float64 `json:"expected_gap_c"`
	Weight    *float64 `json:"weight"`
}

type spotsJSON struct {
	Garden   string        `json:"garden"`
	Level    float64       `json:"level"`
	Spots    []spotJSON    `json:"spots"`
	Stations []stationJSON `json:"stations"`
}

type stationJSON struct {
	Weight   *float64 `json:"weight"`
	Distance *float64 `json:"distance_km"`
	Rise     *float64 `json:"rise_m"`
}

func (s *session) spotsJSON(spots []fittedSpot) spotsJSON {
	gap := func(g site.Gap) gapJSON {
		return gapJSON{number(g.Range, 1), number(g.Mean, 2), number(g.Low, 2), number(g.High, 2), g.Nights}
	}
	list := []spotJSON{}
	for _, f := range spots {
		j := spotJSON{Spot: f.Name, Kind: f.Kind, Mornings: f.sum.Readings, Used: f.sum.Used, Seasons: f.sum.Seasons, Clear: gap(f.sum.Clear), Dull: gap(f.sum.Dull),
			NightSDC: number(f.sum.NightSD, 2), SeasonSDC: number(f.sum.SeasonSD, 2), Parts: partsJSON{gap(f.sum.Place), gap(f.sum.Bed), number(f.sum.Worth.Clear, 2), number(f.sum.Worth.Dull, 2), number(f.sum.Worth.Spring, 2)},
			Doubtful: []doubtJSON{}, Words: words.Capital(sentences.Spot(s.app.unit(), "the "+f.Name, f.sum)) + ".", Prior: f.sum.Prior.Source}
		for _, d := range f.sum.Doubtful {
			j.Doubtful = append(j.Doubtful, doubtJSON{d.Day.String(), number(d.Gap, 2), number(d.Wanted, 2), number(d.Weight, 2)})
		}
		list = append(list, j)
	}
	stations := []stationJSON{}
	for i, at := range s.Stations {
		stations = append(stations, stationJSON{number(s.Weights[i], 3), number(at.Place.Km, 1), number(at.Place.Rise, 0)})
	}
	return spotsJSON{s.Settings.Name, climate.Level, list, stations}
}
