package web_test

import (
	"errors"
	"sync"

	"frostward/climate"
	"frostward/cmd/internal/chart/sample"
	"frostward/cmd/internal/page"
	pages "frostward/cmd/internal/page/sample"
	"frostward/cmd/internal/web"
	"frostward/cmd/internal/words"
)

const hostile = pages.Hostile

// fake is a garden in memory that notes what is written to it.
type fake struct {
	mu       sync.Mutex
	readings []web.Reading
	deeds    []web.Deed
	later    []web.Deed
	kept     []string
	moved    []string
	undone   int
	trials   []web.Trial
	state    string
	units    words.Units
	broken   error // what every call fails with
	panics   bool
}

func (f *fake) View() (page.View, string, error) {
	if f.panics {
		panic("a fault of the program")
	}
	v := pages.View()
	v.Garden += f.state
	return v, f.state, f.broken
}

func (f *fake) Choices() (web.Choices, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	stands := "not out yet"
	if len(f.deeds) > 0 {
		stands = "out since 25 May"
	}
	return web.Choices{
		Name: "Garden behind the mill", Spots: []string{"open bed", "patio by the wall", hostile},
		Covers: []string{"fleece", "cold frame"}, Crops: []string{"courgette", "sweet corn, early"},
		Clouds: []string{"clear", "overcast"}, Winds: []string{"calm", "windy"}, Damages: []string{"set back", "killed"},
		Deeds:     []string{"planted out", "cleared"},
		Plantings: []web.Planting{{Name: "courgettes, open bed", Stands: stands, Better: "30 May"}, {Name: hostile}},
		Due: []web.Due{{Day: "Mon 25 May", What: "Plant out courgettes", Deed: web.Deed{Planting: "courgettes, open bed", What: "planted out", Day: today}},
			{Day: "Tue 26 May", What: hostile, Deed: web.Deed{Planting: hostile, What: "planted out", Day: today}}},
		Units: f.units,
	}, nil
}

func (f *fake) AddReading(r web.Reading) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if r.Note == "twice" {
		return &web.Mistake{Field: "date", Text: "stands in the log with another minimum"}
	}
	if f.broken != nil {
		return f.broken
	}
	f.readings = append(f.readings, r)
	return nil
}

func (f *fake) Try(t web.Trial) (web.Answer, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.trials = append(f.trials, t)
	return web.Answer{Better: t.Day + 22, Section: page.Section{
		Lead:    t.Crop + " out on " + t.Day.String() + " would succeed in 9 years of 10.",
		Figures: []page.Figure{{Caption: "By plant-out date", Chart: sample.Window()}},
	}}, f.broken
}

func (f *fake) Did(d web.Deed) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.deeds = append(f.deeds, d)
	return f.broken
}

func (f *fake) NotYet(d web.Deed) error {
	f.later = append(f.later, d)
	return f.broken
}

func (f *fake) Keep(t web.Trial, name string) error {
	f.kept = append(f.kept, t.Crop+" as "+name)
	return f.broken
}

func (f *fake) Move(planting string) error {
	f.moved = append(f.moved, planting)
	return f.broken
}

func (f *fake) Undo() error {
	f.undone++
	return f.broken
}

var errDisk = errors.New("/secret/place/log.csv: no space left on device")

var today = climate.NewDay(2026, 5, 25)

func newServer(g web.Garden, change ...func(*web.Options)) *web.Server {
	o := web.Options{Today: func() climate.Day { return today }, Logf: func(string, ...any) {}, Loopback: true}
	for _, c := range change {
		c(&o)
	}
	return web.New(g, o)
}
