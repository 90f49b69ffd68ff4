// Package web serves the garden's page, live, with forms: what is due, a reading, what was
// done to a planting, a planting to try. Everything works without scripts, and a form sent
// twice is stored once.
//
// It is meant for the grower's own machine and telephone. No part of a request becomes
// a file name; what is written goes through a Garden, which checks it and makes it
// durable before it returns.
package web

import (
	"fmt"

	"frostward/climate"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/words"
)

// Garden is what the pages show and what the forms do. Its methods may be called from
// several goroutines at once, but only one at a time writes. A *Mistake among their errors is
// the visitor's, and shown beside the field; any other is logged and not shown.
type Garden interface {
	// View returns the page and a mark of its state: the same mark, other than "", means
	// the same page.
	View() (v page.View, state string, err error)
	Choices() (Choices, error)
	AddReading(Reading) error
	Try(Trial) (Answer, error)
	Keep(t Trial, name string) error // into the plan
	Did(Deed) error                  // into the diary
	NotYet(Deed) error               // it is not asked again today
	Move(planting string) error      // to its better day
	Undo() error                     // the last thing written
}

// Choices are the words that the forms offer, in their order.
type Choices struct {
	Name      string // of the garden
	Units     words.Units
	Spots     []string
	Covers    []string // without "none"
	Crops     []string // labels, such as "sweet corn, early"
	Clouds    []string
	Winds     []string
	Damages   []string
	Deeds     []string // what can be done to a planting
	Plantings []Planting
	Due       []Due
}

// Planting is a row of the plan.
type Planting struct {
	Name   string
	Stands string // how it stands, in words: "out since 16 May"
	Better string // the day it had better be moved to, in words; "" where there is none
}

// Due is something to do, or to say that it was done.
type Due struct {
	Day, What string // "Wed 20 May", "Plant out courgettes"
	Deed      Deed   // that it is done
}

// Deed says what was done to a planting.
type Deed struct {
	Planting string // its name
	What     string // one of Choices.Deeds
	Day      climate.Day
}

// Answer is what comes of a trial.
type Answer struct {
	Section page.Section
	Better  climate.Day // a day to try instead; 0 where there is none
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
