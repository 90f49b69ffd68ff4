package web

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"sync"

	"frostward/climate"
	"frostward/climate/night"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/journal"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/view"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// Opened is a garden of files, as opened and viewed. What it shows is kept until one of the files
// changes.
type Opened struct {
	Look func(old *view.Garden) (*view.Garden, error) // opens the garden anew; old is it as it was, nil the first time
	Path func(*view.Garden, opened.Planned, risk.Assessment) string
	Now  func() climate.Day // the machine's date
	AsOf bool               // the garden lives on a day of its own

	work sync.Mutex // one at a time works the page out
	try  sync.Mutex // and one at a time tries a planting: a view's seasons are filled in as they are asked for

	mu       sync.Mutex // guards what follows, for moments only
	v        *view.Garden
	page     page.View
	state    string // of the files that they were worked out from
	settings string // the same without the record, the log and the diary, which change daily
	put      map[Deed]bool
	undo     func() error
}

// Open works the garden out for the first time.
func (g *Opened) Open() (name string, err error) {
	_, err = g.refresh()
	return g.page.Garden, err
}

// latest is what was last worked out.
func (g *Opened) latest() (v *view.Garden, state string) {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.v, g.state
}

// refresh works the page out again if a file has changed.
func (g *Opened) refresh() (*view.Garden, error) {
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
	v, err := g.Look(old)
	if err != nil {
		return nil, err
	}
	v.Before = old
	shown := v.View()
	if state == "" {
		state = g.stateOf(v, true)
	}
	g.mu.Lock()
	defer g.mu.Unlock()
	g.v, g.page, g.state, g.settings = v, shown, state, g.stateOf(v, false)
	return v, nil
}

// stateOf is the date, and the times and sizes of the files.
func (g *Opened) stateOf(v *view.Garden, dailyToo bool) string {
	return fmt.Sprint(g.Now(), v.Changes(dailyToo))
}

// Today is the day that forms offer and check against.
func (g *Opened) Today() climate.Day {
	if v, _ := g.latest(); v.Invented || g.AsOf {
		return v.Today()
	}
	return g.Now() // midnight may have passed
}

// View is the garden's page.
func (g *Opened) View() (page.View, string, error) {
	if _, err := g.refresh(); err != nil {
		return page.View{}, "", err
	}
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.page, g.state, nil
}

// Choices are the words of the garden, its crops and its plan. A new line in the log changes
// none of them, so they need not wait for the page to be worked out anew; what is due is the
// last page's, without what has been said since.
func (g *Opened) Choices() (Choices, error) {
	v, _ := g.latest()
	g.mu.Lock()
	settings := g.settings
	g.mu.Unlock()
	if g.stateOf(v, false) != settings {
		var err error
		if v, err = g.refresh(); err != nil {
			return Choices{}, err
		}
	}
	c := Choices{Name: v.Settings.Name, Units: v.Units, Damages: []string{"none", "set back", "killed"}, Deeds: journal.Deeds(),
		Clouds: night.Clouds(), Winds: night.Winds()}
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
	if v.NoPlan != nil {
		return c, nil // the page says what is wrong with the plan
	}
	diary, err := v.Reread().Diary()
	if err != nil {
		return c, err
	}
	said := map[string]journal.Deed{} // the last thing said of each planting
	for _, d := range diary.Deeds {
		said[strings.ToLower(d.Planting)] = d
	}
	for i, st := range v.Standing {
		p := Planting{Name: st.Name, Stands: st.Phase.String()}
		if d, ok := said[strings.ToLower(st.Name)]; ok && g.Today()-d.Day <= climate.YearDays {
			p.Stands = d.What + " on " + words.Date(d.Day)
		} else if st.Phase == opened.InGround {
			p.Stands = "in the ground since " + words.Date(st.Since) + ", as planned"
		}
		if b, ok := v.Assessed[i].Better(); ok && v.CanMove(st, b.Day) {
			p.Better = v.Calendar.Words(b.Day)
		}
		c.Plantings = append(c.Plantings, p)
	}
	today := g.Today() // takes the lock itself
	g.mu.Lock()
	defer g.mu.Unlock()
	ask := func(day climate.Day, what, planting, deed string) {
		d := Deed{Planting: planting, What: deed, Day: today}
		last, ok := said[strings.ToLower(planting)]
		if !g.put[d] && !(ok && last.What == deed && d.Day-last.Day < 2*asked) {
			c.Due = append(c.Due, Due{Day: view.DayWords(day), What: what, Deed: d})
		}
	}
	begun := slices.Clone(v.Standing)
	slices.SortStableFunc(begun, func(a, b opened.State) int { return cmp.Compare(a.Since, b.Since) })
	for _, st := range begun {
		if st.Logged || today-st.Since > asked || st.Since == today {
			continue
		}
		switch {
		case st.Phase == opened.UnderCover:
			ask(st.Since, "Sow "+st.Name+" under cover, as planned.", st.Name, journal.Sown)
		case st.Phase == opened.InGround && st.Raised:
			ask(st.Since, "Plant out "+st.Name+", as planned.", st.Name, journal.PlantedOut)
		case st.Phase == opened.InGround:
			ask(st.Since, "Sow "+st.Name+", as planned.", st.Name, journal.Sown)
		}
	}
	due, _ := v.Tasks()
	for _, t := range due {
		ask(t.Day, words.Capital(t.Sentence())+".", t.Planting, t.Deed())
	}
	return c, nil
}

