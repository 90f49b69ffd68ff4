package main

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/words"
	"frostward/crops"
	"frostward/risk"
)

func newPage(a *app) *cobra.Command {
	var out string
	var sheet bool
	c := &cobra.Command{
		Annotations: map[string]string{ownForm: "an HTML page"},
		Use:         "page",
		Short:       "The garden as one HTML page, to look at or print",
		Long: `page writes the garden as one HTML file that needs nothing else: no network, no scripts,
no fonts. It shows what there is to do this week, the plan through the season, when frosts
come at each spot, this season's warmth against past ones, when each planting may start, how
the spots differ from the station, and the record behind it all. Every picture has its
figures as a table beside it. It suits a telephone, in light and dark.

With --sheet it is one A4 page to print and hang up instead: each planting's days, its window,
the frost dates of the spots, and room to write.`,
		Example: `  frostward page -o garden.html
  frostward page --garden mygarden -o mygarden.html
  frostward page --garden mygarden --sheet -o sheet.html`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.pageCmd(out, sheet) },
	}
	c.Flags().StringVarP(&out, "output", "o", "", "`file` to write; standard output without")
	c.Flags().BoolVar(&sheet, "sheet", false, "one A4 page for the wall: the year's days of each planting")
	return c
}

func (a *app) pageCmd(out string, sheet bool) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	v, err := s.look()
	if err != nil {
		return err
	}
	if v.noPlan != nil && !sheet {
		a.notef("%v", v.noPlan)
	}
	var b bytes.Buffer
	if sheet {
		if v.noPlan != nil {
			return v.noPlan
		}
		err = page.WriteSheet(&b, v.sheet())
	} else {
		err = page.Write(&b, v.view(), page.Options{})
	}
	if err != nil {
		return err
	}
	if err := a.deliver(out, b.Bytes()); err != nil || out == "" {
		return err
	}
	a.notef("%s: the page of %s", out, s.Settings.Name)
	return nil
}

// viewing is a garden with all that its page shows worked out.
type viewing struct {
	*session
	today     climate.Day
	season    int // whose work lies ahead
	plantings []opened.Planned
	assessed  []risk.Assessment
	fields    *opened.Fields
	noPlan    error // why there is no plan to show
	looked    []looked
	noOutlook error
}

// look works out what the page shows. A plan that cannot be read does not keep the rest
// from being seen.
func (s *session) look() (*viewing, error) {
	v := &viewing{session: s, today: s.Today()}
	v.season = s.PlanningFor(v.today)
	var err error
	if v.fields, err = s.Fields(); err != nil {
		return nil, err
	}
	if v.plantings, v.assessed, v.noPlan = s.AssessPlan(); v.noPlan == nil {
		v.lookGround()
	} else {
		v.noOutlook = errors.New("the plan cannot be used")
	}
	return v, nil
}

// view is the page.
func (v *viewing) view() page.View {
	p := page.View{
		Garden:   v.Settings.Name,
		AsOf:     words.Date(v.today),
		Notice:   v.notice(),
		About:    v.about(),
		Decision: v.week(),
		Plan:     v.planSection(),
		Outlook:  v.outlookSection(),
		Frosts:   v.frostSection(),
		Warmth:   v.warmthSection(),
		Windows:  v.windowSection(),
		Spots:    v.spotSection(),
		Skill:    v.skillSection(),
		Quality:  v.recordSection(),
		Sources:  v.sources(),
		Cautions: v.cautions(),
	}
	if p.Garden == "" {
		p.Garden = "A garden without a name"
	}
	return p
}

// notice says what of the page is invented.
func (v *viewing) notice() string {
	switch {
	case !v.Invented:
		return ""
	case len(v.app.history) > 0:
		return "The record is the one asked for; the plan and the spots are those of the built-in garden, which is invented."
	}
	return "This is the built-in garden: it, its record and all its figures are invented."
}

func (v *viewing) about() string {
	return fmt.Sprintf("%s The record: %s, seasons %d to %d, to %s.", v.waysWords()[0], filepath.Base(v.RecordName), v.First, v.Last, words.Date(v.Record.Last())) + sentence(v.BehindWords())
}

// sources are those of the plan's crops and of the methods.
func (v *viewing) sources() []page.Source {
	out := []page.Source{
		{What: filepath.Base(v.RecordName), For: "the daily minimum and maximum behind every chance"},
		{What: "Wilson 1927", For: "intervals of counted shares"},
		{What: "World Meteorological Organization, Guidelines on the Calculation of Climate Normals 2017", For: "which months are complete enough to count"},
		{What: "Baskerville & Emin 1969", For: "degree-days by the single sine"},
	}
	var names []string
	for _, p := range v.plantings {
		for _, f := range []crops.Fact{p.Crop.SetBackHardened, p.Crop.KillHardened, p.Crop.Base, p.Crop.WarmthPlanted, p.Crop.WarmthSown, p.Crop.DaysPlanted, p.Crop.DaysSown} {
			if f.Known() && f.Source != "" && !slices.Contains(names, f.Source) {
				names = append(names, f.Source)
			}
		}
	}
	slices.Sort(names)
	for _, n := range names {
		out = append(out, page.Source{What: n, For: "what the plan's crops need"})
	}
	return out
}

func (v *viewing) cautions() []string {
	out := []string{"Chances come from past seasons. A forecast and local warnings come before them on any one night.",
		"Heaters and flames under covers burn and suffocate: follow their maker's instructions and local rules. Ladders, wet glass and darkness go badly together; cover before dusk."}
	for _, p := range v.plantings {
		if c := p.Crop.Caution; c != "" {
			if line := words.Capital(p.Crop.Title) + ": " + c; !slices.Contains(out, line) {
				out = append(out, line)
			}
		}
	}
	return out
}

// sentence makes words a sentence after others; "" stays.
func sentence(w string) string {
	if w == "" {
		return ""
	}
	return " " + words.Capital(w) + "."
}
