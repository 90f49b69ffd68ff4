package main

import (
	"fmt"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/words"
)

// session is a garden opened for one run of the program.
type session struct {
	*opened.Garden
	app *app
}

// open reads the garden and the record that the options name.
func (a *app) open() (*session, error) {
	if a.garden == "" && len(a.history) == 0 {
		a.notef("no --garden and no --history given: this is the built-in garden, which is invented")
	}
	g, err := opened.Open(a.choice())
	return a.shown(g, err)
}

// shown is a session of a garden in the unit that it is to be shown in.
func (a *app) shown(g *opened.Garden, err error) (*session, error) {
	if err == nil && g.Settings.Show == "f" {
		a.fahr = true
	}
	return &session{g, a}, err
}

// choice is what the options choose.
func (a *app) choice() opened.Options {
	return opened.Options{Folder: a.garden, History: a.history, Plan: a.plan, Station: a.station, Years: a.years, By: a.by,
		Latitude: a.latitude, Units: a.units, Reading: a.reading, Answers: a.answers, Stdin: a.in, Seed: a.seed, AsOf: a.asOf, Today: a.today(), Note: a.notef}
}

// present is today, for what speaks of the present; a record that ends before today is remarked on.
func (s *session) present() climate.Day {
	if w := s.BehindWords(); w != "" {
		s.app.notef("%s", w)
	}
	return s.Today()
}

// noteOver remarks on plantings that nobody said are over, and that are taken to be so lately.
func (s *session) noteOver() error {
	states, err := s.States()
	if err != nil {
		return err
	}
	var names []string
	for _, st := range states {
		if st.Phase == opened.Over && st.What == "" && s.Today()-st.End <= 60 {
			names = append(names, fmt.Sprintf("%s by %s", st.Name, words.Date(st.End)))
		}
	}
	if len(names) > 0 {
		s.app.notef("taken to be over, as in 9 seasons in 10: %s; where one still stands, \"frostward did PLANTING first picked\" says so", words.List(names))
	}
	return nil
}

// asHappened makes --by record the default of a command that describes, where --years names
// the seasons: it asks what happened in those, and not what is to be expected now.
func (a *app) asHappened() {
	if a.by == "" && a.years != "" {
		a.by = climate.ByRecord.String()
	}
}

// notef remarks on something beside the results, on standard error.
func (a *app) notef(format string, args ...any) {
	fmt.Fprintf(a.err, "frostward: "+format+"\n", args...)
}

// way is how the seasons in use came to be.
func (s *session) way() climate.By {
	e, err := s.Seasons()
	if err != nil {
		panic(err) // whoever asks has used the seasons
	}
	return e.By
}