// asked is for how many days the garden asks after what was planned and nobody said was done.
const asked = 14

// inventedMistake is why nothing is written to the built-in garden.
var inventedMistake = &Mistake{Text: "this garden is built in and invented, so nothing is written to it; \"frostward start mygarden\" makes one of your own"}

// write writes into the garden's files, and keeps how to take it back.
func (g *Opened) write(act func(*view.Garden) (undo func() error, err error)) error {
	v, _ := g.latest()
	if v.Invented {
		return inventedMistake
	}
	undo, err := act(v)
	if err != nil {
		return err
	}
	g.mu.Lock()
	g.undo = undo
	g.mu.Unlock()
	go g.refresh() // so that the page is worked out by the time it is asked for; its error comes again then
	return nil
}

// Undo takes back what was written last since the server began.
func (g *Opened) Undo() error {
	g.mu.Lock()
	undo := g.undo
	g.undo = nil
	g.mu.Unlock()
	if undo == nil {
		return &Mistake{Text: "there is nothing left to take back"}
	}
	err := undo()
	go g.refresh()
	return err
}

// AddReading writes a reading into the garden log.
func (g *Opened) AddReading(r Reading) error {
	return g.write(func(v *view.Garden) (func() error, error) {
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
			return nil, &Mistake{Text: err.Error()}
		}
		return func() error { return journal.Append(v.LogPath(), journal.TakeBack(e)) }, journal.Append(v.LogPath(), e)
	})
}

// Did writes into the diary what was done to a planting; a step for which the diary has no word
// is not asked again.
func (g *Opened) Did(d Deed) error {
	if d.What == "" {
		return g.NotYet(d)
	}
	return g.write(func(v *view.Garden) (func() error, error) {
		deed := journal.Deed{Day: d.Day, Planting: d.Planting, What: d.What}
		if err := deed.Check(); err != nil {
			return nil, &Mistake{Field: "what", Text: err.Error()}
		}
		return func() error { return journal.Undo(v.DiaryPath(), deed) }, journal.AppendDeed(v.DiaryPath(), deed)
	})
}

// NotYet puts a step off: the next day it is asked again.
func (g *Opened) NotYet(d Deed) error {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.put == nil {
		g.put = map[Deed]bool{}
	}
	g.put[d] = true
	return nil
}

// Try plays a planting that is not in the plan.
func (g *Opened) Try(t Trial) (Answer, error) {
	v, err := g.refresh()
	if err != nil {
		return Answer{}, err
	}
	g.try.Lock()
	defer g.try.Unlock()
	p, err := trialPlanting(v, t)
	if err != nil {
		return Answer{}, err
	}
	x := risk.Assess(v.Plays.Field(p.Where, p.Crop, p.Raised), p.Planting, v.OtherCover(), v.Settings.Aim)
	a := Answer{Section: g.trialSection(v, p, x)}
	if b, ok := x.Better(); ok {
		a.Better = t.Day + climate.Day(b.Day-p.Start)
	}
	return a, nil
}

