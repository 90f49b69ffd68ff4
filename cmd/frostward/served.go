package main

import (
	"fmt"
	"io"
	"strings"
	"sync"

	"frostward/climate"
	"frostward/climate/night"
	"frostward/cmd/internal/journal"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/view"
	"frostward/cmd/internal/web"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// served is the garden behind serve. What it shows is kept until one of its files changes.
type served struct {
	app *app

	work sync.Mutex // one at a time works the page out
	try  sync.Mutex // and one at a time tries a planting: a viewing's fields are filled as they are asked for

	mu       sync.Mutex // guards what follows, for moments only
	v        *view.Garden
	view     page.View
	state    string // of the files that they were worked out from
	settings string // the same without the record and the log, which change daily
}

func newServed(a *app) (*served, error) {
	g := &served{app: a}
	if _, err := g.refresh(); err != nil {
		return nil, err
	}
	quiet := *a
	quiet.err = io.Discard // what there was to remark has been
	g.app = &quiet
	return g, nil
}

func (g *served) name() string { return g.view.Garden }

// latest is what was last worked out.
func (g *served) latest() (v *view.Garden, state string) {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.v, g.state
}

// refresh works the page out again if a file has changed.
func (g *served) refresh() (*view.Garden, error) {
	g.work.Lock()
	defer g.work.Unlock()
	old, was := g.latest()
	state := ""
	if old != nil {
		// Taken before reading: what changes meanwhile is read again the next time.
		if state = g.stateOf(old, true); state == was {
			return old, nil
		}
	}
	s, err := g.app.open()
	if err != nil {
		return nil, err
	}
	v, err := s.look()
	if err != nil {
		return nil, err
	}
	pageView := v.View()
	if state == "" {
		state = g.stateOf(v, true)
	}
	g.mu.Lock()
	defer g.mu.Unlock()
	g.v, g.view, g.state, g.settings = v, pageView, state, g.stateOf(v, false)
	return v, nil
}

// stateOf is the date, and the times and sizes of the files.
func (g *served) stateOf(s *view.Garden, dailyToo bool) string {
	return fmt.Sprint(g.app.today(), s.Changes(dailyToo))
}

// today is the day that forms offer and check against.
func (g *served) today() climate.Day {
	if v, _ := g.latest(); v.Invented || g.app.asOf != "" {
		return v.Today()
	}
	return g.app.today() // midnight may have passed
}

// View is the garden's page.
func (g *served) View() (page.View, string, error) {
	if _, err := g.refresh(); err != nil {
		return page.View{}, "", err
	}
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.view, g.state, nil
}

// Choices are the words of the garden, its crops and its plan. A new line in the log changes
// none of them, so they need not wait for the page to be worked out anew.
func (g *served) Choices() (web.Choices, error) {
	v, _ := g.latest()
	g.mu.Lock()
	settings := g.settings
	g.mu.Unlock()
	if g.stateOf(v, false) != settings {
		var err error
		if v, err = g.refresh(); err != nil {
			return web.Choices{}, err
		}
	}
	c := web.Choices{Name: v.Settings.Name, Damages: []string{"none", "set back", "killed"}}
	for _, s := range v.Settings.Spots {
		c.Spots = append(c.Spots, s.Name)
	}
	for _, cover := range v.Settings.Covers {
		c.Covers = append(c.Covers, cover.Name)
	}
	cat, err := v.Catalogue()
	if err != nil {
		return c, err
	}
	for _, crop := range cat.All() {
		c.Crops = append(c.Crops, crop.Label())
	}
	c.Clouds, c.Winds = night.Clouds(), night.Winds()
	fresh := v.Reread()
	rows, err := fresh.Plan()
	if err != nil {
		return c, nil // the page says what is wrong with the plan
	}
	diary, err := fresh.Diary()
	if err != nil {
		return c, err
	}
	for i, name := range opened.Names(rows) {
		p := web.Planting{ID: name, Name: name}
		if d := rows[i].Out; d.Given() {
			p.Out = v.Calendar.Words(d.Day)
		}
		if d := rows[i].Picked; d.Given() {
			p.Picked = v.Calendar.Words(d.Day)
		}
		for _, d := range diary.Deeds {
			switch {
			case !strings.EqualFold(d.Planting, name) || g.today()-d.Day > climate.YearDays:
			case d.Ends():
				p.Picked = dayWords(v.Calendar, d.Day)
			case d.What == journal.PlantedOut || d.What == journal.Sown:
				p.Out = dayWords(v.Calendar, d.Day)
			}
		}
		c.Plantings = append(c.Plantings, p)
	}
	return c, nil
}

// dayWords is a day without its year.
func dayWords(c climate.Calendar, d climate.Day) string {
	_, sd := c.Locate(d)
	return c.Words(sd)
}

// inventedMistake is why nothing is written to the built-in garden.
var inventedMistake = &web.Mistake{Text: "this garden is built in and invented, so nothing is written to it; \"frostward start mygarden\" makes one of your own"}

// AddReading writes a reading into the garden log.
func (g *served) AddReading(r web.Reading) error {
	v, _ := g.latest()
	if v.Invented {
		return inventedMistake
	}
	e := journal.NewEntry(r.Day, r.Spot)
	e.Tmin, e.Evening, e.DewPoint, e.Humidity, e.Forecast = r.Tmin, r.Evening, r.DewPoint, r.Humidity, r.Forecast
	e.Covered, e.Damage, e.Note = r.Cover, r.Damage, r.Note
	var err error
	if e.Cloud, err = night.ParseCloud(r.Cloud); err == nil {
		e.Wind, err = night.ParseWind(r.Wind)
	}
	if err == nil {
		err = e.Check()
	}
	if err != nil {
		return &web.Mistake{Text: err.Error()}
	}
	return g.add(v, e)
}

// add writes a line and sees to it that the page is worked out by the time it is asked for.
func (g *served) add(v *view.Garden, e journal.Entry) error {
	if err := journal.Append(v.LogPath(), e); err != nil {
		return err
	}
	go g.refresh() // its error comes again when the page is asked for
	return nil
}

// MarkPlanting writes into the diary what was done to a planting: a word of the diary, or "out" and "picked" for short.
func (g *served) MarkPlanting(m web.Mark) error {
	v, _ := g.latest()
	if v.Invented {
		return inventedMistake
	}
	rows, err := v.Reread().Plan()
	if err != nil {
		return err
	}
	for i, name := range opened.Names(rows) {
		if name != m.ID {
			continue
		}
		d := journal.Deed{Day: m.Day, Planting: name, What: m.What}
		switch {
		case m.What == "picked":
			d.What = journal.Cleared
		case m.What == "out" && rows[i].PlantOut.Given():
			d.What = journal.PlantedOut
		case m.What == "out":
			d.What = journal.Sown
		}
		if err := d.Check(); err != nil {
			return &web.Mistake{Field: "what", Text: err.Error()}
		}
		if err := journal.AppendDeed(v.DiaryPath(), d); err != nil {
			return err
		}
		go g.refresh() // its error comes again when the page is asked for
		return nil
	}
	return &web.Mistake{Field: "planting", Text: "is no longer in the plan"}
}

// Try plays a planting that is not in the plan.
func (g *served) Try(t web.Trial) (page.Section, error) {
	v, err := g.refresh()
	if err != nil {
		return page.Section{}, err
	}
	g.try.Lock()
	defer g.try.Unlock()
	p, err := trialPlanting(v, t)
	if err != nil {
		return page.Section{}, err
	}
	x := risk.Assess(v.Plays.Field(p.Where, p.Crop, p.Raised), p.Planting, v.OtherCover(), v.Settings.Aim)
	return g.trialSection(v, p, x), nil
}

func trialPlanting(v *view.Garden, t web.Trial) (opened.Planned, error) {
	cat, err := v.Catalogue()
	if err != nil {
		return opened.Planned{}, err
	}
	name, class, _ := strings.Cut(t.Crop, ", ")
	crop, err := cat.Find(name, class)
	if err != nil {
		return opened.Planned{}, &web.Mistake{Field: "crop", Text: err.Error()}
	}
	spot, err := v.Settings.Spot(t.Spot)
	if err != nil {
		return opened.Planned{}, &web.Mistake{Field: "spot", Text: err.Error()}
	}
	cover, err := v.Cover(t.Cover)
	if err != nil {
		return opened.Planned{}, &web.Mistake{Field: "cover", Text: err.Error()}
	}
	_, start := v.Calendar.Locate(t.Day)
	p := opened.Planned{Where: spot, Planting: risk.Planting{Crop: crop, Spot: spot.Name, Cover: cover, Start: start, Sow: start, Raised: !t.Sown}}
	if p.Raised {
		weeks := opened.WeeksUnderCover(crop)
		if weeks == 0 {
			return opened.Planned{}, &web.Mistake{Field: "how", Text: fmt.Sprintf("%s is not raised under cover, as far as the catalogue knows; try it sown in place", crop.Label())}
		}
		p.Sow = start - climate.SeasonDay(7*weeks)
	}
	if err := p.Check(); err != nil {
		return opened.Planned{}, &web.Mistake{Field: "how", Text: err.Error()}
	}
	return p, nil
}

// trialSection is the answer to a trial.
func (g *served) trialSection(v *view.Garden, p opened.Planned, x risk.Assessment) page.Section {
	r := x.Result
	verb := "goes out"
	if !p.Raised {
		verb = "is sown in place"
	}
	under := ""
	if p.Cover.Name != "" {
		under = " under " + p.Cover.Name
	}
	s := page.Section{Notes: v.Words.Reasons(&x)}
	if !r.Succeeds.Known {
		s.Lead = "Not known: too few seasons can be played through."
		return s
	}
	s.Lead = fmt.Sprintf("%s at the spot \"%s\"%s: if it %s on %s it survives and ripens in %s (90 %% interval %s %%, %s). %s.",
		words.Capital(p.Crop.Label()), p.Where.Name, under, verb, v.Calendar.Words(p.Start), words.InYears(r.Succeeds.Share),
		words.Interval(r.Succeeds), words.Plural(r.Succeeds.Seasons, "season"), words.Capital(x.Verdict.String()))
	s.Notes = append(s.Notes, words.Capital((&session{v.Garden, g.app}).path(p, x)))
	t := table.Table{Columns: []table.Column{{Name: "cover"}, {Name: "both", Align: table.Right}, {Name: "90 % interval", Align: table.Right}, {Name: "survives", Align: table.Right}, {Name: "ripens", Align: table.Right}, {Name: "first picking"}}}
	for _, o := range []risk.Result{r, x.Other} {
		cover := o.Planting.Cover.Name
		if cover == "" {
			cover = "none"
		}
		t.Add(table.Text(cover), share(o.Succeeds), intervalOf(o.Succeeds), share(o.Survives), share(o.Ripens), table.Text(v.Words.Picking(o)))
	}
	s.Tables = []table.Table{t}
	if x.Around().Best >= 0 {
		s.Figures = []page.Figure{{Caption: "By starting day", Chart: v.WindowChart(p.Planting, x.Around(), p.Start, "as asked")}}
	}
	return s
}
