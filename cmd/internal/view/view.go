// Package view works out what the page of a garden shows.
package view

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/nights"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/words"
	"frostward/crops"
	"frostward/risk"
)

// Garden is an opened garden with all that its page shows worked out.
type Garden struct {
	*opened.Garden
	Given
	Words     sentences.In
	Units     words.Units
	Season    int // whose work lies ahead
	Plantings []opened.Planned
	Assessed  []risk.Assessment
	Standing  []opened.State // how each planting stands today
	NoPlan    error          // why there is no plan to show
	Plays     *opened.Fields
	Before    *Garden // as it was looked at before, if it was; forgotten once the page is worked out

	today climate.Day
	skill *page.Section
}

// Given is what other questions have answered already.
type Given struct {
	Night Night
	Ways  []string // where the chances come from, in sentences
}

// Night is the night to come, or why nothing is known of it.
type Night struct {
	nights.Night
	Err error
}

// Look works out what the page shows. A plan that cannot be read does not keep the rest
// from being seen.
func Look(g *opened.Garden, u words.Units) (*Garden, error) {
	v := &Garden{Garden: g, Units: u, Words: sentences.In{In: words.In{Units: u, Calendar: g.Calendar}}, today: g.Today()}
	v.Season = v.PlanningFor(v.today)
	var err error
	if v.Plays, err = v.Fields(); err != nil {
		return nil, err
	}
	if v.Plantings, v.Assessed, v.NoPlan = v.AssessPlan(); v.NoPlan == nil {
		v.Standing, v.NoPlan = v.States()
	}
	return v, nil
}

// View is the page.
func (v *Garden) View() page.View {
	p := page.View{
		Garden:   v.Settings.Name,
		AsOf:     words.Date(v.today),
		Notice:   v.notice(),
		About:    v.about(),
		Decision: v.week(),
		Plan:     v.planSection(),
		Whole:    v.wholeSection(),
		Outlook:  v.groundSection(),
		Frosts:   v.frostSection(),
		Warmth:   v.warmthSection(),
		Windows:  v.windowSection(),
		Spots:    v.spotSection(),
		Skill:    v.skillSection(),
		Quality:  v.recordSection(),
		Sources:  v.sources(),
		Cautions: v.cautions(),
	}
	v.Before = nil
	if p.Garden == "" {
		p.Garden = "A garden without a name"
	}
	return p
}

// local names files without the folder that they lie in.
func (v *Garden) local(text string) string {
	return strings.ReplaceAll(text, filepath.Dir(v.PlanPath())+string(filepath.Separator), "")
}

// planFault says why there is no plan to show: its first fault, and how many more there are.
func (v *Garden) planFault() string {
	faults := strings.Split(v.local(v.NoPlan.Error()), "\n")
	said := "the plan cannot be used: " + faults[0]
	if n := len(faults) - 1; n > 0 {
		said += fmt.Sprintf("; and %d more, which \"frostward plan\" lists", n)
	}
	return said
}

// notice says what of the page is invented.
func (v *Garden) notice() string {
	switch {
	case !v.Invented:
		return ""
	case len(v.Options.History) > 0:
		return "The record is the one asked for; the plan and the spots are those of the built-in garden, which is invented."
	}
	return "This is the built-in garden: it, its record and all its figures are invented."
}

func (v *Garden) about() string {
	return fmt.Sprintf("%s The record: %s, seasons %d to %d, to %s.", v.Ways[0], filepath.Base(v.RecordName), v.First, v.Last, words.Date(v.Record.Last())) + sentence(v.BehindWords())
}

// sources are those of the plan's crops and of the methods.
func (v *Garden) sources() []page.Source {
	out := []page.Source{
		{What: filepath.Base(v.RecordName), For: "the daily minimum and maximum behind every chance"},
		{What: "Wilson 1927", For: "intervals of counted shares"},
		{What: "World Meteorological Organization, Guidelines on the Calculation of Climate Normals 2017", For: "which months are complete enough to count"},
		{What: "Baskerville & Emin 1969", For: "degree-days by the single sine"},
	}
	var names []string
	for _, p := range v.Plantings {
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

func (v *Garden) cautions() []string {
	out := []string{"Chances come from past seasons. A forecast and local warnings come before them on any one night.",
		"Heaters and flames under covers burn and suffocate: follow their maker's instructions and local rules. Ladders, wet glass and darkness go badly together; cover before dusk."}
	var said []string
	whose := map[string][]string{}
	for _, p := range v.Plantings {
		c := p.Crop.Caution
		if c == "" {
			continue
		}
		if whose[c] == nil {
			said = append(said, c)
		}
		if !slices.Contains(whose[c], p.Crop.Title) {
			whose[c] = append(whose[c], p.Crop.Title)
		}
	}
	for _, c := range said {
		out = append(out, words.Capital(words.List(whose[c]))+": "+c)
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