func trialPlanting(v *view.Garden, t Trial) (opened.Planned, error) {
	cat, err := v.Catalogue()
	if err != nil {
		return opened.Planned{}, err
	}
	name, class, _ := strings.Cut(t.Crop, ", ")
	crop, err := cat.Find(name, class)
	if err != nil {
		return opened.Planned{}, &Mistake{Field: "crop", Text: err.Error()}
	}
	spot, err := v.Settings.Spot(t.Spot)
	if err != nil {
		return opened.Planned{}, &Mistake{Field: "spot", Text: err.Error()}
	}
	cover, err := v.Cover(t.Cover)
	if err != nil {
		return opened.Planned{}, &Mistake{Field: "cover", Text: err.Error()}
	}
	_, start := v.Calendar.Locate(t.Day)
	p := opened.Planned{Where: spot, Planting: risk.Planting{Crop: crop, Spot: spot.Name, Cover: cover, Start: start, Sow: start, Raised: !t.Sown}}
	if p.Raised {
		weeks := opened.WeeksUnderCover(crop)
		if weeks == 0 {
			return opened.Planned{}, &Mistake{Field: "how", Text: fmt.Sprintf("%s is not raised under cover, as far as the catalogue knows; try it sown in place", crop.Label())}
		}
		p.Sow = start - climate.SeasonDay(7*weeks)
	}
	if err := p.Check(); err != nil {
		return opened.Planned{}, &Mistake{Field: "how", Text: err.Error()}
	}
	return p, nil
}

// trialSection is the answer to a trial.
func (g *Opened) trialSection(v *view.Garden, p opened.Planned, x risk.Assessment) page.Section {
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
	s.Notes = append(s.Notes, words.Capital(g.Path(v, p, x)))
	t := table.Table{Columns: []table.Column{{Name: "cover"}, {Name: "both", Align: table.Right}, {Name: "(90\u00a0%)", Align: table.Right}, {Name: "survives", Align: table.Right}, {Name: "ripens", Align: table.Right}, {Name: "first picking"}}}
	for _, o := range []risk.Result{r, x.Other()} {
		cover := o.Planting.Cover.Name
		if cover == "" {
			cover = "none"
		}
		t.Add(table.Text(cover), words.Share(o.Succeeds), words.IntervalCell(o.Succeeds), words.Share(o.Survives), words.Share(o.Ripens), table.Text(v.Words.Picking(o)))
	}
	s.Tables = []table.Table{t}
	if x.Around().Best >= 0 {
		s.Figures = []page.Figure{{Caption: "By starting day", Chart: v.WindowChart(p.Planting, x.Around(), p.Start, "as asked")}}
	}
	return s
}

// Keep adds a trial to the plan.
func (g *Opened) Keep(t Trial, name string) error {
	return g.write(func(v *view.Garden) (func() error, error) {
		p, err := trialPlanting(v, t)
		if err != nil {
			return nil, err
		}
		cells := map[string]string{"name": name, "crop": p.Crop.Name, "class": p.Crop.Class, "spot": p.Spot, "cover": p.Cover.Name,
			"sow": v.Calendar.Format(p.Sow)}
		if p.Raised {
			cells["plant_out"] = v.Calendar.Format(p.Start)
		}
		return mistaken(v.EditPlan(func(b []byte) ([]byte, error) {
			text, err := garden.ReadText(b)
			if err == nil {
				err = text.Add(cells)
			}
			if err != nil {
				return nil, &Mistake{Text: err.Error()}
			}
			return text.Bytes(), nil
		}))
	})
}

// Move moves a planting of the plan to its better day.
func (g *Opened) Move(planting string) error {
	v, err := g.refresh() // the plan's lines must be the file's
	if err != nil {
		return err
	}
	return g.write(func(*view.Garden) (func() error, error) {
		for i, st := range v.Standing {
			b, ok := v.Assessed[i].Better()
			if st.Name != planting || !ok {
				continue
			}
			return mistaken(v.EditPlan(func(text []byte) ([]byte, error) {
				return garden.MoveRow(text, v.Plantings[i].Row, v.Calendar, b.Day)
			}))
		}
		return nil, &Mistake{Field: "planting", Text: "has no better day, or is no longer in the plan"}
	})
}

// mistaken makes an error of the plan's text the visitor's; one of the disk stays the grower's.
func mistaken(_ string, undo func() error, err error) (func() error, error) {
	if err != nil && !errors.As(err, new(*fs.PathError)) && !errors.As(err, new(*Mistake)) {
		err = &Mistake{Text: err.Error()}
	}
	return undo, err
}
