package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"strconv"
	"time"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/calendar"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

func newCalendar(a *app) *cobra.Command {
	var out output
	var season int
	c := &cobra.Command{
		Annotations: map[string]string{ownForm: "an iCalendar file"},
		Use:         "calendar",
		Short:       "The plan's dates as a calendar file",
		Long: `calendar writes the plan's dates as an iCalendar file (RFC 5545): sowing, hardening off,
planting out, the stretches in which a cover may be wanted, the first picking to expect and
the bed free. All are all-day events. Their identities stay the same, so that reading a
later file into a calendar program moves events and does not double them. Where -o names
a file written before, events still to come that are no longer in the plan are cancelled.

The season is the one whose work lies ahead, or --season. SOURCE_DATE_EPOCH, in seconds,
fixes the time stamp.`,
		Example: `  frostward calendar -o garden.ics
  frostward calendar --garden mygarden --season 2027 > next.ics`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.calendarCmd(out, season) },
	}
	out.flags(c, calendar.Mark)
	c.Flags().IntVar(&season, "season", 0, "the `year` in which the season begins")
	return c
}

func (a *app) calendarCmd(out output, season int) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	today := s.present()
	if season == 0 {
		season = s.PlanningFor(today)
	}
	if season < 1900 || season > 2999 {
		return usagef("--season %d; wanted a year, such as %d", season, s.PlanningFor(today))
	}
	stamp, err := a.stamp()
	if err != nil {
		return err
	}
	// What would stop the writing is looked at before the long work.
	if _, err := goneFrom(out.name, nil, today); err != nil {
		return err
	}
	plantings, assessed, err := s.AssessPlan()
	if err != nil {
		return err
	}
	events, err := s.events(plantings, assessed, season)
	if err != nil {
		return err
	}
	gone, err := goneFrom(out.name, events, today)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := calendar.Write(&b, calendar.File{Name: s.Settings.Name, Stamp: stamp, Events: append(events, gone...)}); err != nil {
		return err
	}
	if err := a.deliver(out, calendar.Mark, s.Own(), b.Bytes()); err != nil || out.name == "" {
		return err
	}
	a.notef("%s: %s for the season %d", out.name, words.Plural(len(events), "event"), season)
	if len(gone) > 0 {
		a.notef("%s: %s of the file before cancelled", out.name, words.Plural(len(gone), "event"))
	}
	return nil
}

// goneFrom reads the file that is to be written over, if there is one, for what is no
// longer meant.
func goneFrom(name string, events []calendar.Event, today climate.Day) ([]calendar.Event, error) {
	if name == "" {
		return nil, nil
	}
	b, err := os.ReadFile(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, opened.Cause(err))
	}
	gone, err := calendar.Gone(bytes.NewReader(b), events, today)
	if err != nil {
		return nil, fmt.Errorf("%s: is there already and is %w; wanted a calendar written before, or a new name", name, err)
	}
	return gone, nil
}

// stamp is now, or what SOURCE_DATE_EPOCH says.
func (a *app) stamp() (time.Time, error) {
	e := a.getenv("SOURCE_DATE_EPOCH")
	if e == "" {
		return time.Now().UTC(), nil
	}
	n, err := strconv.ParseInt(e, 10, 64)
	if err != nil {
		return time.Time{}, fmt.Errorf("SOURCE_DATE_EPOCH: %q is not a number of seconds", e)
	}
	return time.Unix(n, 0).UTC(), nil
}

// events are the plan's dates in one season.
func (s *session) events(plantings []opened.Planned, assessed []risk.Assessment, season int) ([]calendar.Event, error) {
	var out []calendar.Event
	fields, err := s.Fields()
	if err != nil {
		return nil, err
	}
	seen := map[string]int{} // two plantings of the same label are told apart by their order
	for i, p := range plantings {
		label := p.Label()
		seen[label]++
		id := fmt.Sprintf("%s %d", label, seen[label])
		x := assessed[i]
		add := func(work string, from, to float64, title, text string) {
			if math.IsNaN(from) || math.IsNaN(to) {
				return
			}
			out = append(out, calendar.Event{
				UID:   calendar.UID(s.Settings.Name, id, work, season),
				First: s.Calendar.Day(season, climate.SeasonDay(from)), Last: s.Calendar.Day(season, climate.SeasonDay(to)),
				Title: title, Text: text, Place: p.Where.Name, Category: work,
			})
		}
		g := opened.StagesOf(p, x)
		outcome := "How often it succeeds is not known."
		if c := x.Result.Succeeds; c.Known {
			outcome = fmt.Sprintf("It survives and ripens in %s (%s, 90 %% interval %s %%, %s).",
				words.InYears(c.Share), x.Verdict, words.Interval(c), words.Plural(c.Seasons, "season"))
		}
		add("sow", g.Sow, g.Sow, "Sow "+label+" under cover", outcome)
		add("harden off", g.Harden, g.Out-1, "Harden off "+label, s.words().Hardening(x.Hardening))
		if p.Raised {
			add("plant out", g.Out, g.Out, "Plant out "+label, outcome)
		} else {
			add("sow", g.Out, g.Out, "Sow "+label, outcome)
		}
		for k, w := range watches(fields.At(p.Where), p, g) {
			text := fmt.Sprintf("On more than 1 night in %.0f at this time of the year it is %s or colder at the spot, which sets the bare plants back.", 1/watchShare, s.app.unit().Tenths(harmAt(p)))
			add([2]string{"watch in spring", "watch in autumn"}[k], w[0], w[1], "Nights that may want a cover: "+label, text)
		}
		add("pick", g.Pick, g.Pick, "First "+label+" about now", pickWords(s.Calendar, g))
		add("free", g.Free, g.Free, "Bed free after "+label, "The median over the seasons of record.")
	}
	return out, nil
}

func pickWords(c climate.Calendar, g opened.Stages) string {
	t := "The median over the seasons of record."
	if !math.IsNaN(g.Early) {
		t += fmt.Sprintf(" In 1 season in 10 it is ready by %s", words.Day(c, g.Early))
		if !math.IsNaN(g.Late) {
			t += fmt.Sprintf(", in 9 in 10 by %s", words.Day(c, g.Late))
		}
		t += "."
	}
	return t
}

// watchShare is how usual a harmful night must be for a stretch to be worth watching.
const watchShare = 0.05

// watches are the stretches in spring and in autumn in which a planting is out and nights
// that set it back are more usual than watchShare; NaN where there is none.
func watches(e climate.Ensemble, p opened.Planned, g opened.Stages) [2][2]float64 {
	nan := math.NaN()
	w := [2][2]float64{{nan, nan}, {nan, nan}}
	end := opened.FirstKnown(g.Free, g.EndsWithoutOne)
	shares := e.NightShares(climate.Frost(harmAt(p)), 3)
	for d := p.Start; !math.IsNaN(end) && float64(d) < min(end, float64(climate.SpanTo)); d++ {
		if d < climate.SpanFrom || !(shares[d-climate.SpanFrom] >= watchShare) {
			continue
		}
		half := 0
		if d >= climate.Midsummer {
			half = 1
		}
		if math.IsNaN(w[half][0]) {
			w[half][0] = float64(d)
		}
		w[half][1] = float64(d)
	}
	return w
}

// harmAt is the temperature that sets a hardened plant back, or kills it where only that is
// known.
func harmAt(p opened.Planned) float64 {
	if f := p.Crop.SetBackHardened; f.Known() {
		return f.Value
	}
	return p.Crop.KillHardened.Value
}
