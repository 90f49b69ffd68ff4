package web_test

import (
	"errors"
	"sync"

	"frostward/climate"
	"frostward/cmd/internal/chart/sample"
	"frostward/cmd/internal/page"
	pages "frostward/cmd/internal/page/sample"
	"frostward/cmd/internal/web"
)

const hostile = pages.Hostile

// fake is a garden in memory that notes what is written to it.
type fake struct {
	mu       sync.Mutex
	readings []web.Reading
	marks    []web.Mark
	trials   []web.Trial
	state    string
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
	out := ""
	if len(f.marks) > 0 {
		out = "25 May"
	}
	return web.Choices{
		Name: "Garden behind the mill", Spots: []string{"open bed", "patio by the wall", hostile},
		Covers: []string{"fleece", "cold frame"}, Crops: []string{"courgette", "sweet corn, early"},
		Clouds: []string{"clear", "overcast"}, Winds: []string{"calm", "windy"}, Damages: []string{"set back", "killed"},
		Plantings: []web.Planting{{ID: "plan.csv:2", Name: "courgettes, open bed", Out: out}, {ID: "plan.csv:3", Name: hostile}},
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

func (f *fake) Try(t web.Trial) (page.Section, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.trials = append(f.trials, t)
	return page.Section{
		Lead:    t.Crop + " out on " + t.Day.String() + " would succeed in 9 years of 10.",
		Figures: []page.Figure{{Caption: "By plant-out date", Chart: sample.Window()}},
	}, f.broken
}

func (f *fake) MarkPlanting(m web.Mark) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.marks = append(f.marks, m)
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
