// Package web serves the garden's page, live, with forms to log a reading, try a
// planting and mark one as out or picked. Everything works without scripts.
//
// It is meant for the grower's own machine and telephone. No part of a request becomes
// a file name; what is written goes through a Garden, which checks it and makes it
// durable before it returns.
package web

import (
	"fmt"

	"frostward/climate"
	"frostward/cmd/internal/page"
)

// Garden is what the pages show and what the forms do. Its methods may be called from
// several goroutines at once. A *Mistake among their errors is the visitor's, and shown
// beside the field; any other is logged and not shown.
type Garden interface {
	// View returns the page and a mark of its state: the same mark, other than "", means
	// the same page.
	View() (v page.View, state string, err error)
	Choices() (Choices, error)
	AddReading(Reading) error
	Try(Trial) (page.Section, error)
	MarkPlanting(Mark) error
}

// Choices are the words that the forms offer, in their order.
type Choices struct {
	Name      string // of the garden
	Spots     []string
	Covers    []string // without "none"
	Crops     []string // labels, such as "sweet corn, early"
	Clouds    []string
	Winds     []string
	Damages   []string
	Plantings []Planting
}

// Planting is a row of the plan that can be marked.
type Planting struct {
	ID, Name    string
	Out, Picked string // when it was, in words; "" when not yet
}

// Reading is a line of the garden log. Numbers not given are NaN.
type Reading struct {
	Day      climate.Day // the day whose morning it was
	Spot     string
	Tmin     float64 // °C, at plant height
	Evening  float64 // °C, two hours after sunset before
	DewPoint float64 // °C
	Humidity float64 // %
	Forecast float64 // °C, the minimum forecast for the station
	Cloud    string
	Wind     string
	Cover    string
	Damage   string
	Note     string
}

// Trial is a planting to try.
type Trial struct {
	Crop, Spot, Cover string
	Day               climate.Day // out, or sown in place
	Sown              bool
}

// Mark says that a planting went out or was picked for the last time.
type Mark struct {
	ID   string
	What string // "out" or "picked"
	Day  climate.Day
}

// Mistake is something that the visitor can put right.
type Mistake struct {
	Field string // the form's field; "" for the whole
	Text  string
}

func (m *Mistake) Error() string {
	if m.Field == "" {
		return m.Text
	}
	return m.Field + ": " + m.Text
}

func mistakef(field, format string, args ...any) *Mistake {
	return &Mistake{field, fmt.Sprintf(format, args...)}
}
